"""An amount in spoons, cups or pieces, through the ingredient's own household measure."""

from __future__ import annotations

from functools import cache

from doughwright import units
from doughwright.errors import UnknownNameError
from doughwright.ingredients import Ingredient, household_mass
from doughwright.publish.render import HELD

# Parts of a measure that a kitchen has a spoon or a mark for.
_THIRD, _TWO_THIRDS = 1.0 / 3.0, 2.0 / 3.0
_PARTS = (
    (0.0, ""), (0.125, "⅛"), (0.25, "¼"), (_THIRD, "⅓"), (0.5, "½"), (_TWO_THIRDS, "⅔"), (0.75, "¾"),
    (1.0, ""),
)  # fmt: skip
_CUP_PARTS = (0.0, 0.25, _THIRD, 0.5, _TWO_THIRDS, 0.75, 1.0)
_SPOON_PARTS = {"tbsp": (0.0, 0.5, 1.0), "tsp": (0.0, 0.125, 0.25, 0.5, 0.75, 1.0)}
# From how many of it on a measure is used.
_FROM = {"cup": 0.24, "tbsp": 0.95, "tsp": 0.09}


def in_measures(ingredient: Ingredient, kilograms: float, cups: str = "US") -> str | None:
    """A mass in the kitchen's measures: "2 ¼ cups", "1 tbsp"; ``None`` where it has none or is too little.

    What comes out is rounded to what a spoon can hold: the mass is the figure to trust.
    """
    for word, least in _FROM.items():
        try:
            one = household_mass(ingredient, volume_m3=_volume(word, cups)).kg
        except UnknownNameError:
            return None
        count = kilograms / one if one > 0 else 0.0
        if count >= least:
            parts = _CUP_PARTS if word == "cup" else _SPOON_PARTS[word]
            return _said(count, parts, word)
    return None


@cache
def _volume(word: str, cups: str) -> float:
    volume = units.parse_amount(f"1 {word}", cups=cups).volume
    if volume is None:
        raise ValueError(f"{word} is no volume")
    return volume


def _said(count: float, parts: tuple[float, ...], word: str) -> str:
    """A count to the nearest part: "2 ¼ cups"; whole ones from ten up."""
    whole, rest = divmod(count, 1.0)
    part = min(parts, key=lambda one: abs(one - rest)) if count < 10.0 else float(round(rest))
    if part == 1.0:
        whole, part = whole + 1.0, 0.0
    sign = next(said for value, said in _PARTS if abs(value - part) < 1e-9)
    number = HELD.join(text for text in (f"{whole:.0f}" if whole else "", sign) if text)
    many = "s" if word == "cup" and (whole > 1 or (whole == 1 and part)) else ""
    return f"{number or sign}{HELD}{word}{many}"
