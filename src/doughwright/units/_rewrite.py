"""The same amount times a factor, in the same unit and notation: what lossless scaling writes."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from decimal import Context, Decimal
from fractions import Fraction

from doughwright.units._amount import amount_units, parse_amount
from doughwright.units._faults import refuse
from doughwright.units._kinds import AmountKind
from doughwright.units._number import SIGNS, clean, read_number, starts_with_number
from doughwright.units._parts import Part, Wish, split_parts
from doughwright.units._words import agreeing

_MORE_DIGITS, _FEWEST_DIGITS = 4, 7
_BELOW = (2, 3, 4, 8)  # what spoons and cups are divided into
_CLOSE = Fraction(1, 10**9)
_COUNTED = (AmountKind.COUNT, AmountKind.PINCH)
_SIGN_OF = {number: sign for sign, number in SIGNS.items()}


def rewrite(text: str, factor: float, *, cups: str = "US") -> str:
    """The amount's text times the factor; "to taste" and "all" stay as they are.

    The value is kept to a few parts in ten million; a comma stays a comma (never before exactly three
    digits, which could be read two ways), fractions stay fractions where spoons and cups have them.
    """
    amount = parse_amount(text, cups=cups)
    exact = _exact(factor)
    if amount.value is None or exact == 1:
        return text
    lead = len(text) - len(text.lstrip())
    body = clean(text, "an amount", "420 g")
    shown = text.strip()
    new = _counted(body, shown, exact) if amount.kind in _COUNTED else _measured(body, shown, exact, cups)
    parse_amount(new, cups=cups)
    return text[:lead] + new + text[len(text.rstrip()) :]


def _exact(factor: float) -> Fraction:
    if not math.isfinite(factor) or factor <= 0:
        raise refuse(factor, "a factor above zero", "Write for example 2", "the scale")
    return Fraction(factor)


def _counted(body: str, shown: str, factor: Fraction) -> str:
    match = starts_with_number(body)
    words = (shown[match.end() :] if match else f" {body.split()[-1]}").rstrip(".")
    before = read_number(match.group(), body, "an amount") if match else Fraction(1)
    now = before * factor
    gap = words[: len(words) - len(words.lstrip())]
    return _written(now, match.group() if match else "1", True) + gap + _word(words.strip(), before, now)


def _measured(body: str, shown: str, factor: Fraction, cups: str) -> str:
    parts = split_parts(body, Wish(body, "an amount", "420 g", amount_units(cups)))
    numbers = [part.number * factor for part in parts]
    if len(parts) > 1 and _nest(parts):
        numbers = _shared_out(parts, factor)
    kept = [(part, number) for part, number in zip(parts, numbers, strict=True) if number]
    pieces = [_piece(part, number, shown) for part, number in kept]
    if len(kept) < len(parts):
        return " ".join(pieces)
    gaps = [shown[a.unit_start + len(a.unit_written) : b.start] for a, b in itertools.pairwise(parts)]
    return "".join(piece + gap for piece, gap in zip(pieces, [*gaps, ""], strict=True))


def _piece(part: Part, number: Fraction, shown: str) -> str:
    gap = shown[part.start + len(part.written) : part.unit_start]
    unit = _word(part.unit_written, part.number, number)
    return _written(number, part.written, part.unit.measure is not None) + gap + unit


def _nest(parts: Sequence[Part]) -> bool:
    """Whether each unit is a whole number of the next: pounds of ounces, cups of spoons."""
    return all((a.unit.factor / b.unit.factor).denominator == 1 for a, b in itertools.pairwise(parts))


def _shared_out(parts: Sequence[Part], factor: Fraction) -> list[Fraction]:
    """The total given to the largest unit in whole numbers, the rest to the next, and so on."""
    smallest = parts[-1].unit.factor
    total = sum((part.number * part.unit.factor for part in parts), Fraction(0)) / smallest * factor
    rest = _rounded(total, _FEWEST_DIGITS + 2)
    numbers: list[Fraction] = []
    for part in parts[:-1]:
        each = part.unit.factor / smallest
        numbers.append(Fraction(rest // each))
        rest -= numbers[-1] * each
    return [*numbers, rest]


def _word(written: str, before: Fraction, now: Fraction) -> str:
    return agreeing(written, float(before), float(now))


def _written(number: Fraction, before: str, divided: bool) -> str:
    """The number in the notation of the one before; ``divided`` if the measure comes in halves, thirds."""
    sign = any(character in SIGNS for character in before)
    if sign or "/" in before or (divided and before.isdigit()):
        fraction = _as_fraction(number, sign)
        if fraction is not None:
            return fraction
    return _decimal(number, before)


def _as_fraction(number: Fraction, sign: bool) -> str | None:
    for below in (1, *_BELOW):
        near = Fraction(round(number * below), below)
        if near > 0 and abs(near - number) <= number * _CLOSE:
            whole, part = divmod(near, 1)
            return _mixed(int(whole), part, sign)
    return None


def _mixed(whole: int, part: Fraction, sign: bool) -> str:
    if not part:
        return str(whole)
    if sign:
        return f"{whole or ''}{_SIGN_OF[part]}"
    return f"{whole} {part}" if whole else str(part)


def _decimal(number: Fraction, before: str) -> str:
    digits = sum(character.isdigit() for character in before.lstrip("0.,"))
    shown = f"{_to_decimal(number, max(digits + _MORE_DIGITS, _FEWEST_DIGITS)):f}"
    shown = shown.rstrip("0").rstrip(".") if "." in shown else shown
    if "," not in before:
        return shown
    whole, point, rest = shown.partition(".")
    return f"{whole},{rest}{'0' if len(rest) == 3 else ''}" if point else whole


def _to_decimal(number: Fraction, digits: int) -> Decimal:
    return Context(prec=digits).divide(Decimal(number.numerator), Decimal(number.denominator))


def _rounded(number: Fraction, digits: int) -> Fraction:
    return Fraction(_to_decimal(number, digits))
