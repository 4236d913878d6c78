"""The waits of a dough up to where it is judged: which step, where, how long."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.forecast._order import steps_of
from doughwright.recipe.model import BAKES, Recipe, Step
from doughwright.recipe.types import At

ROOM = At("room")
COLDER_THAN = 12.0
"""A temperature [degC] below which a place named by it is cold."""


@dataclass(frozen=True, slots=True)
class Wait:
    """A wait of a dough: its step's number from 0, where it stands (said or not), its hours, if it is cold.

    ``low`` and ``high`` are the ends of the document's own range [h], alike where it gives none.
    """

    number: int
    verb: str
    at: At
    cold: bool
    hours: float
    low: float
    high: float


def waits_of(recipe: Recipe, dough: str) -> tuple[Wait, ...]:
    """Every wait of a dough before it is judged, in order; those of its preferments are not its own."""
    found: list[Wait] = []
    at, worked = ROOM, True
    steps = steps_of(recipe, dough)
    for number, step in steps[: judged_step(recipe, dough)]:
        if step.waits:
            if step.at is not None or worked:
                at = step.at or ROOM
            found.append(_wait(number, step, at))
        worked = not step.waits
    return tuple(found)


def judged_step(recipe: Recipe, dough: str) -> int:
    """Where among a dough's own steps it is judged: before the step of this index, or after the last wait."""
    wanted = ("shape",) if recipe.shape in ("round", "rectangle") else BAKES
    dos = [step.do for _, step in steps_of(recipe, dough)]
    first_bake = next((index for index, do in enumerate(dos) if do in BAKES), len(dos))
    found = [index for index, do in enumerate(dos[: first_bake + 1]) if do in wanted]
    if found:
        return found[-1]
    waits = [index for index, (_, step) in enumerate(steps_of(recipe, dough)) if step.waits]
    return min(waits[-1] + 1 if waits else len(dos), first_bake)


def worked_after_waiting(recipe: Recipe, dough: str) -> bool:
    """Whether anything is done to the dough between its last wait and where it is judged."""
    steps = [step for _, step in steps_of(recipe, dough)[: judged_step(recipe, dough)]]
    return bool(steps) and not steps[-1].waits


def _wait(number: int, step: Step, at: At) -> Wait:
    cold = at.name == "fridge" or (at.degrees is not None and at.degrees < COLDER_THAN)
    hours = (step.lasts or 0.0) / 3600.0
    low, high = (step.for_.low / 3600.0, step.for_.high / 3600.0) if step.for_ is not None else (hours, hours)
    return Wait(number, step.do, at, cold, hours, low, high)
