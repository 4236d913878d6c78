"""Readings as discs over two bands: dashed edges before, filled after; what does not fit is crossed out."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.publish.readings._model import Panel, Spread
from doughwright.publish.readings._words import panel_finding
from doughwright.publish.render import number
from doughwright.publish.scales import tick_step, ticks
from doughwright.publish.svg import Pen, text_width, thinned

WIDE = 932.0
HIGH, NARROW_HIGH, ROOF = 210.0, 170.0, 24.0
NARROW_BELOW = 420.0
# More readings than these are a line, not discs.
MOST_DISCS = 90


@dataclass(frozen=True, slots=True)
class _Frame:
    start: float
    end: float
    low: float
    high: float
    left: float
    right: float
    roof: float
    base: float

    def x(self, time: float) -> float:
        return self.left + (time - self.start) / (self.end - self.start) * (self.right - self.left)

    def y(self, value: float) -> float:
        return self.base - (value - self.low) / (self.high - self.low) * (self.base - self.roof)


def panel_svg(panel: Panel, *, width: float = WIDE, prefix: str = "panel", for_paper: bool = False) -> str:
    """The picture at a width [px]."""
    pen = Pen(prefix, for_paper=for_paper)
    frame = _frame(panel, width)
    unit = f", {panel.unit}" if panel.unit else ""
    pen.text((0.0, 12.0), f"{panel.what}{unit}", "soft")
    _draw_after(pen, frame, panel)
    _draw_before(pen, frame, panel)
    _draw_axes(pen, frame, panel)
    _draw_points(pen, frame, panel)
    return pen.picture(width, frame.base + 40.0, f"Readings of {panel.what}", panel_finding(panel))


def _frame(panel: Panel, width: float) -> _Frame:
    times = [0.0, *(one.time for one in panel.points)]
    values = [one.value for one in panel.points]
    for spread in (panel.before, panel.after):
        if spread is not None:
            times += [spread.time[0], spread.time[-1]]
            values += [*spread.low, *spread.high]
    start, end = (min(times), max(times)) if times else (0.0, 1.0)
    low, high = (min(values), max(values)) if values else (0.0, 1.0)
    room = max(high - low, 0.05) * 0.06
    narrow = width < NARROW_BELOW
    right = width - (54.0 if panel.after is not None or panel.before is not None else 4.0)
    base = ROOF + (NARROW_HIGH if narrow else HIGH)
    return _Frame(start, max(end, start + 0.1), low - room, high + room, 34.0, right, ROOF, base)


def _draw_after(pen: Pen, frame: _Frame, panel: Panel) -> None:
    spread = panel.after
    if spread is None:
        return
    low, middle, high = _lines(frame, spread)
    pen.shape([*high, *reversed(low)], "fan-outer")
    for edge in (low, high):
        pen.lines(edge, "edge", 1.0)
    pen.lines(middle, "edge", 2.0)


def _draw_before(pen: Pen, frame: _Frame, panel: Panel) -> None:
    """The edges of the band as it was, and which band is which where both end."""
    lines = []
    if panel.before is not None:
        low, _, high = _lines(frame, panel.before)
        for edge in (low, high):
            pen.lines(edge, "line", 1.4, "5 3")
        lines.append((high[-1][1], "before", "soft"))
    if panel.after is not None:
        lines.append((_lines(frame, panel.after)[1][-1][1], "after", "word"))
    if len(lines) == 2 and abs(lines[0][0] - lines[1][0]) < 15.0:
        lines[0] = (lines[1][0] - 15.0, *lines[0][1:])
    for y, words, role in lines:
        pen.text((frame.right + 6.0, y + 4.0), words, role)


def _lines(frame: _Frame, spread: Spread) -> tuple[list[tuple[float, float]], ...]:
    return tuple(
        thinned([(frame.x(time), frame.y(value)) for time, value in zip(spread.time, row, strict=True)])
        for row in (spread.low, spread.middle, spread.high)
    )


def _draw_axes(pen: Pen, frame: _Frame, panel: Panel) -> None:
    pen.line((frame.left, frame.roof), (frame.left, frame.base), "line")
    pen.line((frame.left, frame.base), (frame.right, frame.base), "edge", 1.4)
    apart = tick_step(frame.low, frame.high, 5.0)
    places = max(panel.decimals, 0 if apart >= 1.0 else 1 if apart >= 0.1 else 2)
    for value in ticks(frame.low, frame.high, apart):
        y = frame.y(value)
        pen.line((frame.left - 5.0, y), (frame.left, y), "line")
        pen.text((frame.left - 8.0, y + 4.0), number(value, places), "soft", "end")
    step = max(tick_step(frame.start, frame.end, (frame.right - frame.left) / 80.0), 0.5)
    step = next((one for one in (0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0) if one >= step), step)
    decimals = 1 if step < 1.0 else 0
    for hour in ticks(frame.start, frame.end, step):
        x = frame.x(hour)
        pen.line((x, frame.base), (x, frame.base + 6.0), "line")
        pen.text((x, frame.base + 19.0), number(hour, decimals), "soft", "middle")
    wide = text_width(panel.time_words)
    pen.text((max(frame.right, wide), frame.base + 35.0), panel.time_words, "soft", "end")


def _draw_points(pen: Pen, frame: _Frame, panel: Panel) -> None:
    kept = [one for one in panel.points if not one.odd]
    if len(kept) > MOST_DISCS:
        pen.lines(thinned([(frame.x(one.time), frame.y(one.value)) for one in kept]), "edge", 1.2)
    else:
        for one in kept:
            pen.disc((frame.x(one.time), frame.y(one.value)), 3.4)
    for one in panel.points:
        if one.odd:
            x, y = frame.x(one.time), frame.y(one.value)
            pen.ring((x, y), 3.4)
            pen.line((x - 5.5, y + 5.5), (x + 5.5, y - 5.5), "edge", 1.6)
            left = x + text_width("does not fit") + 10.0 > frame.right
            pen.text(
                (x - 9.0 if left else x + 9.0, y + 4.0), "does not fit", "clear", "end" if left else "start"
            )
