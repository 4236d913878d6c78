"""Functions of temperature as tables every eighth of a degree, linear between: what the kernels look up."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.gas import solubility_crc
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array, Real

COLDEST, HOTTEST, STEP = -12.0, 70.0, 0.125
"""Ends of the tables and their step [degC]; an end holds beyond itself."""

SHARED = (
    "gassing_slope", "gassing_maximum", "growth_minimum", "growth_optimum", "growth_maximum", "maltose_q10",
    "tightness_q10",
)  # fmt: skip
"""Parameters that shape the tables: the same in every lane."""


@dataclass(frozen=True, slots=True)
class Tables:
    """The curves as tables; ``rows`` has a line each STEP and five columns.

    1 - exp(c (T - Tx)) of gassing; growth over its rate and (T - Tmin)^2 [1/K2]; the temperature coefficient
    of maltose; solubility [mL/mL]; the temperature coefficient of slackening. What varies from kitchen to
    kitchen stays outside, and lines between rows lie close to the formulas.
    """

    rows: Array
    growth_minimum: float
    growth_maximum: float

    def look(self, temperature: Real, column: int) -> Array:
        """A column at temperatures [degC], linear between rows."""
        at = (np.clip(temperature, COLDEST, HOTTEST) - COLDEST) / STEP
        low = np.minimum(at.astype(np.int64), len(self.rows) - 2)
        values = self.rows[:, column]
        return np.asarray(values[low] + (at - low) * (values[low + 1] - values[low]))

    def norm(self, parameters: Parameters) -> Real:
        """What makes gassing 1 at 30 degC [1/K]."""
        at_30 = self.look(np.array(30.0), 0)
        return np.asarray(1.0 / ((30.0 - parameters.gassing_minimum) * at_30))[()]

    def gassing(self, temperature: Array, parameters: Parameters) -> Array:
        """Gassing over that at 30 degC [1]."""
        above = np.maximum(temperature - parameters.gassing_minimum, 0.0)
        root = above * self.look(temperature, 0) * self.norm(parameters)
        return np.asarray(root * root)

    def growth(self, temperature: Array, parameters: Parameters) -> Array:
        """Growth rate without salt [1/h]."""
        span = self.growth_maximum - self.growth_minimum
        above = np.minimum(np.maximum(temperature - self.growth_minimum, 0.0), span)
        return np.asarray(parameters.growth_optimum_rate * self.look(temperature, 1) * above * above)

    def maltose(self, temperature: Array, parameters: Parameters) -> Array:
        """Rate at which maltose begins to form [% of flour/h]."""
        return np.asarray(parameters.maltose_rate * self.look(temperature, 2))

    def solubility(self, temperature: Real) -> Array:
        """Carbon dioxide in water [mL/mL]."""
        return self.look(temperature, 3)

    def slackening(self, temperature: Real, parameters: Parameters) -> Array:
        """Rate at which a worked dough slackens [1/h]."""
        return np.asarray(60.0 / parameters.tightness_25 * self.look(temperature, 4))


def tables(parameters: Parameters) -> Tables:
    """The tables of a parameter set; raises ``OutOfRangeError`` where their shape differs by lane.

    Parameters
    ----------
    parameters : Parameters
        the parameter set [see its table]; the rows named in SHARED are single numbers

    Returns
    -------
    Tables
        made once for each shape
    """
    for name in SHARED:
        value = getattr(parameters, name)
        if not isinstance(value, float) and np.ndim(value) != 0:
            raise OutOfRangeError(
                Fault(
                    f'the parameter "{name}" shapes the tables of temperature',
                    wanted="one number for every kitchen",
                    found="one for each",
                    try_="Vary another parameter",
                )
            )
    return _tables(*(float(getattr(parameters, name)) for name in SHARED))


@lru_cache(maxsize=32)
def _tables(*shape: float) -> Tables:
    slope, top, low, best, high, maltose_q10, slack_q10 = shape
    t: Array = COLDEST + STEP * np.arange(round((HOTTEST - COLDEST) / STEP) + 1, dtype=float)
    span, rest = best - low, high - best
    above = np.minimum(np.maximum(t - low, 0.0), high - low)
    below = (span * (span - 2.0 * rest)) * above - span * span * (span - rest)
    columns = (
        -np.expm1(slope * np.minimum(t - top, 0.0)),
        (above - (high - low)) / below,
        maltose_q10 ** ((t - 30.0) / 10.0),
        solubility_crc(temperature=t),
        slack_q10 ** ((t - 25.0) / 10.0),
    )
    rows = np.ascontiguousarray(np.stack(columns, axis=1))
    rows.setflags(write=False)
    return Tables(rows, low, high)
