"""What goes on a piece: sauces and cheeses with their heat properties, from the composition of the mixes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from doughwright.forecast._contents import Lines, lines_within
from doughwright.ingredients import Class
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import Recipe, Step
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.materials import food_choi_okos_1986
from doughwright.science.parameters import Parameters

DRIEST, WETTEST = 0.02, 0.97
"""A topping's share of water is held within these: the model needs some of either."""

WEEPS = 0.52
"""A cheese with more water than this counts as fresh: it weeps, where a drier one makes a skin."""

_WARM = 20.0


@dataclass(frozen=True, slots=True)
class Topping:
    """Sauce or cheese on one piece: ``mass`` [kg], ``water`` [1], ``density`` [kg/m3], heat of its solids
    [J/(kg K)], ``conductivity`` [W/(m K)]; a cheese that is ``fresh`` weeps."""

    cheese: bool
    mass: float
    water: float
    density: float
    solids_heat: float
    conductivity: float
    fresh: bool = False


def dressing(
    recipe: Recipe, step: Step, weighed: dict[str, WeighedMix], kitchen: Surroundings, pieces: int
) -> tuple[Topping, ...]:
    """What a dress step puts on one piece: first all that is no cheese, as one sauce, then the cheese."""
    named = step.with_ or tuple(mix.name for mix in recipe.mixes if mix.kind in ("sauce", "topping"))
    lines = [
        line
        for name in named
        for line in lines_within(weighed, name)
        if line.mass is not None and line.mass > 0.0
    ]
    made = (_topping(_kind(lines, cheese), kitchen, pieces, cheese) for cheese in (False, True))
    return tuple(one for one in made if one is not None)


def _kind(lines: Sequence[WeighedLine], cheese: bool) -> tuple[WeighedLine, ...]:
    return tuple(
        line
        for line in lines
        if line.ingredient is not None and (line.ingredient.class_ is Class.CHEESE) is cheese
    )


def _topping(
    lines: tuple[WeighedLine, ...], kitchen: Surroundings, pieces: int, cheese: bool
) -> Topping | None:
    contents = Lines(lines, {}, kitchen.room.value, Parameters()).contents()
    mass = float(np.mean(contents.mass)) / 1000.0 / pieces
    if mass <= 0.0:
        return None
    composition = np.array(contents.composition, dtype=float).reshape(6)
    water = composition[0] / composition.sum()
    held = float(np.clip(water, DRIEST, WETTEST))
    composition[0] = held / (1.0 - held) * max(composition[1:].sum(), 1e-9)
    food = food_choi_okos_1986(composition=composition, temperature=_WARM)
    return Topping(
        cheese,
        mass,
        held,
        float(food.density),
        float(food.solids_heat),
        float(food.conductivity),
        fresh=cheese and held > WEEPS,
    )
