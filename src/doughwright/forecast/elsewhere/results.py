"""What a recipe comes to in many kitchens: frozen results, and their JSON as the command prints it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from doughwright.figures import Figure
from doughwright.forecast.printed import PrintedColumn, State

LEVELS = (5, 25, 50, 75, 95)
"""The quantiles of the rise over time, in per cent."""

NORMAL_90 = 1.645
"""Standard errors to either side of a 90 % interval."""


@dataclass(frozen=True, slots=True)
class Shares:
    """Per cent of the kitchens in which the dough is young, ripe and past when judged."""

    young: Figure
    ripe: Figure
    past: Figure


@dataclass(frozen=True, slots=True)
class Explained:
    """An input by its heading, and the share [%] of a spread it explains by itself, with a 90 % interval."""

    input: str
    share: Figure


@dataclass(frozen=True, slots=True)
class Indices:
    """An input's share of a variance [%]: alone, and in all with what it does together with others."""

    input: str
    first: Figure
    total: Figure


@dataclass(frozen=True, slots=True)
class Full:
    """Indices by a design made for them, of the rise when judged and of being ripe; ``base`` points."""

    base: int
    runs: int
    rise: tuple[Indices, ...]
    ripe: tuple[Indices, ...]


@dataclass(frozen=True, slots=True)
class Trait:
    """What the kitchens of a group have in common: the group's mean of an input, and that of all kitchens."""

    what: str
    there: Figure
    all: Figure


@dataclass(frozen=True, slots=True)
class Failing:
    """The kitchens where the dough is young, or past: when, by how much, and what the worst have in common.

    ``when`` is the hour from the end of the last mix step by which half of the past ones had left the range,
    or half of the young ones would have reached it, with the hours of one in twenty to either side. ``rise``
    is the middle one of the worst (one in twenty of all kitchens, or all that fail where fewer do), and
    ``traits`` how those differ from all kitchens, the most telling first.
    """

    state: State
    kitchens: int
    when: Figure
    rise: Figure
    traits: tuple[Trait, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What readers are told to do, what it is taken to mean, and the share that is ripe then [%]."""

    what: str
    means: str
    ripe: Figure
    change: Figure


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """A recipe in many kitchens, as ``--json`` prints it.

    ``quantiles`` are those of the rise over time: ``time`` [h] from the end of the last mix step, then one
    column for each of 5, 25, 50, 75 and 95 per cent. ``percentiles`` are a hundred rises when judged, rising,
    each the middle of a hundredth of the kitchens, and ``states`` theirs. ``explained_by`` is for the rise
    when judged, ``ripe_explained_by`` for being ripe. Fewer ``kitchens`` than ``asked`` means stopped early.
    """

    dough: str
    kitchens: int
    asked: int
    season: str
    aim: bool
    judged: str
    judged_at: Figure
    target: tuple[float, float]
    share: Shares
    explained_by: tuple[Explained, ...]
    ripe_explained_by: tuple[Explained, ...]
    quantiles: Mapping[str, PrintedColumn]
    percentiles: PrintedColumn
    states: tuple[State, ...]
    rise: Figure
    sugar: Figure
    dough_temperature: Figure
    failing: tuple[Failing, ...]
    readers: tuple[Told, ...]
    full: Full | None
    seed: int
    said: tuple[str, ...]
    seconds: Figure
