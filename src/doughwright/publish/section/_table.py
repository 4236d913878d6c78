"""The section as a table: a dozen moments of a piece, from what it lies on to its top."""

from __future__ import annotations

from collections.abc import Iterator

from doughwright.publish.render import number
from doughwright.publish.section._model import Cut, Moment

HEADINGS = (
    "min", "doing", "surface, °C", "base, °C", "coldest dough, °C", "top, °C", "boiled from below, mm",
    "from above, mm", "height, mm",
)  # fmt: skip
ROWS = 14


def section_table(cut: Cut) -> tuple[tuple[str, ...], ...]:
    """Moments from the first to the last, the ends of every phase among them."""
    whole = sum(len(phase.moments) for phase in cut.phases)
    step = max(1, whole // ROWS)
    return tuple(_rows(cut, step))


def _rows(cut: Cut, step: int) -> Iterator[tuple[str, ...]]:
    for phase in cut.phases:
        last = len(phase.moments) - 1
        for at, moment in enumerate(phase.moments):
            if at == last or (at % step == 0 and last - at >= step / 2):
                yield (number(moment.time, 1), phase.do, *_figures(moment))


def _figures(one: Moment) -> tuple[str, ...]:
    return (
        number(one.surface[-1]) if one.surface else "–",
        number(one.food[0]),
        number(one.coldest[1]),
        number(one.food[-1]),
        *(number(mm, 1) for mm in (one.from_base, one.from_top, one.top)),
    )
