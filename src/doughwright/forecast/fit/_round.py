"""A design as a recipe would say it: hours to five minutes, half degrees, yeast that the scale can weigh."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast.fit._levers import Designs

Array = NDArray[np.float64]

FIVE_MINUTES = 1.0 / 12.0
HALF_DEGREE = 0.5
WEIGHABLE = 0.10
"""Yeast can be weighed where half a step of the scale is at most this share of it."""
FINE = 0.0125
"""Yeast that this scale cannot weigh is told to about this share: it is stirred into water and weighed so."""
_NICE = (1.0, 2.0, 5.0, 10.0)


def yeast_step(grams: float, scale: float) -> float:
    """The step [g] to which so much yeast is told on a scale that shows steps of ``scale`` [g]."""
    if 0.5 * scale <= WEIGHABLE * grams * (1.0 + 1e-9):
        return scale
    finest = 2.0 * FINE * grams
    power = 10.0 ** math.floor(math.log10(finest))
    return max(one * power for one in _NICE if one * power <= finest * (1.0 + 1e-9))


def yeast_near(factor: float, grams: float, scale: float) -> tuple[float, ...]:
    """Factors on ``grams`` of yeast, as written, that can be weighed: the next below and the next above."""
    if abs(factor - 1.0) < 1e-3 or grams <= 0.0:
        return (1.0,)
    wanted = factor * grams
    step = yeast_step(wanted, scale)
    near = [math.floor(wanted / step + 1e-6) * step, math.ceil(wanted / step - 1e-6) * step]
    return tuple(dict.fromkeys(one / grams for one in near if one > 0.0))


def nearest_first(near: Sequence[float], factor: float) -> list[float]:
    """Factors on the yeast, the one first that changes least of what is wanted."""
    return sorted(near, key=lambda one: abs(math.log(one / factor)))


def rounded(designs: Designs, written: Designs) -> Designs:
    """Every design with its times and degrees as they can be told; its yeast is left.

    What differs from the recipe as ``written`` by less than is told stays as it is written.
    """
    hours = [_hours(one, written.hours[0]) for one in designs.hours]
    degrees = [_degrees(float(one), float(written.degrees[0])) for one in designs.degrees]
    return replace(designs, hours=np.array(hours).reshape(designs.hours.shape), degrees=np.array(degrees))


def weighed(design: Designs, *, grams: float, scale: float) -> Designs:
    """One design with the yeast next below and next above as it can be told, the nearer first."""
    factor = float(design.yeast[0])
    near = nearest_first(yeast_near(factor, grams, scale), factor)
    return replace(design.take([0] * len(near)), yeast=np.array(near))


def _hours(hours: Array, written: Array) -> Array:
    told = np.maximum(np.round(hours / FIVE_MINUTES), 1.0) * FIVE_MINUTES
    return np.where(np.abs(hours - written) < FIVE_MINUTES / 2.0, written, told)


def _degrees(degrees: float, written: float) -> float:
    if abs(degrees - written) < HALF_DEGREE / 2.0:
        return written
    return round(degrees / HALF_DEGREE) * HALF_DEGREE
