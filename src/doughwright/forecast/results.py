"""What the days say of a dough: frozen results, and their JSON as the commands print it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from doughwright.figures import Figure, jsonable
from doughwright.forecast.printed import (
    PrintedColumn,
    PrintedDays,
    PrintedDoubt,
    PrintedEvent,
    PrintedPreferment,
    PrintedQuantiles,
    PrintedReading,
    PrintedSeries,
    PrintedShare,
    PrintedTarget,
    PrintedTemperature,
    PrintedWindow,
    State,
)

SERIES_UNITS = {
    "time": "h",
    "core": "degC",
    "edge": "degC",
    "mean": "degC",
    "rise": "ratio",
    "gas": "ml/g",
    "dissolved": "ml/g",
    "sugar": "percent",
    "tightness": "ratio",
}
"""The series of a dough and their units; gas per gram of flour, sugar in per cent of flour."""


@dataclass(frozen=True, slots=True)
class Series:
    """A dough over time: ``time`` [h], 0 at the end of its last mix step; units as in ``SERIES_UNITS``.

    ``core``, ``edge`` and ``mean`` [degC], ``rise`` [ratio], ``gas`` and ``dissolved`` [ml per g of flour],
    ``sugar`` [% of flour], ``tightness`` [ratio]; all of one length.
    """

    time: tuple[float, ...]
    core: tuple[float, ...]
    edge: tuple[float, ...]
    mean: tuple[float, ...]
    rise: tuple[float, ...]
    gas: tuple[float, ...]
    dissolved: tuple[float, ...]
    sugar: tuple[float, ...]
    tightness: tuple[float, ...]

    def to_json(self) -> object:
        """Its JSON."""
        return jsonable(self.printed())

    def printed(self) -> PrintedSeries:
        """The series as ``--json`` prints it."""
        return PrintedSeries(
            **{
                name: PrintedColumn(unit, tuple(round(value, 5) for value in getattr(self, name)))
                for name, unit in SERIES_UNITS.items()
            }
        )

    def at(self, time: float) -> dict[str, float]:
        """Every value at a time [h], on the line between two points; the later of two at one time."""
        last = len(self.time) - 1
        after = next((index for index, one in enumerate(self.time) if one > time), last)
        before = max(after - 1, 0) if self.time[last] > time else last
        span = self.time[after] - self.time[before]
        weight = (time - self.time[before]) / span if span > 0.0 else 0.0
        return {
            name: _between(getattr(self, name)[before], getattr(self, name)[after], weight)
            for name in SERIES_UNITS
        }


def _between(first: float, second: float, weight: float) -> float:
    return first + weight * (second - first)


@dataclass(frozen=True, slots=True)
class Reading:
    """A dough at one moment, and its state with the reason.

    ``time`` [h]; ``rise`` [ratio]; ``core``, ``edge``, ``mean`` [degC]; ``gas``, ``dissolved`` [ml per g of
    flour]; ``sugar`` [% of flour]; ``tightness`` [ratio]; ``ph`` is a heuristic, not a measurement.
    """

    time: float
    rise: float
    core: float
    edge: float
    mean: float
    gas: float
    dissolved: float
    sugar: float
    tightness: float
    ph: float
    state: State
    state_why: str

    def to_json(self) -> object:
        """Its JSON."""
        return jsonable(self.printed())

    def printed(self, between: Mapping[str, Between] | None = None) -> PrintedReading:
        """The reading as ``--json`` prints it, with intervals where they are known."""
        figures = {name: _figure(getattr(self, name), unit) for name, unit in SERIES_UNITS.items()}
        for name, ends in (between or {}).items():
            per = 100.0 if name == "gas" else 1.0
            figures[name] = replace(figures[name], low=round(ends[0] / per, 5), high=round(ends[1] / per, 5))
        return PrintedReading(
            **figures, ph_heuristic=_figure(self.ph, "ratio"), state=self.state, state_why=self.state_why
        )


def _figure(value: float, unit: str) -> Figure:
    return Figure(round(value, 5), unit)


Between: TypeAlias = tuple[float, float]
"""The two ends of a 90 % interval."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """How sure a run is, from ``draws`` kitchens like this one in all that is known of it.

    ``share`` [%] young, ripe and past; ``judged``, ``at_shaping`` and ``at_bake`` hold an interval for each
    value of that reading by its name there (gas in mL per 100 g of flour); ``entered`` [degC] is of the dough
    just mixed; ``ripe_from`` and ``ripe_to`` [h]; ``None`` where an end is never or there is no such moment.
    ``quantiles`` are 5, 25, 50, 75 and 95 % of the rise at each ``time`` [h] up to the judged moment.
    """

    draws: int
    share: tuple[float, float, float]
    judged: Mapping[str, Between]
    at_shaping: Mapping[str, Between] | None
    at_bake: Mapping[str, Between] | None
    entered: Between | None
    ripe_from: Between | None
    ripe_to: Between | None
    time: tuple[float, ...]
    quantiles: tuple[tuple[float, ...], ...]

    def printed(self) -> PrintedDoubt:
        """The doubt as ``--json`` prints it, beside the intervals of the readings themselves."""
        names = ("young", "ripe", "past")
        shares = {name: Figure(round(one, 3), "percent") for name, one in zip(names, self.share, strict=True)}
        columns = [PrintedColumn("ratio", tuple(round(v, 5) for v in one)) for one in self.quantiles]
        time = PrintedColumn("h", tuple(round(one, 5) for one in self.time))
        return PrintedDoubt(self.draws, PrintedShare(**shares), PrintedQuantiles(time, *columns))


@dataclass(frozen=True, slots=True)
class Event:
    """Something done to a dough: ``verb``, from ``start`` to ``end`` [h], where, and which step (from 0)."""

    verb: str
    start: float
    end: float
    place: str
    mix: str
    step: int
    container: str | None = None

    def to_json(self) -> object:
        """Its JSON."""
        return jsonable(self.printed())

    def printed(self) -> PrintedEvent:
        """The event as ``--json`` prints it; steps are numbered from 1 there."""
        return PrintedEvent(
            step=self.verb,
            start=_figure(self.start, "h"),
            end=_figure(self.end, "h"),
            place=self.place,
            in_=self.container,
            mix=self.mix,
            number=self.step + 1,
        )


@dataclass(frozen=True, slots=True)
class Preferment:
    """A preferment on its own clock: 0 at the end of its last mix step; it goes in at the last point."""

    name: str
    series: Series
    events: tuple[Event, ...]

    def to_json(self) -> object:
        """Its JSON."""
        return jsonable(self.printed())

    def printed(self) -> PrintedPreferment:
        """The preferment as ``--json`` prints it."""
        return PrintedPreferment(
            self.name, self.series.printed(), tuple(event.printed() for event in self.events)
        )


@dataclass(frozen=True, slots=True)
class RipeWindow:
    """Hours during which the dough is ripe if its last wait were lengthened; ``None`` with a why."""

    from_: float | None
    to: float | None
    why: str | None = None

    def to_json(self) -> object:
        """Its JSON."""
        return jsonable(self.printed())

    def printed(self, doubt: Doubt | None = None) -> PrintedWindow:
        """The window as ``--json`` prints it."""
        begin, end = (None, None) if doubt is None else (doubt.ripe_from, doubt.ripe_to)
        return PrintedWindow(_hours(self.from_, self.why, begin), _hours(self.to, self.why, end), self.why)


def _hours(value: float | None, why: str | None, between: Between | None = None) -> Figure:
    if value is None:
        return Figure(None, "h", why=why)
    low, high = between or (None, None)
    return Figure(
        round(value, 5),
        "h",
        low=None if low is None else round(low, 5),
        high=None if high is None else round(high, 5),
    )


@dataclass(frozen=True, slots=True)
class DoughTemperature:
    """The temperature [degC] a dough enters its days at: measured, the target, or computed."""

    value: float
    how: Literal["measured", "target", "computed"]


@dataclass(frozen=True, slots=True)
class Target:
    """The rise that is right, ``low`` to ``high``, whether that is ``assumed``, and where it is judged."""

    low: float
    high: float
    assumed: bool
    judged: str


@dataclass(frozen=True, slots=True)
class Run:
    """The days of one dough in one kitchen; see DESIGN 3 for what each is.

    ``after`` is the true course from the judged moment to the first bake, where that comes later; the main
    series then goes on as if the dough had been left.
    """

    dough: str
    kitchen: str
    dough_temperature: DoughTemperature
    target: Target
    series: Series
    after: Series | None
    preferments: tuple[Preferment, ...]
    events: tuple[Event, ...]
    judged_at: float
    judged: Reading
    at_shaping: Reading | None
    at_shaping_why: str | None
    at_bake: Reading | None
    at_bake_why: str | None
    ripe_window: RipeWindow
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    doubt: Doubt | None = None

    def printed(self) -> PrintedDays:
        """The run as ``--json`` prints it."""
        enters, target, doubt = self.dough_temperature, self.target, self.doubt
        entered = (None, None) if doubt is None or doubt.entered is None else doubt.entered
        return PrintedDays(
            dough=self.dough,
            kitchen=self.kitchen,
            dough_temperature=PrintedTemperature(round(enters.value, 5), "degC", enters.how, *entered),
            target_rise=PrintedTarget(
                _figure(target.low, "ratio"), _figure(target.high, "ratio"), target.assumed
            ),
            series=self.series.printed(),
            after=self.after.printed() if self.after else None,
            preferments=tuple(one.printed() for one in self.preferments),
            events=tuple(event.printed() for event in self.events),
            at_shaping=self.at_shaping.printed(doubt.at_shaping if doubt else None)
            if self.at_shaping
            else None,
            at_shaping_why=self.at_shaping_why,
            at_bake=_printed(self.at_bake, doubt.at_bake if doubt else None),
            at_bake_why=self.at_bake_why,
            judged_at=_figure(self.judged_at, "h"),
            judged=self.judged.printed(doubt.judged if doubt else None),
            ripe_window=self.ripe_window.printed(doubt),
            doubt=doubt.printed() if doubt is not None else None,
            said=self.said,
            warnings=self.warnings,
        )

    def to_json(self) -> object:
        """The JSON of this one dough."""
        return jsonable(self.printed())


def _printed(reading: Reading | None, between: Mapping[str, Between] | None) -> PrintedReading | None:
    return reading.printed(between) if reading is not None else None


@dataclass(frozen=True, slots=True)
class Days:
    """The days of every main dough of a recipe, in the document's order; at least one."""

    runs: tuple[Run, ...]

    def printed(self) -> PrintedDays:
        """The days as ``--json`` prints them: the first dough's, and all of them where there are more."""
        every = tuple(run.printed() for run in self.runs)
        return every[0] if len(every) == 1 else replace(every[0], doughs=every)

    def to_json(self) -> object:
        """The JSON of ``days``."""
        return jsonable(self.printed())


def series_of(columns: Sequence[Sequence[float]]) -> Series:
    """A series from its columns in the order of ``SERIES_UNITS``."""
    return Series(*(tuple(column) for column in columns))
