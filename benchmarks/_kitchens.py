"""Kitchens for the kernel's benchmark: a recipe of 72 h (2 h in the room, 66 in the fridge, 4 to warm up)."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
from _measure import ROOT

from doughwright.science.kernels import twin, waits
from doughwright.science.kernels.layout import INPUTS, Stepping
from doughwright.science.kernels.tables import tables
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array

sys.path.insert(0, str(ROOT))
from tests.science.kernels._doughs import draw, skin

LEGS = ((2.0, 20.0, 24.0), (66.0, 2.0, 8.0), (4.0, 20.0, 24.0))
"""Hours of each wait, and the air between which kitchens lie [degC]."""

HOURS = sum(hours for hours, _, _ in LEGS)
NODES = 10
MANY = Stepping(slowest=897.0)
TABLES = tables(Parameters())
AT_ONCE = 10_000
"""So many are run at once; more of them are run one lot after the other."""

# What differs from kitchen to kitchen: its yeast and flour by the priors, roughly, and its fridge's seal.
SPREAD = {
    "gassing": (100.0, 140.0), "growth": (0.76, 0.8), "lag": (0.18, 0.34), "at_mixing": (0.1, 0.12),
    "hold": (62.0, 66.0), "volume": (150.0, 152.0), "ceiling": (3.5, 4.5), "retention": (0.9, 1.0),
    "gassing_minimum": (-2.8, -0.8), "growth_rate": (0.25, 0.42), "growth_lag": (0.3, 0.6),
    "growth_cap": (0.5, 0.8), "maltose_rate": (0.35, 0.55), "maltose_limit": (5.5, 5.5), "mass": (0.9, 1.0),
    "film": (5.0, 9.0), "swing": (0.0, 0.0), "daily": (0.0, 0.0), "resistance": (0.0, 0.0),
    "death": (52.0, 52.0), "period": (0.75, 0.75),
}  # fmt: skip


def kitchens(count: int, seed: int = 5) -> tuple[Array, Array]:
    """Inputs and state of fresh doughs, one a kitchen."""
    random = np.random.default_rng(seed)
    case = draw(seed, lanes=count, nodes=NODES)
    row = {name: case.inputs[i] for i, name in enumerate(INPUTS)}
    for name, (low, high) in SPREAD.items():
        row[name][:] = random.uniform(low, high, count)
    row["unrisen"][:] = row["mass"] / 1120.0
    row["air"][:] = 0.08 * row["volume"]
    row["gassing_norm"][:] = 1.0 / ((30.0 - row["gassing_minimum"]) * TABLES.look(np.array(30.0), 0))
    for name, values in skin("ball", row["unrisen"], np.ones(count)).items():
        row[name][:] = values
    state = np.zeros_like(case.state)
    state[0], state[1], state[2] = 24.0, row["at_mixing"], 1.3
    return case.inputs, state


def legs(inputs: Array, *, swing: float = 0.0, longer: float = 1.0) -> Iterator[Array]:
    """The inputs of each wait; a fridge may cycle, and the cold be ``longer`` by a factor."""
    random = np.random.default_rng(6)
    for hours, low, high in LEGS:
        leg = inputs.copy()
        cold = high < 15.0
        leg[INPUTS.index("hours")] = hours * (longer if cold else 1.0)
        leg[INPUTS.index("mean")] = random.uniform(low, high, inputs.shape[1])
        leg[INPUTS.index("swing")] = swing if cold else 0.0
        yield leg


def schedule(
    count: int, *, swing: float = 0.0, longer: float = 1.0, plain: bool = False, threads: int | None = None
) -> Callable[[], None]:
    """All waits of so many kitchens, a reading at the end of each; ``plain`` takes the twin in NumPy."""
    inputs, state = kitchens(min(count, AT_ONCE))
    planned = list(legs(inputs, swing=swing, longer=longer))
    wait: Any = twin.wait if plain else waits.wait
    shared = {"curves": TABLES, "shape": "ball", "stepping": MANY, "samples": np.array([1.0])}
    shared |= {} if plain else {"threads": threads}

    def run() -> None:
        for first in range(0, count, AT_ONCE):
            lot = min(AT_ONCE, count - first)
            lanes = slice(0, lot)
            now, tightness = np.ascontiguousarray(state[:, :, lanes]), np.ones(lot)
            for leg in planned:
                given = np.ascontiguousarray(leg[:, lanes])
                after = wait(inputs=given, state=now, tightness=tightness, **shared)
                now, tightness = after.state, after.tightness

    return run
