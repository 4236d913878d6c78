"""What the author of a recipe can move, as a point of the unit cube: yeast, hours, dough temperature."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast._amounts import Changes
from doughwright.forecast._waits import Wait, waits_of
from doughwright.forecast.redesign.results import Limits
from doughwright.recipe.model import Recipe

Array = NDArray[np.float64]
Name = Literal["yeast", "room", "cold", "temper", "dough_temperature"]

NAMES: dict[Name, str] = {
    "yeast": "yeast",
    "room": "hours at room temperature",
    "cold": "hours in the fridge",
    "temper": "hours out of the fridge before it is judged",
    "dough_temperature": "dough temperature",
}
"""Each lever as a cook says it."""

QUARTER = 0.25
"""Hours are told to the quarter."""


@dataclass(frozen=True, slots=True)
class Lever:
    """One thing to move, from ``low`` to ``high``: a factor on the yeast, hours, or degC; ``now`` as written.

    ``waits`` are the waits whose hours it moves, all by the same factor.
    """

    name: Name
    low: float
    high: float
    now: float
    waits: tuple[Wait, ...] = ()

    def value(self, share: Array) -> Array:
        """What a coordinate of the unit cube means; yeast goes by equal factors."""
        if self.name == "yeast":
            return np.asarray(self.low * (self.high / self.low) ** share)
        return np.asarray(self.low + (self.high - self.low) * share)

    def share(self, value: float) -> float:
        """The coordinate of a value, the nearest in range."""
        at = float(np.clip(value, self.low, self.high))
        if self.name == "yeast":
            return float(np.log(at / self.low) / np.log(self.high / self.low))
        return (at - self.low) / (self.high - self.low)


def levers_of(
    recipe: Recipe, dough: str, *, limits: Limits, yeast: float, aimed: float | None
) -> tuple[Lever, ...]:
    """The levers of a recipe within a cook's limits.

    ``yeast`` [g] is what is weighed into the dough itself; ``aimed`` [degC] the dough temperature that
    readers aim for, if they do. A wait that ends by the dough itself has no hours to move.
    """
    waits = [one for one in waits_of(recipe, dough) if recipe.steps[one.number].until is None]
    cold = [index for index, one in enumerate(waits) if one.cold]
    first, last = (cold[0], cold[-1]) if cold else (len(waits), len(waits))
    parts: dict[Name, list[Wait]] = {
        "room": [one for one in waits[:first] if not one.cold],
        "cold": [one for one in waits if one.cold],
        "temper": [one for one in waits[last + 1 :] if not one.cold],
    }
    found = [_hours(name, part, getattr(limits, name)) for name, part in parts.items() if part]
    if yeast > 0.0:
        low, high = limits.yeast or (yeast / 4.0, yeast * 4.0)
        found.insert(0, Lever("yeast", low / yeast, high / yeast, 1.0))
    if aimed is not None:
        found.append(Lever("dough_temperature", *(limits.dough_temperature or (18.0, 28.0)), aimed))
    return tuple(one for one in found if one.high > one.low)


def _hours(name: Name, waits: Sequence[Wait], limit: tuple[float, float] | None) -> Lever:
    """Hours of like waits: within the limit given, else the document's own range, else a usual one."""
    now = sum(one.hours for one in waits)
    own = sum(one.low for one in waits), sum(one.high for one in waits)
    usual = (min(now / 4.0, 1.0), max(2.0 * now, 2.0))
    low, high = limit or (own if own[0] < own[1] else usual)
    return Lever(name, low, high, now, tuple(waits))


def changes_of(levers: Sequence[Lever], points: Array) -> Changes:
    """What points of the unit cube, shape (lanes, levers), mean for each lane's recipe."""
    values = {lever.name: lever.value(points[:, index]) for index, lever in enumerate(levers)}
    hours = {number: each for lever in levers for number, each in hours_of(lever, values[lever.name]).items()}
    return Changes(
        yeast=values.get("yeast", 1.0),
        hours=hours,
        dough_temperature=values.get("dough_temperature"),
    )


def hours_of(lever: Lever, total: Array | float) -> dict[int, Array | float]:
    """The hours of each of a lever's waits, in the proportion they are written in."""
    if not lever.waits:
        return {}
    shares = [one.hours / lever.now if lever.now > 0.0 else 1.0 / len(lever.waits) for one in lever.waits]
    return {one.number: total * share for one, share in zip(lever.waits, shares, strict=True)}


def total_hours(levers: Sequence[Lever], waits: Sequence[Wait], points: Array) -> Array:
    """Hours of all waits of each point, those that no lever moves too."""
    moved = {one.number for lever in levers for one in lever.waits}
    fixed = sum(one.hours for one in waits if one.number not in moved)
    free = [lever.value(points[:, index]) for index, lever in enumerate(levers) if lever.waits]
    return np.asarray(sum(free, np.full(len(points), fixed)))
