"""A plan with a ripe dough near one whose dough would be young or past."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from doughwright.plan._entries import lengths
from doughwright.plan._network import Chain
from doughwright.plan._ripe import HALVINGS, ROUNDS, Outlook, RunDays, leaning, narrowed, outlook
from doughwright.plan._solve import Solution, solve
from doughwright.plan._why import Question
from doughwright.recipe.model import Recipe
from doughwright.recipe.types import Interval


def pinned(recipe: Recipe, waits: Mapping[int, float]) -> Recipe:
    """The recipe with steps (by number from 0) at exactly these times [s]."""
    steps = (
        replace(step, for_=Interval(waits[number], waits[number])) if number in waits else step
        for number, step in enumerate(recipe.steps)
    )
    return replace(recipe, steps=tuple(steps))


@dataclass(frozen=True, slots=True)
class Mending:
    """Looks for a plan with a ripe dough near one whose dough is not ripe."""

    recipe: Recipe
    asked: Question
    run_days: RunDays

    def found(self, solution: Solution, first: Outlook) -> tuple[Solution, Outlook]:
        """A solution with a ripe dough, the last wait moved or else all; the first where there is none."""
        mended = self._by_last_wait(first) or self._by_all_waits(first)
        return mended or (solution, first)

    def _by_last_wait(self, first: Outlook) -> tuple[Solution, Outlook] | None:
        found = first
        for _ in range(ROUNDS):
            narrower = narrowed(self.asked.meal, found.run) if found.run is not None else None
            tried = self._try(narrower)
            if tried is None:
                return None
            found = tried[1]
            if found.ripe:
                return tried
        return None

    def _by_all_waits(self, first: Outlook) -> tuple[Solution, Outlook] | None:
        """All ranged waits longer for a young dough, shorter for one that is past, as little as need be."""
        if first.run is None:
            return None
        way = 1.0 if first.reading is not None and first.reading.state == "young" else -1.0
        best: tuple[Solution, Outlook] | None = None
        least, most, lean = 0.0, 1.0, 1.0
        for _ in range(1 + HALVINGS):
            tried = self._try(leaning(self.asked.meal, first.run, way * lean))
            if tried is None:
                return best
            if tried[1].ripe:
                best = tried
            if _still(tried[1], first):
                least = lean
            else:
                most = lean
            lean = (least + most) / 2.0
        return best

    def _try(self, meal: Chain | None) -> tuple[Solution, Outlook] | None:
        solution = solve(meal, self.asked.at, self.asked.rules(strict=True)) if meal is not None else None
        if solution is None:
            return None
        return solution, outlook(pinned(self.recipe, lengths(solution, self.recipe)), self.run_days)


def _still(found: Outlook, first: Outlook) -> bool:
    """Whether a dough is on the same side of ripe as at first."""
    return (
        found.reading is not None and first.reading is not None and found.reading.state == first.reading.state
    )
