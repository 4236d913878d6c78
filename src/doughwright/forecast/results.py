"""What the days say of a dough: frozen results, and their JSON as the commands print it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from doughwright.figures import Figure

State = Literal["young", "ripe", "past"]

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

    def to_json(self) -> dict[str, object]:
        """Each as ``{"unit", "values"}``, to five decimals."""
        return {
            name: {"unit": unit, "values": [round(value, 5) for value in getattr(self, name)]}
            for name, unit in SERIES_UNITS.items()
        }

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

    def to_json(self) -> dict[str, object]:
        """Each quantity as a figure; ``ph_heuristic`` says in its name what it is."""
        units = SERIES_UNITS
        out: dict[str, object] = {
            name: Figure(round(getattr(self, name), 5), units[name]).to_json() for name in units
        }
        out["ph_heuristic"] = Figure(round(self.ph, 3), "ratio").to_json()
        return out | {"state": self.state, "state_why": self.state_why}


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

    def to_json(self) -> dict[str, object]:
        """As DESIGN 4 names them, with the container and the step's number in the document (from 1)."""
        return {
            "step": self.verb,
            "start": Figure(round(self.start, 5), "h").to_json(),
            "end": Figure(round(self.end, 5), "h").to_json(),
            "place": self.place,
            "in": self.container,
            "mix": self.mix,
            "number": self.step + 1,
        }


@dataclass(frozen=True, slots=True)
class Preferment:
    """A preferment on its own clock: 0 at the end of its last mix step; it goes in at the last point."""

    name: str
    series: Series
    events: tuple[Event, ...]

    def to_json(self) -> dict[str, object]:
        """Name, series and events."""
        return {
            "name": self.name,
            "series": self.series.to_json(),
            "events": [event.to_json() for event in self.events],
        }


@dataclass(frozen=True, slots=True)
class RipeWindow:
    """Hours during which the dough is ripe if its last wait were lengthened; ``None`` with a why."""

    from_: float | None
    to: float | None
    why: str | None = None

    def to_json(self) -> dict[str, object]:
        """``from`` and ``to`` as figures, the unknown ones with a why."""
        return {"from": _hours(self.from_, self.why), "to": _hours(self.to, self.why), "why": self.why}


def _hours(value: float | None, why: str | None) -> dict[str, object]:
    known = None if value is None else round(value, 5)
    return Figure(known, "h", why=why if known is None else None).to_json()


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

    def to_json(self) -> dict[str, object]:
        """The JSON of ``days`` for one dough."""
        return {
            "dough": self.dough,
            "kitchen": self.kitchen,
            "dough_temperature": Figure(self.dough_temperature.value, "degC").to_json()
            | {"how": self.dough_temperature.how},
            "target_rise": {
                "low": Figure(self.target.low, "ratio").to_json(),
                "high": Figure(self.target.high, "ratio").to_json(),
                "assumed": self.target.assumed,
            },
            "series": self.series.to_json(),
            "after": self.after.to_json() if self.after else None,
            "preferments": [one.to_json() for one in self.preferments],
            "events": [event.to_json() for event in self.events],
            "at_shaping": _reading(self.at_shaping),
            "at_shaping_why": self.at_shaping_why,
            "at_bake": _reading(self.at_bake),
            "at_bake_why": self.at_bake_why,
            "judged_at": Figure(round(self.judged_at, 5), "h").to_json(),
            "judged": self.judged.to_json(),
            "ripe_window": self.ripe_window.to_json(),
            "said": list(self.said),
            "warnings": list(self.warnings),
        }


def _reading(reading: Reading | None) -> dict[str, object] | None:
    return reading.to_json() if reading is not None else None


@dataclass(frozen=True, slots=True)
class Days:
    """The days of every main dough of a recipe, in the document's order; at least one."""

    runs: tuple[Run, ...]

    def to_json(self) -> dict[str, object]:
        """The first dough's JSON, and that of all under ``doughs`` where there are more."""
        first = self.runs[0].to_json()
        return first if len(self.runs) == 1 else first | {"doughs": [run.to_json() for run in self.runs]}


def series_of(columns: Sequence[Sequence[float]]) -> Series:
    """A series from its columns in the order of ``SERIES_UNITS``."""
    return Series(*(tuple(column) for column in columns))
