"""The same steps in another order: dividing before the cold, or after it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from doughwright.forecast._order import steps_of
from doughwright.forecast._waits import judged_step, waits_of
from doughwright.recipe.model import Recipe

_BALLING = ("divide", "ball")


def other_order(recipe: Recipe, dough: str) -> tuple[int, ...] | None:
    """The steps' numbers with dividing (and balling) on the other side of the cold; ``None``: no such order.

    What is divided before its cold wait is then divided after it, with the balling that follows at once, and
    the other way round.
    """
    cold = [one.number for one in waits_of(recipe, dough) if one.cold]
    own = [number for number, _ in steps_of(recipe, dough)[: judged_step(recipe, dough)]]
    work = _dividing(recipe, own)
    if len(cold) != 1 or not work:
        return None
    rest = [number for number in own if number not in work]
    place = rest.index(cold[0]) + (1 if work[0] < cold[0] else 0)
    ordered = [*rest[:place], *work, *rest[place:]]
    moved = dict(zip(own, ordered, strict=True))
    return tuple(moved.get(number, number) for number in range(len(recipe.steps)))


def _dividing(recipe: Recipe, own: Sequence[int]) -> list[int]:
    """The divide step and the balling that follows it at once."""
    found: list[int] = []
    for number in own:
        if recipe.steps[number].do == "divide" or (found and recipe.steps[number].do == "ball"):
            found.append(number)
        elif found:
            break
    return found


def reordered(recipe: Recipe, dough: str, order: Sequence[int]) -> Recipe:
    """A recipe with its steps in another order; each wait of the dough stays where it stood."""
    at = {one.number: one.at for one in waits_of(recipe, dough)}
    steps = [replace(recipe.steps[number], at=at.get(number, recipe.steps[number].at)) for number in order]
    return replace(recipe, steps=tuple(steps))
