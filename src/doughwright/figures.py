"""Figures as they are shown: a value with its unit, its interval or the reason why it is not known.

Results of every verb are frozen dataclasses whose quantities are figures; JSON, HTML and text are
three renderings of them, and this module holds the first.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Iterable, Mapping
from enum import Enum

UNITS = (
    "g", "percent", "degC", "h", "min", "s", "ml", "ml/g", "g/cm2", "cm", "L*", "kJ", "kcal", "ratio",
)  # fmt: skip


@dataclasses.dataclass(frozen=True, slots=True)
class Figure:
    """A value in one of ``UNITS``, with its 90 % interval where there is one; unknown says why."""

    value: float | None
    unit: str
    low: float | None = None
    high: float | None = None
    why: str | None = None

    def __post_init__(self) -> None:
        """Refuse a unit that nobody has agreed on, and an unknown without a reason."""
        if self.unit not in UNITS:
            raise ValueError(f"no such unit: {self.unit}")
        if self.value is None and not self.why:
            raise ValueError("an unknown figure must say why")

    def to_json(self) -> dict[str, object]:
        """The figure as JSON: ``{"value", "unit"}``, with ``low`` and ``high``, or ``why``."""
        out: dict[str, object] = {"value": _number(self.value), "unit": self.unit}
        if self.low is not None and self.high is not None:
            out |= {"low": _number(self.low), "high": _number(self.high)}
        if self.why:
            out["why"] = self.why
        return out


def grams(kilograms: float | None, why: str | None = None) -> Figure:
    """A mass [kg] shown in grams."""
    return Figure(None if kilograms is None else kilograms * 1000.0, "g", why=why)


def percent(fraction: float | None, why: str | None = None) -> Figure:
    """A share [fraction] shown in per cent."""
    return Figure(None if fraction is None else fraction * 100.0, "percent", why=why)


def hours(seconds: float | None, why: str | None = None) -> Figure:
    """A time [s] shown in hours."""
    return Figure(None if seconds is None else seconds / 3600.0, "h", why=why)


def minutes(seconds: float | None, why: str | None = None) -> Figure:
    """A time [s] shown in minutes."""
    return Figure(None if seconds is None else seconds / 60.0, "min", why=why)


def celsius(degrees: float | None, why: str | None = None) -> Figure:
    """A temperature [degC]."""
    return Figure(degrees, "degC", why=why)


def ratio(value: float | None, why: str | None = None) -> Figure:
    """A plain ratio, such as a rise."""
    return Figure(value, "ratio", why=why)


def jsonable(thing: object) -> object:
    """Turn a result into what ``json.dumps`` takes.

    A dataclass becomes an object of its fields (``from_`` is printed as ``from``), unless it says
    itself how by ``to_json``; NaN and infinity become ``null``; numbers keep twelve digits.
    """
    if hasattr(thing, "to_json"):
        return thing.to_json()
    if dataclasses.is_dataclass(thing) and not isinstance(thing, type):
        return {
            field.name.rstrip("_"): jsonable(getattr(thing, field.name))
            for field in dataclasses.fields(thing)
            if field.metadata.get("json", True)
        }
    return _plain(thing)


def _plain(thing: object) -> object:
    if isinstance(thing, Enum):
        return thing.value
    if isinstance(thing, str | bool | int) or thing is None:
        return thing
    if isinstance(thing, float):
        return _number(thing)
    if isinstance(thing, Mapping):
        return {str(key): jsonable(value) for key, value in thing.items()}
    if hasattr(thing, "tolist"):
        return jsonable(thing.tolist())
    if isinstance(thing, Iterable):
        return [jsonable(value) for value in thing]
    if hasattr(thing, "isoformat"):
        return thing.isoformat()
    raise TypeError(f"no JSON for {type(thing).__name__}")


def _number(value: float | None) -> float | None:
    if value is None or not math.isfinite(value):
        return None
    return float(f"{value:.12g}")
