"""What a kernel must not see is refused before it, in words that name the thing and the kitchen."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import OutOfRangeError
from doughwright.science.kernels import waits
from doughwright.science.kernels.bounds import INPUT_BOUNDS
from doughwright.science.kernels.layout import INPUTS, Stepping
from doughwright.science.kernels.tables import Tables
from tests.science.kernels._doughs import TABLES, Case, draw


def changed(name: str, value: float) -> Case:
    """A good case but for one input of its second kitchen."""
    case = draw(1, hours=1.0)
    case.inputs[INPUTS.index(name), 1] = value
    return case


@pytest.mark.parametrize("name", INPUTS)
@pytest.mark.parametrize("value", [np.nan, np.inf, -np.inf])
def test_what_is_no_number_is_refused(name: str, value: float) -> None:
    """In any row of the inputs; the message names the row and the kitchen."""
    with pytest.raises(OutOfRangeError, match=rf"{name} \(kitchen 2 of 3\)"):
        waits.wait(**changed(name, value).arguments)


@pytest.mark.parametrize("name", INPUTS)
def test_what_is_out_of_its_bounds_is_refused(name: str) -> None:
    """On either side."""
    low, high = INPUT_BOUNDS[name]
    for value in (low - 1.0, 2.0 * high + 1.0):
        with pytest.raises(OutOfRangeError, match=name):
            waits.wait(**changed(name, value).arguments)


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("hours", -0.1, "from 0 to 1440"),
        ("hours", 60.0 * 24.0 + 1.0, "from 0 to 1440"),
        ("mean", -12.1, "from -12 to 70"),
        ("mean", 70.1, "from -12 to 70"),
        ("ceiling", 0.9, "from 1 to 100"),
    ],
)
def test_absurd_schedules_are_refused(name: str, value: float, said: str) -> None:
    """A wait before it began or of months, and air beyond the tables."""
    with pytest.raises(OutOfRangeError, match=said):
        waits.wait(**changed(name, value).arguments)


def test_air_that_swings_out_of_the_tables_is_refused() -> None:
    """The mean alone is within."""
    case = changed("mean", -10.0)
    case.inputs[INPUTS.index("swing"), 1] = 3.0
    with pytest.raises(OutOfRangeError, match="coldest air"):
        waits.wait(**case.arguments)


def test_a_cycle_of_no_length_is_refused_only_where_it_swings() -> None:
    """Without a swing nobody asks for the period."""
    case = changed("period", 0.0)
    case.inputs[INPUTS.index("swing"), 1] = 0.0
    waits.wait(**case.arguments)
    case.inputs[INPUTS.index("swing"), 1] = 1.0
    with pytest.raises(OutOfRangeError, match="period of a swing"):
        waits.wait(**case.arguments)


@pytest.mark.parametrize("row", range(9))
@pytest.mark.parametrize("value", [np.nan, -13.0])
def test_a_state_out_of_its_bounds_is_refused(row: int, value: float) -> None:
    """Temperatures beyond the tables, amounts below nothing."""
    case = draw(2, hours=1.0)
    case.state[row, 3, 2] = value
    with pytest.raises(OutOfRangeError, match="kitchen 3 of 3"):
        waits.wait(**case.arguments)


def test_more_maltose_than_there_can_be_is_refused() -> None:
    """The flour's enzymes make no more than their limit, so no dough holds more."""
    case = draw(2, hours=1.0)
    case.state[3, 1, 0] = 7.5
    with pytest.raises(OutOfRangeError, match="maltose still to form"):
        waits.wait(**case.arguments)


GOOD = draw(4, hours=1.0, lanes=4, nodes=6)


@pytest.mark.parametrize(
    ("case", "said"),
    [
        (replace(GOOD, state=GOOD.state[:, :1].copy()), "from 2 to 64"),
        (replace(GOOD, state=np.zeros((9, 65, 4))), "from 2 to 64"),
        (replace(GOOD, state=GOOD.state[:8].copy()), "nodes, lanes"),
        (replace(GOOD, state=np.zeros((9, 6, 0))), "one kitchen at least"),
        (replace(GOOD, state=GOOD.state.astype(np.float32)), "doubles"),
        (replace(GOOD, state=np.asfortranarray(GOOD.state)), "row after row"),
        (replace(GOOD, inputs=GOOD.inputs[:40].copy()), "inputs"),
        (replace(GOOD, inputs=np.repeat(GOOD.inputs, 2, axis=1)[:, ::2]), "row after row"),
        (replace(GOOD, inputs=GOOD.inputs[:, :3].copy()), "inputs"),
        (replace(GOOD, tightness=np.ones(3)), "tightness"),
        (replace(GOOD, tightness=np.full(4, -1.0)), "tightness"),
        (replace(GOOD, samples=np.array([])), "samples"),
        (replace(GOOD, samples=np.array([0.5, 0.2])), "rising"),
        (replace(GOOD, samples=np.array([0.0, 1.1])), "from 0 to 1"),
        (replace(GOOD, samples=np.array([np.nan])), "from 0 to 1"),
        (replace(GOOD, stepping=Stepping(growth=0.9)), "stepping growth"),
        (replace(GOOD, stepping=Stepping(longest=np.nan)), "stepping longest"),
        (replace(GOOD, stepping=Stepping(first=0.0)), "stepping first"),
        (replace(GOOD, shape="cube"), "ball or slab or tin"),
        (replace(GOOD, stop="noon"), "core or rise"),
    ],
)
def test_what_does_not_fit_together_is_refused(case: Case, said: str) -> None:
    """Shapes, kinds and steps; the error says what is wanted."""
    with pytest.raises(OutOfRangeError, match=said):
        waits.wait(**case.arguments)


def test_tables_of_another_make_are_refused() -> None:
    """The kernel knows how far apart the rows lie."""
    other = Tables(TABLES.rows[::2].copy(), TABLES.growth_minimum, TABLES.growth_maximum)
    with pytest.raises(OutOfRangeError, match="curves"):
        waits.wait(**GOOD.arguments | {"curves": other})


@pytest.mark.property
@settings(max_examples=200)
@given(
    row=st.integers(0, len(INPUTS) - 1),
    lane=st.integers(0, 3),
    value=st.floats(allow_nan=True, allow_infinity=True),
)
def test_whatever_is_let_through_gives_numbers(row: int, lane: int, value: float) -> None:
    """Any double in any input: it is refused, or every number that comes back is one."""
    case = draw(9, lanes=4, nodes=4, hours=0.5)
    case.inputs[row, lane] = value
    try:
        after = waits.wait(**case.arguments)
    except OutOfRangeError:
        return
    assert np.isfinite(after.state).all()
    assert np.isfinite(after.rows).all()
