"""How likely readings are in a kitchen: errors with heavy tails, and jars that may be in another unit."""

from __future__ import annotations

from dataclasses import dataclass
from math import log
from typing import Any

import numpy as np

from doughwright.forecast.calibrate._forward import DoughModel, JarModel
from doughwright.forecast.calibrate._unknowns import Batch, Unknowns, batch_of
from doughwright.kitchen.population import Drawn
from doughwright.kitchen.readings.jar import INCH
from doughwright.kitchen.readings.taken import TakenJar
from doughwright.science.inference.likelihood import student_t_log_lange_1989
from doughwright.science.yeast import Array

MODEL_RISE = 0.03
"""How far the model itself is off, as a share of the rise; assumed."""

MODEL_CORE = 0.5
"""How far the model's dough temperature is off [K], one standard deviation; assumed."""

MEAN_WITHIN = 0.2
"""How far the mean of a log is from that of the air round the dough [K]; assumed."""

# A whole jar may be written in another unit, or be of no use; how likely that is beforehand is assumed.
DOUGH = "dough"
AS_WRITTEN, INCHES, CENTIMETRES, USELESS = range(4)
BEFOREHAND = (0.97, 0.01, 0.01, 0.01)
FACTORS = (1.0, INCH, 1.0 / INCH)
WIDEST = 10.0
LEAST_RISE, MOST_RISE = 0.1, 4.0
"""The least rise, and the logarithm of the most, that a stand-in for the model may say."""


@dataclass(frozen=True)
class JarReadings:
    """A jar with its model; ``unknown`` is the name of what all its readings share."""

    jar: TakenJar
    model: JarModel
    unknown: str

    def spread(self) -> Array:
        """Each reading's own error with the model's, shape (readings, 1)."""
        rise = np.array(self.jar.rise)
        return np.asarray(np.hypot(np.array(self.jar.spread), MODEL_RISE * rise)[:, np.newaxis])

    def shown(self, rise: Array, shared: Array) -> Array:
        """What the jar would show for a rise: with its own share of the start's and the crown's error."""
        return np.asarray(rise + np.array(self.jar.common)[:, np.newaxis] * shared)

    def ways(self, shown: Array) -> Array:
        """Log likelihood of the jar taken in each way, shape (ways, lanes), its chance beforehand in it."""
        spread = self.spread()
        seen = np.array(self.jar.rise)[:, np.newaxis]
        found = [
            log(BEFOREHAND[way])
            + student_t_log_lange_1989(residual=seen * factor - shown, spread=spread * factor).sum(axis=0)
            + len(seen) * log(factor)
            for way, factor in enumerate(FACTORS)
        ]
        useless = np.full(shown.shape[1], log(BEFOREHAND[USELESS]) - len(seen) * log(WIDEST))
        return np.stack([*found, useless])


@dataclass(frozen=True, slots=True)
class Degrees:
    """Degrees read ``of`` the dough or a place, ``within`` their error [K]; ``time`` [h] in the dough later.

    ``time`` is ``None`` for a dough just mixed and for the mean of a place; ``said`` names it.
    """

    of: str
    degrees: float
    within: float
    time: float | None
    said: str


@dataclass(frozen=True)
class Thermometers:
    """All that was read off thermometers, and the run of the dough that those in it need."""

    rows: tuple[Degrees, ...] = ()
    model: DoughModel | None = None


@dataclass(frozen=True, slots=True)
class Predicted:
    """What readings would have been: of each jar (readings, lanes), of each thermometer (lanes,)."""

    jars: tuple[Array, ...]
    degrees: tuple[Array, ...]

    @property
    def lanes(self) -> int:
        """How many kitchens."""
        return int((*self.jars, *self.degrees)[0].shape[-1])


@dataclass(frozen=True)
class Likelihood:
    """The readings with their models; ``groups`` are jars that one run serves.

    ``turned`` are the directions in which it is called for points, where those are not the unknowns' own.
    """

    unknowns: Unknowns
    groups: tuple[tuple[JarReadings, ...], ...]
    thermometers: Thermometers
    turned: Array | None = None

    @property
    def jars(self) -> tuple[JarReadings, ...]:
        """Every jar."""
        return tuple(jar for group in self.groups for jar in group)

    def __call__(self, points: Array) -> Array:
        """Log likelihood of points (free unknowns, lanes), shape (lanes,)."""
        return self.of(self.predicted(self.turned_back(points)))

    def turned_back(self, points: Array) -> Array:
        """Points in the unknowns' own directions."""
        return points if self.turned is None else np.asarray(self.turned @ points)

    def joined(self, predicted: Predicted) -> Array:
        """What the readings would have been as rows, rises in their logarithm; shape (readings, lanes)."""
        jars = [np.log(np.maximum(shown, LEAST_RISE)) for shown in predicted.jars]
        return np.concatenate([*jars, *(one[np.newaxis] for one in predicted.degrees)])

    def split(self, rows: Array) -> Predicted:
        """The rows of ``joined`` as readings."""
        jars, at = [], 0
        for one in self.jars:
            jars.append(np.exp(np.minimum(rows[at : at + len(one.jar.rise)], MOST_RISE)))
            at += len(one.jar.rise)
        return Predicted(tuple(jars), tuple(rows[at:]))

    def relative(self, predicted: Predicted) -> Array:
        """What the readings would have been, in their own errors; shape (readings, lanes)."""
        jars = [shown / one.spread() for one, shown in zip(self.jars, predicted.jars, strict=True)]
        rows = zip(self.thermometers.rows, predicted.degrees, strict=True)
        return np.concatenate([*jars, *((shown / row.within)[np.newaxis] for row, shown in rows)])

    def predicted(self, points: Array) -> Predicted:
        """What the readings would have been at these points."""
        lanes, drawn = points.shape[1], self.unknowns.drawn(points)
        batch, shared = batch_of(drawn), self.unknowns.shared(points)
        jars: list[Array] = []
        entered: Array | None = None
        for group in self.groups:
            course = group[0].model.runner.run(batch, lanes)
            entered = np.broadcast_to(np.asarray(course.entered), (lanes,))
            jars += [one.shown(one.model.rise(course), shared[one.unknown]) for one in group]
        return Predicted(tuple(jars), self._degrees(drawn, batch, entered))

    def of(self, predicted: Predicted) -> Array:
        """Log likelihood of the readings beside what they would have been, shape (lanes,)."""
        total = np.zeros(predicted.lanes)
        for one, shown in zip(self.jars, predicted.jars, strict=True):
            total += np.logaddexp.reduce(one.ways(shown), axis=0)
        for row, shown in zip(self.thermometers.rows, predicted.degrees, strict=True):
            total += student_t_log_lange_1989(residual=row.degrees - shown, spread=np.array(row.within))
        return total

    def _degrees(self, drawn: Drawn, batch: Batch, entered: Array | None) -> tuple[Array, ...]:
        read, lanes = self.thermometers, len(drawn.miss)
        if not read.rows:
            return ()
        off = drawn.columns["thermometer"]
        core = np.zeros((0, lanes))
        if read.model is not None:
            course = read.model.runner.run(batch, lanes)
            entered, core = np.broadcast_to(np.asarray(course.entered), (lanes,)), read.model.core(course)
        later = iter(core)
        found: list[Array] = []
        for row in read.rows:
            if row.of != DOUGH:
                place: Any = drawn.surroundings.place(row.of).value
                found.append(place - off)
            elif row.time is None and entered is not None:
                found.append(entered - off)
            else:
                found.append(next(later) - off)
        return tuple(np.broadcast_to(one, (lanes,)) for one in found)
