"""A kitchen's digits are its own: no neighbour, no place and no thread changes the last of them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.science.kernels import waits
from doughwright.science.kernels.layout import StopKind, Waited
from tests.science.kernels._doughs import STEPPINGS, Case, draw

pytestmark = pytest.mark.property
MANY = 150


def chosen(case: Case, lanes: np.ndarray) -> Case:
    """Some lanes of a case, in that order."""
    return replace(
        case,
        inputs=np.ascontiguousarray(case.inputs[:, lanes]),
        state=np.ascontiguousarray(case.state[:, :, lanes]),
        tightness=np.ascontiguousarray(case.tightness[lanes]),
    )


def assert_same_digits(found: Waited, wanted: Waited, lanes: np.ndarray) -> None:
    """What was found for some lanes is what is wanted of them, bit for bit."""
    assert np.array_equal(found.state, wanted.state[:, :, lanes])
    assert np.array_equal(found.tightness, wanted.tightness[lanes])
    assert np.array_equal(found.took, wanted.took[lanes])
    assert np.array_equal(found.rows, wanted.rows[:, :, lanes])
    assert np.array_equal(found.snapshots, wanted.snapshots[..., lanes])


@pytest.fixture(scope="module", params=[None, "core", "rise"], ids=["hours", "core", "rise"])
def run(request: pytest.FixtureRequest) -> tuple[Case, Waited]:
    """Many kitchens, run once on one thread."""
    stop: StopKind | None = request.param
    case = draw(5, lanes=MANY, nodes=5, hours=9.0, stepping=STEPPINGS[1], stop=stop)
    return case, waits.wait(**case.arguments, snapshots=True, threads=1)


@pytest.mark.parametrize("threads", [2, 3, None])
def test_threads_change_no_digit(run: tuple[Case, Waited], threads: int | None) -> None:
    """One thread, two, three, or as many as there are processors."""
    case, wanted = run
    found = waits.wait(**case.arguments, snapshots=True, threads=threads)
    assert_same_digits(found, wanted, np.arange(MANY))


@settings(max_examples=12)
@given(seed=st.integers(0, 2**32 - 1), count=st.integers(1, 40))
def test_neighbours_and_order_change_no_digit(seed: int, count: int) -> None:
    """Any kitchens of many, in any order: the same digits as when all stood in a row."""
    case = draw(5, lanes=MANY, nodes=5, hours=9.0, stepping=STEPPINGS[1])
    wanted = waits.wait(**case.arguments, snapshots=True, threads=1)
    lanes = np.random.default_rng(seed).permutation(MANY)[:count]
    assert_same_digits(waits.wait(**chosen(case, lanes).arguments, snapshots=True), wanted, lanes)


def test_a_kitchen_alone_has_the_digits_it_has_in_company(run: tuple[Case, Waited]) -> None:
    """Also at each place of a block, beside lanes that end sooner or cycle."""
    case, wanted = run
    for lane in range(0, MANY, 11):
        alone = np.array([lane])
        assert_same_digits(waits.wait(**chosen(case, alone).arguments, snapshots=True), wanted, alone)
        placed = np.concatenate([np.arange(lane % 9), alone])
        assert_same_digits(waits.wait(**chosen(case, placed).arguments, snapshots=True), wanted, placed)


def test_how_often_rows_are_written_changes_no_digit() -> None:
    """Samples look on; the dough is the same."""
    case = draw(6, lanes=20, nodes=5, hours=9.0)
    few = waits.wait(**replace(case, samples=np.array([1.0])).arguments)
    many = waits.wait(**replace(case, samples=np.linspace(0.0, 1.0, 200)).arguments, snapshots=True)
    assert np.array_equal(few.state, many.state)
    assert np.array_equal(few.rows[-1], many.rows[-1])
    assert np.array_equal(many.snapshots[-1], many.state)
