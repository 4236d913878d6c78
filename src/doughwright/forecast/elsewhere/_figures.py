"""Figures of many kitchens: shares with their intervals, and the range of nine kitchens of ten."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from doughwright.figures import Figure
from doughwright.forecast.elsewhere.results import NORMAL_90, Shares
from doughwright.forecast.printed import State

Array = NDArray[np.float64]

STATES: tuple[State, ...] = ("young", "ripe", "past")
"""The states by their codes."""
RIPE = 1


def shares(state: NDArray[np.int8]) -> Shares:
    """The three shares [%], each with a 90 % interval (Wilson's, as for kitchens drawn by chance)."""
    young, ripe, past = (_share(int(np.sum(state == number)), len(state)) for number in range(len(STATES)))
    return Shares(young, ripe, past)


def _share(there: int, of: int) -> Figure:
    z, p = NORMAL_90, there / of
    middle = (p + z * z / (2 * of)) / (1 + z * z / of)
    far = z / (1 + z * z / of) * np.sqrt(p * (1 - p) / of + z * z / (4 * of * of))
    return Figure(100.0 * p, "percent", 100.0 * float(middle - far), 100.0 * float(middle + far))


def spread(values: Array, unit: str) -> Figure:
    """The middle kitchen's, and the range of nine kitchens of ten."""
    low, middle, high = np.quantile(values, [0.05, 0.5, 0.95])
    return Figure(float(middle), unit, float(low), float(high))
