"""What measuring would buy: the forecast's width now and after each measurement, drawn and as a table."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.forecast.narrow_results import Narrow
from doughwright.publish.measuring import (
    Measure,
    Measuring,
    buys_words,
    measuring_finding,
    measuring_svg,
    next_words,
    width_words,
)
from doughwright.publish.render import HELD, capital, curled, number
from doughwright.web._days import NARROW, WIDE

# What buys less than these is in the table only.
MOST_DRAWN = 5


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """A measurement: what, how it is done, the cook's minutes, what it buys."""

    what: str
    how: str
    minutes: str
    buys: str


@dataclass(frozen=True, slots=True)
class MeasuringPart:
    """What would narrow the forecast most: a sentence in three parts, the picture, the table."""

    head: str
    strong: str
    tail: str
    wide: str
    narrow: str
    finding: str
    rows: tuple[MeasureRow, ...]
    left: tuple[str, ...]


def measuring_part(found: Narrow, *, wide_only: bool = False, prefix: str = "measuring") -> MeasuringPart:
    """The ranking of a recipe's measurements in a kitchen."""
    of = measuring_of(found)
    drawn = Measuring(of.middle, of.low, of.high, of.measures[:MOST_DRAWN], of.judged_word)
    head, strong, tail = next_words(of)
    return MeasuringPart(
        head=head,
        strong=strong,
        tail=tail,
        wide=measuring_svg(drawn, width=WIDE, prefix=prefix),
        narrow="" if wide_only else measuring_svg(drawn, width=NARROW, prefix=f"{prefix}-narrow"),
        finding=measuring_finding(of),
        rows=tuple(
            MeasureRow(
                capital(curled(one.what)),
                one.how,
                f"{number(one.minutes.value or 0.0)}{HELD}min",
                buys_words(of, measure),
            )
            for one, measure in zip(found.measures, of.measures, strict=True)
        ),
        left=tuple(f"{capital(curled(one.what))}: {one.why}" for one in found.not_measured),
    )


def measuring_of(found: Narrow) -> Measuring:
    """The ranking as the picture takes it."""
    rise = found.rise
    middle = rise.value or 0.0
    return Measuring(
        middle=middle,
        low=middle if rise.low is None else rise.low,
        high=middle if rise.high is None else rise.high,
        measures=tuple(
            Measure(curled(one.what), one.width.value or 0.0, one.minutes.value) for one in found.measures
        ),
        judged_word=found.judged,
    )


def buys_of(found: Narrow) -> dict[str, str]:
    """What each measurement buys, by its name."""
    of = measuring_of(found)
    return {
        one.what: buys_words(of, measure) for one, measure in zip(found.measures, of.measures, strict=True)
    }


def now_words(found: Narrow) -> str:
    """How wide the forecast is now: "± 0.31"."""
    return width_words(found.width.value or 0.0)
