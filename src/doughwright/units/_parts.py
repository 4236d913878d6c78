"""Numbers with their units: "1 lb 4 oz" is two parts."""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from doughwright.errors import QuantityError
from doughwright.units._faults import near_miss, quoted, refuse
from doughwright.units._kinds import Kind
from doughwright.units._number import NUMBER, SIGNS, read_number, starts_with_number
from doughwright.units._table import Unit, unit_name

_SIGNS = "".join(SIGNS)
_PART = re.compile(rf"({NUMBER})( *)([^0-9{_SIGNS}]*)")
_ADDED = frozenset({Kind.MASS, Kind.VOLUME, Kind.LENGTH, Kind.TIME})
_JOIN = re.compile(r"(?:\s*[,+&]|\s+and)\s*$")
_TIMES = re.compile(r"([0-9]+) ?[x×*] ?([0-9]+)( ?[^\W\d_]+)?", re.IGNORECASE)
_RANGE = re.compile(rf"[0-9{_SIGNS}][^-–—]*?(?:-|–|—|\bto\b) *[0-9{_SIGNS}]")
_HYPHENED = re.compile(rf"([0-9]+) ?- ?([0-9]+ ?/ ?[0-9]+|[{_SIGNS}])")
_SPACED = re.compile(r"([0-9]{1,3}) ([0-9]{3}(?: ?[^\W\d_]+)?)")
_ABOUT = re.compile(r"(?:about|around|approx\.?|roughly|circa|ca\.?|~|≈)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Part:
    """One number with its unit, as they are written, and where in the text each starts."""

    number: Fraction
    written: str
    unit: Unit
    unit_written: str
    start: int
    unit_start: int


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wanted of a text: said in errors."""

    text: str
    wanted: str
    example: str
    units: Mapping[str, Unit]

    def refused(self, extra: str = "", try_: str | None = None) -> QuantityError:
        """The error: ``extra`` narrows what is wanted."""
        return refuse(self.text, self.wanted + extra, try_ or advice(self.text, self.example))


def split_parts(body: str, wish: Wish) -> tuple[Part, ...]:
    """The parts of a cleaned text without its sign; largest unit first, each unit once."""
    first = starts_with_number(body)
    if first is None:
        raise wish.refused()
    rest = body[first.end() :]
    unit = wish.units.get(unit_name(rest))
    if unit is None:
        return _compound(body, wish)
    written = rest.strip()
    number = read_number(first.group(), wish.text, wish.wanted, written)
    return (Part(number, first.group(), unit, written, 0, body.index(written, first.end())),)


def _compound(body: str, wish: Wish) -> tuple[Part, ...]:
    parts: list[Part] = []
    at = 0
    while at < len(body):
        match = _PART.match(body, at)
        if match is None:
            raise wish.refused()
        parts.append(_part(match, body, wish))
        at = match.end()
    for large, small in itertools.pairwise(parts):
        if large.unit.kind is not small.unit.kind:
            raise wish.refused(" in one kind of unit")
        if large.unit.kind not in _ADDED:
            raise wish.refused(", one alone")
        if large.unit.factor <= small.unit.factor:
            raise wish.refused(", the largest unit first and each unit once")
    return tuple(parts)


def _part(match: re.Match[str], body: str, wish: Wish) -> Part:
    number, _, written = match.groups()
    written = written.rstrip() if match.end() == len(body) else _JOIN.sub("", written).rstrip()
    unit = wish.units.get(unit_name(written))
    if unit is not None:
        value = read_number(number, wish.text, wish.wanted, written)
        return Part(value, number, unit, written, match.start(1), match.start(3))
    if not written:
        raise wish.refused(" with its unit")
    first = re.split(r"[\s,(]", written)[0]
    if first != written and unit_name(first) in wish.units:
        raise wish.refused(try_=f'Write "{number} {first}", and the rest in a note')
    near = near_miss(unit_name(written), wish.units) if len(written) > 1 else None
    raise wish.refused(try_=near and f'Did you mean "{number} {near}"')


def advice(text: str, example: str) -> str:
    """What to write instead, from what the text looks like."""
    times = _TIMES.match(text)
    product = int(times.group(1)) * int(times.group(2)) if times else 0
    if times and product:
        unit = times.group(3) or ""
        return f'Multiply it out: write "{product}{unit}"'
    if about := _ABOUT.match(text):
        return f"Write the amount alone, for example {quoted(text[about.end() :])}"
    if spaced := _SPACED.match(text):
        return f'If it is one number, write "{spaced.group(1)}{spaced.group(2)}"; else multiply it out'
    if _HYPHENED.match(text):
        joined = _HYPHENED.sub(r"\1 \2", text, count=1)
        return f"If it is one number, write {quoted(joined)}"
    if _RANGE.match(text):
        return f'Write one amount, not a range, for example "{example}"'
    return f'Write for example "{example}"'
