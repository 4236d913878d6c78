"""A search of a unit cube for the best point: even points first, then a cloud that learns its shape."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from doughwright.science.sampling.normal import normal_quantile
from doughwright.science.sampling.sobol import sobol

Array = NDArray[np.float64]

CLOUD = 16
"""Points tried at once round the best so far."""
FIRST_STEP, LAST_STEP = 0.2, 0.004
"""Size of the cloud at first, and that at which it starts again elsewhere, as a share of each range."""
TRIED_EVENLY = 0.25
"""Share of the budget that goes into the even points."""


@dataclass(frozen=True, slots=True)
class Found:
    """All points of a search, the best first, with their values."""

    points: Array
    values: Array

    @property
    def tried(self) -> int:
        """How many were tried."""
        return len(self.values)

    def apart(self, count: int, distance: float) -> Array:
        """The best points, at most so many, each so far from those before it."""
        kept: list[Array] = []
        for point in self.points:
            if len(kept) == count:
                break
            if all(float(np.linalg.norm(point - other)) >= distance for other in kept):
                kept.append(point)
        return np.array(kept)


def search(
    value: Callable[[Array], Array], *, dimensions: int, budget: int, seed: int, start: Array
) -> Found:
    """The points of greatest value in the unit cube, of ``budget`` points, those of ``start`` among them.

    ``value`` takes points (n, dimensions) and gives their values (n,), without noise: the same point always
    has the same one. First a quarter of even (Sobol) points, then clouds from the best of them by Hansen's
    covariance matrix adaptation.
    """
    given = np.atleast_2d(start)
    first = max(int(budget * TRIED_EVENLY), len(given) + 1)
    points = np.vstack([given, sobol(count=first - len(given), dimensions=dimensions, seed=seed)])
    values = value(points)
    even, number = np.argsort(-values, kind="stable"), 0
    while len(values) < budget:
        cloud = _Cloud(points[even[number % len(even)]], seed + number + 1)
        number += 1
        while len(values) < budget and cloud.size > LAST_STEP:
            asked = cloud.ask(min(CLOUD, budget - len(values)))
            inside = np.clip(asked, 0.0, 1.0)
            got = value(inside)
            points, values = np.vstack([points, inside]), np.concatenate([values, got])
            # What lies outside is worth its nearest point inside, less a little for the distance.
            cloud.tell(asked, got - np.sum((asked - inside) ** 2, axis=1))
    order = np.argsort(-values, kind="stable")
    return Found(points[order], values[order])


class _Cloud:
    """A normal cloud of points: its middle, size and shape, moved towards the better half of each try."""

    def __init__(self, middle: Array, seed: int) -> None:
        n = len(middle)
        weights = np.log(CLOUD / 2 + 0.5) - np.log(np.arange(1, CLOUD // 2 + 1))
        self.weights = weights / weights.sum()
        self.mass = 1.0 / np.sum(self.weights**2)
        self.middle, self.size, self.shape = middle.copy(), FIRST_STEP, np.eye(n)
        self.path, self.shape_path, self.turn, self.seed = np.zeros(n), np.zeros(n), 0, seed
        self.c_size = (self.mass + 2) / (n + self.mass + 5)
        self.damping = 1 + 2 * max(0.0, np.sqrt((self.mass - 1) / (n + 1)) - 1) + self.c_size
        self.c_path = (4 + self.mass / n) / (n + 4 + 2 * self.mass / n)
        self.c_one = 2 / ((n + 1.3) ** 2 + self.mass)
        self.c_many = min(1 - self.c_one, 2 * (self.mass - 2 + 1 / self.mass) / ((n + 2) ** 2 + self.mass))
        self.usual = np.sqrt(n) * (1 - 1 / (4 * n) + 1 / (21 * n * n))

    def ask(self, count: int) -> Array:
        """New points of the cloud."""
        n = len(self.middle)
        even = sobol(count=count, dimensions=n, seed=self.seed, first=self.turn * CLOUD)
        self.turn += 1
        width, axes = np.linalg.eigh(self.shape)
        self.spread = axes * np.sqrt(np.maximum(width, 1e-20))
        steps = normal_quantile(probability=even) @ self.spread.T
        return np.asarray(self.middle + self.size * steps)

    def tell(self, points: Array, values: Array) -> None:
        """Move towards the better half; a last, smaller try is too few to learn from."""
        if len(points) < CLOUD:
            return
        n = len(self.middle)
        steps = (points[np.argsort(-values, kind="stable")[: CLOUD // 2]] - self.middle) / self.size
        step = self.weights @ steps
        self.middle = self.middle + self.size * step
        white = np.linalg.solve(self.spread, step)
        self.path = (1 - self.c_size) * self.path + np.sqrt(
            self.c_size * (2 - self.c_size) * self.mass
        ) * white
        length = float(np.linalg.norm(self.path))
        moves = length / np.sqrt(1 - (1 - self.c_size) ** (2 * self.turn)) < (1.4 + 2 / (n + 1)) * self.usual
        self.shape_path = (1 - self.c_path) * self.shape_path + moves * np.sqrt(
            self.c_path * (2 - self.c_path) * self.mass
        ) * step
        many = (steps * self.weights[:, np.newaxis]).T @ steps
        one = np.outer(self.shape_path, self.shape_path)
        self.shape = (1 - self.c_one - self.c_many) * self.shape + self.c_one * one + self.c_many * many
        self.size = min(
            self.size * float(np.exp(self.c_size / self.damping * (length / self.usual - 1))), 0.5
        )
