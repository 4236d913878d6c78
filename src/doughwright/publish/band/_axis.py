"""The axes of a row: hours and days below, volumes at the left."""

from __future__ import annotations

from doughwright.publish.band._frame import Frame
from doughwright.publish.clock import Clock
from doughwright.publish.render import number
from doughwright.publish.svg import Pen, text_width

ROOM = 34.0
STEPS = (1, 2, 3, 6, 12, 24)


def draw_scale(pen: Pen, frame: Frame) -> None:
    """Volumes at the left: 1, 1.5, 2, 2.5; whole ones where it gets tall."""
    pen.line((frame.left, frame.roof), (frame.left, frame.base), "line")
    step = 0.5 if frame.unit >= 32.0 else 1.0 if frame.unit >= 16.0 else 2.0
    volume = 1.0
    while volume <= frame.top + 1e-9:
        y = frame.y(volume)
        pen.line((frame.left - 5.0, y), (frame.left, y), "line")
        pen.text((frame.left - 8.0, y + 4.0), number(volume, 1).removesuffix(".0"), "soft", "end")
        volume += step


def tick_hours(frame: Frame) -> int:
    """How many hours lie between two ticks with their figures."""
    return next((step for step in STEPS if step / frame.hours_per_pixel >= ROOM), 24)


def draw_axis(pen: Pen, frame: Frame, clock: Clock, y: float, *, days: bool) -> None:
    """Ticks at the whole hours of the wall clock, day names at midnight; a figure gives way to a name."""
    pen.line((frame.left, y), (frame.right, y), "line")
    long = frame.end - frame.start > 14.0
    step = max(tick_hours(frame), 6 if frame.end - frame.start > 30.0 else 1)
    hours = list(clock.whole_hours(frame.start, frame.end))
    midnights = [on for on, hour in hours if hour == 0 and days and frame.end - on > 0.5]
    taken = _draw_days(pen, frame, clock, y, midnights) if days and (midnights or long) else []
    for on, hour in hours:
        x = frame.x(on)
        if on in midnights:
            pen.line((x, y), (x, y + 24.0), "line")
        elif hour % step == 0 and (days or x - frame.left > 1.0):
            pen.line((x, y), (x, y + 6.0), "line")
            if not (long and frame.end - on < 0.01) and not any(
                a < x + 10.0 and x - 10.0 < b for a, b in taken
            ):
                pen.text((x, y + 21.0), f"{hour:02d}", "soft", "middle")


def _draw_days(
    pen: Pen, frame: Frame, clock: Clock, y: float, midnights: list[float]
) -> list[tuple[float, float]]:
    """A day's name at its midnight, the first day's at the left; short in little room; gives where."""
    taken = []
    starts = [frame.start, *(one for one in midnights if one > frame.start + 1e-6)]
    for start, end in zip(starts, [*starts[1:], frame.end], strict=True):
        x = frame.x(start) + (6.0 if start in midnights else 0.0)
        room = frame.x(end) - x - 4.0
        name = clock.day(start)
        short = name if text_width(name, bold=True) <= room * 0.6 else name[:3]
        width = text_width(short, bold=True)
        if width <= room:
            pen.text((x, y + 21.0), short, "strong")
            taken.append((x, x + width))
    return taken
