"""Bars of the forecast's width: a dashed box now, a bar after each measurement, one axis of volumes."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.publish.measuring._model import Measuring
from doughwright.publish.measuring._words import measuring_finding, width_words
from doughwright.publish.render import number, rise
from doughwright.publish.scales import tick_step, ticks
from doughwright.publish.svg import Pen, text_width

WIDE = 932.0
OVER_BAR_BELOW = 640.0
NAMES, FIGURES = 286.0, 84.0
ROW, ROW_OVER, HEAD = 33.0, 38.0, 26.0
NOW_HIGH, HIGH = 12.0, 11.0


@dataclass(frozen=True, slots=True)
class _Axis:
    low: float
    high: float
    left: float
    right: float

    def x(self, value: float) -> float:
        return self.left + (value - self.low) / (self.high - self.low) * (self.right - self.left)


def measuring_svg(
    measuring: Measuring, *, width: float = WIDE, prefix: str = "measuring", for_paper: bool = False
) -> str:
    """The picture at a width [px]; on a phone each name stands over its bar."""
    pen = Pen(prefix, for_paper=for_paper)
    over = width < OVER_BAR_BELOW
    axis = _axis(measuring, (8.0, width - 8.0) if over else (NAMES, width - FIGURES))
    row = ROW_OVER if over else ROW
    foot = HEAD + row * (len(measuring.measures) + 1) + (4.0 if over else 0.0)
    _draw_axis(pen, axis, foot)
    _draw_middle(pen, axis, measuring, foot)
    rows = [("now", measuring.low, measuring.high), *(
        (f"with {one.name}", *measuring.after(one)) for one in measuring.measures
    )]  # fmt: skip
    for at, (name, low, high) in enumerate(rows):
        y = HEAD + row * (at + 0.5) + (8.0 if over else 0.0)
        _draw_row(pen, axis, (low, high), y, now=at == 0)
        name_y = y - 11.0 if over else y + 4.0
        pen.text((0.0, name_y), name, "clear" if over else "word")
        pen.text((width, name_y), "", "clear" if over else "word", "end", strong=width_words(high - low))
    return pen.picture(width, foot + 24.0, "What measuring would buy", measuring_finding(measuring))


def _axis(measuring: Measuring, sides: tuple[float, float]) -> _Axis:
    every = [measuring.low, measuring.high]
    for one in measuring.measures:
        every += measuring.after(one)
    low, high = min(every), max(every)
    room = max(high - low, 0.1) * 0.08
    step = tick_step(low - room, high + room, (sides[1] - sides[0]) / 64.0)
    shown = ticks(low - room, high + room, step)
    return _Axis(min(low - room, shown[0]), max(high + room, shown[-1]), *sides)


def _draw_axis(pen: Pen, axis: _Axis, foot: float) -> None:
    step = tick_step(axis.low, axis.high, (axis.right - axis.left) / 64.0)
    decimals = 2 if step < 0.1 else 1
    for volume in ticks(axis.low, axis.high, step):
        x = axis.x(volume)
        pen.line((x, HEAD), (x, foot), "rule")
        pen.text((x, foot + 17.0), number(volume, decimals), "soft", "middle")


def _draw_middle(pen: Pen, axis: _Axis, measuring: Measuring, foot: float) -> None:
    x = axis.x(measuring.middle)
    pen.line((x, HEAD - 8.0), (x, foot), "edge", 1.0, "1.5 3")
    words = f"{measuring.judged_word}: {rise(measuring.middle)}"
    half = text_width(words) / 2.0
    at = min(max(x, axis.left + half), axis.right + (0.0 if axis.left > 100.0 else 8.0) - half)
    pen.text((at, HEAD - 13.0), words, "word", "middle")


def _draw_row(pen: Pen, axis: _Axis, span: tuple[float, float], y: float, *, now: bool) -> None:
    left, right = axis.x(span[0]), axis.x(span[1])
    if now:
        dashes = ' stroke-width="1.5" stroke-dasharray="4 3"'
        pen.box((left, y - NOW_HIGH / 2.0), (right - left, NOW_HIGH), "dashed", dashes)
    else:
        pen.box((left, y - HIGH / 2.0), (max(right - left, 2.0), HIGH), "ink")
