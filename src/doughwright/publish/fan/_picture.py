"""The fan as one SVG on the band's own axis; a phone keeps its last day."""

from __future__ import annotations

import math
from collections.abc import Sequence

from doughwright.publish.band._axis import draw_axis, draw_scale
from doughwright.publish.band._frame import Frame
from doughwright.publish.fan._model import LEVELS, Fan
from doughwright.publish.fan._words import at, fan_finding
from doughwright.publish.render import interval, number
from doughwright.publish.svg import Pen, Point, text_width, thinned

WIDE, NARROW = 932.0, 350.0
A_DAY_BELOW = 420.0
UNIT, NARROW_UNIT, TALLEST = 50.0, 44.0, 240.0
ROOF, HEADROOM = 8.0, 0.4
# The words at the end need two lines each.
APART = 28.0
LEAST_DAY = 8.0
# How much of the width the ripe zone is drawn over.
ZONE, ZONE_NARROW = 0.17, 0.36
# Room for the words at the end on a phone.
END_WORDS = 92.0


def fan_svg(fan: Fan, *, width: float = WIDE, prefix: str = "fan", for_paper: bool = False) -> str:
    """The picture at a width [px]: 932 on a page, 350 on a phone, any other on paper."""
    pen = Pen(prefix, for_paper=for_paper)
    narrow = width < A_DAY_BELOW
    frame = _frame(fan, width, narrow=narrow, for_paper=for_paper)
    _draw_grounds(pen, frame, fan)
    draw_scale(pen, frame)
    _draw_fan(pen, frame, fan)
    _draw_zone(pen, frame, fan, narrow=narrow)
    pen.line((frame.left, frame.base), (frame.right, frame.base), "edge", 1.4)
    _draw_ends(pen, frame, fan, narrow=narrow)
    draw_axis(pen, frame, fan.clock, frame.base, days=True)
    title = f"The same days in {fan.kitchens:,} kitchens"
    return pen.picture(width, frame.base + 28.0, title, fan_finding(fan))


def _frame(fan: Fan, width: float, *, narrow: bool, for_paper: bool) -> Frame:
    left, right = (26.0, width - 4.0) if narrow else (34.0, width - (8.0 if for_paper else 1.0))
    start, end = fan.start, fan.end
    if narrow:
        start = fan.clock.midnight_before(fan.judged_at)
        if fan.judged_at - start < LEAST_DAY:
            start = fan.clock.midnight_before(start - 1.0)
        start = max(start, fan.start)
        end = max(end, fan.judged_at + (fan.judged_at - start) * END_WORDS / (right - left - END_WORDS))
    highest = max(max(fan.quantiles[-1]), fan.target[1])
    top = math.ceil((highest + HEADROOM) * 10.0) / 10.0
    unit = min(NARROW_UNIT if narrow else UNIT, TALLEST / top)
    return Frame(start, end, left, right, ROOF + top * unit, unit, top)


def _draw_grounds(pen: Pen, frame: Frame, fan: Fan) -> None:
    """Where the dough stands in each of those kitchens; the words say whose fridge it is."""
    for stay in fan.stays:
        left = frame.x(frame.held(max(stay.start, fan.time[0])))
        right = frame.x(frame.held(min(stay.end, fan.judged_at)))
        if right - left < 0.5:
            continue
        pen.box((left, frame.roof), (right - left, frame.base - frame.roof), stay.ground)
        pen.line((left, frame.roof), (left, frame.base), "line")
        words = f"their {stay.place}" if stay.place in ("fridge", "room") else stay.place
        if text_width(words) + 10.0 <= right - left:
            pen.text((left + 6.0, frame.roof + 15.0), words, "soft")


def _draw_fan(pen: Pen, frame: Frame, fan: Fan) -> None:
    """From below: the body, nine of ten, half of them, their edges, and the middle kitchen."""
    low, lower, middle, upper, high = (_points(frame, fan, level) for level in LEVELS)
    if len(low) < 2:
        return
    foot = [(low[-1][0], frame.base), (low[0][0], frame.base)]
    pen.shape([*low, *foot], "below")
    pen.shape([*high, *reversed(low)], "fan-outer")
    pen.shape([*upper, *reversed(lower)], "fan-inner")
    for edge in (low, high):
        pen.lines(edge, "edge", 1.0)
    pen.lines(middle, "edge", 2.0)
    x, roof = frame.x(fan.judged_at), frame.y(min(high[-1][0], frame.top))
    pen.line((x, frame.base), (x, min(high[-1][1], roof)), "edge", 1.2)


def _points(frame: Frame, fan: Fan, level: int) -> list[Point]:
    """The line of a level within the frame, its ends worked out."""
    values = fan.quantiles[LEVELS.index(level)]
    begins = max(frame.start, fan.time[0])
    inside = [(time, value) for time, value in zip(fan.time, values, strict=True) if time > begins + 1e-9]
    rows = [(begins, at(fan, level, begins)), *inside]
    return thinned([(frame.x(time), frame.y(value)) for time, value in rows if time <= frame.end])


def _draw_zone(pen: Pen, frame: Frame, fan: Fan, *, narrow: bool) -> None:
    """The ripe zone before the judging, since the dough was last worked: two dashed lines, named once."""
    end = frame.x(fan.judged_at)
    reach = ZONE_NARROW if narrow else ZONE
    start = max(end - reach * (frame.right - frame.left), frame.x(frame.held(_risen_from(fan))))
    for volume in fan.target:
        pen.line((start, frame.y(volume)), (end, frame.y(volume)), "edge", 1.0, "5 3")
    words = "ripe" if narrow else f"ripe: {interval(*fan.target)}"
    wide = text_width(words)
    low, high = (frame.y(volume) for volume in fan.target)
    lefts = (start - wide - 6.0, start + 2.0, end - wide - 6.0)
    places = [(left, y) for left in lefts for y in ((low + high) / 2.0 + 4.0, high - 5.0, low + 14.0)]
    places += [(left, frame.base - 9.0) for left in lefts]
    free = (place for place in places if _is_free(frame, fan, place, wide))
    place = next(free, None)
    pen.text(place or (start + 2.0, high - 5.0), words, "word" if place else "clear")


def _risen_from(fan: Fan) -> float:
    """Since when the middle kitchen's dough has only risen: it was last worked then."""
    values = fan.quantiles[LEVELS.index(50)]
    falls = [at for at in range(1, len(values)) if values[at - 1] - values[at] > 0.02]
    return fan.time[falls[-1]] if falls else fan.time[0]


def _is_free(frame: Frame, fan: Fan, place: Point, wide: float) -> bool:
    """Whether words stand clear of the fan and of the zone's own lines."""
    left, y = place
    if left < frame.left + 2.0 or y - 12.0 < frame.roof or y > frame.base - 2.0:
        return False
    for volume in fan.target:
        if y - 12.0 < frame.y(volume) < y + 3.0 and left + wide > frame.x(frame.held(_risen_from(fan))):
            return False
    for share in range(9):
        hours = frame.start + (left + wide * share / 8.0 - frame.left) * frame.hours_per_pixel
        if not fan.time[0] <= hours <= fan.judged_at:
            continue
        high, low = (frame.y(at(fan, level, hours)) for level in (95, 5))
        if y + 4.0 > high and y - 12.0 < low:
            return False
    return True


def _draw_ends(pen: Pen, frame: Frame, fan: Fan, *, narrow: bool) -> None:
    """What nine of ten lie between, and the middle, in figures where the fan stops."""
    low, middle, high = fan.at_judging
    said = ("1 in 20 over", "middle", "1 in 20 under") if narrow else (
        "1 in 20 above", "middle kitchen", "1 in 20 below"
    )  # fmt: skip
    heights = [frame.y(min(volume, frame.top)) for volume in (high, middle, low)]
    lines = _spread(heights, frame.roof + 10.0, frame.base - 18.0)
    x = frame.x(fan.judged_at)
    room = frame.right - x - 8.0
    outside = max(text_width(words) for words in said) <= room + 6.0
    for volume, y, line, words in zip((high, middle, low), heights, lines, said, strict=True):
        pen.line((x, y), (x + 5.0, y), "line")
        if outside:
            pen.text((x + 8.0, line), "", "word", strong=number(volume, 2))
            pen.text((x + 8.0, line + 13.0), words, "soft")
        else:
            pen.text((x - 8.0, line + 4.0), words, "clear", "end", strong=number(volume, 2))


def _spread(heights: Sequence[float], roof: float, foot: float) -> list[float]:
    """Lines for words as near their heights as two lines each allow, top to bottom."""
    lines = [heights[0], heights[1] - 2.0, heights[2] + 6.0]
    lines[0] = max(min(lines[0], lines[1] - APART), roof)
    lines[1] = max(lines[1], lines[0] + APART)
    lines[2] = min(max(lines[2], lines[1] + APART), max(foot, lines[1] + APART))
    if lines[2] > foot:
        over = lines[2] - foot
        lines = [max(line - over, roof + at * APART) for at, line in enumerate(lines)]
    return lines
