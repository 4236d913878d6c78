"""First-order and total shares by a design made for them: known indices, and a second library's."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from SALib.analyze import sobol as second

from doughwright.errors import InputError
from doughwright.science.sampling.saltelli import (
    Indices,
    exchanged,
    saltelli_indices_jansen_1999,
    saltelli_points,
)
from tests.science.sampling.functions import Array, g_function, ishigami

Function = Callable[[Array], Array]


def results(function: Function, groups: list[list[int]], base: int, seed: int) -> tuple[Array, Array, Array]:
    a, b = saltelli_points(base=base, dimensions=max(max(one) for one in groups) + 1, seed=seed)
    ab = np.array([function(exchanged(a=a, b=b, group=one)) for one in groups])
    return function(a), function(b), ab


def indices(function: Function, groups: list[list[int]], base: int = 4096, seed: int = 1) -> Indices:
    a, b, ab = results(function, groups, base, seed)
    return saltelli_indices_jansen_1999(a=a, b=b, ab=ab)


@pytest.mark.outside(source="Ishigami & Homma 1990, a = 7, b = 0.1 (analytic)", how="identity")
def test_ishigami_indices_are_found() -> None:
    """First order 0.3139, 0.4424, 0; total 0.5576, 0.4424, 0.2437."""
    found = indices(ishigami, [[0], [1], [2]])
    assert found.first == pytest.approx([0.3139, 0.4424, 0.0], abs=0.01)
    assert found.total == pytest.approx([0.5576, 0.4424, 0.2437], abs=0.01)


@pytest.mark.outside(source="Saltelli & Sobol 1995, a = 0, 1, 4.5, 9, 99... (analytic)", how="identity")
def test_g_function_indices_are_found() -> None:
    """First order 0.716, 0.179, 0.024, 0.007; total 0.787, 0.242, 0.034, 0.010."""
    found = indices(g_function, [[one] for one in range(8)])
    assert found.first == pytest.approx([0.7162, 0.1790, 0.0237, 0.0072, 0, 0, 0, 0], abs=0.01)
    assert found.total == pytest.approx([0.7871, 0.2422, 0.0343, 0.0105, 0, 0, 0, 0], abs=0.01)


@pytest.mark.outside(source="Ishigami & Homma 1990, a = 7, b = 0.1 (analytic)", how="identity")
def test_a_group_is_exchanged_as_one() -> None:
    """The first and third together explain 0.5576, and nothing else has a part in it."""
    found = indices(ishigami, [[0, 2], [1]])
    assert found.first == pytest.approx([0.5576, 0.4424], abs=0.01)
    assert found.total == pytest.approx([0.5576, 0.4424], abs=0.01)


@pytest.mark.outside(source="SALib 1.6, SALib.analyze.sobol", how="identity")
@pytest.mark.parametrize(("function", "inputs"), [(ishigami, 3), (g_function, 8)])
def test_the_estimates_are_those_of_a_second_library(function: Function, inputs: int) -> None:
    """The same results through both give the same indices, to 1e-9."""
    a, b, ab = results(function, [[one] for one in range(inputs)], 1024, 3)
    problem = {"num_vars": inputs, "names": [f"x{one}" for one in range(inputs)], "bounds": [[0, 1]] * inputs}
    together = np.column_stack([a, ab.T, b]).ravel()
    theirs = second.analyze(problem, together, calc_second_order=False, num_resamples=10, seed=1)
    ours = saltelli_indices_jansen_1999(a=a, b=b, ab=ab)
    assert theirs["S1"] == pytest.approx(ours.first, abs=1e-9)
    assert theirs["ST"] == pytest.approx(ours.total, abs=1e-9)


@pytest.mark.property
def test_the_errors_cover_the_known_indices() -> None:
    """Over 40 scrambles of 1,024 points nearly every known index lies within three of its errors."""
    runs = [indices(ishigami, [[0], [1], [2]], base=1024, seed=seed) for seed in range(40)]
    first = [np.abs(one.first - [0.3139, 0.4424, 0.0]) < 3 * one.first_error for one in runs]
    total = [np.abs(one.total - [0.5576, 0.4424, 0.2437]) < 3 * one.total_error for one in runs]
    assert np.mean(first) > 0.97
    assert np.mean(total) > 0.97


def test_what_does_not_vary_has_no_indices() -> None:
    """Every kitchen ripe: nothing to explain, which is not 0."""
    found = saltelli_indices_jansen_1999(a=np.ones(8), b=np.ones(8), ab=np.ones((2, 8)))
    assert np.all(np.isnan([found.first, found.first_error, found.total, found.total_error]))


def test_results_of_different_lengths_are_refused() -> None:
    """A run that was stopped half way gives no indices."""
    with pytest.raises(InputError, match="of one length"):
        saltelli_indices_jansen_1999(a=np.ones(8), b=np.ones(8), ab=np.ones((2, 7)))
