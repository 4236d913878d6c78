"""One fit from its question to its answer: stage by stage, each recipe proved before it is told."""

from __future__ import annotations

from doughwright.forecast.fit._case import Case
from doughwright.forecast.fit._choose import Found, Search
from doughwright.forecast.fit._tell import Proved, nearest_fit, proved, told_fit
from doughwright.forecast.fit.results import Fit

MOST_PROVED = 4
"""Recipes of a stage whose days are run in full before the next stage is tried."""


def found(case: Case) -> Fit:
    """The fit by the fewest levers; raises ``NoFitError`` with what comes nearest where there is none."""
    search = case.search()
    written = search.written()
    proof = _proved(case, search, [written], [])
    if proof is not None:
        return told_fit(proof)
    tried, singles = [written], list[Found]()
    for number, stage in enumerate(search.stages()):
        if number == 0:
            singles = stage
            continue
        proof = _proved(case, search, stage, singles)
        if proof is not None:
            return told_fit(proof)
        tried += stage
    tried.sort(key=search.nearness)
    raise nearest_fit(next(made for one in tried if (made := proved(case, search, one, singles)) is not None))


def _proved(case: Case, search: Search, stage: list[Found], singles: list[Found]) -> Proved | None:
    """The first of a stage whose days, run in full, are the same dough."""
    for one in [one for one in stage if one.same][:MOST_PROVED]:
        made = proved(case, search, one, singles)
        if made is not None and made.same:
            return made
    return None
