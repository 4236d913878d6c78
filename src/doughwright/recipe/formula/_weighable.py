"""What a kitchen's scale can weigh, and where it cannot, what to do instead."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from doughwright.errors import UnknownNameError
from doughwright.figures import Figure, grams
from doughwright.ingredients import Class, Ingredient, household_mass
from doughwright.recipe.formula._dilution import Dilution, dilution
from doughwright.recipe.weigh import WeighedLine
from doughwright.units import format_mass, parse_volume

# Half a step of the scale may be this share of the amount.
CLOSE, LOOSE = 0.05, 0.10
_CLOSE_CLASSES = (
    Class.FLOUR, Class.GRAIN, Class.LIQUID, Class.MILK, Class.DAIRY, Class.EGG, Class.CULTURE,
)  # fmt: skip
_DISSOLVES = {Class.YEAST: 0.2, Class.SALT: 0.2, Class.SUGAR: 0.5}
_SCALE_STEPS = (1e-3, 5e-4, 1e-4, 5e-5, 1e-5, 1e-6)
_MOST_BATCHES = 12
# Dry yeast wetted in colder water loses some of its gassing: see the science of yeast limits.
_WARM = " at 20 to 40 °C"
# Spoons a kitchen has, as eighths of a teaspoon; the nearest may miss by this share.
_SPOONS = ("1/8 tsp", "1/4 tsp", "1/2 tsp", "3/4 tsp", "1 tsp", "1 1/2 tsp", "2 tsp", "1 tbsp", "2 tbsp")
_NEAR = 0.15


@dataclass(frozen=True, slots=True)
class Spoon:
    """A spoon that holds about as much: what it is called, what it holds, with its 90 % interval."""

    measure: str
    mass: Figure
    source: str


@dataclass(frozen=True, slots=True)
class Weighing:
    """Whether a scale can weigh an amount, why, and what to do where it cannot."""

    weighable: bool | Literal["measured"]
    why: str
    instead: str | None = None
    dilution: Dilution | None = None
    spoon: Spoon | None = None
    batches: int | None = None
    scale_needed: Figure | None = None


def tolerance(ingredient: Ingredient) -> float:
    """How much of the amount half a step of the scale may be: 5 % for flours and liquids, 10 % else."""
    return CLOSE if ingredient.class_ in _CLOSE_CLASSES else LOOSE


def can_weigh(mass: float, step: float, share: float) -> bool:
    """Whether half a step [kg] is at most that share of the mass [kg]."""
    return 0.5 * step <= share * mass * (1.0 + 1e-9)


def weighing(line: WeighedLine, *, step: float, water: float | None, cups: str = "US") -> Weighing:
    """Judge a line on a scale whose display has this step [kg].

    ``water`` [kg] is what is poured into the mix the line goes into; ``None`` where there is none.
    """
    ingredient, mass = line.ingredient, line.mass
    if mass is None or ingredient is None:
        return Weighing("measured", "no amount is said: by taste or as needed")
    if line.how in ("measured", "counted"):
        return _measured(line, ingredient, mass, step)
    share = tolerance(ingredient)
    half = f"half a step of a scale that shows {format_mass(step)} is {_percent(0.5 * step / mass)}"
    if can_weigh(mass, step, share):
        return Weighing(True, f"{half} of {format_mass(mass)}; at most {_percent(share)} is asked for")
    why = f"{half} of {format_mass(mass)}, more than {_percent(share)}"
    return _instead(ingredient, mass, step, water or 0.0, cups, why)


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %" if share >= 0.0995 else f"{share * 100:.2g} %"


def _measured(line: WeighedLine, ingredient: Ingredient, mass: float, step: float) -> Weighing:
    written = line.line.amount.text if line.line.amount is not None else "it"
    spread = f", give or take {format_mass(line.spread)}" if line.spread else ""
    why = f"{written} is {format_mass(mass)}{spread} ({line.source})"
    instead = None
    if can_weigh(mass, step, tolerance(ingredient)):
        instead = f"weigh {format_mass(round(mass / step) * step)}: this scale can"
    return Weighing("measured", why, instead)


def _instead(ingredient: Ingredient, mass: float, step: float, water: float, cups: str, why: str) -> Weighing:
    strongest = _DISSOLVES.get(ingredient.class_)
    stirred = None
    if strongest is not None:
        stirred = dilution(
            ingredient.name, mass=mass, step=step, water=water, strongest=strongest,
            solid=LOOSE, liquid=CLOSE, warm=_WARM if (ingredient.per_fresh or 1.0) < 1.0 else "",
        )  # fmt: skip
    spoon = _spoon(ingredient, mass, cups)
    batches = math.ceil(0.5 * step / (tolerance(ingredient) * mass) - 1e-9)
    finer = next((one for one in _SCALE_STEPS if can_weigh(mass, one, tolerance(ingredient))), None)
    ways = [stirred.text] if stirred is not None else []
    ways += [_said(spoon)] if spoon is not None else []
    if batches <= _MOST_BATCHES:
        ways.append(f"make {batches} times as much: {format_mass(batches * mass)} can be weighed")
    ways += [f"use a scale that shows {_step(finer)}"] if finer is not None else []
    return Weighing(
        False, why, "; or ".join(ways) or "measure it by taste",
        dilution=stirred, spoon=spoon, batches=batches if batches <= _MOST_BATCHES else None,
        scale_needed=grams(finer) if finer is not None else None,
    )  # fmt: skip


def _step(kilograms: float) -> str:
    return f"{kilograms * 1000:g} g"


def _spoon(ingredient: Ingredient, mass: float, cups: str) -> Spoon | None:
    """The spoon whose content is nearest, if any is near enough."""
    best: Spoon | None = None
    miss = _NEAR
    for name in _SPOONS:
        volume = parse_volume(name, cups=cups)
        try:
            found = household_mass(ingredient, volume_m3=volume, measure=name.rsplit(" ", 1)[1])
        except UnknownNameError:
            return None
        if found.kg > 0 and abs(found.kg / mass - 1.0) <= miss:
            miss = abs(found.kg / mass - 1.0)
            wide = 1.645 * found.spread_kg * 1000.0
            value = found.kg * 1000.0
            best = Spoon(name, Figure(value, "g", max(value - wide, 0.0), value + wide), found.source)
    return best


def _said(spoon: Spoon) -> str:
    low, high = (format_mass((one or 0.0) / 1000.0) for one in (spoon.mass.low, spoon.mass.high))
    return f"take {spoon.measure}, which holds {low} to {high} in nine cases of ten"
