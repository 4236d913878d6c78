"""What the days say of a dough: frozen results, and their JSON as the commands print it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from doughwright.figures import Figure, jsonable
from doughwright.forecast.printed import (
    PrintedColumn,
    PrintedDays,
    PrintedEvent,
    PrintedPreferment,
    PrintedReading,
    PrintedSeries,
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

    def printed(self) -> PrintedReading:
        """The reading as ``--json`` prints it."""
        figures = {name: _figure(getattr(self, name), unit) for name, unit in SERIES_UNITS.items()}
        return PrintedReading(
            **figures, ph_heuristic=_figure(self.ph, "ratio"), state=self.state, state_why=self.state_why
        )


def _figure(value: float, unit: str) -> Figure:
    return Figure(round(value, 5), unit)


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

    def printed(self) -> PrintedWindow:
        """The window as ``--json`` prints it."""
        return PrintedWindow(_hours(self.from_, self.why), _hours(self.to, self.why), self.why)


def _hours(value: float | None, why: str | None) -> Figure:
    known = None if value is None else round(value, 5)
    return Figure(known, "h", why=why if known is None else None)


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

    def printed(self) -> PrintedDays:
        """The run as ``--json`` prints it."""
        enters, target = self.dough_temperature, self.target
        return PrintedDays(
            dough=self.dough,
            kitchen=self.kitchen,
            dough_temperature=PrintedTemperature(round(enters.value, 5), "degC", enters.how),
            target_rise=PrintedTarget(
                _figure(target.low, "ratio"), _figure(target.high, "ratio"), target.assumed
            ),
            series=self.series.printed(),
            after=self.after.printed() if self.after else None,
            preferments=tuple(one.printed() for one in self.preferments),
            events=tuple(event.printed() for event in self.events),
            at_shaping=self.at_shaping.printed() if self.at_shaping else None,
            at_shaping_why=self.at_shaping_why,
            at_bake=self.at_bake.printed() if self.at_bake else None,
            at_bake_why=self.at_bake_why,
            judged_at=_figure(self.judged_at, "h"),
            judged=self.judged.printed(),
            ripe_window=self.ripe_window.printed(),
            said=self.said,
            warnings=self.warnings,
        )

    def to_json(self) -> object:
        """The JSON of this one dough."""
        return jsonable(self.printed())


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
