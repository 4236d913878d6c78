"""Doughs, airs and schedules for the kernels: drawn from a seed within what a kitchen may hold."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from doughwright.science.heat import Shape
from doughwright.science.kernels.layout import INPUTS, STATE, Stepping, StopKind
from doughwright.science.kernels.tables import tables
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array

TABLES = tables(Parameters())
AT_30 = float(TABLES.look(np.array(30.0), 0))

# Lowest and highest of what differs by kitchen, in the units of INPUTS.
RANGES: dict[str, tuple[float, float]] = {
    "gassing": (40.0, 160.0), "growth": (0.0, 1.0), "lag": (0.1, 0.9), "at_mixing": (0.02, 4.0),
    "hold": (40.0, 90.0), "volume": (130.0, 180.0), "pressure": (0.7, 1.02), "ceiling": (2.5, 5.0),
    "retention": (0.7, 1.0), "gassing_minimum": (-4.0, 1.0), "growth_rate": (0.15, 0.6),
    "growth_lag": (0.0, 1.5), "growth_cap": (0.3, 1.2), "maltose_rate": (0.2, 0.7),
    "maltose_limit": (4.0, 7.0), "sugar_half": (0.03, 0.3), "gas_yield": (240.0, 265.0),
    "warming": (0.005, 0.02), "slack_25": (0.5, 4.0), "death": (50.0, 54.0), "mass": (0.05, 3.0),
    "heat": (2300.0, 3400.0), "conductivity": (0.3, 0.5), "slope": (0.0005, 0.002),
    "gas_conductivity": (0.02, 0.03), "air_share": (0.05, 0.12), "film": (2.0, 15.0),
    "resistance": (0.0, 2.0), "mean": (1.0, 32.0), "swing": (0.0, 3.0), "period": (0.3, 1.5),
    "phase": (0.0, 6.3), "daily": (0.0, 3.0), "daily_phase": (0.0, 6.3),
}  # fmt: skip
STEPPINGS = (
    Stepping(),
    Stepping(slowest=897.0),
    Stepping(first=5.0, growth=1.2, longest=120.0),
    Stepping(first=60.0, growth=2.0, longest=600.0, settling=1800.0, slowest=1800.0, share=1.0),
)


@dataclass(frozen=True)
class Case:
    """What a wait takes, ready to hand over: ``wait(**case.arguments)``."""

    inputs: Array
    state: Array
    tightness: Array
    shape: Shape
    stepping: Stepping
    stop: StopKind | None
    samples: Array

    @property
    def arguments(self) -> dict[str, object]:
        names = ("inputs", "state", "tightness", "shape", "stepping", "stop", "samples")
        return {name: getattr(self, name) for name in names} | {"curves": TABLES}


def draw(
    seed: int,
    *,
    lanes: int = 3,
    nodes: int = 6,
    hours: float = 8.0,
    shape: Shape = "ball",
    stepping: Stepping = STEPPINGS[0],
    stop: StopKind | None = None,
    samples: int = 7,
) -> Case:
    """A case from a seed: every lane its own dough in its own air."""
    random = np.random.default_rng(seed)
    given = {name: random.uniform(low, high, lanes) for name, (low, high) in RANGES.items()}
    # Some lanes stand in even air, some behind nothing, some in a hot place.
    for name in ("swing", "daily", "resistance"):
        given[name] *= random.random(lanes) < 0.5
    given["mean"] = np.where(random.random(lanes) < 0.1, random.uniform(45.0, 60.0, lanes), given["mean"])
    given["air"] = given["air_share"] * given["volume"]
    given["gassing_norm"] = 1.0 / ((30.0 - given["gassing_minimum"]) * AT_30)
    given["unrisen"] = given["mass"] / random.uniform(1050.0, 1200.0, lanes)
    given |= skin(shape, given["unrisen"], random.uniform(0.02, 0.09, lanes))
    given["hours"] = hours * random.uniform(0.0, 1.0, lanes)
    state = np.zeros((len(STATE), nodes, lanes))
    state[0] = random.uniform(0.0, 32.0, lanes) + random.uniform(-1.0, 1.0, (nodes, lanes))
    state[1] = given["at_mixing"] * random.uniform(1.0, 1.3, lanes)
    state[2] = random.uniform(0.0, 6.0, lanes)
    state[3] = random.uniform(0.0, 3.0, lanes)
    state[4] = random.uniform(0.0, 300.0, lanes) * (random.random(lanes) < 0.5)
    state[5] = state[4] + random.uniform(0.0, 50.0, lanes)
    state[7] = random.uniform(0.0, 8.0, lanes) * (random.random(lanes) < 0.5)
    state[8] = random.uniform(0.0, 2.0, lanes)
    start = state[0][0]
    given["stop"] = random.uniform(1.0, 2.5, lanes)
    if stop == "core":
        given["stop"] = start + random.uniform(0.0, 1.2, lanes) * (given["mean"] - start)
    inputs = np.ascontiguousarray(np.stack([given[name] for name in INPUTS]))
    fractions = np.sort(random.random(samples))
    fractions[-1] = 1.0
    return Case(inputs, state, random.uniform(0.2, 1.0, lanes), shape, stepping, stop, fractions)


def skin(shape: Shape, volume: Array, across: Array) -> dict[str, Array]:
    """Skin and side of pieces of a volume: a ball; a slab or a tin of some depth."""
    if shape == "ball":
        return {"skin": (36.0 * pi) ** (1.0 / 3.0) * volume ** (2.0 / 3.0), "side": 0.0 * volume}
    floor = volume / across
    side = 4.0 * np.sqrt(floor) * across if shape == "tin" else 0.0 * volume
    return {"skin": 2.0 * floor, "side": side}
