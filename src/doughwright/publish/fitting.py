"""A fit as a command and the sheet show it: what was found, and what moved by it."""

from __future__ import annotations

from dataclasses import dataclass, fields

from doughwright.forecast.fit import Changed, Does, Fit, Measure, Single
from doughwright.forecast.fit.results import ToWeigh
from doughwright.forecast.printed import PrintedReading
from doughwright.forecast.results import Run
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import Recipe
from doughwright.recipe.moved import Moved


@dataclass(frozen=True, slots=True)
class Fitted:
    """A recipe changed so that this kitchen gets the same dough, as ``--json`` prints it.

    ``before`` is the recipe as written, in this kitchen; ``after`` the changed one, ``document`` its text;
    ``wanted`` is the recipe in its own kitchen. ``levers`` are what was moved, ``reached`` whether every
    measure is the same; ``does`` says what a step of each lever does, ``single`` what one lever alone could
    do. ``moved`` compares the changed recipe with the one as written, both in this kitchen.
    """

    dough: str
    kitchen: str
    own: str
    changes: tuple[Changed, ...]
    levers: tuple[str, ...]
    reached: bool
    before: PrintedReading
    after: PrintedReading
    wanted: PrintedReading
    measures: tuple[Measure, ...]
    does: tuple[Does, ...]
    single: Single | None
    weighing: tuple[ToWeigh, ...]
    moved: tuple[Moved, ...]
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    tried: int
    document: str


def fitted(found: Fit, written: Recipe, here: Surroundings) -> Fitted:
    """A fit with what moved: the recipe as ``written`` and the changed one, both in the kitchen ``here``."""
    from doughwright.publish.band import run_clock
    from doughwright.publish.moved import Outcome, what_moved
    from doughwright.recipe.formula import formula

    def outcome(recipe: Recipe, run: Run) -> Outcome:
        return Outcome(recipe, formula(recipe, here), run, run_clock(run, recipe))

    _, before, after = found.runs
    moved = what_moved(outcome(written, before), outcome(found.fitted.recipe, after)).moved
    own = {field.name: getattr(found, field.name) for field in fields(Fitted) if field.name != "moved"}
    return Fitted(**own, moved=moved)
