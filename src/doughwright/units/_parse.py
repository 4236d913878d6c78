"""Texts to quantities: one function a kind, all on one path."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from doughwright.units._faults import refuse
from doughwright.units._kinds import Kind, Quantity
from doughwright.units._number import clean, read_number, starts_with_number
from doughwright.units._parts import Part, Wish, advice, split_parts
from doughwright.units._table import KITCHENS, LIMITS, Unit, units_of

# What each kind is called in an error, and what one looks like.
WORDS: dict[Kind, tuple[str, str]] = {
    Kind.MASS: ("a mass", "420 g"),
    Kind.VOLUME: ("a volume", "250 ml"),
    Kind.LENGTH: ("a length", "30 cm"),
    Kind.TIME: ("a time", "90 min"),
    Kind.TEMPERATURE: ("a temperature", "24 °C"),
    Kind.TEMPERATURE_DIFFERENCE: ("a temperature difference", "4 °C"),
    Kind.FRACTION: ("a percentage", "62 %"),
    Kind.COUNT: ("a count", "2 large"),
    Kind.DENSITY: ("a density", "1030 kg/m3"),
    Kind.NUMBER: ("a number", "1.5"),
    Kind.AREA: ("an area", "700 cm2"),
    Kind.LOADING: ("a loading", "0.5 g/cm2"),
    Kind.ENERGY: ("an energy", "100 kJ"),
}
_SIGNED = frozenset({Kind.TEMPERATURE, Kind.TEMPERATURE_DIFFERENCE})
_NEVER_ZERO = frozenset({Kind.MASS, Kind.VOLUME, Kind.DENSITY})
_GAS = re.compile(r"gas(?: ?mark)? *(.+)", re.IGNORECASE)


def parse_quantity(text: str, kind: Kind, *, cups: str = "US", signed: bool = False) -> Quantity:
    """Read one quantity of this kind; ``signed`` allows a length or a number below zero."""
    cleaned = clean(text, *WORDS[kind])
    return _parse(cleaned, text, kind, check_cups(cups), signed or kind in _SIGNED)


def check_cups(cups: str) -> str:
    """The name of a system of kitchen measures, if it is one."""
    if cups not in KITCHENS:
        raise refuse(cups, "one of US, metric or imperial", 'Write "US", "metric" or "imperial"', "cups")
    return cups


@lru_cache(maxsize=4096)
def _parse(text: str, written: str, kind: Kind, cups: str, signed: bool) -> Quantity:
    wanted, example = WORDS[kind]
    minus = text.startswith("-")
    body = text[1:].lstrip() if minus or text.startswith("+") else text
    if minus and not signed:
        raise _below_zero(text, body, kind)
    if kind is Kind.NUMBER:
        return Quantity(_number(body, text, minus), kind, "number", written)
    if kind is Kind.TEMPERATURE and (gas := _GAS.fullmatch(body)):
        return Quantity(_gas_mark(gas.group(1), text, minus), kind, "gas", written)
    parts = split_parts(body, Wish(text, wanted, example, units_of(kind, cups)))
    value = part_sum(parts, minus)
    if value == 0 and kind in _NEVER_ZERO:
        raise refuse(text, f"{wanted} above zero", f'Write for example "{example}"')
    check_limits(value, kind, text)
    return Quantity(value, kind, parts[0].unit.name, written, parts[0].unit.measure)


def _below_zero(text: str, body: str, kind: Kind) -> Exception:
    wanted, example = WORDS[kind]
    number = starts_with_number(body)
    has_unit = number is not None and number.end() < len(body)
    return refuse(text, f"{wanted} above zero" if has_unit else wanted, f'Write for example "{example}"')


def part_sum(parts: Sequence[Part], minus: bool = False) -> float:
    """The parts added up exactly, then rounded once, in the unit used inside."""
    sign = -1 if minus else 1
    return as_float(
        sum((sign * part.number * part.unit.factor + part.unit.offset for part in parts), Fraction(0))
    )


def _inside(number: Fraction, unit: Unit) -> Fraction:
    value = number * unit.factor
    return value + unit.offset if unit.offset else value


def as_float(number: Fraction) -> float:
    """The nearest float; infinity where none is near, which the limits then refuse."""
    try:
        return float(number)
    except OverflowError:
        return math.inf


def check_limits(value: float, kind: Kind, text: str) -> None:
    """Refuse what can only be a slip."""
    low, high, said = LIMITS[kind]
    if not (low <= value <= high or value == 0):
        wanted, example = WORDS[kind]
        raise refuse(text, f"{wanted} {said}", f'Write for example "{example}"')


def _number(body: str, text: str, minus: bool) -> float:
    match = starts_with_number(body)
    if match is None or match.end() != len(body):
        raise refuse(text, "a plain number", advice(text, "1.5"))
    number = read_number(body, text, "a plain number")
    value = as_float(-number if minus else number)
    check_limits(value, Kind.NUMBER, text)
    return value


def _gas_mark(mark: str, text: str, minus: bool) -> float:
    """Degrees Celsius of a gas mark: 275 °F + 25 a mark from 1 up, and 25 less at each halving below 1."""
    wanted, try_ = "a gas mark: ¼, ½, or 1 to 10", 'Write for example "gas 8"'
    match = starts_with_number(mark)
    if minus or match is None or match.end() != len(mark):
        raise refuse(text, wanted, try_)
    number = read_number(mark, text, wanted)
    if number not in (0.25, 0.5) and not (1 <= number <= 10 and number * 2 % 1 == 0):
        raise refuse(text, wanted, try_)
    fahrenheit = 275 + 25 * (number - 1 if number >= 1 else Fraction(math.log2(number)))
    return float((fahrenheit - 32) * 5 / 9)


def parse_mass(text: str) -> float:
    """A mass [kg]."""
    return parse_quantity(text, Kind.MASS).value


def parse_volume(text: str, *, cups: str = "US") -> float:
    """A volume [m3]."""
    return parse_quantity(text, Kind.VOLUME, cups=cups).value


def parse_length(text: str, *, signed: bool = False) -> float:
    """A length [m] or, with ``signed``, a height above the sea that may be below it."""
    return parse_quantity(text, Kind.LENGTH, signed=signed).value


def parse_time(text: str) -> float:
    """A time [s]; it may be zero."""
    return parse_quantity(text, Kind.TIME).value


def parse_temperature(text: str) -> float:
    """A temperature [degC]."""
    return parse_quantity(text, Kind.TEMPERATURE).value


def parse_temperature_difference(text: str) -> float:
    """A temperature difference [K]: degrees Fahrenheit without their 32."""
    return parse_quantity(text, Kind.TEMPERATURE_DIFFERENCE).value


def parse_fraction(text: str) -> float:
    """A percentage as a fraction [1]; it may be zero."""
    return parse_quantity(text, Kind.FRACTION).value


def parse_density(text: str) -> float:
    """A density [kg/m3]."""
    return parse_quantity(text, Kind.DENSITY).value


def parse_number(text: str) -> float:
    """A plain number [1], not below zero."""
    return parse_quantity(text, Kind.NUMBER).value
