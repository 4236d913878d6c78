"""A cook's amounts: masses, volumes, percentages, counts, pinches, "to taste", "all"."""

from __future__ import annotations

import re
from functools import lru_cache

from doughwright.errors import QuantityError, did_you_mean
from doughwright.units._faults import refuse
from doughwright.units._kinds import Amount, AmountKind, Kind
from doughwright.units._number import clean, read_number, starts_with_number
from doughwright.units._parse import check_cups, check_limits, part_sum
from doughwright.units._parts import split_parts
from doughwright.units._table import PINCHES, Unit, unit_name, units_of
from doughwright.units._words import is_household, singular

_WANTED, _EXAMPLE = "an amount", "420 g"
_WORDS = {"to taste": AmountKind.TASTE, "as needed": AmountKind.TASTE, "all": AmountKind.ALL}
_COUNTED = re.compile(r"[^\W\d_]+(?:[ '-][^\W\d_]+){0,3}")
_UNCERTAIN = {"t": '"tbsp" or "tsp"', "c": '"cup"', "gr": '"g" for grams'}
_HEAPED = frozenset({"heaped", "heaping", "rounded", "scant", "level", "generous", "packed"})
_KINDS = {Kind.MASS: AmountKind.MASS, Kind.VOLUME: AmountKind.VOLUME, Kind.FRACTION: AmountKind.PERCENT}


def parse_amount(text: str, *, cups: str = "US") -> Amount:
    """Read how much of an ingredient; ``cups`` (US, metric, imperial) says whose cup and spoon are meant."""
    return _parse_amount(clean(text, _WANTED, _EXAMPLE), text, check_cups(cups))


@lru_cache(maxsize=4096)
def _parse_amount(text: str, written: str, cups: str) -> Amount:
    if (word := unit_name(text)) in _WORDS:
        return Amount(_WORDS[word], None, None, written)
    if text.startswith("-"):
        raise refuse(written, f"{_WANTED} above zero", f'Write for example "{_EXAMPLE}"')
    counted = _counted(text, written, cups)
    return counted if counted is not None else _measured(text, written, cups)


def amount_units(cups: str) -> dict[str, Unit]:
    """Every unit that an amount may have."""
    return _AMOUNT_UNITS[cups]


_AMOUNT_UNITS = {
    cups: {**units_of(Kind.MASS), **units_of(Kind.FRACTION), **units_of(Kind.VOLUME, cups)}
    for cups in ("US", "metric", "imperial")
}


def _measured(text: str, written: str, cups: str) -> Amount:
    parts = split_parts(text, amount_units(cups), _WANTED, _EXAMPLE)
    kind = parts[0].unit.kind
    if any(part.unit.kind is not kind for part in parts):
        raise refuse(written, f"{_WANTED} in one kind of unit", 'Write for example "1 lb 4 oz"')
    value = part_sum(parts)
    if value <= 0:
        raise refuse(written, f"{_WANTED} above zero", f'Write for example "{_EXAMPLE}"')
    check_limits(value, kind, written)
    return Amount(
        _KINDS[kind], value, parts[0].unit.measure, written, value if kind is Kind.VOLUME else None
    )


def _counted(text: str, written: str, cups: str) -> Amount | None:
    """A count of a household measure, or a number of pinches; ``None`` if it is neither."""
    match = starts_with_number(text)
    words = unit_name(text[match.end() :] if match else text.casefold().removeprefix("a "))
    if not match and singular(words) not in PINCHES:
        return None
    if words in amount_units(cups) or not _COUNTED.fullmatch(words):
        return None
    measure = singular(words)
    _check_measure(measure, words, written, cups)
    number = _count(match.group() if match else "1", written)
    if measure in PINCHES:
        return Amount(AmountKind.PINCH, number, measure, written, number * PINCHES[measure])
    return Amount(AmountKind.COUNT, number, measure, written)


def _count(number: str, written: str) -> float:
    try:
        value = float(read_number(number, written, _WANTED))
    except OverflowError:
        value = float("inf")
    if value == 0:
        raise refuse(written, f"{_WANTED} above zero", f'Write for example "{_EXAMPLE}"')
    check_limits(value, Kind.COUNT, written)
    return value


def _check_measure(measure: str, words: str, written: str, cups: str) -> None:
    """Refuse a slip of the pen in a unit; whether the ingredient has such a measure, others know."""
    error = _measure_error(measure, words, written, cups)
    if error is not None and not is_household(measure):
        raise error


def _measure_error(measure: str, words: str, written: str, cups: str) -> QuantityError | None:
    units = amount_units(cups)
    if words in _UNCERTAIN:
        return refuse(written, f"{_WANTED} with a unit that is clear", f"Write {_UNCERTAIN[words]}")
    if "to" in words.split() or words.startswith("x "):
        return refuse(written, _WANTED, f'Write one amount, for example "{_EXAMPLE}"')
    if _HEAPED & set(words.split()) or any(word in units for word in words.split()):
        return refuse(written, f"{_WANTED} in level measures and one unit", 'Write for example "1 tsp"')
    near = did_you_mean(measure, units) if _looks_like_slip(measure, units) else None
    if near is not None or len(measure) < 3 or not re.search("[aeiouy]", measure):
        return refuse(written, f"{_WANTED} in a unit that is known", near or f'Write for example "{_EXAMPLE}"')
    return None


def _looks_like_slip(measure: str, units: dict[str, Unit]) -> bool:
    import difflib

    return bool(difflib.get_close_matches(measure, units, n=1, cutoff=0.81))
