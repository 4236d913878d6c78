"""The way back: of the recipes that give the same dough one from which the own kitchen has its own again."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from itertools import islice

from doughwright.forecast._edits import yeast_lines
from doughwright.forecast.fit._case import Case, case_of
from doughwright.forecast.fit._round import yeast_step
from doughwright.forecast.fit._tell import Proved
from doughwright.forecast.results import Run
from doughwright.recipe.model import Recipe, Step

SAME_YEAST, SAME_WAIT, SAME_WARMTH = 0.05, 0.25, 1.0
"""A recipe is there again within that share of its yeast, those hours of each wait, those degrees."""
DEEP = 2
"""So many ways back from ways back are looked at."""
MOST_LOOKED_AT = 6
"""So many answers to one question are looked at."""
MOST_ASKED = 4
"""So many ways back are asked for in all: each takes as long as the fit."""

Answers = Callable[[Case], Iterator[Proved]]


class Ways:
    """Ways to and fro between two kitchens; ``answers`` gives the recipes that answer a question, best first.

    An answer's own kitchen may like another recipe better than the one it came from. Then the next answer is
    looked at, unless that other recipe's first choice is not this answer: the preferences of the two
    kitchens have to be each other's.
    """

    def __init__(self, answers: Answers) -> None:
        self.answers, self.asked = answers, 0

    def chosen(self, case: Case, made: Iterable[Proved]) -> Proved | None:
        """The first answer whose way back is the recipe again, else the first, with that said."""
        first: Proved | None = None
        for one in islice(_apart(case, made), MOST_LOOKED_AT):
            first = first or one
            if case.run_own.judged.state != "ripe" or self._comes_back(case, one, DEEP):
                return one
            if self.asked >= MOST_ASKED:
                break
        return None if first is None else replace(first, returns=False)

    def _comes_back(self, case: Case, made: Proved, deep: int) -> bool:
        """Whether the own kitchen takes the recipe again; it passes over what does not come back itself."""
        self.asked += 1
        back = case_of(made.document, case.here, case.own, limits=case.limits, dough=case.dough, name=None)
        for one in islice(_apart(back, self.answers(back)), MOST_LOOKED_AT):
            if _alike(case, case.document.recipe, case.run_own, one):
                return True
            if self.asked >= MOST_ASKED or deep == 0 or self._comes_back(back, one, deep - 1):
                return False
        return False


def _apart(case: Case, made: Iterable[Proved]) -> Iterator[Proved]:
    """Of recipes that are the same to a cook only the first."""
    kept: list[Proved] = []
    for one in made:
        if not any(_alike(case, two.document.recipe, two.run, one) for two in kept):
            kept.append(one)
            yield one


def _alike(case: Case, was: Recipe, run: Run, made: Proved) -> bool:
    """Whether a recipe, with its days, is near enough the same as one that was made."""
    now = made.document.recipe
    grams, there = _grams(was, case.dough), _grams(now, case.dough)
    near = max(SAME_YEAST * grams, 0.5 * yeast_step(grams, 1000.0 * case.own.scale)) if grams else 0.0
    apart = [abs((old.lasts or 0.0) - (new.lasts or 0.0)) / 3600.0 for old, new in _waits(was, now)]
    warmth = abs(made.run.dough_temperature.value - run.dough_temperature.value)
    return (
        abs(there - grams) <= near + 1e-9
        and max(apart, default=0.0) <= SAME_WAIT + 1e-6
        and warmth <= SAME_WARMTH
    )


def _waits(was: Recipe, now: Recipe) -> list[tuple[Step, Step]]:
    return [(old, new) for old, new in zip(was.steps, now.steps, strict=True) if old.waits]


def _grams(recipe: Recipe, dough: str) -> float:
    return 1000.0 * sum(line.mass or 0.0 for _, line in yeast_lines(recipe, dough))
