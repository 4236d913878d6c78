"""The search: for every choice of levers the point that comes nearest, all choices side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast.fit._bench import Bench

Array = NDArray[np.float64]

WEIGHT = np.array([8.0, 1.0, 3.0, 3.0, 1.0])
"""How much each measure weighs while a choice is solved: what its levers can have exactly, they shall.

The rise comes first, then the hours, so that a fit and the way back from it meet.
"""
FIRST = 0.08
"""Step of the first differences, on the search's scale: 8 % of a wait or the yeast, 0.4 degC."""
STAY = 0.03
"""What leaving a lever where it is written is worth: it settles what no measure settles."""
FARTHEST = 0.7
"""The longest step at once: from there on the model is not near enough a straight line."""
MOST_STEPS = 8
LOOKS, FAR = 2, 4.0
"""After so many steps a choice that is still so far off is given up."""
STILL = 0.004
"""A search has ended where its step is smaller: a few minutes of a long wait."""


@dataclass(frozen=True, slots=True)
class Choice:
    """Levers that may move, by number, where they may go (low, high), and where the others are held."""

    free: tuple[int, ...]
    low: Array
    high: Array
    start: Array


@dataclass(frozen=True, slots=True)
class Solved:
    """A choice at its best point: how far off its measures are, and the sum of their squares."""

    choice: Choice
    point: Array
    off: Array
    cost: float

    @property
    def worst(self) -> float:
        """How far off the worst measure is; up to 1 is the same dough."""
        return float(np.max(np.abs(self.off)))


@dataclass(frozen=True, slots=True)
class Slopes:
    """How far off the recipe as written is (5,), and what each lever does to that (5, levers)."""

    off: Array
    by_lever: Array


def slopes(bench: Bench, at: Array) -> Slopes:
    """One run of as many lanes as there are levers, and one for where it begins."""
    count = len(bench.levers.every)
    inward = np.where(at + FIRST > [one.high for one in bench.levers.every], -FIRST, FIRST)
    points = at + np.vstack([np.zeros(count), np.diag(inward)])
    off = bench.run(bench.levers.designs(points)).off
    return Slopes(off[0], ((off[1:] - off[0]) / inward[:, np.newaxis]).T)


def choices(bench: Bench, sizes: Sequence[int]) -> list[Choice]:
    """Every choice of so many levers, from as written."""
    low = np.array([one.low for one in bench.levers.every])
    high = np.array([one.high for one in bench.levers.every])
    inside = np.clip(np.zeros(len(low)), low, high)
    found = []
    for free in (one for size in sizes for one in bench.levers.sets(size)):
        start = np.zeros(len(low))
        start[list(free)] = inside[list(free)]
        found.append(Choice(free, low, high, start))
    return found


def solve(bench: Bench, tried: Sequence[Choice], first: Slopes) -> list[Solved]:
    """Damped least squares within the bounds, each choice a lane; slopes are mended by Broyden's rule.

    ``first`` are the slopes as written, from which every choice begins.
    """
    if not tried:
        return []
    points = np.array([one.start for one in tried])
    by_lever = np.repeat(first.by_lever[np.newaxis], len(tried), axis=0)
    off = first.off + np.einsum("ijk,ik->ij", by_lever, points)
    best: list[Solved | None] = [None] * len(tried)
    going = list(range(len(tried)))
    for turn in range(MOST_STEPS):
        if not going:
            break
        steps = np.array([_step(tried[one], points[one], off[one], by_lever[one]) for one in going])
        moving = (np.max(np.abs(steps), axis=1) >= STILL) | (turn == 0)
        going, steps = [one for one, on in zip(going, moving, strict=True) if on], steps[moving]
        if not going:
            break
        found = bench.run(bench.levers.designs(points[going] + steps)).off
        by_lever[going] += _mend(steps, found - off[going], by_lever[going])
        points[going], off[going] = points[going] + steps, found
        for one in going:
            best[one] = _better(
                best[one],
                Solved(tried[one], points[one].copy(), off[one].copy(), _cost(off[one])),
            )
        going = [one for one in going if _hopeful(best[one], turn)]
    return [one for one in best if one is not None]


def _hopeful(best: Solved | None, turn: int) -> bool:
    """Whether a choice may still come to something: after some steps, only where it is not far off."""
    return turn < LOOKS or best is None or best.worst <= FAR


def _cost(off: Array) -> float:
    return float(np.sum((WEIGHT * off) ** 2))


def _better(before: Solved | None, now: Solved) -> Solved:
    return now if before is None or now.cost < before.cost else before


def _mend(steps: Array, change: Array, by_lever: Array) -> Array:
    """Broyden's correction: the slopes then tell what the last step really did."""
    length = np.sum(steps**2, axis=1)
    length = np.where(length > 1e-12, length, np.inf)
    missed = change - np.einsum("ijk,ik->ij", by_lever, steps)
    return np.asarray(missed[:, :, np.newaxis] * steps[:, np.newaxis, :] / length[:, np.newaxis, np.newaxis])


def _step(choice: Choice, point: Array, off: Array, by_lever: Array) -> Array:
    """The step that would bring the measures nearest; a lever that meets its bound is held there."""
    step = np.zeros(len(point))
    free = list(choice.free)
    while free:
        rest = WEIGHT * (off + by_lever @ step)
        matrix = np.vstack([WEIGHT[:, np.newaxis] * by_lever[:, free], STAY * np.eye(len(free))])
        goal = -np.concatenate([rest, STAY * point[free]])
        found = np.clip(np.linalg.lstsq(matrix, goal, rcond=None)[0], -FARTHEST, FARTHEST)
        there = np.clip(point[free] + found, choice.low[free], choice.high[free])
        beyond = np.abs(there - point[free] - found) > 1e-9
        if not beyond.any():
            step[free] = found
            break
        for index in np.flatnonzero(beyond):
            step[free[index]] = there[index] - point[free[index]]
        free = [one for one, out in zip(free, beyond, strict=True) if not out]
    return step


def pinned(solved: Solved, lever: int, value: float) -> Choice:
    """The same choice with one lever held at a value."""
    start = solved.point.copy()
    start[lever] = value
    free = tuple(one for one in solved.choice.free if one != lever)
    return replace(solved.choice, free=free, start=start)
