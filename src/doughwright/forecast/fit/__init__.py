"""Fit: a recipe changed so that this kitchen gets the same dough as the recipe's own."""

from __future__ import annotations

from doughwright.forecast.fit.results import Changed, Does, Effect, Fit, Limits, Measure, NoFitError, Single
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.read import RecipeDocument

__all__ = ["Changed", "Does", "Effect", "Fit", "Limits", "Measure", "NoFitError", "Single", "fit"]


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
    three, and the fewest are taken that bring every measure near enough, the usual levers before the others;
    of those one is taken from which a fit to its ``own`` kitchen is the recipe again, where there is one.
    ``name`` is what the new document calls the kitchen. Raises ``NoFitError`` where no three levers do it
    within the limits, and otherwise as ``days`` does.
    """
    # The search needs arrays; who only wants the names of its results does not wait for them.
    from doughwright.forecast.fit._case import case_of
    from doughwright.forecast.fit._find import found

    return found(case_of(document, own, here, limits=limits or Limits(), dough=dough, name=name))
