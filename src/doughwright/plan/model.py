"""What a plan is: its entries in time order, and how the dough will be when it is used."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from doughwright.errors import Fault, NoAnswerError
from doughwright.figures import Figure, jsonable
from doughwright.forecast.results import Reading
from doughwright.recipe.model import Recipe


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a plan: something to do, or a wait (``hands_on`` is then 0).

    ``start`` and ``end`` are ISO 8601 with the offset of the plan's zone. ``step`` counts the document's
    steps from 1, ``None`` where it has none; ``piece`` counts pieces from 1 where they go one by one.
    ``assumed`` says that the minutes come from the table. ``night`` is work outside the hours awake.
    ``text`` is what the document writes at the step, and in the notes just before it.
    """

    start: str
    end: str
    what: str
    hands_on: Figure
    step: int | None = None
    mix: str | None = None
    place: str | None = None
    piece: int | None = None
    wait: bool = False
    assumed: bool = False
    night: bool = False
    text: str | None = None

    @property
    def starts(self) -> datetime:
        """When it starts, as a moment."""
        return datetime.fromisoformat(self.start)

    @property
    def ends(self) -> datetime:
        """When it ends, as a moment."""
        return datetime.fromisoformat(self.end)


@dataclass(frozen=True, slots=True)
class Chosen:
    """A wait with a range: which step, what the document allows and what the plan chose."""

    step: int
    what: str
    low: Figure
    high: Figure
    chosen: Figure


@dataclass(frozen=True)
class Plan:
    """A plan back from the meal: what to do when.

    ``dough`` is the reading of the days at the chosen waits, ``None`` where they were not run or are not
    modelled (``dough_why``). ``recipe`` is the recipe with every wait at what was chosen.
    """

    title: str
    eat: str
    zone: str
    start: str
    awake: str
    entries: tuple[Entry, ...]
    hands_on_total: Figure
    length: Figure
    chosen: tuple[Chosen, ...] = ()
    dough: Reading | None = None
    dough_why: str | None = None
    notes: tuple[str, ...] = ()
    recipe: Recipe | None = field(default=None, metadata={"json": False}, repr=False)

    @property
    def eats(self) -> datetime:
        """The meal, as a moment."""
        return datetime.fromisoformat(self.eat)


class NoPlanError(NoAnswerError):
    """No plan for this meal; ``in_the_way`` is the work that falls outside the hours awake or in the past,
    ``nearest`` the nearest meal that works (ISO 8601), ``None`` where none was found.
    """

    def __init__(
        self, fault: Fault, *, nearest: str | None = None, in_the_way: tuple[Entry, ...] = ()
    ) -> None:
        super().__init__(fault)
        self.nearest = nearest
        self.in_the_way = in_the_way

    def to_json(self) -> dict[str, object]:
        """The error as every error, with the nearest meal and what is in the way."""
        out = super().to_json()
        return {**out, "nearest": self.nearest, "in_the_way": jsonable(self.in_the_way)}
