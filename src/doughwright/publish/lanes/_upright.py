"""The two lanes upright, for a phone: the dough at the left, the cook's minutes at the right."""

from __future__ import annotations

from collections.abc import Sequence

from doughwright.kitchen.types import Hours
from doughwright.publish.clock import Clock
from doughwright.publish.lanes._blocks import Block, Wait, asleep
from doughwright.publish.svg import Pen, text_width

LEAST, PER_MINUTE, GAP = 34.0, 1.2, 7.0
LANE_X, MINUTES_X, MINUTES_WIDE, HEAD = 70.0, 150.0, 52.0, 24.0


def draw_upright(
    pen: Pen,
    blocks: Sequence[Block],
    waits: Sequence[Wait],
    around: tuple[Clock, Hours, float],
    width: float,
) -> float:
    """Draw both lanes downwards; gives the lower edge."""
    clock, awake, meal = around
    heights = [max(LEAST, block.minutes * PER_MINUTE) for block in blocks]
    tall = max(sum(heights) + GAP * (len(heights) - 1), 12.0 * (len(waits) + 1))
    start, end = -1.0, meal + 1.0
    pen.text((LANE_X, 14.0), "dough", "strong", "middle")
    pen.text((MINUTES_X + MINUTES_WIDE / 2.0, 14.0), "you", "strong", "middle")

    def y(hours: float) -> float:
        return HEAD + (hours - start) * tall / (end - start)

    for low, high in asleep(clock, awake, start, end):
        lines = "".join(f"M{LANE_X + 12:.1f} {at:.1f}l8 -4" for at in _steps(y(low), y(high)))
        pen.path(lines, "line", 0.8)
    _draw_days(pen, clock, (start, end), [y(start), y(end)])
    for wait in waits:
        role = "hollow" if wait.place == "fridge" else "lane"
        pen.box((LANE_X - 3.0, y(wait.start)), (6.0, y(wait.end) - y(wait.start)), role)
    top = HEAD
    for block, high in zip(blocks, heights, strict=True):
        _wedge(pen, (y(block.start), y(block.end)), (top, top + high))
        pen.box((LANE_X - 9.0, y(block.start)), (18.0, max(y(block.end) - y(block.start), 2.0)), "cook")
        pen.box((MINUTES_X, top), (MINUTES_WIDE, high), "cook")
        pen.text(
            (MINUTES_X + MINUTES_WIDE / 2.0, top + high / 2.0 + 4.0),
            f"{block.minutes:.0f} min",
            "over",
            "middle",
        )
        x = MINUTES_X + MINUTES_WIDE + 8.0
        pen.text((x, top + 13.0), "", "word", strong=block.time)
        pen.text((x, top + 28.0), fitting(block.words, width - x), "word")
        top += high + GAP
    return HEAD + tall + 12.0


def _steps(low: float, high: float) -> list[float]:
    return [low + 6.0 * n for n in range(int((high - low) / 6.0) + 1)]


def _draw_days(pen: Pen, clock: Clock, hours: tuple[float, float], ys: Sequence[float]) -> None:
    """A day's name where it begins, and a tick at six and noon and eighteen."""
    start, end = hours
    pen.text((0.0, ys[0] + 10.0), clock.day(start)[:3], "strong")
    scale = (ys[1] - ys[0]) / (end - start)
    for on, hour in clock.whole_hours(start, end):
        y = ys[0] + (on - start) * scale
        if hour % 6 == 0:
            pen.line((LANE_X - 24.0, y), (LANE_X - 16.0, y), "line")
        if hour == 0 and y > ys[0] + 24.0:
            pen.text((0.0, y + 4.0), clock.day(on)[:3], "strong")


def _wedge(pen: Pen, left: tuple[float, float], right: tuple[float, float]) -> None:
    (a, b), (c, d) = left, right
    x0, x1 = LANE_X + 9.0, MINUTES_X
    m0, m1 = x0 + 36.0, x1 - 36.0
    pen.path(
        f"M{x0:.1f},{a:.1f} C{m0:.1f},{a:.1f} {m1:.1f},{c:.1f} {x1:.1f},{c:.1f}"
        f" L{x1:.1f},{d:.1f} C{m1:.1f},{d:.1f} {m0:.1f},{b:.1f} {x0:.1f},{b:.1f} Z",
        "wash",
    )


def fitting(words: str, room: float) -> str:
    """As many of the words as there is room for."""
    if text_width(words) <= room:
        return words
    parts = words.split(", ")
    while len(parts) > 1:
        parts.pop()
        short = f"{', '.join(parts)} …"
        if text_width(short) <= room:
            return short
    return f"{parts[0]} …" if ", " in words else words
