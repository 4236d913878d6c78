"""What a search of a recipe's free ranges found: frozen results, as ``--json`` prints them."""

from __future__ import annotations

from dataclasses import dataclass, field

from doughwright.figures import Figure
from doughwright.forecast.elsewhere.results import Shares


@dataclass(frozen=True, slots=True)
class Limits:
    """What the cook leaves free: ranges from the least to the most that is wanted; ``None``: the usual one.

    ``total`` and ``cold`` are hours from the end of the mix to where the dough is judged, in all and in the
    fridge; ``room`` the hours outside it before it has been cold, ``temper`` those after; ``yeast`` [g] all
    that is weighed into the dough itself; ``dough_temperature`` [degC] only where readers aim for one.
    ``divide`` may be "either", or "as written".
    """

    total: tuple[float, float] | None = None
    cold: tuple[float, float] | None = None
    room: tuple[float, float] | None = None
    temper: tuple[float, float] | None = None
    yeast: tuple[float, float] | None = None
    dough_temperature: tuple[float, float] | None = None
    divide: str = "either"


@dataclass(frozen=True, slots=True)
class Changed:
    """One thing that is changed: what, from what, to what."""

    what: str
    from_: Figure | str
    to: Figure | str


@dataclass(frozen=True, slots=True)
class Outcome:
    """A recipe in a fresh sample of kitchens, and what it costs: hours in all and cold, sugar left."""

    share: Shares
    rise: Figure
    sugar: Figure
    hours: Figure
    cold_hours: Figure


@dataclass(frozen=True, slots=True)
class Redesign:
    """The recipe's free ranges searched for the largest share of ripe kitchens.

    ``gain`` is how many more per cent are ripe, in the same fresh kitchens; ``tried`` designs in ``kitchens``
    each; ``document`` is the changed text, ``None`` (with a ``why``) where only the changes are told.
    """

    dough: str
    changes: tuple[Changed, ...]
    before: Outcome
    after: Outcome
    gain: Figure
    tried: int
    kitchens: int
    fresh: int
    free: tuple[str, ...]
    said: tuple[str, ...]
    document: str | None
    why: str | None
    seconds: Figure = field(default=Figure(None, "s", why="not timed"))
