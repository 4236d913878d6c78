"""Ranges: "10 h to 14 h", "10 to 14 h", "10-14 h", "10–14 h"; a single value is both ends."""

from __future__ import annotations

import re
from collections.abc import Callable

from doughwright.errors import QuantityError
from doughwright.units._faults import refuse
from doughwright.units._kinds import Kind, Range
from doughwright.units._number import clean, starts_with_number
from doughwright.units._parse import parse_quantity
from doughwright.units._parts import advice

_BETWEEN = re.compile(r"(?<=[^\s–—-])(?:\s+to\s+|\s*[-–—]\s*)(?=\S)", re.IGNORECASE)
_WANTED, _EXAMPLE = "a value or a range", "10 h to 14 h"


def parse_range(text: str, parse_one: Callable[[str], float]) -> tuple[float, float]:
    """The low and the high end, each as ``parse_one`` reads it; low above high is an error."""
    low_text, high_text = _ends(text)
    if high_text is None:
        value = parse_one(text)
        return value, value
    try:
        low, high = parse_one(low_text), parse_one(high_text)
    except QuantityError as error:
        fault = error.fault
        raise refuse(text, f"{fault.wanted}, or a range of two", fault.try_ or "") from error
    if low > high:
        one = advice(text, "")
        try_ = one if one.startswith("If") else f'Write "{high_text} to {low_text}"'
        raise refuse(text, "a range with the lower end first", try_)
    return low, high


def parse_quantity_range(text: str, kind: Kind, *, cups: str = "US", signed: bool = False) -> Range:
    """The two ends as quantities."""
    parse_range(text, lambda one: parse_quantity(one, kind, cups=cups, signed=signed).value)
    low, high = _ends(text)
    first = parse_quantity(low, kind, cups=cups, signed=signed)
    return Range(first, first if high is None else parse_quantity(high, kind, cups=cups, signed=signed))


def _ends(text: str) -> tuple[str, str | None]:
    """The texts of the two ends, each with the unit the other may have lent it."""
    cleaned = clean(text, _WANTED, _EXAMPLE)
    betweens = list(_BETWEEN.finditer(cleaned))
    if not betweens:
        return cleaned, None
    if len(betweens) > 1:
        raise refuse(text, "one value or one range", f'Write for example "{_EXAMPLE}"')
    between = betweens[0]
    low, high = cleaned[: between.start()], cleaned[between.end() :]
    return _lend_unit(low, high), _lend_gas(low, high)


def _lend_unit(low: str, high: str) -> str:
    bare = starts_with_number(low.lstrip("-+ "))
    number = starts_with_number(high.lstrip("-+ "))
    if bare is None or number is None or bare.end() != len(low.lstrip("-+ ")):
        return low
    unit = high.lstrip("-+ ")[number.end() :].strip()
    return low if re.search("[0-9]", unit) else f"{low} {unit}".strip()


def _lend_gas(low: str, high: str) -> str:
    gas = re.match(r"gas(?: ?mark)? *", low, re.IGNORECASE)
    return f"{gas.group()}{high}" if gas and starts_with_number(high) else high
