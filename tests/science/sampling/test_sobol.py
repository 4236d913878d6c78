"""Sobol points: SciPy's own when unscrambled, even when scrambled, the same for the same seed."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import qmc

from doughwright.errors import OutOfRangeError
from doughwright.science.sampling.sobol import sobol

HALF_A_DIGIT = 2.0**-53


@pytest.mark.outside(source="SciPy 1.17, scipy.stats.qmc.Sobol", how="identity")
def test_unscrambled_points_are_those_of_a_second_library() -> None:
    """All 128 dimensions and 4,096 points, to the last digit; ours lie half a digit further in."""
    expected = qmc.Sobol(128, scramble=False, bits=52).random(4096)
    assert np.array_equal(expected, sobol(count=4096, dimensions=128, seed=None) - HALF_A_DIGIT)


@pytest.mark.property
@pytest.mark.parametrize("seed", [0, 1, 20260801])
def test_each_coordinate_has_one_point_in_each_interval(seed: int) -> None:
    """Any 2,048 points that start at a multiple of 2,048 fall one into each 2,048th part."""
    points = sobol(count=2048, dimensions=40, seed=seed, first=4096)
    places = np.sort(np.floor(points * 2048), axis=0)
    assert np.array_equal(places, np.repeat(np.arange(2048.0)[:, np.newaxis], 40, axis=1))


@pytest.mark.property
def test_the_first_two_coordinates_fill_every_square() -> None:
    """A scramble keeps the net: 256 points, one in each of 16 x 16 squares."""
    points = sobol(count=256, dimensions=2, seed=7)
    squares = np.floor(points * 16) @ np.array([16.0, 1.0])
    assert np.array_equal(np.sort(squares), np.arange(256.0))


def test_no_coordinate_is_0_or_1() -> None:
    """So that a normal quantile of it is finite; the unscrambled sequence starts at the corner."""
    points = sobol(count=1024, dimensions=128, seed=None)
    assert points.min() > 0.0
    assert points.max() < 1.0


def test_the_same_seed_gives_the_same_points_and_another_does_not() -> None:
    """The points belong to the seed; the digits of one of them are kept here."""
    first, again = (sobol(count=64, dimensions=5, seed=11) for _ in range(2))
    assert np.array_equal(first, again)
    assert not np.array_equal(first, sobol(count=64, dimensions=5, seed=12))


def test_a_sequence_in_pieces_is_the_sequence() -> None:
    """A long run draws its kitchens in chunks."""
    whole = sobol(count=300, dimensions=9, seed=3)
    assert np.array_equal(whole[100:], sobol(count=200, dimensions=9, seed=3, first=100))


def test_scrambles_are_unbiased() -> None:
    """Over many seeds one point is spread evenly: mean 1/2, variance 1/12, no correlation."""
    points = np.array([sobol(count=1, dimensions=2, seed=seed, first=5)[0] for seed in range(4000)])
    assert points.mean(axis=0) == pytest.approx([0.5, 0.5], abs=0.02)
    assert points.var(axis=0) == pytest.approx([1 / 12, 1 / 12], abs=0.004)
    assert np.corrcoef(points.T)[0, 1] == pytest.approx(0.0, abs=0.05)


@pytest.mark.parametrize(("count", "dimensions"), [(8, 0), (8, 129), (0, 3)])
def test_what_the_table_does_not_hold_is_refused(count: int, dimensions: int) -> None:
    """With the number that is wanted."""
    with pytest.raises(OutOfRangeError, match="needs 1 to"):
        sobol(count=count, dimensions=dimensions, seed=1)
