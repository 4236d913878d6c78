"""Fit: a recipe changed so that this kitchen gets the same dough as the recipe's own."""

from __future__ import annotations

from doughwright.forecast.fit._case import Case, case_of
from doughwright.forecast.fit._choose import Found, Search
from doughwright.forecast.fit._tell import Proved, nearest_fit, proved, told_fit
from doughwright.forecast.fit.results import Changed, Does, Effect, Fit, Limits, Measure, NoFitError, Single
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.read import RecipeDocument

__all__ = ["Changed", "Does", "Effect", "Fit", "Limits", "Measure", "NoFitError", "Single", "fit"]

MOST_PROVED = 4
"""Recipes of a stage whose days are run in full before the next stage is tried."""


def fit(
    document: RecipeDocument,
    own: Surroundings,
    here: Surroundings,
    *,
    limits: Limits | None = None,
    dough: str | None = None,
    name: str | None = None,
) -> Fit:
    """Change a recipe so that the kitchen ``here`` gets the dough that it gives in its ``own``.

    Levers are the yeast, the hours of each wait and the dough's temperature: one is tried, then two, then
    three, and the fewest are taken that bring every measure near enough; waits keep to the document's ranges
    where that can be. ``name`` is what the new document calls the kitchen. Raises ``NoFitError`` where no
    three levers do it within the limits, and otherwise as ``days`` does.
    """
    case = case_of(document, own, here, limits=limits or Limits(), dough=dough, name=name)
    search = case.search()
    written = search.written()
    found = _proved(case, search, [written], [])
    if found is not None:
        return told_fit(found)
    tried, singles = [written], list[Found]()
    for number, stage in enumerate(search.stages()):
        if number == 0:
            singles = stage
            continue
        found = _proved(case, search, stage, singles)
        if found is not None:
            return told_fit(found)
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
