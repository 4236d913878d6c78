"""What explains a spread, from the points it was run on: known shares, groups, 0 and 1, its own error."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import InputError
from doughwright.science.sampling.explained import explained_shares
from doughwright.science.sampling.sobol import sobol
from tests.science.sampling.functions import g_function, ishigami

RULED = 0.015
"""What ruling 40 allows at 10,000 points."""


@pytest.mark.outside(source="Ishigami & Homma 1990, a = 7, b = 0.1 (analytic)", how="identity")
def test_ishigami_shares_are_found() -> None:
    """0.3139, 0.4424 and 0 of Ishigami's function, within 0.015 at 10,000 points."""
    points = sobol(count=10_000, dimensions=3, seed=1)
    found = explained_shares(points=points, output=ishigami(points))
    assert found.share == pytest.approx([0.3139, 0.4424, 0.0], abs=RULED)


@pytest.mark.outside(source="Saltelli & Sobol 1995, a = 0, 1, 4.5, 9, 99... (analytic)", how="identity")
def test_g_function_shares_are_found() -> None:
    """0.716, 0.179, 0.024, 0.007 and nearly nothing four times."""
    points = sobol(count=10_000, dimensions=8, seed=1)
    found = explained_shares(points=points, output=g_function(points))
    assert found.share == pytest.approx([0.7162, 0.1790, 0.0237, 0.0072, 0, 0, 0, 0], abs=RULED)


@pytest.mark.outside(source="Ishigami & Homma 1990, a = 7, b = 0.1 (analytic)", how="identity")
def test_a_group_holds_what_its_inputs_do_together() -> None:
    """Ishigami's first explains 0.3139 alone and 0.5576 with the third; cubics blur a sine by 0.08."""
    points = sobol(count=10_000, dimensions=3, seed=2)
    found = explained_shares(points=points, output=ishigami(points), groups=[[0, 2], [1], [0, 1, 2]])
    assert found.share == pytest.approx([0.5576, 0.4424, 1.0], abs=0.08)
    assert found.share[0] > 0.3139 + 10 * found.error[0]


@pytest.mark.property
def test_a_yes_or_no_has_shares_too() -> None:
    """Ripe or not: here by the first input alone half of the time; 1/3 each, and all together."""
    points = sobol(count=10_000, dimensions=3, seed=3)
    both = np.logical_and(points[:, 0] < 0.5, points[:, 1] < 0.5).astype(float)
    found = explained_shares(points=points, output=both, groups=[[0], [1], [2], [0, 1]])
    assert found.share[:3] == pytest.approx([1 / 3, 1 / 3, 0.0], abs=RULED)
    assert found.share[3] == pytest.approx(1.0, abs=0.1)  # cubics blur a step


@pytest.mark.property
def test_the_error_covers_points_drawn_by_chance() -> None:
    """Over 60 samples the shares differ by about what each says its error is."""
    runs = [np.random.default_rng(seed).random((2000, 3)) for seed in range(60)]
    found = [explained_shares(points=points, output=ishigami(points)) for points in runs]
    spread = np.std([one.share[:2] for one in found], axis=0)
    said = np.mean([one.error[:2] for one in found], axis=0)
    assert np.all((said > 0.8 * spread) & (said < 1.6 * spread))
    assert np.mean([one.share[2] for one in found]) == pytest.approx(0.0, abs=0.002)


@pytest.mark.property
def test_what_two_others_do_together_is_not_taken_for_a_pair() -> None:
    """Sobol points line up some four dimensions: the 18th and 20th with the 3rd and 21st, on a fine grid."""
    points = sobol(count=10_000, dimensions=28, seed=3)
    waves = np.cos(2.0 * np.pi * (points[:, 2] + points[:, 20]))
    cells = np.floor(8 * points[:, [17, 19]]) @ np.array([8.0, 1.0])
    means = np.bincount(cells.astype(int), waves) / np.bincount(cells.astype(int))
    assert np.var(means) > 0.2 * np.var(waves)
    found = explained_shares(points=points, output=waves, groups=[[17, 19], [16, 17, 18, 19]])
    assert np.abs(found.share).max() < 0.02


@pytest.mark.property
def test_many_inputs_of_no_effect_add_up_to_nothing() -> None:
    """A group of 20 has 190 pairs; those that do not stand out from chance do not count."""
    points = sobol(count=8192, dimensions=21, seed=4)
    found = explained_shares(points=points, output=points[:, 0], groups=[[0], list(range(1, 21))])
    assert found.share == pytest.approx([1.0, 0.0], abs=0.05)


def test_an_output_that_does_not_vary_has_no_shares() -> None:
    """All ripe: there is nothing to explain, and that is not 0."""
    points = sobol(count=512, dimensions=2, seed=5)
    assert np.all(np.isnan(explained_shares(points=points, output=np.ones(512)).share))


def test_too_few_points_are_refused() -> None:
    """20 bins want 80 points."""
    points = sobol(count=64, dimensions=2, seed=6)
    with pytest.raises(InputError, match="at least 4 points in each of 20 bins"):
        explained_shares(points=points, output=points[:, 0])
