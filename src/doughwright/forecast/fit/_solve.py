"""The search: for every choice of levers the point that comes nearest, all choices side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast.fit._bench import Bench
from doughwright.forecast.fit._measure import RISE

Array = NDArray[np.float64]

WEIGHT = np.array([8.0, 1.0, 3.0, 3.0, 1.0])
"""How much each measure weighs while a choice is solved: what its levers can have exactly, they shall.

The rise comes first, then the hours, so that a fit and the way back from it meet.
"""
FIRST = 0.08
"""Step of the first differences, on the search's scale: 8 % of a wait or the yeast, 0.4 degC."""
STAY = 0.01
"""What leaving a lever where it is written is worth: it settles what no measure settles."""
FARTHEST = 0.7
"""The longest step at once: from there on the model is not near enough a straight line."""
MOST_STEPS = 8
LOOKS, FAR = 3, 10.0
"""After so many steps a choice that is still so far off is given up."""
RUNGS = 10
"""A lever that is tried all the way down is tried at so many places."""
STILL = 0.001
"""A search has ended where its step is smaller: a few minutes of a long wait."""


@dataclass(frozen=True, slots=True)
class Slopes:
    """At a point ``at``: how far off the recipe is (5,), and what each lever does to that (5, levers)."""

    at: Array
    off: Array
    by_lever: Array


@dataclass(frozen=True, slots=True)
class Choice:
    """Levers that may move, by number, where they may go (low, high), and where the others are held.

    ``first`` are the slopes from which its search begins, at ``start`` or near it.
    """

    free: tuple[int, ...]
    low: Array
    high: Array
    start: Array
    first: Slopes


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


def choices(bench: Bench, sizes: Sequence[int]) -> list[Choice]:
    """Every choice of so many levers: from as written, or from where a lever of it leaves the ceiling."""
    low = np.array([one.low for one in bench.levers.every])
    high = np.array([one.high for one in bench.levers.every])
    inside = np.clip(np.zeros(len(low)), low, high)
    starts = _starts(bench)
    found = []
    for free in (one for size in sizes for one in bench.levers.sets(size)):
        first = next((starts[one] for one in free if one in starts), starts[None])
        start = np.zeros(len(low))
        start[list(free)] = np.where(first.at != 0.0, first.at, inside)[list(free)]
        found.append(Choice(free, low, high, start, first))
    return found


def _starts(bench: Bench) -> dict[int | None, Slopes]:
    """Slopes as written (``None``) and, where a dough at its ceiling hides what a lever does, farther down.

    At the ceiling more or less yeast gives the same rise. Each lever is then tried all the way down, and
    begins where the rise comes nearest; those that bring it no nearer begin as written.
    """
    count = len(bench.levers.every)
    written = slopes(bench, np.zeros((1, count)))[0]
    if not _hidden(bench, written):
        return {None: written}
    ladder = np.linspace(0.0, 1.0, RUNGS + 1)[1:]
    points = np.vstack([np.diag([one.low for one in bench.levers.every]) * rung for rung in ladder])
    off = np.abs(bench.run(bench.levers.designs(points)).off[:, RISE]).reshape(RUNGS, count)
    nearest = np.argmin(off, axis=0)
    better = [one for one in range(count) if off[nearest[one], one] < abs(written.off[RISE]) - 1.0]
    at = np.array([points[nearest[one] * count + one] for one in better]).reshape(-1, count)
    return {None: written, **dict(zip(better, slopes(bench, at), strict=True))}


def _hidden(bench: Bench, written: Slopes) -> bool:
    """Whether a rise that is too great would stay so, by the slopes, with the yeast all the way down."""
    yeast = [index for index, one in enumerate(bench.levers.every) if one.kind == "yeast"]
    down = [bench.levers.every[one].low * written.by_lever[RISE, one] for one in yeast]
    return bool(written.off[RISE] + min(down, default=0.0) > 1.0)


def slopes(bench: Bench, at: Array) -> list[Slopes]:
    """The slopes at points, shape (points, levers): one run, a lane for each point and each of its levers."""
    if not len(at):
        return []
    count = at.shape[1]
    inward = np.where(at + FIRST > [one.high for one in bench.levers.every], -FIRST, FIRST)
    moved = [
        point + np.vstack([np.zeros(count), np.diag(step)]) for point, step in zip(at, inward, strict=True)
    ]
    off = bench.run(bench.levers.designs(np.vstack(moved))).off.reshape(len(at), count + 1, -1)
    return [
        Slopes(point, one[0], ((one[1:] - one[0]) / step[:, np.newaxis]).T)
        for point, one, step in zip(at, off, inward, strict=True)
    ]


def solve(bench: Bench, tried: Sequence[Choice]) -> list[Solved]:
    """Damped least squares within the bounds, each choice a lane; slopes are mended by Broyden's rule."""
    if not tried:
        return []
    points = np.array([one.start for one in tried])
    by_lever = np.array([one.first.by_lever for one in tried])
    away = points - np.array([one.first.at for one in tried])
    off = np.array([one.first.off for one in tried]) + np.einsum("ijk,ik->ij", by_lever, away)
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
