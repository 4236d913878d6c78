"""By what two doughs are the same: rise, sugar, hours cold and warm, tightness; how near is near enough."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast._waits import COLDER_THAN
from doughwright.forecast.many import Many
from doughwright.forecast.results import Run
from doughwright.science.parameters import Parameters

Array = NDArray[np.float64]

RISE, SUGAR, COLD, WARM, TIGHTNESS = range(5)
NAMES = ("rise", "sugar left", "hours cold", "hours warm", "tightness")
UNITS = ("ratio", "percent", "h", "h", "ratio")

AS_COLD, AS_WARM = 4.0, 20.0
"""Hours cold are counted as if all were at the one [degC], hours warm as if all were at the other."""

# How far apart still is the same: of the rise and the hours a share, but at least so many hours.
SAME_RISE, SAME_SUGAR, SAME_TIGHTNESS = 0.04, 0.4, 0.05
SAME_HOURS, LEAST_COLD, LEAST_WARM = 0.05, 0.5, 0.25


EXACT = 0.06
"""Rise and hours are met to the point where they are off by no more, in steps of what still is the same."""
TO_THE_POINT = (RISE, COLD, WARM)


@dataclass(frozen=True, slots=True)
class Wanted:
    """The dough that is wanted: its measures and how far from each still is the same, shape (5,).

    ``counts`` says which of them count; the others are never off. Sugar does not count where the recipe is
    not ripe in its own kitchen.
    """

    values: Array
    near: Array
    counts: NDArray[np.bool_]

    def off(self, values: Array) -> Array:
        """How far measures, shape (..., 5), are off, in steps of what still is the same."""
        return np.where(self.counts, (values - self.values) / self.near, 0.0)


def wanted(own: Array, *, ripe: bool, low: float, high: float) -> Wanted:
    """What is wanted from the measures in the own kitchen, shape (5,); the target's middle where not ripe."""
    values = own.copy()
    if not ripe:
        values[RISE] = (low + high) / 2.0
    near = np.array(
        [
            SAME_RISE * values[RISE],
            SAME_SUGAR,
            max(SAME_HOURS * values[COLD], LEAST_COLD),
            max(SAME_HOURS * values[WARM], LEAST_WARM),
            SAME_TIGHTNESS,
        ]
    )
    counts = np.ones(5, dtype=bool)
    counts[SUGAR] = ripe
    return Wanted(values, near, counts)


def exact(off: Array) -> bool:
    """Whether rise and hours are met to the point: so that a fit and the way back from it meet."""
    return bool(np.max(np.abs(off[list(TO_THE_POINT)])) <= EXACT)


def measured(ran: Many, parameters: Parameters) -> Array:
    """The measures of many doughs when they are judged, shape (lanes, 5)."""
    # A dough of several mix steps is there before hour 0, which is the end of the last.
    cold, warm = hours_at(np.maximum(ran.time, 0.0), ran.mean, parameters)
    judged = ran.judged
    return np.stack([judged.rise, judged.sugar, cold, warm, judged.tightness], axis=1)


def measured_run(run: Run, parameters: Parameters) -> Array:
    """The measures of one dough's days, shape (5,)."""
    time, mean = np.array(run.series.time), np.array(run.series.mean)
    kept = (time >= 0.0) & (time <= run.judged_at + 1e-9)
    cold, warm = hours_at(time[kept][:, np.newaxis], mean[kept][:, np.newaxis], parameters)
    judged = run.judged
    return np.array([judged.rise, judged.sugar, cold[0], warm[0], judged.tightness])


def hours_at(time: Array, mean: Array, parameters: Parameters) -> tuple[Array, Array]:
    """Hours cold and hours warm, shape (lanes,), from times [h] and temperatures [degC], (points, lanes).

    Each hour counts by how fast the flour's enzymes work then: as hours at 4 degC while the dough is colder
    than 12 degC, as hours at 20 degC while it is warmer.
    """
    q10 = parameters.maltose_q10
    speed = q10 ** ((mean - AS_WARM) / 10.0)
    spent = 0.5 * (speed[:-1] + speed[1:]) * np.diff(time, axis=0)
    low, high = np.minimum(mean[:-1], mean[1:]), np.maximum(mean[:-1], mean[1:])
    colder = np.clip((COLDER_THAN - low) / np.maximum(high - low, 1e-9), 0.0, 1.0)
    to_cold = q10 ** ((AS_WARM - AS_COLD) / 10.0)
    return np.sum(spent * colder, axis=0) * to_cold, np.sum(spent * (1.0 - colder), axis=0)
