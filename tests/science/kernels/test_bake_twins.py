"""The oven's compiled kernel gives the numbers of its twin in NumPy, whatever bakes wherever."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.science.kernels import bake_twin, waits
from doughwright.science.kernels.bake import bake
from doughwright.science.kernels.bake_layout import COLUMN, Baked, BakeStepping
from doughwright.science.yeast import Array
from tests.science.kernels._bake_draws import FORMS, Step, arguments, chosen, draw, laid, run
from tests.science.kernels._bakes import CORDIERITE, STEEL, pie
from tests.science.kernels.test_bake_closure import closed, in_range

pytestmark = [
    pytest.mark.twin,
    pytest.mark.skipif(waits.engine() == "numpy", reason="no compiler: the twin is all there is"),
]
BOOKS = slice(COLUMN.index("heat_top"), len(COLUMN))


def far(found: Array, wanted: Array) -> float:
    """The largest difference as a share of a number (of its unit, where it is small); NaN is like NaN."""
    gap = np.abs(found - wanted) / (1.0 + np.abs(wanted))
    gap[np.isnan(found) & np.isnan(wanted)] = 0.0
    return float(np.where(np.isnan(gap), np.inf, gap).max(initial=0.0))


def assert_like(found: list[Baked], wanted: list[Baked], within: float) -> None:
    """Every number of two bakes; the books, which are sums of what cancels, ten times as wide."""
    for one, other in zip(found, wanted, strict=True):
        assert far(one.column.state, other.column.state) <= within
        assert far(one.column.carried[: BOOKS.start], other.column.carried[: BOOKS.start]) <= within
        assert far(one.column.carried[BOOKS], other.column.carried[BOOKS]) <= 10.0 * within
        assert far(one.rows, other.rows) <= within
        assert (one.snapshots is None) == (other.snapshots is None)
        if one.snapshots is not None and other.snapshots is not None:
            assert far(one.snapshots, other.snapshots) <= within


@settings(max_examples=14)
@given(
    seed=st.integers(0, 2**32 - 1),
    form=st.sampled_from(FORMS),
    lanes=st.integers(1, 18),
    samples=st.integers(0, 7),
    snapshots=st.booleans(),
)
def test_the_kernel_gives_the_numbers_of_its_twin(
    seed: int, form: str, lanes: int, samples: int, snapshots: bool
) -> None:
    """Pies bare, dressed and par-baked, buns, loaves, surfaces that warm, lifted, left and alone: to 1e-9."""
    scene, steps = draw(seed, form, lanes)
    more = {"samples": samples, "snapshots": snapshots}
    assert_like(run(bake, scene, steps, **more), run(bake_twin.bake, scene, steps, **more), 1e-9)


@pytest.mark.parametrize("material", [STEEL, CORDIERITE], ids=["steel", "stone"])
def test_a_dressed_pie_is_within_a_billionth_of_a_degree(material: tuple[float, ...]) -> None:
    """The bake that a cook does: 360 s at 275 degC, every cell at every sample."""
    step = Step(360.0, sauce=1.2, cheese=1.2)
    scene = pie(275.0, material, dressed=False)
    (found,), (wanted,) = (
        run(one, scene, [step], samples=20, snapshots=True) for one in (bake, bake_twin.bake)
    )
    assert found.snapshots is not None
    assert wanted.snapshots is not None
    assert np.abs(found.snapshots[:, 0] - wanted.snapshots[:, 0]).max() < 1e-9


def test_a_phase_of_no_seconds_changes_nothing() -> None:
    """Its rows are those of its start."""
    scene, steps = draw(4, "dressed", 11)
    seconds = np.where(np.arange(11) % 2, 0.0, 30.0)
    given = arguments(scene, Step(seconds))
    done = bake(**given)
    assert np.array_equal(done.column.state[:, :, 1::2], scene.column.state[:, :, 1::2])
    assert np.array_equal(done.rows[0, :, 1::2], done.rows[-1, :, 1::2], equal_nan=True)
    assert_like([done], [bake_twin.bake(**given)], 1e-9)
    assert len(steps) == 2


def test_one_step_as_long_as_the_phase_is_taken() -> None:
    """A first step longer than what there is to bake."""
    scene, steps = draw(5, "bare", 3)
    given = arguments(scene, steps[0]) | {"stepping": BakeStepping(first=2.0, longest=2.0)}
    given["inputs"] = given["inputs"].copy()
    given["inputs"][27] = [1.0, 1e-9, 5.0]
    assert_like([bake(**given)], [bake_twin.bake(**given)], 1e-9)


# ---- lanes ----

MANY = 70


def same_digits(found: list[Baked], wanted: list[Baked], lanes: Array) -> bool:
    """What was found for some lanes is what is wanted of them, bit for bit."""
    return all(
        np.array_equal(one.column.state, other.column.state[:, :, lanes])
        and np.array_equal(one.column.carried, other.column.carried[:, lanes], equal_nan=True)
        and np.array_equal(one.rows, other.rows[:, :, lanes], equal_nan=True)
        for one, other in zip(found, wanted, strict=True)
    )


@pytest.mark.parametrize("form", FORMS)
def test_neighbours_order_and_threads_change_no_digit(form: str) -> None:
    """Any kitchens of many, in any order, on any number of threads, and each alone."""
    scene, steps = draw(8, form, MANY)
    wanted = run(bake, scene, steps)
    rng = np.random.default_rng(1)
    for count, threads in ((MANY, 1), (MANY, 3), (23, 1), (9, 2), (1, None)):
        lanes = rng.permutation(MANY)[:count]

        def threaded(**given: Any) -> Baked:
            return bake(**given, threads=threads)  # noqa: B023

        assert same_digits(run(threaded, *chosen(scene, steps, lanes)), wanted, lanes)


def test_how_often_rows_are_written_changes_no_digit() -> None:
    """Samples look on; the bake is the same."""
    scene, steps = draw(9, "par-bake", 10)
    few, many = run(bake, scene, steps, samples=1), run(bake, scene, steps, samples=200, snapshots=True)
    for one, other in zip(few, many, strict=True):
        assert np.array_equal(one.column.state, other.column.state)
        assert np.array_equal(one.rows[-1], other.rows[-1], equal_nan=True)
        assert other.snapshots is not None
        assert np.array_equal(other.snapshots[-1], other.column.state)


# ---- books ----


@pytest.mark.property
@pytest.mark.parametrize("seed", range(6))
def test_thousands_of_bakes_close_and_stay_in_range(seed: int) -> None:
    """400 fierce ones each, with and without toppings, lifted, dressed again: heat, water, every number."""
    scene, steps = draw(seed, "fierce", 400)
    water = scene.column.state[1].sum(axis=0)
    for step in steps:
        before = scene.column.state[1].sum(axis=0)
        scene = laid(scene, step)
        water = water + scene.column.state[1].sum(axis=0) - before
        scene = replace(scene, column=bake(**arguments(scene, step)).column)
        in_range(scene)
    heat, mass = closed(scene, water)
    assert heat < 1e-9
    assert mass < 1e-11
