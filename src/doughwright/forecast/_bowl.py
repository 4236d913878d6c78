"""What goes into the mixer with the poured water, as the heat balance and the trade's sum see it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._contents import Lines, is_water, yeast_forms
from doughwright.forecast._course import Setting, course_of
from doughwright.ingredients import Class
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.types import Known
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.mixing import Part, dough_temperature, water_temperature_balance
from doughwright.science.mixing import water_temperature_sum as by_sum
from doughwright.science.parameters import Parameters


@dataclass(frozen=True, slots=True)
class Bowl:
    """What goes into the mixer: the poured ``liquid`` [kg], its ``heat`` [kJ/(kg K)], and all the rest.

    ``flour`` is the heat that warms the flour by a degree [kJ/K]; ``preferment`` its temperature [degC].
    """

    poured: float
    liquid: str
    heat: float
    others: tuple[Part, ...]
    flour: float
    preferment: float | None
    forms: tuple[str, ...]
    kitchen: Surroundings
    parameters: Parameters

    @property
    def rise(self) -> float:
        """How much the mixer warms the dough [K]: its friction is on a sum of three."""
        return self.kitchen.friction.value / 3.0

    @property
    def known(self) -> list[float]:
        """The temperatures of the trade's sum besides the water's [degC]."""
        base = [self.kitchen.room.value, self.kitchen.flour_temperature.value]
        return base if self.preferment is None else [*base, self.preferment]

    @property
    def count(self) -> int:
        """How many temperatures the sum has, the water's included."""
        return len(self.known) + 1

    @property
    def friction(self) -> float:
        """Friction on the sum of that many [K]; a mixer warms the dough alike whatever is summed."""
        return self.rise * self.count

    @property
    def own(self) -> float:
        """Heat that warms the poured liquid by a degree [kJ/K]."""
        return self.poured * self.heat

    @property
    def whole(self) -> float:
        """Heat that warms the whole dough by a degree [kJ/K]."""
        return self.own + float(sum(part.capacity for part in self.others))

    def gives(self, degrees: float, rise: float | None = None) -> float:
        """The dough [degC] by heat balance, poured at that temperature."""
        parts = [*self.others, Part(self.poured, self.heat, degrees)]
        warmed = self.rise if rise is None else rise
        return float(dough_temperature(parts=parts, rise=warmed, parameters=self.parameters))

    def gives_by_sum(self, degrees: float) -> float:
        """The dough [degC] by the trade's sum, poured at that temperature."""
        return (sum(self.known) + degrees + self.friction) / self.count

    def wants(self, desired: float) -> float:
        """The water [degC] by heat balance."""
        share = self.own / self.parameters.water_heat
        return water_temperature_balance(
            desired=desired, others=self.others, water=share, rise=self.rise, parameters=self.parameters
        )

    def wants_by_sum(self, desired: float) -> float:
        """The water [degC] by the trade's sum."""
        return by_sum(desired=desired, known=self.known, friction=self.friction)

    def spread_by_sum(self) -> float:
        """One standard deviation of that [K], from room, flour and friction."""
        kitchen = self.kitchen
        friction = _spread(kitchen.friction) * self.count / 3.0
        return math.hypot(_spread(kitchen.room), _spread(kitchen.flour_temperature), friction)

    def spread(self) -> float:
        """One standard deviation of the heat balance's water [K], from flour and friction."""
        flour = _spread(self.kitchen.flour_temperature) * self.flour / self.own
        return math.hypot(flour, _spread(self.kitchen.friction) / 3.0 * self.whole / self.own)


def bowl_of(recipe: Recipe, kitchen: Surroundings, weighed: dict[str, WeighedMix], name: str) -> Bowl:
    """What goes into the mixer for a dough; raises ``NoAnswerError`` where nothing is poured."""
    p = Parameters()
    own = [line for line in weighed[name].lines if line.ingredient is not None and line.mass]
    pour = _poured(own)
    if not pour:
        raise NoAnswerError(_nothing_to_steer(name, own))
    rest = Lines(tuple(line for line in own if line not in pour), {}, kitchen.room.value, p)
    parts = rest.parts(kitchen.flour_temperature.value, kitchen.tap.value)
    flour = float(
        sum(part.capacity for part, (_, one, _) in zip(parts, rest.items(), strict=True) if _is_flour(one))
    )
    joined = _preferments(recipe, kitchen, weighed, weighed[name].lines, p)
    poured = Lines(tuple(pour), {}, kitchen.room.value, p).parts(0.0, 0.0)
    mass = float(sum(part.mass for part in poured))
    return Bowl(
        poured=mass,
        liquid="water" if is_water(pour[0].ingredient) else pour[0].line.item or "milk",
        heat=float(sum(part.capacity for part in poured)) / mass,
        others=(*parts, *joined),
        flour=flour,
        preferment=_mean(joined),
        forms=tuple(dict.fromkeys(yeast_forms(own))) or (("fresh",) if joined else ()),
        kitchen=kitchen,
        parameters=p,
    )


def _poured(lines: Sequence[WeighedLine]) -> list[WeighedLine]:
    """The water whose temperature is the cook's choice; the milk where there is none."""
    free = [line for line in lines if line.line.temperature is None]
    return [line for line in free if is_water(line.ingredient)] or [
        line for line in free if line.ingredient is not None and line.ingredient.poured
    ]


def _nothing_to_steer(name: str, lines: Sequence[WeighedLine]) -> Fault:
    fixed = next((line for line in lines if line.ingredient is not None and line.ingredient.poured), None)
    if fixed is not None:
        return Fault(
            f'all that "{name}" pours has a temperature of its own in the document',
            try_=f"Take temperature out of its {fixed.line.item}, and ask again",
        )
    return Fault(
        f'"{name}" pours neither water nor milk, so no water temperature can steer it',
        try_="Warm or cool whatever goes in, and mix less",
    )


def _is_flour(ingredient: object) -> bool:
    return getattr(ingredient, "class_", None) is Class.FLOUR


def _spread(known: Known) -> float:
    return known.spread or 0.0


def _mean(parts: Sequence[Part]) -> float | None:
    """Their common temperature [degC], by heat; ``None`` where there are none."""
    whole = float(sum(part.capacity for part in parts))
    return float(sum(part.capacity * part.temperature for part in parts)) / whole if whole > 0 else None


def _preferments(
    recipe: Recipe,
    kitchen: Surroundings,
    weighed: dict[str, WeighedMix],
    lines: Sequence[WeighedLine],
    p: Parameters,
) -> list[Part]:
    """Each mix that goes in, as warm as its own days leave it."""
    names = [(line.line.mix, line.mass) for line in lines if line.line.mix is not None and line.mass]
    parts: list[Part] = []
    for name, mass in names:
        course = course_of(Setting(recipe, kitchen, weighed, p), name)
        if course.dough is None:
            share = mass / weighed[name].mass
            loose = Lines(course.lines, {}, kitchen.room.value, p)
            found = loose.parts(kitchen.flour_temperature.value, kitchen.tap.value)
            parts += [replace(one, mass=one.mass * share) for one in found]
        else:
            warm = float(course.dough.mean(course.dough.temperature)[0])
            parts.append(Part(mass, course.dough.solids.heat / 1000.0, warm))
    return parts
