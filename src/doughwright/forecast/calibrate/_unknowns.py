"""What is not known of a kitchen, its yeast and a batch: a standard normal each, and what each one does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from doughwright.forecast._amounts import Changes, Weighing
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.inputs import HEADING_OF, THERMOMETER
from doughwright.kitchen.learnt import QUANTITIES, is_factor
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.population import Drawn, Input, Mixed, draw, kitchen_inputs
from doughwright.science.parameters import Parameters
from doughwright.science.sampling.normal import normal_cdf, normal_quantile
from doughwright.science.yeast import Array

WIDEST = 6.0
"""Standard normals beyond this are taken as this: their probability is a number below 1 still."""


@dataclass(frozen=True, slots=True)
class Batch:
    """Kitchens, their yeast and what was put into the dough in each, fields of shape (lanes,)."""

    kitchen: Surroundings
    parameters: Parameters
    changes: Changes
    weighing: Weighing


@dataclass(frozen=True)
class Unknowns:
    """The unknowns of a kitchen and a batch: the ``inputs`` of the kitchen's doubt, then ``others`` by name.

    Points are standard normals, shape (free, lanes): only those numbered ``free`` are varied, the rest of
    the inputs stay in their middle.
    """

    kitchen: Surroundings
    inputs: tuple[Input, ...]
    others: tuple[str, ...]
    protein: float | None
    free: tuple[int, ...]

    @property
    def count(self) -> int:
        """How many there are, free or held."""
        return len(self.inputs) + len(self.others)

    def full(self, points: Array) -> Array:
        """The points with those held in their middle, shape (count, lanes)."""
        whole = np.zeros((self.count, points.shape[1]))
        whole[list(self.free)] = points
        return whole

    def drawn(self, points: Array) -> Drawn:
        """The kitchens of these points."""
        z = np.clip(self.full(points)[: len(self.inputs)], -WIDEST, WIDEST)
        return draw(self.kitchen, normal_cdf(value=z).T, self.inputs, protein=self.protein)

    def shared(self, points: Array) -> dict[str, Array]:
        """The others by name."""
        return dict(zip(self.others, self.full(points)[len(self.inputs) :], strict=True))


def batch_of(drawn: Drawn) -> Batch:
    """What a dough is made with in the kitchens drawn."""
    weighing: Any = drawn.weighing
    return Batch(drawn.surroundings, drawn.parameters, Changes(miss=drawn.miss), Weighing(**weighing))


def quantities_of(drawn: Drawn) -> dict[str, Array]:
    """What can be learnt, on its scale (a factor's logarithm), in the kitchens drawn; shape (lanes,)."""
    kitchen = drawn.surroundings
    found: dict[str, Array] = {}
    for name in QUANTITIES:
        if name == "fridge":
            value: Any = kitchen.place("fridge").value
        elif name == "room":
            value = kitchen.room.value
        elif name in drawn.columns:
            value = drawn.columns[name]
        else:
            continue
        value = np.broadcast_to(np.asarray(value, dtype=np.float64), drawn.miss.shape)
        found[name] = np.log(value) if is_factor(name) else value
    return found


def unknowns(
    kitchen: Kitchen | None,
    *,
    mixed: Mixed,
    protein: float | None,
    thermometer: bool,
    others: Sequence[str],
) -> Unknowns:
    """All unknowns of a kitchen, every one free; ``thermometer`` where something was read off one."""
    base = surroundings(kitchen)
    inputs = kitchen_inputs(base, mixed=mixed)
    if thermometer and all(one.name != "thermometer" for one in inputs):
        heading, source = HEADING_OF["thermometer"], THERMOMETER.source
        inputs += (Input("thermometer", heading, "K", "assumed", source, "kitchen", _off),)
    inputs = tuple(_rising(one) for one in inputs)
    count = len(inputs) + len(others)
    return Unknowns(base, inputs, tuple(others), protein, tuple(range(count)))


_GRID = (np.arange(4096) + 0.5) / 4096


def _rising(one: Input) -> Input:
    """The same distribution with values that rise with their probability, so that near points are alike."""
    values = one.quantile(_GRID)
    if np.all(np.diff(values) >= 0.0):
        return one
    ordered = np.sort(values)
    return replace(one, quantile=lambda u: np.interp(u, _GRID, ordered))


def _off(probability: Array) -> Array:
    return THERMOMETER.middle + THERMOMETER.spread * normal_quantile(probability=probability)


def held(unknown: Unknowns, moved: Mapping[int, float], least: float) -> Unknowns:
    """The unknowns with only those free that move a reading by ``least`` of its error, and all others."""
    own = len(unknown.inputs)
    # What was learnt before is drawn with its correlations: one of it moves by way of another.
    kept = {n for n, one in enumerate(unknown.inputs) if one.whose == "learnt"} | set(
        range(own, unknown.count)
    )
    free = tuple(number for number in unknown.free if number in kept or moved.get(number, 0.0) >= least)
    return replace(unknown, free=free)
