"""A cell of a log to degrees Celsius: units, decimal commas, and what a failing sensor writes."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from doughwright.units import convert

PLAUSIBLE = (-60.0, 125.0)
"""What a kitchen thermometer can have read [degC]; beyond it a sensor reports its own failure."""

LONGEST_CELL = 80
NUMBER = re.compile(
    r"^[\s'\"]*([-+−]?\s*(?:\d[\d\s'’]*)?(?:[.,]\d+)*(?:[eE][-+]?\d+)?)\s*(.*?)[\s'\"]*$", re.S
)
UNIT_WORDS = {
    "c": "°C", "°c": "°C", "ºc": "°C", "℃": "°C", "degc": "°C", "deg c": "°C", "celsius": "°C", "oc": "°C",
    "f": "°F", "°f": "°F", "ºf": "°F", "℉": "°F", "degf": "°F", "deg f": "°F", "fahrenheit": "°F",
    "k": "K", "kelvin": "K", "°k": "K",
}  # fmt: skip
NAMES = {"°C": "degC", "°F": "degF", "K": "K"}


@dataclass(frozen=True, slots=True)
class Wrong:
    """A cell that is no temperature, as it was found."""

    found: str


def unit_word(text: str) -> str | None:
    """The unit that a word stands for: "°C", "°F" or "K"."""
    return UNIT_WORDS.get(" ".join(text.casefold().replace("\ufffd", "°").split()))


def number_of(cell: str, decimal: str) -> tuple[float, str] | None:
    """The number that a cell begins with and what comes after it; ``None`` where there is none."""
    match = NUMBER.match(cell) if len(cell) <= LONGEST_CELL else None
    if match is None or not any(one.isdigit() for one in match[1]):
        return None
    digits = re.sub(r"[\s'’]", "", match[1]).replace("−", "-")
    digits = digits.replace(".", "").replace(",", ".") if decimal == "," else digits.replace(",", "")
    try:
        value = float(digits)
    except ValueError:
        return None
    return (value, match[2]) if math.isfinite(value) else None


def degrees_of(cell: str, unit: str | None, decimal: str) -> float | Wrong:
    """Degrees Celsius of a cell; its own unit goes before the column's."""
    found = number_of(cell, decimal)
    if found is None:
        return Wrong(cell)
    value, rest = found
    own = unit_word(rest) if rest else unit
    if own is None:
        return Wrong(cell)
    degrees = convert(value, NAMES[own], "degC")
    return degrees if PLAUSIBLE[0] <= degrees <= PLAUSIBLE[1] else Wrong(cell)
