"""The cook's own minutes where a step does not say: a table, every row of it assumed.

Common practice, no source: what a practised home cook needs, weighing and washing the hands included.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from doughwright.recipe.model import Step, Verb


@dataclass(frozen=True, slots=True)
class Hands:
    """Minutes of work: ``fixed`` once, ``each`` for every piece; ``watched`` adds the step's own time."""

    fixed: float
    each: float = 0.0
    watched: bool = False
    why: str = "common practice, no source"


MINUTES: dict[Verb, Hands] = {
    "mix": Hands(5.0, watched=True, why="weighing and washing up, and the mixing itself"),
    "fold": Hands(2.0),
    "divide": Hands(2.0, 1.0),
    "ball": Hands(1.0, 1.0),
    "shape": Hands(2.0, 2.0),
    "score": Hands(1.0, 0.5),
    "dress": Hands(0.0, 3.0),
    "glaze": Hands(1.0, 0.5),
    "flip": Hands(0.0, 1.0),
    "cook": Hands(10.0, why="cutting up; a time in the document is counted instead"),
    "slice": Hands(0.0, 1.0),
    "preheat": Hands(1.0, why="turning the oven on"),
    "par-bake": Hands(2.0, why="putting in and taking out"),
    "bake": Hands(2.0, why="putting in and taking out"),
}
# The minutes of mixing where a mix step gives no time.
MIXING = 8.0
# Taking a dough out of the fridge, or carrying it from one place to another.
CARRY = 2
# From one piece to the next at the oven, where the document says nothing.
BETWEEN = 3
# Heating the oven where no step does: bare, and with a stone or a steel in it.
HEATING = {False: 30, True: 60}
# A bake longer than this leaves the hands free between putting in and taking out.
WATCHED_BAKE = 15


def minutes_of(step: Step, pieces: int, *, first: bool = True) -> tuple[int, bool]:
    """Hands-on minutes of a work step, and whether they are assumed; ``first`` counts a mix's weighing."""
    if step.hands is not None:
        return max(1, ceil(step.hands / 60.0)), False
    row = MINUTES.get(step.do, Hands(0.0))
    own = step.for_.middle / 60.0 if step.for_ is not None else None
    if row.watched:
        return ceil((row.fixed if first else 1.0) + (own if own is not None else MIXING)), True
    if own is not None and step.do == "cook":
        return max(1, ceil(own)), True
    return max(1, ceil(row.fixed + row.each * pieces)), True
