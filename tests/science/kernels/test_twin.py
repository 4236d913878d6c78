"""The compiled kernel gives the numbers of its twin in NumPy, whatever dough stands wherever."""

from __future__ import annotations

from typing import get_args

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.science.heat import Shape
from doughwright.science.kernels import twin, waits
from doughwright.science.kernels.layout import Waited
from tests.science.kernels._doughs import STEPPINGS, draw

pytestmark = [
    pytest.mark.twin,
    pytest.mark.skipif(waits.engine() == "numpy", reason="no compiler: the twin is all there is"),
]

cases = st.builds(
    draw,
    st.integers(0, 2**32 - 1),
    lanes=st.integers(1, 18),
    nodes=st.integers(2, 14),
    hours=st.sampled_from([0.0, 0.01, 0.3, 2.0, 12.0]),
    shape=st.sampled_from(get_args(Shape)),
    stepping=st.sampled_from(STEPPINGS),
    stop=st.sampled_from([None, "core", "rise"]),
    samples=st.integers(1, 9),
)


def assert_like(found: Waited, wanted: Waited, within: float) -> None:
    """Every number of two waits, to a share of it (of a hundredth of its unit, where it is small)."""
    for name in ("state", "tightness", "took", "rows", "snapshots"):
        one, other = getattr(found, name), getattr(wanted, name)
        assert (one is None) == (other is None), name
        if one is not None:
            assert one.shape == other.shape, name
            far = np.abs(one - other) / (np.abs(other) + 0.01)
            assert far.max(initial=0.0) <= within, f"{name} at {np.unravel_index(far.argmax(), far.shape)}"


@settings(max_examples=150)
@given(case=cases, snapshots=st.booleans())
def test_the_kernel_gives_the_numbers_of_its_twin(case, snapshots) -> None:
    """Random doughs, airs, schedules, stops, samples, shells and shapes: the same to 1e-9."""
    compiled = waits.wait(**case.arguments, snapshots=snapshots)
    assert_like(compiled, twin.wait(**case.arguments, snapshots=snapshots), 1e-9)


def test_three_days_give_the_numbers_of_the_twin() -> None:
    """A long wait does not drift: 72 h in a fridge that cycles, from a warm dough, to 1e-9."""
    case = draw(7, lanes=4, nodes=10, hours=72.0, stepping=STEPPINGS[1])
    case.inputs[33] = 72.0
    case.inputs[34] = [2.0, 4.0, 6.0, 8.0]
    assert_like(waits.wait(**case.arguments), twin.wait(**case.arguments), 1e-9)


@pytest.mark.parametrize("nodes", [2, 3, 63, 64])
def test_the_fewest_and_the_most_shells_are_right(nodes: int) -> None:
    """The bounds themselves are within."""
    case = draw(nodes, lanes=2, nodes=nodes, hours=1.0)
    assert_like(waits.wait(**case.arguments), twin.wait(**case.arguments), 1e-9)


def test_a_dough_that_leaks_dies_and_starves_is_right() -> None:
    """At its ceiling, past the death of its yeast and with its sugar gone: the kernel's rarer ways."""
    case = draw(3, lanes=3, nodes=5, hours=10.0, stepping=STEPPINGS[1])
    case.inputs[33] = 10.0
    case.inputs[34] = [36.0, 58.0, 30.0]
    case.inputs[8] = 2.0
    case.state[2] = np.array([8.0, 8.0, 0.0])
    case.inputs[15, 2] = 0.0
    compiled, plain = waits.wait(**case.arguments), twin.wait(**case.arguments)
    assert_like(compiled, plain, 1e-9)
    leaked, yeast, sugar = compiled.state[6], compiled.state[1], compiled.state[2]
    assert leaked[:, 0].min() > 0.0
    assert (yeast[0, 1] > 0.0, yeast[-1, 1]) == (True, 0.0)
    assert sugar[:, 2].max() < 1e-3


@pytest.mark.parametrize("engine", ["compiled", "numpy"])
def test_no_hours_change_nothing(engine: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A wait of no time gives back the dough, and its row at every sample."""
    monkeypatch.setenv(waits.SETTING, engine)
    case = draw(11, lanes=5, hours=0.0)
    after = waits.wait(**case.arguments)
    assert np.array_equal(after.state, case.state)
    assert np.array_equal(after.tightness, case.tightness)
    assert after.took.max() == 0.0
    assert np.array_equal(after.rows[:1].repeat(len(case.samples), axis=0), after.rows)
    assert np.array_equal(after.rows[0, 1], case.state[0, 0])


@pytest.mark.parametrize("engine", ["compiled", "numpy"])
def test_a_stop_that_is_there_already_takes_no_time(engine: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Risen that far before the wait begins: nothing happens; the other lane goes on."""
    monkeypatch.setenv(waits.SETTING, engine)
    case = draw(12, lanes=2, hours=3.0, stop="rise")
    case.inputs[33], case.inputs[34] = 3.0, 25.0
    case.inputs[40] = [1.0, 90.0]
    after = waits.wait(**case.arguments)
    assert after.took.tolist() == [0.0, 3.0]
    assert np.array_equal(after.state[:, :, 0], case.state[:, :, 0])


def test_a_wait_until_a_temperature_ends_at_it() -> None:
    """Cooling or warming, the core is at its mark when the lane stops, and the hours are fewer."""
    case = draw(13, lanes=2, nodes=8, hours=9.0, stop="core")
    case.inputs[33], case.inputs[35:36], case.inputs[38] = 40.0, 0.0, 0.0
    case.inputs[34] = [30.0, 4.0]
    case.state[0] = [[8.0, 24.0]] * 8
    case.inputs[40] = [16.0, 10.0]
    after = waits.wait(**case.arguments)
    assert after.state[0, 0] == pytest.approx([16.0, 10.0], abs=1e-9)
    assert (after.took < 40.0).all()
    assert after.rows[-1, 0] == pytest.approx(after.took)


def test_the_kernel_counts_lanes_as_python_does() -> None:
    """The rows of the inputs and of the state are those the kernel was compiled for."""
    case = draw(14)
    with pytest.raises(ValueError, match="inputs"):
        waits._kernel().wait(
            (case.inputs[:-1].copy(), case.state, case.tightness, waits_rows(), case.samples,
             case.state.copy(), case.tightness.copy(), case.tightness.copy(),
             np.empty((len(case.samples), 11, 3)), None),
            (0, 0), (2.0, 43.0), (30.0, 1.4, 299.0, 5400.0, 299.0, 3.0), (0, 3),
        )  # fmt: skip


def waits_rows() -> np.ndarray:
    return draw(0).arguments["curves"].rows
