"""The water a dough wants: the trade's sum and the heat balance side by side, ice, and friction learnt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.errors import Fault, NoAnswerError
from doughwright.figures import Figure
from doughwright.forecast._contents import Lines, is_water, yeast_forms
from doughwright.forecast._course import Setting, course_of
from doughwright.kitchen.assumed import ALTITUDE, FRIDGE, SCALE, Surroundings
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import WeighedLine, WeighedMix, weigh
from doughwright.science.mixing import (
    Part,
    dough_temperature,
    friction_learnt,
    ice_mass,
    water_temperature_balance,
    water_temperature_sum,
)
from doughwright.science.parameters import Parameters
from doughwright.science.yeast_limits import YeastLimit, yeast_limit_met

ASSUMED_DESIRED = 24.0
"""Dough temperature [degC] that is meant where a recipe asks for none."""

_NO_MATTER = (SCALE.said, FRIDGE.said, ALTITUDE.said)
SUM, BALANCE = "the trade's sum", "heat balance"


@dataclass(frozen=True, slots=True)
class WaterMethod:
    """One way to the water's temperature [degC], the dough [degC] it would give by heat balance, and how."""

    method: str
    water_temperature: float
    gives: float
    how: str

    def to_json(self) -> dict[str, object]:
        """Its figures and how it was reckoned."""
        return {
            "method": self.method,
            "water_temperature": _celsius(self.water_temperature),
            "dough_temperature": _celsius(self.gives),
            "how": self.how,
        }


@dataclass(frozen=True, slots=True)
class Water:
    """The answer of ``water`` for one dough: masses in kg, temperatures in degC."""

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

    def to_json(self) -> dict[str, object]:
        """As DESIGN 4 names them; ``water`` is what is poured besides the ice."""
        return {
            "dough": self.dough,
            "desired": _celsius(self.desired),
            "water_temperature": _celsius(self.water_temperature),
            "ice": Figure(round(self.ice * 1000.0, 2), "g").to_json(),
            "water": Figure(round((self.poured - self.ice) * 1000.0, 2), "g").to_json(),
            "method": self.method,
            "methods": [one.to_json() for one in self.methods],
            "why_they_differ": self.why_they_differ,
            "said": list(self.said),
            "warnings": list(self.warnings),
        }


@dataclass(frozen=True, slots=True)
class FrictionLearnt:
    """A mixer's friction from one dough just mixed, on the trade's sum of three [K].

    ``friction`` is for the kitchen document; ``by_balance`` is what the heat balance would need instead, and
    ``rise`` the dough's own warming by that balance [K].
    """

    friction: float
    by_balance: float
    rise: float

    def to_json(self) -> dict[str, object]:
        """The figures; ``friction`` is what the kitchen document takes."""
        return {
            "friction": _celsius(self.friction),
            "friction_by_balance": _celsius(self.by_balance),
            "rise": _celsius(self.rise),
        }


def _celsius(value: float) -> dict[str, object]:
    return Figure(round(value, 4), "degC").to_json()


@dataclass(frozen=True, slots=True)
class _Bowl:
    """What goes into the mixer: poured water [kg], all the rest, the preferments' temperatures [degC]."""

    poured: float
    others: tuple[Part, ...]
    preferments: tuple[float, ...]
    forms: tuple[str, ...]


def water(recipe: Recipe, kitchen: Surroundings, dough: str | None = None) -> Water:
    """The temperature of the water for a dough, and the ice where the tap is too warm.

    Raises ``NoAnswerError`` where no water is poured, where it would hurt the yeast, or where it would take
    more ice than there is water.
    """
    name = dough or _first(recipe)
    p = Parameters()
    bowl = _bowl(recipe, kitchen, weigh(recipe), name, p)
    asked = recipe.target.dough_temperature
    desired = ASSUMED_DESIRED if asked is None else asked
    methods = (_by_sum(bowl, kitchen, desired, p), _by_balance(bowl, kitchen, desired, p))
    chosen = methods[1] if kitchen.friction.how == "assumed" else methods[0]
    warnings = _yeast(bowl.forms, chosen.water_temperature)
    ice = ice_mass(water=bowl.poured, tap=kitchen.tap.value, wanted=chosen.water_temperature, parameters=p)
    said = [] if asked is not None else [f"no dough temperature is asked for: {desired:g} °C is meant"]
    return Water(
        dough=name,
        desired=desired,
        water_temperature=chosen.water_temperature,
        ice=ice,
        poured=bowl.poured,
        method=chosen.method,
        methods=methods,
        why_they_differ=_why(bowl),
        said=(
            *said,
            *(one for one in kitchen.assumed if one not in (SCALE.said, FRIDGE.said, ALTITUDE.said)),
        ),
        warnings=tuple(warnings),
    )


def learn_friction(
    recipe: Recipe,
    kitchen: Surroundings,
    *,
    measured: float,
    used: float | None = None,
    dough: str | None = None,
) -> FrictionLearnt:
    """A mixer's friction from the temperature [degC] of a dough just mixed with water of ``used`` [degC]."""
    p = Parameters()
    bowl = _bowl(recipe, kitchen, weigh(recipe), dough or _first(recipe), p)
    poured = kitchen.tap.value if used is None else used
    known = _known(bowl, kitchen)
    friction = friction_learnt(measured=measured, used=[*known, poured])
    rise = measured - _gives(bowl, poured, 0.0, p)
    return FrictionLearnt(friction=friction * 3.0 / (len(known) + 1), by_balance=3.0 * rise, rise=rise)


def _first(recipe: Recipe) -> str:
    if not recipe.doughs:
        raise NoAnswerError(Fault("this recipe has no dough", try_='Give a mix kind = "dough"'))
    return recipe.doughs[0].name


def _bowl(
    recipe: Recipe, kitchen: Surroundings, weighed: dict[str, WeighedMix], name: str, p: Parameters
) -> _Bowl:
    own = [line for line in weighed[name].lines if line.ingredient is not None and line.mass]
    pour = [line for line in own if is_water(line.ingredient) and line.line.temperature is None]
    rest = Lines(tuple(line for line in own if line not in pour), {}, kitchen.room.value, p)
    poured = sum(line.mass or 0.0 for line in pour)
    if poured <= 0.0:
        raise NoAnswerError(
            Fault(
                f'"{name}" pours no water, so no water temperature can steer it',
                try_="Warm or cool the milk, or whatever else is poured, instead",
            )
        )
    parts = rest.parts(kitchen.flour_temperature.value, kitchen.tap.value)
    joined = _preferments(recipe, kitchen, weighed, weighed[name].lines, p)
    return _Bowl(
        poured, (*parts, *joined), tuple(part.temperature for part in joined), tuple(yeast_forms(own))
    )


def _preferments(
    recipe: Recipe,
    kitchen: Surroundings,
    weighed: dict[str, WeighedMix],
    lines: Sequence[WeighedLine],
    p: Parameters,
) -> list[Part]:
    """Each mix that goes in, as warm as its own days leave it."""
    names = [(line.line.mix, line.mass) for line in lines if line.line.mix is not None and line.mass]
    if not names:
        return []
    parts: list[Part] = []
    for name, mass in names:
        course = course_of(Setting(recipe, kitchen, weighed, p), name)
        if course.dough is None:
            parts.append(Part(mass or 0.0, p.flour_heat, kitchen.room.value))
        else:
            warm = course.dough.mean(course.dough.temperature)
            parts.append(Part(mass or 0.0, course.dough.solids.heat / 1000.0, warm))
    return parts


def _known(bowl: _Bowl, kitchen: Surroundings) -> list[float]:
    return [kitchen.room.value, kitchen.flour_temperature.value, *bowl.preferments[:1]]


def _by_sum(bowl: _Bowl, kitchen: Surroundings, desired: float, p: Parameters) -> WaterMethod:
    known = _known(bowl, kitchen)
    count = len(known) + 1
    friction = kitchen.friction.value * count / 3.0
    degrees = water_temperature_sum(desired=desired, known=known, friction=friction)
    terms = " - ".join(f"{value:.3g}" for value in [*known, friction])
    how = f"{count} x {desired:.3g} - {terms}: room, flour{', preferment' if count == 4 else ''}, friction"
    return WaterMethod(SUM, degrees, _gives(bowl, degrees, kitchen.friction.value / 3.0, p), how)


def _by_balance(bowl: _Bowl, kitchen: Surroundings, desired: float, p: Parameters) -> WaterMethod:
    rise = kitchen.friction.value / 3.0
    degrees = water_temperature_balance(
        desired=desired, others=bowl.others, water=bowl.poured, rise=rise, parameters=p
    )
    how = f"all that goes in by its mass and heat capacity, and {rise:.2g} °C of warming by the mixer"
    return WaterMethod(BALANCE, degrees, _gives(bowl, degrees, rise, p), how)


def _gives(bowl: _Bowl, degrees: float, rise: float, p: Parameters) -> float:
    poured = Part(bowl.poured, p.water_heat, degrees)
    return dough_temperature(parts=[*bowl.others, poured], rise=rise, parameters=p)


def _why(bowl: _Bowl) -> str:
    p = Parameters()
    own = bowl.poured * p.water_heat
    share = own / (own + sum(part.capacity for part in bowl.others))
    return (
        "the sum gives room, flour and water equal weight, though no room goes into the dough; "
        f"by heat the poured water carries {share:.0%} of it here"
    )


def _yeast(forms: Sequence[str], degrees: float) -> list[str]:
    """Warnings for water that hurts a yeast; raises where it would lose it."""
    warnings: list[str] = []
    for form in forms:
        met = _met(form, degrees)
        if met is None:
            continue
        if met.refuse:
            raise NoAnswerError(
                Fault(f"the water would have to be {degrees:.1f} °C, and {met.why}", try_=met.instead)
            )
        warnings.append(f"{met.why}. {met.instead}")
    return warnings


def _met(form: str, degrees: float) -> YeastLimit | None:
    return yeast_limit_met(form=form, water=degrees)
