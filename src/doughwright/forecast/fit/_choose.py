"""The choice among solutions: the fewest levers that give the same dough within the cook's limits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast.fit._bench import Bench
from doughwright.forecast.fit._levers import Designs
from doughwright.forecast.fit._measure import RISE, exact
from doughwright.forecast.fit._round import nearest_first, rounded, weighed, yeast_near
from doughwright.forecast.fit._schedule import Schedule
from doughwright.forecast.fit._solve import FIRST, Choice, Solved, choices, pinned, solve

Array = NDArray[np.float64]

SIZES = (1, 2, 3)
"""So many levers are moved at once."""
COARSE = 0.02
"""Yeast that a scale tells to within this share needs no wait to make up for it."""
HOPEFUL = 1.3
"""Solutions so far off are looked at: rounding may still bring them near enough."""
MOST_LOOKED_AT = 8
LEAST_SLOPE, MOST_SETTLED = 0.1, 0.2
"""Yeast settles the rise where more of it raises more, and by no more than that share."""
AROUND, GRID = 12.0, 1.0 / 6.0
"""A wait that puts work into the night is moved by up to so many hours, in steps of so many."""


@dataclass(frozen=True, slots=True)
class Found:
    """A recipe that can be told: its levers, its design (one lane), its measures and how far off they are.

    ``over`` [min] is by how much it breaks the limits, ``point`` where it lies on the search's scale,
    ``aimed`` how far off it was before it was rounded.
    """

    levers: tuple[int, ...]
    design: Designs
    values: Array
    off: Array
    ripe: bool
    over: float
    point: Array
    aimed: Array

    @property
    def worst(self) -> float:
        """How far off the worst measure is."""
        return float(np.max(np.abs(self.off)))

    @property
    def same(self) -> bool:
        """Whether it gives the same dough within the limits."""
        return self.worst <= 1.0 and self.ripe and self.over <= 0.0


@dataclass(frozen=True, slots=True)
class Search:
    """A search in one kitchen: ``grams`` of yeast as written, and the step [g] of its scale."""

    bench: Bench
    schedule: Schedule
    grams: float
    scale: float

    def written(self) -> Found:
        """The recipe as it is written."""
        return self._tell(np.zeros((1, len(self.bench.levers.every))), [None])[0]

    def solved(self) -> list[Solved]:
        """Every choice of one, two and three levers at its best point."""
        return solve(self.bench, choices(self.bench, SIZES))

    def alone(self, solved: Sequence[Solved]) -> list[Found]:
        """What each lever can do alone, the best first."""
        alone = [one for one in solved if len(one.choice.free) == 1]
        return self._told_best(sorted(alone, key=lambda one: one.worst)[:MOST_LOOKED_AT])

    def stages(self, solved: Sequence[Solved]) -> Iterator[list[Found]]:
        """What one lever can do, then two, then three: the usual ones, then any; then what is near enough.

        Preferments are moved last. Each stage has the best first.
        """
        same = [one for one in solved if one.worst <= 1.0]
        for preferments, to_the_point, usual, size in product(
            (False, True), (True, False), (True, False), SIZES
        ):
            looked = [
                one
                for one in same
                if len(one.choice.free) == size
                and exact(one.off) == to_the_point
                and self._preferments(one) == preferments
                and self._usual(one.choice) == usual
            ]
            yield self._told_best(sorted(looked, key=lambda one: one.choice.free)[:MOST_LOOKED_AT])
        hopeful = [one for one in solved if one.worst <= HOPEFUL]
        yield self._told_best(solve(self.bench, self._mended(hopeful)))
        yield self._told_best(sorted(solved, key=lambda one: one.worst)[:MOST_LOOKED_AT])

    def nearness(self, found: Found) -> tuple[bool, bool, float, float, float]:
        """Orders what is no fit: no wait too long, ripe, the same dough, then little work at night."""
        too_long = bool(self.schedule.too_long(found.design)[0] > 0.0)
        return too_long, not found.ripe, max(found.worst, 1.0), found.over, found.worst

    def _told_best(self, solved: Sequence[Solved]) -> list[Found]:
        """Solutions as recipes would tell them, the best first; waits make up for yeast as it is weighed."""
        held = [(one, self._weighed(one)) for one in solved]
        made_up = solve(self.bench, [choice for _, some in held for choice in some])
        found = self._all_told([*(one for one, some in held if not some), *made_up])
        if made_up and not any(one.same for one in found):
            found += self._all_told([one for one, some in held if some])
        return sorted(found, key=self._rank)

    def _usual(self, choice: Choice) -> bool:
        return set(choice.free) <= set(self.bench.levers.usual)

    def _preferments(self, solved: Solved) -> bool:
        return any(self.bench.levers.every[one].before for one in solved.choice.free)

    def _rank(self, found: Found) -> tuple[bool, int, tuple[int, ...]]:
        """The yeast next to what is wanted stays before the next but one, as they came."""
        return not found.same, len(found.levers), found.levers

    def _all_told(self, solved: Sequence[Solved]) -> list[Found]:
        if not solved:
            return []
        points, off = np.array([one.point for one in solved]), [one.off for one in solved]
        found = self._tell(points, off)
        left = [at for at, one in enumerate(off) if not any(two.same and two.aimed is one for two in found)]
        return found + self._tell(points[left], [off[at] for at in left], settled=True)

    def _tell(self, points: Array, aimed: Sequence[Array | None], *, settled: bool = False) -> list[Found]:
        """Points as recipes would say them, run; one or two of each.

        ``settled`` has the yeast make up for what times and degrees lose when they are rounded.
        """
        written = self.bench.levers.designs(np.zeros((1, points.shape[1])))
        lanes: list[tuple[int, Designs]] = []
        timed = rounded(self.bench.levers.designs(points), written)
        if settled:
            kept = self._finely_told(timed)
            timed, points, aimed = self._settled(timed.take(kept)), points[kept], [aimed[one] for one in kept]
        if not len(points):
            return []
        for index in range(len(points)):
            told = weighed(timed.take([index]), grams=self.grams, scale=self.scale)
            lanes += [(index, told.take([lane])) for lane in range(len(told))]
        every = _joined([one for _, one in lanes])
        tried, over = self.bench.run(every), self.schedule.over(every)
        return [
            Found(
                levers=self._moved(points[index]),
                design=design,
                values=tried.values[lane],
                off=tried.off[lane],
                ripe=bool(tried.ripe[lane]),
                over=float(over[lane]),
                point=points[index],
                aimed=tried.off[lane] if (exact_off := aimed[index]) is None else exact_off,
            )
            for lane, (index, design) in enumerate(lanes)
        ]

    def _finely_told(self, timed: Designs) -> list[int]:
        """Which of them move the yeast, to amounts that the scale tells closely."""
        return [at for at, one in enumerate(timed.yeast) if abs(one - 1.0) > 1e-9 and self._is_fine(one)]

    def _settled(self, timed: Designs) -> Designs:
        """Yeast that makes up for what was lost when times and degrees were rounded."""
        if not len(timed):
            return timed
        more = replace(timed, yeast=timed.yeast * np.exp(FIRST))
        off = self.bench.run(_joined([timed, more])).off[:, RISE].reshape(2, -1)
        slope = np.where(off[1] - off[0] > LEAST_SLOPE, off[1] - off[0], np.inf) / FIRST
        step = np.clip(-off[0] / slope, -MOST_SETTLED, MOST_SETTLED)
        return replace(timed, yeast=timed.yeast * np.exp(step))

    def _is_fine(self, factor: float) -> bool:
        """Whether the scale tells so much yeast closely enough that no wait has to make up for it."""
        near = yeast_near(factor, self.grams, self.scale)
        return max(abs(one / factor - 1.0) for one in near) <= COARSE

    def _moved(self, point: Array) -> tuple[int, ...]:
        return tuple(int(index) for index in np.flatnonzero(np.abs(point) > 1e-9))

    def _mended(self, solved: Sequence[Solved]) -> list[Choice]:
        """Choices with the longest wait held where nobody works at night."""
        return [choice for one in solved for choice in self._in_time(one)]

    def _in_time(self, solved: Solved) -> Iterator[Choice]:
        designs = self.bench.levers.designs(solved.point[np.newaxis])
        if self.schedule.over(designs)[0] <= 0.0:
            return
        for lever in self._waiting(solved):
            hours = sum(one.hours for one in self.bench.levers.every[lever].waits)
            now = hours * np.exp(solved.point[lever])
            grid = now + np.arange(-AROUND, AROUND + GRID / 2.0, GRID)
            logs = np.log(np.maximum(grid, GRID) / hours)
            inside = (logs >= solved.choice.low[lever]) & (logs <= solved.choice.high[lever])
            points = np.tile(solved.point, (int(inside.sum()), 1))
            points[:, lever] = logs[inside]
            over = self.schedule.over(self.bench.levers.designs(points))
            free = points[over <= 0.0, lever]
            below, above = free[free < solved.point[lever]], free[free > solved.point[lever]]
            yield from (pinned(solved, lever, float(at)) for at in (*below[-1:], *above[:1]))

    def _waiting(self, solved: Solved) -> list[int]:
        """The free levers that move waits, the longest only."""
        free = [one for one in solved.choice.free if self.bench.levers.every[one].waits]
        return sorted(free, key=lambda one: -sum(w.hours for w in self.bench.levers.every[one].waits))[:1]

    def _weighed(self, solved: Solved) -> list[Choice]:
        """Choices with the yeast held as it is weighed, below and above; warm waits make up for it."""
        every, free = self.bench.levers.every, solved.choice.free
        yeast = [one for one in free if every[one].kind == "yeast"]
        warm = tuple(one for one in free if every[one].warm)
        if not yeast or not warm:
            return []
        factor = float(np.exp(solved.point[yeast[0]]))
        near = yeast_near(factor, self.grams, self.scale)
        if self._is_fine(factor):
            return []
        held = [pinned(solved, yeast[0], float(np.log(one))) for one in nearest_first(near, factor)]
        return [replace(one, free=warm) for one in held]


def _joined(designs: Sequence[Designs]) -> Designs:
    return Designs(
        np.concatenate([one.yeast for one in designs]),
        np.concatenate([one.hours for one in designs]),
        np.concatenate([one.degrees for one in designs]),
        designs[0].numbers,
    )
