"""The errors of this package, worded in one place."""

from __future__ import annotations

import difflib
from collections.abc import Mapping

from doughwright.errors import Fault, QuantityError
from doughwright.units._table import Unit

_SHOWN = 40


def quoted(text: object) -> str:
    """What was found, in quotes, shortened, with what cannot be seen spelled out."""
    if not isinstance(text, str):
        return _bare(text)
    short = text if len(text) <= _SHOWN else text[:_SHOWN] + "…"
    return '"' + "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in short) + '"'


def refuse(text: object, wanted: str, try_: str, message: str = "this quantity") -> QuantityError:
    """The error for a text which is not what is wanted."""
    return QuantityError(Fault(message, wanted=wanted, found=quoted(text), try_=try_))


def near_miss(word: str, units: Mapping[str, Unit], cutoff: float = 0.6) -> str | None:
    """The nearest unit's name, if one is near."""
    near = difflib.get_close_matches(word, units, n=1, cutoff=cutoff)
    return near[0] if near else None


def _bare(thing: object) -> str:
    if isinstance(thing, bool):
        return str(thing).lower()
    if isinstance(thing, int) and abs(thing) >= 10**_SHOWN:
        return "a number too long to show"
    if isinstance(thing, int | float):
        return f"the bare number {thing}"
    return "nothing" if thing is None else f"a {type(thing).__name__}"
