"""A recipe's card in one call: its formula, its days, its cautions, and the plan where there is one."""

from __future__ import annotations

from doughwright.errors import NoAnswerError
from doughwright.forecast.days import days
from doughwright.forecast.results import Run
from doughwright.kitchen.assumed import Surroundings
from doughwright.plan.model import Plan
from doughwright.publish.card._data import Stamp, card_data
from doughwright.publish.card._pdf import card
from doughwright.publish.cautions import cautions
from doughwright.publish.render import System
from doughwright.recipe.formula import formula
from doughwright.recipe.model import Recipe


def recipe_card(
    recipe: Recipe,
    kitchen: Surroundings,
    *,
    units: System = "metric",
    plan: Plan | None = None,
    version: str = "",
    date: str = "",
) -> bytes:
    """The card of a recipe in a kitchen; where its days are not modelled it says so and has no picture."""
    used = plan.recipe if plan is not None and plan.recipe is not None else recipe
    run, why = _run(used, kitchen)
    data = card_data(
        used,
        formula(used, kitchen),
        kitchen,
        run=run,
        plan=plan,
        cautions=cautions(used, kitchen, run),
        units=units,
        stamp=Stamp(version, date),
        why_no_days=why,
    )
    return card(data)


def _run(recipe: Recipe, kitchen: Surroundings) -> tuple[Run | None, str]:
    """The first dough's days, or why there are none."""
    try:
        return days(recipe, kitchen).runs[0], ""
    except NoAnswerError as error:
        return None, error.fault.sentence
