"""What a measurement would buy before it is made: how much narrower an interval would be, on the mean."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.yeast import Array

NINETY = 0.9
LEAST_EFFECTIVE = 25.0
"""Below so many effective draws an interval's ends are not to be trusted."""


@dataclass(frozen=True, slots=True)
class Narrowed:
    """The width of an interval ``before`` and, on the mean, ``after`` a measurement.

    ``reduction`` is 1 - after / before with its standard ``error``; ``effective`` the draws that the least
    informed of the intervals rested on.
    """

    before: float
    after: float
    reduction: float
    error: float
    effective: float


def expected_narrowing_raiffa_1961(
    *,
    quantity: Array,
    measured: Array,
    noise: Array,
    generator: np.random.Generator,
    readings: int = 256,
) -> Narrowed:
    """How much narrower the 90 % interval of a quantity would be if something were measured.

    E_y[width(q | y)], y = m + noise of a draw; draws weighted by the likelihood of y

    Parameters
    ----------
    quantity : array
        draws of what is to be known [any], shape (draws,)
    measured : array
        what the measurement would show in the same draws, were it exact [any], shape (draws,) or
        (values, draws) for several values read at once
    noise : array
        standard deviation of each value's error [as measured], scalar or shape (values,)
    generator : Generator
        where chance comes from [-]
    readings : int
        simulated measurements to average over [-]

    Returns
    -------
    Narrowed
        widths [as quantity] and the expected reduction [1]

    Raises
    ------
    OutOfRangeError
        too few draws for an error so small, or none

    Notes
    -----
    The draw that a measurement is simulated from is left out of its own answer. A reduction may come out
    a little below 0 where a measurement says nothing.

    References
    ----------
    1. Raiffa & Schlaifer 1961, Applied Statistical Decision Theory (pre-posterior analysis).
    """
    values, spread = np.atleast_2d(measured), np.atleast_1d(np.asarray(noise, dtype=np.float64))
    count = quantity.size
    if count < 100 or values.shape[1] != count or np.any(spread <= 0.0):
        wanted = "at least 100 draws of both, and an error above 0"
        raise OutOfRangeError(Fault("a measurement to be simulated", wanted=wanted, found=f"{count} draws"))
    order = np.argsort(quantity, kind="stable")
    sorted_quantity, values = quantity[order], values[:, order]
    chosen = generator.permutation(count)[:readings]
    errors = generator.standard_normal((len(values), len(chosen))) * spread[:, np.newaxis]
    shown = values[:, chosen] + errors
    widths, effective = _widths(sorted_quantity, values, shown, spread, chosen)
    before = _width(sorted_quantity, np.full(count, 1.0 / count))
    if np.median(effective) < LEAST_EFFECTIVE:
        wanted, found = "more draws for an error so small", f"{np.median(effective):.0f} effective"
        raise OutOfRangeError(Fault("a measurement to be simulated", wanted=wanted, found=found))
    ratio = widths / before
    error = float(ratio.std(ddof=1) / np.sqrt(len(ratio)))
    return Narrowed(before, float(widths.mean()), float(1.0 - ratio.mean()), error, float(effective.min()))


def _widths(
    quantity: Array, values: Array, shown: Array, spread: Array, chosen: NDArray[np.int64]
) -> tuple[Array, Array]:
    widths, effective = np.empty(len(chosen)), np.empty(len(chosen))
    for index, own in enumerate(chosen.tolist()):
        off = (values - shown[:, index : index + 1]) / spread[:, np.newaxis]
        squares = (off * off).sum(axis=0)
        weights = np.exp(-0.5 * (squares - squares.min()))
        weights[own] = 0.0
        total = weights.sum()
        weights = weights / total if total > 0.0 else np.full(len(weights), 1.0 / len(weights))
        widths[index] = _width(quantity, weights)
        effective[index] = 1.0 / np.square(weights).sum()
    return widths, effective


def _width(quantity: Array, weights: Array) -> float:
    """Between the 5th and the 95th percentile of sorted values with these weights."""
    middle = np.cumsum(weights) - 0.5 * weights
    low, high = np.interp([0.5 - 0.5 * NINETY, 0.5 + 0.5 * NINETY], middle, quantity)
    return float(high - low)
