"""The water a dough wants: the trade's sum and the heat balance side by side, ice, and friction learnt."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from doughwright.errors import Fault, NoAnswerError, OutOfRangeError
from doughwright.figures import Figure
from doughwright.forecast._bowl import Bowl, bowl_of
from doughwright.kitchen.assumed import ALTITUDE, FRIDGE, SCALE, Surroundings
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.mixing import dough_temperature, friction_learnt, ice_mass
from doughwright.science.yeast_limits import YEAST_LIMITS, YeastLimit, yeast_limit_met
from doughwright.units import format_mass, format_temperature

ASSUMED_DESIRED = 24.0
"""Dough temperature [degC] that is meant where a recipe asks for none."""

SUM, BALANCE = "the trade's sum", "heat balance"
# Assumptions about a kitchen that the water does not hang on.
_NO_MATTER = (SCALE.said, FRIDGE.said, ALTITUDE.said)
_NINETY = 1.645
_BOILS = 100.0
# What a dough just mixed and the water in it can be [degC]; what friction can be on the sum of three [K].
_MEASURED, _USED, _FRICTION = (0.0, 50.0), (0.0, _BOILS), (-20.0, 60.0)


@dataclass(frozen=True, slots=True)
class WaterMethod:
    """One way to the water's temperature [degC], the dough [degC] it would give by heat balance, and how.

    ``spread`` [K] is one standard deviation of the water's temperature.
    """

    method: str
    water_temperature: float
    gives: float
    how: str
    spread: float = 0.0

    def to_json(self) -> dict[str, object]:
        """Its figures and how it was reckoned."""
        return {
            "method": self.method,
            "water_temperature": _celsius(self.water_temperature, self.spread),
            "dough_temperature": _celsius(self.gives),
            "how": self.how,
        }


@dataclass(frozen=True, slots=True)
class Water:
    """The answer of ``water`` for one dough: masses in kg, temperatures in degC.

    ``liquid`` is what is poured: water, or the milk of a dough without any.
    """

    dough: str
    desired: float
    water_temperature: float
    ice: float
    poured: float
    method: str
    methods: tuple[WaterMethod, ...]
    why_they_differ: str
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    spread: float = 0.0
    liquid: str = "water"

    def to_json(self) -> dict[str, object]:
        """As DESIGN 4 names them; ``water`` is what is poured besides the ice."""
        return {
            "dough": self.dough,
            "desired": _celsius(self.desired),
            "water_temperature": _celsius(self.water_temperature, self.spread),
            "ice": Figure(round(self.ice * 1000.0, 2), "g").to_json(),
            "water": Figure(round((self.poured - self.ice) * 1000.0, 2), "g").to_json(),
            "liquid": self.liquid,
            "method": self.method,
            "methods": [one.to_json() for one in self.methods],
            "why_they_differ": self.why_they_differ,
            "said": list(self.said),
            "warnings": list(self.warnings),
        }


@dataclass(frozen=True, slots=True)
class Waters:
    """The water of every main dough of a recipe, in the document's order; at least one."""

    doughs: tuple[Water, ...]

    def to_json(self) -> dict[str, object]:
        """The first dough's JSON, and that of all under ``doughs``."""
        every = [one.to_json() for one in self.doughs]
        return every[0] | {"doughs": every}


@dataclass(frozen=True, slots=True)
class FrictionLearnt:
    """A mixer's friction from one dough just mixed, on the trade's sum of three [K].

    ``friction`` is for the kitchen document; ``by_balance`` is what the heat balance would need instead, and
    ``rise`` the dough's own warming by that balance [K].
    """

    friction: float
    by_balance: float
    rise: float
    said: tuple[str, ...] = ()

    def to_json(self) -> dict[str, object]:
        """The figures; ``friction`` is what the kitchen document takes."""
        return {
            "friction": _celsius(self.friction),
            "friction_by_balance": _celsius(self.by_balance),
            "rise": _celsius(self.rise),
            "said": list(self.said),
        }


def _celsius(value: float, spread: float = 0.0) -> dict[str, object]:
    if spread <= 0.0:
        return Figure(round(value, 4), "degC").to_json()
    low, high = value - _NINETY * spread, value + _NINETY * spread
    return Figure(round(value, 4), "degC", round(low, 4), round(high, 4)).to_json()


def water(recipe: Recipe, kitchen: Surroundings, dough: str | None = None) -> Water:
    """The temperature of the water for a dough, and the ice where the tap is too warm.

    Raises ``NoAnswerError`` where nothing is poured, where the water would hurt the yeast, or where it would
    take more ice than there is water.
    """
    name = dough or _first(recipe)
    bowl = bowl_of(recipe, kitchen, weigh(recipe), name)
    asked = recipe.target.dough_temperature
    desired = ASSUMED_DESIRED if asked is None else asked
    methods = (_by_sum(bowl, desired), _by_balance(bowl, desired))
    by_heat = kitchen.friction.how == "assumed"
    chosen = methods[1] if by_heat else methods[0]
    reaches = bowl.gives if by_heat else bowl.gives_by_sum
    warnings = _yeast(bowl, chosen.water_temperature, desired, reaches)
    ice = _ice(bowl, chosen.water_temperature, desired)
    said = [] if asked is not None else [f"no dough temperature is asked for: {desired:g} °C is meant"]
    if chosen.water_temperature < 0.0 < ice:
        said.append("water below 0 °C stands for ice that melts in the dough")
    said += [one for one in kitchen.assumed if one not in _NO_MATTER]
    return Water(
        dough=name,
        desired=desired,
        water_temperature=chosen.water_temperature,
        ice=ice,
        poured=bowl.poured,
        method=chosen.method,
        methods=methods,
        why_they_differ=_why(bowl),
        said=tuple(said),
        warnings=tuple(warnings),
        spread=chosen.spread,
        liquid=bowl.liquid,
    )


def waters(recipe: Recipe, kitchen: Surroundings) -> Waters:
    """The water of every main dough; raises as ``water`` does."""
    first = water(recipe, kitchen)
    return Waters((first, *(water(recipe, kitchen, mix.name) for mix in recipe.doughs[1:])))


def learn_friction(
    recipe: Recipe,
    kitchen: Surroundings,
    *,
    measured: float,
    used: float | None = None,
    dough: str | None = None,
) -> FrictionLearnt:
    """A mixer's friction from the temperature [degC] of a dough just mixed with water of ``used`` [degC].

    Raises ``OutOfRangeError`` where the dough, its water or the friction they give cannot be.
    """
    said = [] if used is not None else [f"the water was as warm as the tap, {kitchen.tap.value:g} °C"]
    poured = kitchen.tap.value if used is None else used
    _check("the dough just mixed", measured, _MEASURED, '--measured "26 °C"')
    _check("its water", poured, _USED, '--used "15 °C"')
    bowl = bowl_of(recipe, kitchen, weigh(recipe), dough or _first(recipe))
    friction = friction_learnt(measured=measured, used=[*bowl.known, poured]) * 3.0 / bowl.count
    _check("the friction that gives", friction, _FRICTION, "the temperatures as they were measured")
    if friction < 0:
        said.append("the dough came out colder than the sum: a cold bowl or a cold worktop took its heat")
    said += [one for one in kitchen.assumed if one not in _NO_MATTER]
    rise = measured - bowl.gives(poured, rise=0.0)
    return FrictionLearnt(friction=friction, by_balance=3.0 * rise, rise=rise, said=tuple(said))


def _check(what: str, value: float, limits: tuple[float, float], example: str) -> None:
    low, high = limits
    if not (math.isfinite(value) and low <= value <= high):
        raise OutOfRangeError(
            Fault(what, wanted=f"{low:g} to {high:g} °C", found=f"{value:.4g} °C", try_=f"Write {example}")
        )


def _first(recipe: Recipe) -> str:
    if not recipe.doughs:
        raise NoAnswerError(Fault("this recipe has no dough", try_='Give a mix kind = "dough"'))
    return recipe.doughs[0].name


def _by_sum(bowl: Bowl, desired: float) -> WaterMethod:
    degrees = bowl.wants_by_sum(desired)
    terms = " - ".join(f"{value:.3g}" for value in [*bowl.known, bowl.friction])
    what = "room, flour, preferment, friction" if bowl.count == 4 else "room, flour, friction"
    how = f"{bowl.count} x {desired:.3g} - {terms}: {what}"
    if bowl.count == 4:
        how += f" (friction of {bowl.kitchen.friction.value:.3g} on a sum of three, carried to four)"
    return WaterMethod(SUM, degrees, bowl.gives(degrees), how, bowl.spread_by_sum())


def _by_balance(bowl: Bowl, desired: float) -> WaterMethod:
    degrees = bowl.wants(desired)
    how = f"all that goes in by its mass and heat capacity, and {bowl.rise:.2g} °C of warming by the mixer"
    return WaterMethod(BALANCE, degrees, bowl.gives(degrees), how, bowl.spread())


def _why(bowl: Bowl) -> str:
    what = bowl.liquid.partition(",")[0]
    return (
        f"the sum gives room, flour and {what} equal weight, though no room goes into the dough; "
        f"by heat what is poured carries {bowl.own / bowl.whole * 100:.0f} % of it here"
    )


Reaches = Callable[[float], float]


def _yeast(bowl: Bowl, degrees: float, desired: float, reaches: Reaches) -> list[str]:
    """Warnings for water that hurts a yeast; raises where it would lose it, naming the nearest dough."""
    warnings: list[str] = []
    for form in bowl.forms:
        met = yeast_limit_met(form=form, water=degrees)
        if met is not None and met.refuse:
            raise NoAnswerError(_refused(bowl, met, degrees, desired, reaches))
        if met is not None:
            warnings.append(f"{met.why}. {met.instead}")
    if degrees > _BOILS:
        raise NoAnswerError(
            Fault(f"{bowl.liquid} would have to be {degrees:.0f} °C", wanted="less than boiling",
                  try_="Warm the flour or the bowl, or ask for a cooler dough")
        )  # fmt: skip
    return list(dict.fromkeys(warnings))


def _refused(bowl: Bowl, met: YeastLimit, degrees: float, desired: float, reaches: Reaches) -> Fault:
    edge = _harmless(bowl.forms, cold=met.below is not None)
    wants = f"a dough of {format_temperature(desired)} wants {bowl.liquid} of {degrees:.1f} °C"
    nearest = f"with {bowl.liquid} at {edge:g} °C it comes to {format_temperature(reaches(edge))}"
    return Fault(f"{wants}, and {met.why}; {nearest}", try_=met.instead)


def _harmless(forms: tuple[str, ...], *, cold: bool) -> float:
    """The coldest, or the warmest, water [degC] that hurts none of these forms."""
    rows = [row for row in YEAST_LIMITS if row.form in forms]
    if cold:
        return max(row.below for row in rows if row.below is not None)
    return min(row.above for row in rows if row.above is not None)


def _ice(bowl: Bowl, wanted: float, desired: float) -> float:
    """Ice [kg] in place of some of the water; raises where it would be more than there is of it."""
    if bowl.liquid != "water":
        if wanted < 0.0:
            raise NoAnswerError(_too_cold(desired, f"colder {bowl.liquid} than is liquid", bowl.gives(0.0)))
        return 0.0
    p = bowl.parameters
    try:
        return ice_mass(water=bowl.poured, tap=bowl.kitchen.tap.value, wanted=wanted, parameters=p)
    except NoAnswerError as error:
        coldest = float(dough_temperature(parts=bowl.others, rise=bowl.rise, ice=bowl.poured, parameters=p))
        takes = f"more ice than its {format_mass(bowl.poured)} of water"
        raise NoAnswerError(_too_cold(desired, takes, coldest)) from error


def _too_cold(desired: float, takes: str, coldest: float) -> Fault:
    return Fault(
        f"a dough of {format_temperature(desired)} would take {takes}; "
        f"the coldest it can come to is {format_temperature(coldest)}",
        try_="Cool the flour or the room, or mix less",
    )
