"""A batch of parts as figures: masses, and per cent of its flour, with intervals where spoons were used."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from doughwright.figures import Figure, grams, percent
from doughwright.recipe.formula import _parts
from doughwright.recipe.formula._parts import Content, Part, spread_of_ratio, total
from doughwright.recipe.weigh import WeighedMix

NOT_SAID = "how much is not said: by taste or as needed"
NO_FLOUR = "there is no flour in it"
# 90 % of a normal distribution lies within so many standard deviations.
NINETY = 1.645


@dataclass(frozen=True, slots=True)
class Customary:
    """What is customary, and where that is from."""

    low: Figure
    high: Figure
    source: str


@dataclass(frozen=True)
class Batch:
    """All parts of a mix, those of the mixes in it included."""

    parts: tuple[Part, ...]
    in_dough: bool = True

    @cached_property
    def flour(self) -> float:
        """All flour [kg]."""
        return total(self.parts, _parts.flour, 0.0).value

    @cached_property
    def mass(self) -> float:
        """All that is measured [kg]."""
        return sum(part.mass or 0.0 for part in self.parts)

    @property
    def notes(self) -> tuple[str, ...]:
        """What the figures leave out, or only bound."""
        left = [part.ingredient.name for part in self.parts if part.mass is None]
        said = [f"{name} is left out of the formula: {NOT_SAID}" for name in dict.fromkeys(left)]
        blank = [
            part.ingredient.name for part in self.parts if part.mass and _parts.sugar(part.ingredient) is None
        ]
        return (*said, *(f"the sugar of {name} is blank in its source" for name in dict.fromkeys(blank)))

    def flour_figure(self) -> Figure:
        """All flour."""
        return _mass(self.flour, self._spread(_parts.flour))

    def mass_figure(self, mass: float | None = None) -> Figure:
        """All of it, or a given part [kg] of all of it."""
        shown = self.mass if mass is None else mass
        wide = self._spread(lambda ingredient: 1.0)
        return _mass(shown, wide * shown / self.mass if self.mass > 0 else 0.0)

    def water(self) -> Figure:
        """All water but the flour's own."""
        found = total(self.parts, _parts.water, self.flour)
        if found.unknown:
            return grams(None, "; ".join(found.unknown))
        return _mass(found.value, self._spread(_parts.water))

    def hydration(self) -> Figure:
        """All water but the flour's own, of the flour."""
        return self._of_flour(_parts.water)

    def hydration_poured(self) -> Figure:
        """Water and milk, of the flour."""
        return self._of_flour(_parts.poured)

    def salt(self) -> Figure:
        """Salt of all that is no flour, of the flour."""
        return self._of_flour(_parts.salt)

    def sugar(self) -> Figure:
        """Sugar of all that is no flour, lactose left out, of the flour."""
        return self._of_flour(_parts.sugar)

    def fat(self) -> Figure:
        """Fat of all that is no flour, of the flour."""
        return self._of_flour(_parts.fat)

    def yeast_as_fresh(self) -> Figure:
        """All yeast as fresh yeast, of the flour, with the spread of each form's factor."""
        return self._of_flour(_parts.fresh_yeast, self._forms())

    def part_mass(self, part: Part) -> Figure:
        """The mass of one part."""
        return grams(None, NOT_SAID) if part.mass is None else _mass(part.mass, part.spread)

    def percent_of(self, part: Part) -> Figure:
        """One part, of the flour."""
        if not self.in_dough:
            return percent(None, "it goes into no dough")
        if part.mass is None:
            return percent(None, NOT_SAID)
        if self.flour <= 0:
            return percent(None, NO_FLOUR)
        ratio = part.mass / self.flour
        flours = [one for one in self.parts if one is not part and one.ingredient.flour_fraction > 0]
        others = sum((ratio * one.ingredient.flour_fraction * one.spread) ** 2 for one in flours)
        own = (1.0 - ratio * part.ingredient.flour_fraction) * part.spread
        wide = NINETY * math.hypot(own, math.sqrt(others)) / self.flour
        return _interval(ratio * 100.0, "percent", (ratio - wide) * 100.0, (ratio + wide) * 100.0)

    def _of_flour(self, content: Content, more: float = 0.0) -> Figure:
        """A content of the flour; ``more`` [kg] is a spread of its own."""
        if self.flour <= 0:
            return percent(None, NO_FLOUR)
        found = total(self.parts, content, self.flour)
        if found.unknown:
            return percent(None, "; ".join(found.unknown))
        ratio = found.value / self.flour
        spread = math.hypot(spread_of_ratio(self.parts, content, ratio, self.flour), more / self.flour)
        low, high = ratio - NINETY * spread, ratio + NINETY * spread + found.blank / self.flour
        return _interval(ratio * 100.0, "percent", low * 100.0, high * 100.0)

    def _spread(self, content: Callable[..., float | None]) -> float:
        return math.sqrt(sum(((content(part.ingredient) or 0.0) * part.spread) ** 2 for part in self.parts))

    def _forms(self) -> float:
        """One standard deviation [kg fresh yeast] from the factors, each form's shared by all its lines."""
        by_form: dict[str, float] = {}
        for part in self.parts:
            factor = _parts.fresh_yeast(part.ingredient) or 0.0
            spread = factor * (part.ingredient.per_fresh_spread or 0.0) * (part.mass or 0.0)
            by_form[part.ingredient.key] = by_form.get(part.ingredient.key, 0.0) + spread
        return math.sqrt(sum(spread**2 for spread in by_form.values()))


def known_mass(mass: float | None) -> Figure:
    """A mass [kg], or why there is none."""
    return grams(None, NOT_SAID) if mass is None else grams(mass)


def of_flour(mass: float, flour: float) -> Figure:
    """A mass [kg] per cent of the flour [kg]."""
    return percent(mass / flour) if flour > 0 else percent(None, NO_FLOUR)


def water_poured(mix: WeighedMix) -> float | None:
    """The water [kg] that is poured into a mix as such; ``None`` where there is none."""
    poured = [
        one.mass or 0.0
        for one in mix.lines
        if one.ingredient is not None and one.ingredient.poured and _parts.water(one.ingredient) == 1.0
    ]
    return sum(poured) or None


def _mass(kilograms: float, spread: float) -> Figure:
    value, wide = kilograms * 1000.0, NINETY * spread * 1000.0
    return _interval(value, "g", value - wide, value + wide)


def _interval(value: float, unit: str, low: float, high: float) -> Figure:
    if high - low <= 1e-9 * max(abs(value), 1e-9):
        return Figure(value, unit)
    return Figure(value, unit, max(low, 0.0), high)
