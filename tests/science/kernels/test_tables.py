"""The functions of temperature as tables stay close to their formulas, and so does what comes of them."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import OutOfRangeError
from doughwright.science.curves import FORMULAS
from doughwright.science.heat import Shape
from doughwright.science.kernels import twin
from doughwright.science.kernels.layout import INPUTS, ROWS
from doughwright.science.kernels.tables import tables
from doughwright.science.parameters import Parameters
from tests.science.kernels._doughs import STEPPINGS, TABLES, draw

P = Parameters()
FINE = np.linspace(-11.9, 69.9, 40001)
# In a row, what differs by less than this is nothing a cook could see [the units of ROWS].
SMALL = np.array([1.0, 10.0, 10.0, 10.0, 1.0, 20.0, 20.0, 1.0, 1.0, 20.0, 20.0])


@pytest.mark.twin
@pytest.mark.parametrize(
    ("name", "within"), [("maltose", 1e-4), ("slackening", 1e-4), ("gassing", 5e-4), ("growth", 5e-4)]
)
def test_a_table_is_close_to_its_formula(name: str, within: float) -> None:
    """Everywhere between its rows, to a share of the highest value (of the value, where it never nears 0)."""
    table = getattr(TABLES, name)(FINE, P)
    formula = getattr(FORMULAS, name)(FINE, P)
    scale = formula if name in ("maltose", "slackening") else formula.max()
    assert np.abs((table - formula) / scale).max() <= within


@pytest.mark.twin
def test_the_solubility_is_close_where_its_fit_holds() -> None:
    """From -5 to 50 degC, to 2e-5 of the value."""
    within = FINE[(FINE >= -5.0) & (FINE <= 50.0)]
    formula = FORMULAS.solubility(within)
    assert np.abs(TABLES.solubility(within) / formula - 1.0).max() <= 2e-5


@pytest.mark.twin
def test_gassing_is_close_at_every_temperature_a_dough_waits_at() -> None:
    """From -1.5 to 45 degC to 5e-4 of its own value, in the fridge as beside the stove."""
    within = FINE[(FINE >= -1.5) & (FINE <= 45.0)]
    assert np.abs(TABLES.gassing(within, P) / FORMULAS.gassing(within, P) - 1.0).max() <= 5e-4


@pytest.mark.twin
def test_growth_is_close_at_every_temperature_a_dough_waits_at() -> None:
    """From 3 to 42 degC to 5e-4 of its own value."""
    within = FINE[(FINE >= 3.0) & (FINE <= 42.0)]
    assert np.abs(TABLES.growth(within, P) / FORMULAS.growth(within, P) - 1.0).max() <= 5e-4


@pytest.mark.twin
@settings(max_examples=40)
@given(
    seed=st.integers(0, 2**32 - 1),
    shape=st.sampled_from(get_args(Shape)),
    hours=st.sampled_from([2.0, 12.0]),
    stepping=st.sampled_from(STEPPINGS[:2]),
)
def test_the_days_by_tables_are_those_by_the_formulas(seed, shape, hours, stepping) -> None:
    """Random doughs, airs and schedules: every row to 5e-4 (sugar of all there was, a leak of all made)."""
    case = draw(seed, lanes=6, nodes=5, hours=hours, shape=shape, stepping=stepping)
    by_table = twin.wait(**case.arguments).rows
    by_formula = twin.wait(**case.arguments | {"curves": FORMULAS}).rows
    scale = np.abs(by_formula) + SMALL[:, None]
    made = by_formula[:, ROWS.index("made")]
    scale[:, ROWS.index("sugar")] += made / case.inputs[INPUTS.index("gas_yield")]
    scale[:, ROWS.index("leaked")] += made
    far = np.abs(by_table - by_formula) / scale
    assert far.max() <= 5e-4


@pytest.mark.property
def test_the_highest_growth_between_rows_is_hardly_over_the_best_rate() -> None:
    """The kernel leaves growth out where a hundredth more than the best rate could not begin it."""
    assert TABLES.growth(FINE, P).max() <= 1.005 * P.growth_optimum_rate


def test_a_shape_that_differs_by_kitchen_is_refused() -> None:
    """The tables are shared by all lanes: their parameters are single numbers."""
    with pytest.raises(OutOfRangeError, match="maltose_q10"):
        tables(replace(P, maltose_q10=np.array([1.8, 1.9])))
