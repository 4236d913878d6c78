"""What a cook's readings teach, as it is shown and printed."""

from __future__ import annotations

from dataclasses import dataclass, field

from doughwright.figures import Figure
from doughwright.kitchen.learnt import Learnt


@dataclass(frozen=True, slots=True)
class LearntAlone:
    """A quantity that the readings tell by itself: what it is now, and what it was before them."""

    of: str
    what: str
    now: Figure
    before: Figure


@dataclass(frozen=True, slots=True)
class Conditional:
    """One of the ways that the readings leave open: if the first is this, the second is that."""

    if_: Figure
    then: Figure


@dataclass(frozen=True, slots=True)
class LearntTogether:
    """Two quantities that the readings tell only together: ``ways`` are two of those left open.

    ``says`` is that in a sentence, ``would_tell`` what measurement would tell them apart.
    """

    of: tuple[str, str]
    ways: tuple[Conditional, ...]
    says: str
    would_tell: str


@dataclass(frozen=True, slots=True)
class NotLearnt:
    """A quantity of which the readings say little, and what would."""

    of: str
    what: str
    would_tell: str


@dataclass(frozen=True, slots=True)
class OddReading:
    """Readings that do not fit the others: whose, what is odd about them, and what is done with them."""

    of: str
    says: str


@dataclass(frozen=True, slots=True)
class SeenReading:
    """A reading beside what the model makes of it now: when [h after mixing], and whether it is odd."""

    of: str
    time: Figure
    read: Figure
    model: Figure
    odd: bool


@dataclass(frozen=True, slots=True)
class Band:
    """A forecast over time [h after mixing]: its middle, nine times in ten between ``low`` and ``high``."""

    time: tuple[float, ...]
    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class JarBand:
    """The rise in a jar as forecast before the readings and after them."""

    jar: str
    before: Band
    after: Band


@dataclass(frozen=True, slots=True)
class Calibrated:
    """What readings teach of a kitchen and its yeast.

    ``rhat`` and ``effective`` say how well the sampling has settled; ``document`` is the kitchen's text with
    what was learnt, where there is a kitchen document.
    """

    readings: str
    learnt: tuple[LearntAlone, ...]
    together: tuple[LearntTogether, ...]
    not_learnt: tuple[NotLearnt, ...]
    odd: tuple[OddReading, ...]
    seen: tuple[SeenReading, ...]
    bands: tuple[JarBand, ...]
    rhat: float
    effective: float
    draws: int
    said: tuple[str, ...]
    document: str | None
    update: Learnt = field(metadata={"json": False})
