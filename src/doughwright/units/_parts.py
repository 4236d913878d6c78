"""Numbers with their units: "1 lb 4 oz" is two parts."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from doughwright.errors import QuantityError, did_you_mean
from doughwright.units._faults import refuse
from doughwright.units._number import NUMBER, SIGNS, read_number, starts_with_number
from doughwright.units._table import Unit, unit_name

_SIGNS = "".join(SIGNS)
_PART = re.compile(rf"({NUMBER})( *)([^0-9{_SIGNS}]*)")
_JOIN = re.compile(r"(?:\s*[,+&]|\s+and)\s*$")
_TIMES = re.compile(r"[0-9]+ ?[x×*] ?[0-9]", re.IGNORECASE)
_RANGE = re.compile(rf"[0-9{_SIGNS}][^-–—]*?(?:-|–|—|\bto\b) *[0-9{_SIGNS}]")
_ABOUT = re.compile(r"(?:about|around|approx\.?|roughly|circa|ca\.?|~|≈)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Part:
    """One number with its unit, and where in the text they stand."""

    number: Fraction
    written: str
    unit: Unit
    unit_written: str
    start: int
    unit_start: int


def split_parts(text: str, units: Mapping[str, Unit], wanted: str, example: str) -> tuple[Part, ...]:
    """The parts of a cleaned text; largest unit first, each unit once."""
    first = starts_with_number(text)
    if first is None:
        raise refuse(text, wanted, _advice(text, example))
    rest = text[first.end() :]
    unit = units.get(unit_name(rest))
    if unit is not None:
        number = read_number(first.group(), text, wanted, rest.strip())
        return (Part(number, first.group(), unit, rest.strip(), 0, len(text) - len(rest.lstrip())),)
    return _compound(text, units, wanted, example)


def _compound(text: str, units: Mapping[str, Unit], wanted: str, example: str) -> tuple[Part, ...]:
    parts: list[Part] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        if match is None:
            raise refuse(text, wanted, _advice(text, example))
        parts.append(_part(match, text, units, wanted, example))
        at = match.end()
    _check_order(parts, text, wanted, example)
    return tuple(parts)


def _part(match: re.Match[str], text: str, units: Mapping[str, Unit], wanted: str, example: str) -> Part:
    last = match.end() == len(text)
    written = match.group(3).rstrip() if last else _JOIN.sub("", match.group(3)).rstrip()
    unit = units.get(unit_name(written))
    if unit is None:
        raise _unknown_unit(text, written, units, wanted, example)
    number = read_number(match.group(1), text, wanted, written)
    return Part(number, match.group(1), unit, written, match.start(1), match.start(3))


def _check_order(parts: list[Part], text: str, wanted: str, example: str) -> None:
    for large, small in zip(parts, parts[1:], strict=False):
        if large.unit.offset or large.unit.factor <= small.unit.factor:
            raise refuse(text, f"{wanted}, the largest unit first and each unit once", f'Write for example "{example}"')


def _unknown_unit(
    text: str, written: str, units: Mapping[str, Unit], wanted: str, example: str
) -> QuantityError:
    advice = _advice(text, example)
    if not written:
        return refuse(text, f"{wanted} with its unit", advice)
    near = did_you_mean(unit_name(written), units) if len(written) > 1 else None
    return refuse(text, wanted, near or advice)


def _advice(text: str, example: str) -> str:
    """What to write instead, from what the text looks like."""
    if _TIMES.match(text):
        return f'Multiply it out: write one amount, for example "{example}"'
    if about := _ABOUT.match(text):
        return f'Write the amount alone, for example "{text[about.end() :]}"'
    if re.match(r"[0-9]{1,3} [0-9]{3}\b", text):
        return f'Write the number without a space, for example "{text.replace(" ", "", 1)}"'
    if _RANGE.match(text):
        return f'Write one amount, not a range, for example "{example}"'
    return f'Write for example "{example}"'
