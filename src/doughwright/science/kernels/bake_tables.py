"""The oven's functions of temperature as tables every half degree, linear between, for its kernel."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from doughwright.science.kernels.bake_curves import FACE_HOTTEST, BakeFormulas
from doughwright.science.yeast import Array, Real

COLDEST, HOTTEST, STEP = 0.0, FACE_HOTTEST, 0.5
"""Ends of the tables and their step [degC]; an end holds beyond itself."""


@dataclass(frozen=True, slots=True)
class BakeTables:
    """The curves of ``BakeFormulas`` as tables; ``rows`` has a line each STEP and four columns.

    Saturation [Pa], carrying [W/(m K)], browning and gelatinising [1/s]. The latent heat is a cubic and the
    binding of water a logarithm, which cost no more than a table of them would.
    """

    rows: Array

    def _look(self, temperature: Real, column: int) -> Array:
        """A column at temperatures [degC], linear between rows."""
        at = (np.clip(temperature, COLDEST, HOTTEST) - COLDEST) / STEP
        low = np.minimum(at.astype(np.int64), len(self.rows) - 2)
        values = self.rows[:, column]
        return np.asarray(values[low] + (at - low) * (values[low + 1] - values[low]))

    def saturation(self, temperature: Real) -> Array:
        """Pressure of saturated steam [Pa] at [degC]."""
        return self._look(temperature, 0)

    def latent(self, temperature: Real) -> Array:
        """Latent heat [J/kg] at [degC]."""
        return BakeFormulas().latent(temperature)

    def carrying(self, temperature: Real) -> Array:
        """What steam carries in air at 101325 Pa, D L drho/dT [W/(m K)], at [degC]."""
        return self._look(temperature, 1)

    def above_boiling(self, binding: Array) -> Array:
        """ln(1 + B) of how strongly water is bound [1]."""
        return BakeFormulas().above_boiling(binding)

    def browning(self, temperature: Real) -> Array:
        """Rate of browning of a plain dough [1/s] at [degC]."""
        return self._look(temperature, 2)

    def gelatinising(self, temperature: Real) -> Array:
        """Rate at which starch sets [1/s] at [degC]."""
        return self._look(temperature, 3)


@cache
def bake_tables() -> BakeTables:
    """The tables, made once.

    Returns
    -------
    BakeTables
        of the formulas, which no parameter changes
    """
    t: Array = COLDEST + STEP * np.arange(round((HOTTEST - COLDEST) / STEP) + 1, dtype=float)
    exact = BakeFormulas()
    columns = (exact.saturation(t), exact.carrying(t), exact.browning(t), exact.gelatinising(t))
    rows = np.ascontiguousarray(np.stack(columns, axis=1))
    rows.setflags(write=False)
    return BakeTables(rows)
