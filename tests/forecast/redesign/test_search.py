"""The search of a unit cube, on hills whose top is known."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.forecast.redesign._search import Array, search


def valley(points: Array) -> Array:
    """Rosenbrock's bent valley; its best is 0 at 0.75 everywhere."""
    z = 4.0 * points - 2.0
    return -np.sum(100.0 * (z[:, 1:] - z[:, :-1] ** 2) ** 2 + (1.0 - z[:, :-1]) ** 2, axis=1)


def corner(points: Array) -> Array:
    """A slope with its best at a corner."""
    return np.sum(points, axis=1)


@pytest.mark.property
def test_it_finds_the_end_of_a_bent_valley() -> None:
    """In two dimensions to the last digits, from the other side."""
    found = search(valley, dimensions=2, budget=1500, seed=1, start=np.array([0.2, 0.2]))
    assert found.points[0] == pytest.approx([0.75, 0.75], abs=1e-3)
    assert found.tried == 1500


@pytest.mark.property
def test_it_reaches_a_corner_and_never_leaves_the_cube() -> None:
    """The best is at the limit of every range."""
    seen: list[Array] = []

    def value(points: Array) -> Array:
        seen.append(points)
        return corner(points)

    found = search(value, dimensions=4, budget=600, seed=1, start=np.full(4, 0.5))
    assert found.values[0] == pytest.approx(4.0, abs=0.02)
    every = np.vstack(seen)
    assert every.min() >= 0.0
    assert every.max() <= 1.0


@pytest.mark.property
def test_it_beats_chance_and_never_loses_to_its_start() -> None:
    """Five dimensions, 400 points, five seeds; the start is among them."""
    for seed in range(5):
        start = np.full(5, 0.7)
        found = search(valley, dimensions=5, budget=400, seed=seed, start=start)
        chance = valley(np.random.default_rng(seed).random((400, 5))).max()
        assert found.values[0] >= max(chance, valley(start[np.newaxis])[0])


def test_the_best_apart_are_apart() -> None:
    """Each so far from those before it, the best first."""
    found = search(corner, dimensions=3, budget=200, seed=1, start=np.full(3, 0.5))
    few = found.apart(5, 0.1)
    assert len(few) == 5
    assert np.array_equal(few[0], found.points[0])
    gaps = [np.linalg.norm(a - b) for n, a in enumerate(few) for b in few[:n]]
    assert min(gaps) >= 0.1
