"""A cook's amounts: masses, volumes, percentages, counts, pinches, "to taste", "all"."""

from __future__ import annotations

import re
from functools import lru_cache

from doughwright.errors import QuantityError
from doughwright.units._faults import near_miss, refuse
from doughwright.units._kinds import Amount, AmountKind, Kind
from doughwright.units._number import clean, read_number, starts_with_number
from doughwright.units._parse import as_float, check_cups, check_limits, part_sum
from doughwright.units._parts import Wish, advice, split_parts
from doughwright.units._table import KITCHENS, PINCHES, Unit, unit_name, units_of
from doughwright.units._words import is_household, singular

_WANTED, _EXAMPLE = "an amount", "420 g"
_TRY = f'Write for example "{_EXAMPLE}"'
_WORDS = {"to taste": AmountKind.TASTE, "as needed": AmountKind.TASTE, "all": AmountKind.ALL}
_KINDS = {Kind.MASS: AmountKind.MASS, Kind.VOLUME: AmountKind.VOLUME, Kind.FRACTION: AmountKind.PERCENT}
_COUNTED = re.compile(r"[^\W\d_]+(?:[ '-][^\W\d_]+){0,3}")
_ONE = re.compile(r"(?:an? |one )?")
_OTHERS = frozenset(word for kind in (Kind.TIME, Kind.LENGTH, Kind.TEMPERATURE) for word in units_of(kind))
# Abbreviations that mean two things, and what to write for each.
_TWO_MEANINGS = {
    "t": '"tbsp" for tablespoons or "tsp" for teaspoons',
    "c": '"cup" for cups',
    "gr": '"g" for grams',
}
_UNITS: dict[str, dict[str, Unit]] = {
    cups: {**units_of(Kind.MASS), **units_of(Kind.FRACTION), **units_of(Kind.VOLUME, cups)}
    for cups in KITCHENS
}


def parse_amount(text: str, *, cups: str = "US") -> Amount:
    """Read how much of an ingredient; ``cups`` (US, metric, imperial) says whose cup and spoon are meant."""
    return _parse_amount(clean(text, _WANTED, f'{_EXAMPLE}" or "2 large'), text, check_cups(cups))


def amount_units(cups: str) -> dict[str, Unit]:
    """Every unit that an amount may have, by its names."""
    return _UNITS[cups]


@lru_cache(maxsize=4096)
def _parse_amount(text: str, written: str, cups: str) -> Amount:
    if (word := unit_name(text)) in _WORDS:
        return Amount(_WORDS[word], None, None, written)
    if text.startswith("-"):
        raise refuse(text, f"{_WANTED} above zero", _TRY)
    number = starts_with_number(text)
    if number is not None and number.end() == len(text):
        raise refuse(
            text, f"{_WANTED} with its unit", f'Write for example "{text} g", "{text} tsp" or "2 large"'
        )
    counted = _counted(text, number, written, cups)
    return counted if counted is not None else _measured(text, written, cups)


def _measured(text: str, written: str, cups: str) -> Amount:
    parts = split_parts(text, Wish(text, _WANTED, _EXAMPLE, amount_units(cups)))
    kind, value = parts[0].unit.kind, part_sum(parts)
    if value == 0:
        raise refuse(text, f"{_WANTED} above zero", _TRY)
    check_limits(value, kind, text)
    volume = value if kind is Kind.VOLUME else None
    return Amount(_KINDS[kind], value, parts[0].unit.measure, written, volume)


def _counted(text: str, number: re.Match[str] | None, written: str, cups: str) -> Amount | None:
    """A count of a household measure, or a number of pinches; ``None`` if it is neither."""
    words = unit_name(text[number.end() :]) if number else unit_name(_ONE.sub("", text.casefold(), count=1))
    if words in amount_units(cups) or not _COUNTED.fullmatch(words):
        return None
    measure = singular(words)
    if number is None and measure not in PINCHES:
        return None
    if not is_household(measure):
        _check_measure(measure, words, text, cups)
    value = _count(number.group() if number else "1", text)
    if measure in PINCHES:
        return Amount(AmountKind.PINCH, value, measure, written, value * float(PINCHES[measure]))
    return Amount(AmountKind.COUNT, value, measure, written)


def _count(number: str, text: str) -> float:
    value = as_float(read_number(number, text, _WANTED))
    if value == 0:
        raise refuse(text, f"{_WANTED} above zero", _TRY)
    check_limits(value, Kind.COUNT, text)
    return value


def _check_measure(measure: str, words: str, text: str, cups: str) -> None:
    """Refuse what is a slip in a unit; whether the ingredient has such a measure, the ingredients know."""
    if words in _TWO_MEANINGS:
        raise refuse(text, f"{_WANTED} with a unit that means one thing", f"Write {_TWO_MEANINGS[words]}")
    if words in amount_units("US"):
        try_ = f'Write "US {words}" or "imperial {words}"'
        raise refuse(text, f"{_WANTED} in a measure that a metric kitchen has", try_)
    if (error := _unit_within(words, text, cups)) is not None:
        raise error
    near = near_miss(measure, amount_units(cups), cutoff=0.81)
    if near is not None and words not in _OTHERS:
        raise refuse(text, f"{_WANTED} in a known unit", f'Did you mean "{near}"')
    if words in _OTHERS or len(measure) < 3 or not re.search("[aeiouy]", measure):
        raise refuse(text, f"{_WANTED} in a known unit", f'Write for example "{_EXAMPLE}" or "2 large"')


def _unit_within(words: str, text: str, cups: str) -> QuantityError | None:
    """The error for "1 heaped tsp", "2 cups flour", "2 x": more than a number and a unit."""
    if "to" in words.split() or words.startswith("x "):
        return refuse(text, _WANTED, advice(text, _EXAMPLE))
    unit = next((word for word in words.split() if word in amount_units(cups)), None)
    if unit is None:
        return None
    number = starts_with_number(text)
    try_ = f'Write "{number.group() if number else 1} {unit}", and the rest in a note'
    return refuse(text, f"{_WANTED}: a number and a unit", try_)
