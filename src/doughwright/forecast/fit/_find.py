"""One fit from its question to its answer: stage by stage, each recipe proved before it is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain

from doughwright.forecast.fit._back import Ways
from doughwright.forecast.fit._case import Case
from doughwright.forecast.fit._choose import Found, Search
from doughwright.forecast.fit._solve import Solved
from doughwright.forecast.fit._tell import Proved, nearest_fit, proved, told_fit
from doughwright.forecast.fit.results import Fit

MOST_PROVED = 4
"""Recipes of a stage whose days are run in full before the next stage is tried."""


def found(case: Case) -> Fit:
    """The fit by the fewest levers whose way back is the recipe again, else by the fewest levers.

    Raises ``NoFitError`` with what comes nearest where no levers reach all.
    """
    search = case.search()
    solved = search.solved()
    tried, singles = list[Found](), search.alone(solved)
    made = Ways(_answered).chosen(case, _answers(case, search, solved, tried, singles))
    if made is not None:
        return told_fit(made)
    tried.sort(key=search.nearness)
    raise nearest_fit(next(made for one in tried if (made := proved(case, search, one, singles)) is not None))


def _answered(case: Case) -> Iterator[Proved]:
    search = case.search()
    return _answers(case, search, search.solved(), [], [])


def _answers(
    case: Case, search: Search, solved: Sequence[Solved], tried: list[Found], singles: Sequence[Found]
) -> Iterator[Proved]:
    """Recipes whose days, run in full, are the same dough, the best first; ``tried`` gets all looked at."""
    for stage in chain([[search.written()]], search.stages(solved)):
        yield from _proved(case, search, stage, singles)
        tried += stage


def _proved(case: Case, search: Search, stage: Sequence[Found], singles: Sequence[Found]) -> Iterator[Proved]:
    for one in [one for one in stage if one.same][:MOST_PROVED]:
        made = proved(case, search, one, singles)
        if made is not None and made.same:
            yield made
