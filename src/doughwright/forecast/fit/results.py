"""What a fit found: frozen results, as ``--json`` prints them."""

from __future__ import annotations

from dataclasses import dataclass, field

from doughwright.errors import Fault, NoAnswerError
from doughwright.figures import Figure
from doughwright.forecast.printed import PrintedReading
from doughwright.forecast.results import Run
from doughwright.recipe.read import RecipeDocument


@dataclass(frozen=True, slots=True)
class Limits:
    """What the cook allows besides the kitchen's hours awake; ``None`` where it does not matter.

    ``longest_wait`` [h] is for any one wait, ``available`` [h] from the first step to the meal; ``meal`` is
    its hour of the day, that of the document where left out. ``keep`` names what stays as it is: "yeast",
    "dough temperature", a place, or a wait's verb.
    """

    longest_wait: float | None = None
    available: float | None = None
    meal: float | None = None
    keep: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Changed:
    """One thing that is changed: what, from what, to what; ``step`` counts from 1 where it is a step's."""

    what: str
    from_: Figure | str
    to: Figure | str
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """One thing by which doughs are the same: as wanted (its own kitchen), as written here, as fitted.

    ``tolerance`` is how far from what is wanted still counts as the same.
    """

    what: str
    wanted: Figure
    tolerance: Figure
    before: Figure
    after: Figure
    same_before: bool
    same: bool


@dataclass(frozen=True, slots=True)
class Effect:
    """What a step of one lever does to a measure, near the fitted recipe."""

    what: str
    change: Figure


@dataclass(frozen=True, slots=True)
class Does:
    """A lever, a step of it that a cook can take, and what that does; the largest effect first."""

    lever: str
    step: Figure
    used: bool
    effects: tuple[Effect, ...]


@dataclass(frozen=True, slots=True)
class Single:
    """The best that one lever alone can do, and what it leaves wrong."""

    lever: str
    changes: tuple[Changed, ...]
    measures: tuple[Measure, ...]
    wrong: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ToWeigh:
    """A changed amount on this kitchen's scale: whether it can be weighed, and what to do where it cannot."""

    item: str
    amount: Figure
    weighable: bool | str
    why: str
    instead: str | None


@dataclass(frozen=True, slots=True)
class Fit:
    """A recipe changed so that this kitchen gets the same dough.

    ``before`` is the recipe as written, in this kitchen; ``after`` the changed one; ``wanted`` the recipe in
    its own kitchen. ``levers`` are what was moved, ``reached`` whether every measure is the same.
    ``document`` is the new text. ``single`` is ``None`` where no lever alone does anything.
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
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    tried: int
    document: str
    fitted: RecipeDocument = field(metadata={"json": False}, repr=False)
    runs: tuple[Run, Run, Run] = field(metadata={"json": False}, repr=False)


class NoFitError(NoAnswerError):
    """No change within the limits gives the same dough; ``nearest`` is what comes nearest."""

    def __init__(self, fault: Fault, nearest: Fit) -> None:
        super().__init__(fault)
        self.nearest = nearest
