"""How well a value is known, as a small picture: a disc, a bar with ends, or a dashed box, by its doubt."""

from __future__ import annotations

from doughwright.kitchen.types import Assumption, Known
from doughwright.publish.svg import Pen

WIDE, HIGH = 160.0, 18.0
# 90 % of a normal distribution lies within so many standard deviations.
NINETY = 1.645
# The axis shows the population's 90 % and as much again as this on each side, of half its width.
_BEYOND = 1.15
_LEAST = 6.0


def known_picture(known: Known, population: Assumption | None, prefix: str, says: str) -> str:
    """The value on the axis of all kitchens; in the middle where nothing is known of others."""
    pen = Pen(prefix)
    middle, y = WIDE / 2.0, HIGH / 2.0
    pen.line((4.0, y), (WIDE - 4.0, y), "rule")
    reach = (WIDE / 2.0 - 12.0) / _BEYOND
    wide = population.spread * NINETY if population is not None and population.spread > 0.0 else None
    x = middle
    if wide is not None and population is not None and known.how != "assumed":
        x += min(max((known.value - population.middle) / wide, -_BEYOND), _BEYOND) * reach
    half = max(_half(known, wide, reach), _LEAST)
    if known.how == "assumed":
        dashes = ' stroke-width="1.5" stroke-dasharray="4 3"'
        pen.box((middle - half, y - 6.0), (2.0 * half, 12.0), "line", dashes)
    elif known.how == "measured":
        pen.line((x - half, y), (x + half, y), "edge", 2.0)
        for end in (x - half, x + half):
            pen.line((end, y - 5.0), (end, y + 5.0), "edge", 2.0)
        pen.disc((x, y), 3.0)
    else:
        pen.disc((x, y), 4.0)
    return pen.picture(WIDE, HIGH, says, f"{known.how}, on the axis of all kitchens")


def _half(known: Known, wide: float | None, reach: float) -> float:
    """Half the width of the doubt [px]; a measured value without a spread has the least."""
    if known.how == "assumed":
        return reach
    if known.spread is None or wide is None:
        return 0.0
    return min(known.spread * NINETY / wide, _BEYOND) * reach
