"""The days as ``--json`` prints them: one dataclass for each object, its fields the keys."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from doughwright.figures import Figure

State = Literal["young", "ripe", "past"]


@dataclass(frozen=True, slots=True)
class PrintedColumn:
    """One series: a unit and its values, to five decimals."""

    unit: str
    values: tuple[float, ...]

    def to_json(self) -> dict[str, object]:
        """The column as it is; going through every value again would take longer than making them."""
        return {"unit": self.unit, "values": list(self.values)}


@dataclass(frozen=True, slots=True)
class PrintedSeries:
    """A dough over time, all columns of one length; a point at least every 5 min and two at each action.

    Time is in h, 0 at the end of the last mix step; gas and dissolved in ml per g of flour, sugar in per cent
    of flour.
    """

    time: PrintedColumn
    core: PrintedColumn
    edge: PrintedColumn
    mean: PrintedColumn
    rise: PrintedColumn
    gas: PrintedColumn
    dissolved: PrintedColumn
    sugar: PrintedColumn
    tightness: PrintedColumn


@dataclass(frozen=True, slots=True)
class PrintedReading:
    """A dough at one moment; ``ph_heuristic`` is a rule of thumb, not a measurement."""

    time: Figure
    core: Figure
    edge: Figure
    mean: Figure
    rise: Figure
    gas: Figure
    dissolved: Figure
    sugar: Figure
    tightness: Figure
    ph_heuristic: Figure
    state: State
    state_why: str


@dataclass(frozen=True, slots=True)
class PrintedEvent:
    """Something done to a dough: the step's verb, its hours, where, and its number in the document."""

    step: str
    start: Figure
    end: Figure
    place: str
    in_: str | None
    mix: str
    number: int


@dataclass(frozen=True, slots=True)
class PrintedPreferment:
    """A preferment on its own clock, 0 at the end of its last mix step; it goes in at the last point."""

    name: str
    series: PrintedSeries
    events: tuple[PrintedEvent, ...]


@dataclass(frozen=True, slots=True)
class PrintedTemperature:
    """The temperature a dough enters its days at, and how it is known."""

    value: float
    unit: str
    how: Literal["measured", "target", "computed"]
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class PrintedTarget:
    """The rise that is right for the dough, and whether that is assumed."""

    low: Figure
    high: Figure
    assumed: bool


@dataclass(frozen=True, slots=True)
class PrintedWindow:
    """Hours during which the dough is ripe if its last wait were lengthened; an unknown end says why."""

    from_: Figure
    to: Figure
    why: str | None


@dataclass(frozen=True, slots=True)
class PrintedShare:
    """Per cent of kitchens in which the dough is young, ripe or past when it is judged."""

    young: Figure
    ripe: Figure
    past: Figure


@dataclass(frozen=True, slots=True)
class PrintedQuantiles:
    """Rise over time up to the judged moment: 5, 25, 50, 75 and 95 % of kitchens are below."""

    time: PrintedColumn
    q5: PrintedColumn
    q25: PrintedColumn
    q50: PrintedColumn
    q75: PrintedColumn
    q95: PrintedColumn


@dataclass(frozen=True, slots=True)
class PrintedDoubt:
    """How sure the days are, from that many draws of all that is not known of this kitchen and its dough."""

    draws: int
    share: PrintedShare
    quantiles: PrintedQuantiles


@dataclass(frozen=True, slots=True)
class PrintedDays:
    """The days of the first dough; ``doughs`` has those of all where there are several, else nothing.

    The series run on 12 h past ``judged_at`` as if the dough were left; ``after`` is the true course from
    there to the first bake, where that comes later.
    """

    dough: str
    kitchen: str
    dough_temperature: PrintedTemperature
    target_rise: PrintedTarget
    series: PrintedSeries
    after: PrintedSeries | None
    preferments: tuple[PrintedPreferment, ...]
    events: tuple[PrintedEvent, ...]
    at_shaping: PrintedReading | None
    at_shaping_why: str | None
    at_bake: PrintedReading | None
    at_bake_why: str | None
    judged_at: Figure
    judged: PrintedReading
    ripe_window: PrintedWindow
    doubt: PrintedDoubt | None
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    doughs: tuple[PrintedDays, ...] = ()
