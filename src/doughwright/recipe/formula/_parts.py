"""What is in a dough: each ingredient of it and of the mixes in it, and what those add up to."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from doughwright.ingredients import Class, Ingredient
from doughwright.recipe.weigh import WeighedLine, WeighedMix

Content = Callable[[Ingredient], float | None]

# An unmeasured ingredient leaves a figure unknown where at least this share of it would count.
_COUNTS = 0.2
# Tap water is 99.9 % water in the public table; no baker takes its minerals off.
_TAP = 99.5
# What a blank in the source could add to a figure before the figure is unknown, as a share of flour.
_SMALL = 0.005


@dataclass(frozen=True, slots=True)
class Part:
    """An ingredient of a dough: ``mass`` [kg] is what of it is in the dough, ``weighed`` what ``mix`` takes.

    ``spread`` [kg] is one standard deviation of ``mass`` where it comes from a household measure.
    """

    line: WeighedLine
    ingredient: Ingredient
    mix: str
    mass: float | None
    weighed: float | None
    spread: float


@dataclass(frozen=True, slots=True)
class Total:
    """A content of a dough [kg] with its variance from household measures, and what is not known of it."""

    value: float
    blank: float
    unknown: tuple[str, ...]


def shares_of(weighed: Mapping[str, WeighedMix], name: str) -> dict[str, float]:
    """How much of each mix is in a mix, as a share of what is made of it: itself first, all of it."""
    shares = dict.fromkeys(_users_first(weighed, name), 0.0)
    shares[name] = 1.0
    for mix, share in shares.items():
        for one in weighed[mix].lines:
            inner = weighed[one.line.mix] if one.line.mix is not None else None
            if inner is not None and inner.mass > 0:
                shares[inner.mix.name] += share * (one.mass or 0.0) / inner.mass
    return shares


def parts_of(weighed: Mapping[str, WeighedMix], name: str) -> Iterator[Part]:
    """The ingredients of a mix, those of a mix in it in its place, each mix once."""
    shares = shares_of(weighed, name)
    seen = {name}
    stack = [(name, iter(weighed[name].lines))]
    while stack:
        mix, lines = stack[-1]
        one = next(lines, None)
        if one is None:
            stack.pop()
        elif one.line.mix is not None and one.line.mix not in seen:
            seen.add(one.line.mix)
            stack.append((one.line.mix, iter(weighed[one.line.mix].lines)))
        elif one.ingredient is not None:
            share = shares[mix]
            mass = None if one.mass is None else share * one.mass
            yield Part(one, one.ingredient, mix, mass, one.mass, share * (one.spread or 0.0))


def _users_first(weighed: Mapping[str, WeighedMix], name: str) -> list[str]:
    """A mix and all the mixes in it, each after every mix that uses it."""
    done: dict[str, None] = {}
    stack = [(name, False)]
    while stack:
        mix, used_done = stack.pop()
        if used_done:
            done.setdefault(mix)
        elif mix not in done:
            inner = [one.line.mix for one in weighed[mix].lines if one.line.mix is not None]
            stack += [(mix, True), *((one, False) for one in reversed(inner))]
    return list(done)[::-1]


def total(parts: Iterable[Part], content: Content, flour: float) -> Total:
    """How much of a content [kg] is in the parts."""
    value, blank, unknown = 0.0, 0.0, []
    for part in parts:
        share = content(part.ingredient)
        if part.mass is None:
            if share is None or share >= _COUNTS:
                unknown.append(f"how much {part.ingredient.name} goes in is not said")
        elif share is not None:
            value += share * part.mass
        else:
            most = _most(part.ingredient) * part.mass
            blank += most
            if most > _SMALL * flour:
                unknown.append(f"the source of {part.ingredient.name} leaves it blank")
    return Total(value, blank, tuple(unknown))


def spread_of_ratio(parts: Iterable[Part], content: Content, ratio: float, flour: float) -> float:
    """One standard deviation of content over flour, from the spread of spoons and cups."""
    if flour <= 0:
        return 0.0
    return (
        math.sqrt(
            sum(
                (((content(part.ingredient) or 0.0) - ratio * part.ingredient.flour_fraction) * part.spread)
                ** 2
                for part in parts
            )
        )
        / flour
    )


def _most(ingredient: Ingredient) -> float:
    """The most of something that an ingredient can hold whose source leaves it blank (sugars, in effect)."""
    if ingredient.carbohydrate is not None and ingredient.water is not None and ingredient.fat is not None:
        return max(ingredient.carbohydrate - (ingredient.fibre or 0.0), 0.0) / 100.0
    return 1.0


def flour(ingredient: Ingredient) -> float | None:
    """The share that is flour."""
    return ingredient.flour_fraction


def water(ingredient: Ingredient) -> float | None:
    """The share that is water: all of what is poured as water, none of a flour's own."""
    if ingredient.flour_fraction > 0:
        return 1.0 - ingredient.flour_fraction
    if ingredient.poured and ingredient.class_ is Class.LIQUID and (ingredient.water or 0.0) >= _TAP:
        return 1.0
    return _share(ingredient.water)


def poured(ingredient: Ingredient) -> float | None:
    """The share that a baker counts as liquid: water and milk whole, and the water of a culture."""
    if 0 < ingredient.flour_fraction < 1:
        return 1.0 - ingredient.flour_fraction
    return 1.0 if ingredient.poured else 0.0


def salt(ingredient: Ingredient) -> float | None:
    """The share that is salt, that of flour left out."""
    return 0.0 if ingredient.flour_fraction > 0 else _share(ingredient.salt)


def sugar(ingredient: Ingredient) -> float | None:
    """The share that is sugar, lactose and that of flour left out."""
    return 0.0 if ingredient.flour_fraction > 0 else _share(ingredient.sugar_without_lactose)


def fat(ingredient: Ingredient) -> float | None:
    """The share that is fat, that of flour left out."""
    return 0.0 if ingredient.flour_fraction > 0 else _share(ingredient.fat)


def fresh_yeast(ingredient: Ingredient) -> float | None:
    """Grams of fresh yeast that one gram of it stands for."""
    return ingredient.to_fresh if ingredient.class_ is Class.YEAST else 0.0


def _share(per_100: float | None) -> float | None:
    return None if per_100 is None else per_100 / 100.0
