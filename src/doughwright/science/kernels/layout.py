"""What a kernel takes and gives: the order of the rows of its arrays, and how time is cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from doughwright.science.yeast import Array, Real

INPUTS = (
    "gassing", "growth", "lag", "at_mixing",
    "hold", "air", "volume", "pressure", "ceiling", "retention",
    "gassing_minimum", "gassing_norm", "growth_rate", "growth_lag", "growth_cap",
    "maltose_rate", "maltose_limit", "sugar_half", "gas_yield", "warming", "slack_25", "death",
    "mass", "unrisen", "skin", "side", "heat", "conductivity", "slope", "gas_conductivity", "air_share",
    "film", "resistance",
    "hours", "mean", "swing", "period", "phase", "daily", "daily_phase",
    "stop",
)  # fmt: skip
"""What differs from lane to lane, a row each.

The dough to its yeast (as in Medium), its gas (as in GasBasis; ``hold`` [mL] its water times what that
dissolves and the pressure), parameters, ``warming`` [W/kg per mL/h of gas per 100 g flour], ``slack_25``
[1/h]; the piece (as in Body, SI) and its heat [SI]; ``film`` [W/(m2 K)] at its skin and ``resistance`` [K/W]
outside that; the ``hours`` it waits, in air of ``mean`` [degC] with a sine of ``swing`` [K], ``period`` [h]
and ``phase`` [rad at the start] and one of ``daily`` [K] over 24 h; where it stops [degC or 1].
"""

STATE = ("temperature", "yeast", "sugar", "maltose", "gas", "made", "leaked", "woken", "grown")
"""The state of a dough in each shell: degC, then as in Ferment."""

ROWS = (
    "time", "core", "edge", "mean", "rise", "gas", "dissolved", "sugar", "tightness", "made", "leaked",
)  # fmt: skip
"""What is written down at a sample: h since the wait's start, degC, ratio, mL per 100 g flour, % of flour."""

StopKind = Literal["core", "rise"]

HOURS_A_DAY = 24.0


@dataclass(frozen=True, slots=True)
class Stepping:
    """How time is cut [s]: two implicit steps of ``first`` after each change, then each ``growth`` times the
    last, up to ``longest``; past ``settling`` in one place a dough that makes little gas takes steps in which
    it makes ``share`` [mL per 100 g flour], up to ``slowest``; a cycle is cut in twelve.
    """

    first: float = 30.0
    growth: float = 1.4
    longest: float = 299.0
    settling: float = 5400.0
    slowest: float = 299.0
    share: float = 3.0

    def next(self, last: Array, done: Array, pace: Array, swing: Array, period: Array) -> Array:
        """Lengths [s] after ones of ``last``, ``done`` [s] after a change; ``pace`` is gas [mL/h]."""
        slow = np.minimum(
            self.slowest, np.maximum(self.longest, 3600.0 * self.share / np.maximum(pace, 1e-9))
        )
        settled = (done >= self.settling) & (self.slowest > self.longest)
        limit = np.where(settled, slow, self.longest)
        limit = np.where(swing != 0.0, np.minimum(limit, period * 300.0), limit)
        return np.asarray(np.minimum(last * self.growth, limit))


@dataclass(frozen=True, slots=True)
class Waited:
    """What came of a wait: ``state`` (9, nodes, lanes), ``tightness`` (lanes,), the hours it ``took``,
    ``rows`` (samples, 11, lanes), and where asked the states at the samples (samples, 9, nodes, lanes).
    """

    state: Array
    tightness: Array
    took: Array
    rows: Array
    snapshots: Array | None = None


def fit_lanes(*, value: Real, lanes: int) -> Array:
    """One value a lane.

    a single number is that of every lane

    Parameters
    ----------
    value : float or array
        one for all or one for each [any unit], scalar or (lanes,)
    lanes : int
        how many kitchens [1], scalar

    Returns
    -------
    array
        shape (lanes,)
    """
    found = np.asarray(value, dtype=float)
    if found.shape == (lanes,):
        return np.ascontiguousarray(found)
    fitted = np.empty(lanes)
    fitted[...] = found
    return fitted
