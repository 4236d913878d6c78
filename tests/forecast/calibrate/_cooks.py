"""Simulated cooks: a kitchen and a yeast drawn from the prior, and what they read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from doughwright.forecast.calibrate._readings import likelihood_of
from doughwright.forecast.calibrate._unknowns import quantities_of
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.readings.taken import Taken, TakenJar, TakenProbe
from doughwright.recipe.read import read_recipe
from doughwright.recipe.types import At

RECIPE = read_recipe("""\
schema = 1
title = "Plain flat pie"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "500 g" },
  { item = "water", amount = "310 g" },
  { item = "salt, fine", amount = "10 g" },
  { item = "instant yeast", amount = "2 g" },
]
[[step]]
do = "mix"
mix = "dough"
for = "10 min"
[[step]]
do = "bulk"
for = "2 h"
at = "room"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "retard"
for = "24 h"
at = "fridge"
in = "lidded tub"
[[step]]
do = "temper"
for = "2 h"
at = "room"
[[step]]
do = "shape"
""").recipe


def jar(name: str, place: str | None, hours: Sequence[float], filled: float = 0.0) -> TakenJar:
    """A jar of 40 g that is yet to be read."""
    count = len(hours)
    at = At(place) if place is not None else None
    times = tuple(3600.0 * one for one in hours)
    return TakenJar(name, at, 0.04, 3600.0 * filled, times, (1.5,) * count, (0.03,) * count, (0.03,) * count)


ROOM = jar("room", "room", (1, 2, 3, 4, 5, 6))
COLD = jar("cold", "fridge", (6, 12, 24, 36))
PROBES = (TakenProbe(0.0, 24.0, "dough", 0.5), TakenProbe(7200.0, 21.0, "room", 0.5),
          TakenProbe(7200.0, 5.0, "fridge", 0.5))  # fmt: skip


def cook(
    seed: int, jars: Sequence[TakenJar], probes: Sequence[TakenProbe] = (), kitchen: Kitchen | None = None
) -> tuple[Taken, dict[str, float]]:
    """What a cook of this seed reads, with errors as assumed, and the truth (factors as logarithms)."""
    empty = Taken(tuple(jars), tuple(probes), (), ())
    likelihood = likelihood_of(RECIPE, "dough", kitchen, empty)
    rng = np.random.default_rng(seed)
    point = rng.standard_normal((likelihood.unknowns.count, 1))
    would = likelihood.predicted(point)
    by_name = {one.jar.name: shown[:, 0] for one, shown in zip(likelihood.jars, would.jars, strict=True)}
    read = []
    for one in jars:
        rise = by_name[one.name]
        rise = rise + rng.standard_normal(len(rise)) * np.hypot(one.spread, 0.03 * rise)
        read.append(replace(one, rise=tuple(rise.tolist())))
    rows = zip(probes, likelihood.thermometers.rows, would.degrees, strict=True)
    seen = [
        replace(one, degrees=float(shown[0] + rng.standard_normal() * row.within)) for one, row, shown in rows
    ]
    truth = quantities_of(likelihood.unknowns.drawn(point))
    return Taken(tuple(read), tuple(seen), (), ()), {name: float(value[0]) for name, value in truth.items()}
