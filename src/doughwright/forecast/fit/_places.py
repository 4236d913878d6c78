"""Places that this kitchen has not: a step that names one goes where this kitchen is most like it."""

from __future__ import annotations

from collections.abc import Iterator

from doughwright.errors import UnknownNameError
from doughwright.forecast._waits import COLDER_THAN
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.edit import Change
from doughwright.recipe.model import Recipe


def moved_places(recipe: Recipe, own: Surroundings, here: Surroundings) -> Iterator[Change]:
    """Steps at a place that only the own kitchen has are moved to the fridge or the room of this one.

    A place that neither has is left: the days say that it is not there.
    """
    for number, step in enumerate(recipe.steps):
        if step.at is None or step.at.degrees is not None or step.in_oven or _has(here, step.at.text):
            continue
        if _has(own, step.at.text):
            cold = own.place(step.at.text).value < COLDER_THAN
            yield Change(("step", number, "at"), "fridge" if cold else "room")


def _has(kitchen: Surroundings, name: str) -> bool:
    try:
        kitchen.place(name)
    except UnknownNameError:
        return False
    return True
