"""Numbers as cooks write them: 1.5, 1,5, 1/2, 1 1/2, ½, 1½."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from doughwright.errors import QuantityError
from doughwright.units._faults import quoted, refuse

LONGEST = 100  # characters; no quantity takes more
SIGNS: dict[str, Fraction] = {
    "½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4), "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5), "⅘": Fraction(4, 5), "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6), "⅐": Fraction(1, 7), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8), "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8), "⅑": Fraction(1, 9), "⅒": Fraction(1, 10),
}  # fmt: skip
_S = "".join(SIGNS)
NUMBER = rf"[0-9]+ +[0-9]+ ?/ ?[0-9]+|[0-9]+ ?/ ?[0-9]+|[0-9]* *[{_S}]|\.?[0-9](?:[0-9.,]*[0-9])?"
_WHOLE = re.compile(NUMBER)
_GROUPED = re.compile(r"([0-9]{1,3}(?:([.,])[0-9]{3})(?:\2[0-9]{3})*)(?:(?!\2)([.,])([0-9]+))?")
_DECIMAL = re.compile(r"[0-9]*[.,]?[0-9]+")
_MIXED = re.compile(rf"(?:([0-9]+) +)?([0-9]+) ?/ ?([0-9]+)|([0-9]*) *([{_S}])")
_SPACES = str.maketrans(
    dict.fromkeys("\u00a0\u2002\u2003\u2004\u2005\u2007\u2008\u2009\u200a\u202f\u3000", " ")
)
_LOOKALIKES = str.maketrans({"\u2044": "/", "\u2215": "/", "\u2212": "-"})


def clean(text: object, wanted: str, example: str) -> str:
    """The text with every kind of blank made plain; refuses what is no text, too long or cannot be seen."""
    try_ = f'Write for example "{example}"'
    if not isinstance(text, str):
        raise refuse(text, wanted, f"{try_}, in quotes and with its unit")
    if len(text) > LONGEST:
        raise refuse(text, f"{wanted} of at most {LONGEST} characters", try_)
    if text.isascii() and text.isprintable():
        return text.strip()
    text = text.translate(_SPACES)
    for sign in text:
        _check_sign(sign, text, wanted, try_)
    text = text.translate(_LOOKALIKES).strip()
    return "-" + text[1:] if text.startswith("–") else text


def _check_sign(sign: str, text: str, wanted: str, try_: str) -> None:
    if not sign.isprintable():
        raise refuse(text, f"{wanted} without the invisible character U+{ord(sign):04X}", try_)
    if not sign.isascii() and unicodedata.category(sign) == "Nd":
        plain = "".join(str(unicodedata.digit(c)) if unicodedata.category(c) == "Nd" else c for c in text)
        raise refuse(text, f"{wanted} in the digits 0 to 9", f"Write {quoted(plain)}")


def read_number(written: str, text: str, wanted: str, unit: str = "") -> Fraction:
    """The number; ``text`` and ``unit`` only make the error clear."""
    if written.isdecimal():
        return Fraction(int(written))
    if match := _MIXED.fullmatch(written):
        return _mixed(match, text, wanted)
    if not _DECIMAL.fullmatch(written):
        plain = f"{_ungrouped(written)} {unit}".strip()
        raise refuse(text, f"{wanted} with one decimal sign", f"Write for example {quoted(plain)}")
    whole, comma, rest = written.partition(",")
    if comma and len(rest) == 3:
        point = f"{whole}.{rest}".rstrip("0").rstrip(".") + f" {unit}"
        joined = f"{int(whole + rest)} {unit}"
        raise _two_readings(text, wanted, joined.strip(), point.strip())
    whole, _, rest = written.replace(",", ".").partition(".")
    return Fraction(int(whole + rest), 10 ** len(rest))


def _two_readings(text: str, wanted: str, one: str, other: str) -> QuantityError:
    try_ = f'It could be {one} or {other}: write "{one}" or "{other}"'
    return refuse(text, f"{wanted} that can be read one way only", try_)


def _mixed(match: re.Match[str], text: str, wanted: str) -> Fraction:
    whole, above, below, before, sign = match.groups()
    if sign:
        return int(before or 0) + SIGNS[sign]
    if int(below) == 0:
        raise refuse(text, wanted, "A fraction cannot be divided by 0")
    part = Fraction(int(above), int(below))
    if whole is not None and part >= 1:
        raise refuse(text, f"{wanted} with a fraction below 1", 'Write for example "1 1/2"')
    return int(whole or 0) + part


def _ungrouped(written: str) -> str:
    """What may have been meant by two decimal signs: 1,234,567 or 1.500,5; else an example."""
    if match := _GROUPED.fullmatch(written):
        whole, point, rest = re.sub("[.,]", "", match.group(1)), match.group(3), match.group(4)
        return f"{whole}.{rest}" if point else whole
    return "1.5"


def starts_with_number(text: str) -> re.Match[str] | None:
    """The number at the start of the text, if it starts with one."""
    return _WHOLE.match(text)
