"""One row of the band: ground, dough, ripe zone, labels, rail and axis, between two hours."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from doughwright.publish.band._axis import draw_axis, draw_scale
from doughwright.publish.band._body import draw_before, draw_dough, draw_waiting
from doughwright.publish.band._frame import Frame
from doughwright.publish.band._inside import clear_of_zone, draw_ground, draw_inside
from doughwright.publish.band._labels import LINE, Label, placed
from doughwright.publish.band._model import Band, Course, Mark
from doughwright.publish.band._rail import draw_rail
from doughwright.publish.render import interval
from doughwright.publish.svg import Pen, text_width

HEADROOM, HEADROOM_PX = 0.4, 24.0
UNDER_FOOT = 72.0
UNDER_FOOT_NO_RAIL = 42.0
# Words in the row: left, right and the line they stand on.
Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class RowPlan:
    """What a row shows: hours, where on the page, how many px a volume, at most how high, and its marks."""

    start: float
    end: float
    left: float
    right: float
    unit: float
    tallest: float
    marks: tuple[Mark, ...]
    opened: bool = False
    days: bool = True


def draw_row(pen: Pen, band: Band, plan: RowPlan, above: float) -> float:
    """Draw a row whose highest word starts at ``above``; gives the y of its lower edge."""
    top = _top(band, plan)
    frame = Frame(plan.start, plan.end, plan.left, plan.right, 0.0, min(plan.unit, plan.tallest / top), top)
    labels = placed(_labels(band, frame, plan.marks), 0.0, plan.right + 2.0)
    lines = max((one.row + 1 for one in labels), default=0)
    frame = replace(frame, base=above + lines * LINE + 6.0 + top * frame.unit)
    draw_ground(pen, frame, band)
    draw_scale(pen, frame)
    draw_dough(pen, frame, band)
    draw_inside(pen, frame, band)
    zone = _draw_zone(pen, frame, band, opened=plan.opened)
    draw_before(pen, frame, band)
    _draw_waiting(pen, frame, band, zone)
    _draw_whisker(pen, frame, band)
    pen.line((frame.left, frame.base), (frame.right, frame.base), "edge", 1.4)
    _draw_labels(pen, frame, band, labels)
    railed = draw_rail(pen, frame, band, times=plan.opened)
    bottom = frame.base + (UNDER_FOOT if railed else UNDER_FOOT_NO_RAIL)
    draw_axis(pen, frame, band.clock, bottom - 26.0, days=plan.days)
    return bottom


def _top(band: Band, plan: RowPlan) -> float:
    """How many volumes the row is high: as high as its dough, and as the ripe zone where it is near."""
    high = [0.8]
    for course in [band.course, *(part.course for part in band.preferments)]:
        ends = band.judged_at if course is band.course else course.time[-1]
        part = course.between(plan.start, min(plan.end, ends))
        high += [max(part.rise)] if part else []
    if band.before is not None:
        part = band.before.between(plan.start, min(plan.end, band.judged_at))
        high += [max(part.rise)] if part else []
    if plan.start <= band.judged_at <= plan.end:
        high += [band.target[1], *(band.whisker or ())]
    return math.ceil((max(high) + max(HEADROOM, HEADROOM_PX / plan.unit)) * 10.0) / 10.0


def _labels(band: Band, frame: Frame, marks: Sequence[Mark]) -> list[Label]:
    shown = [mark for mark in marks if frame.shows(mark.at)]
    return [Label(frame.x(mark.at), mark.at, band.clock.time(mark.at), mark.words) for mark in shown]


def _draw_labels(pen: Pen, frame: Frame, band: Band, labels: Sequence[Label]) -> None:
    """Each leader from its word down to the dough."""
    for label in labels:
        y = frame.roof - 6.0 - label.row * LINE
        ends = _height_at(frame, band, label.at)
        pen.line((label.x, y + 4.0), (label.x, ends), "line")
        pen.disc((label.x, ends))
        if label.leftwards:
            pen.text((label.x + 2.0, y), label.words, "word", "end", strong=label.time)
        else:
            pen.text((max(label.x - 2.0, 0.0), y), label.words, "word", strong=label.time)


def _height_at(frame: Frame, band: Band, hours: float) -> float:
    """Where a leader ends: on the dough, on the roof of the oven, else on the foot."""
    if hours > band.judged_at + 1e-6:
        baking = any(stay.place == "oven" and stay.start - 1e-6 <= hours < stay.end for stay in band.stays)
        return frame.roof if baking else frame.base
    courses: list[Course] = [*(part.course for part in band.preferments), band.course]
    for course in courses:
        if course.time[0] - 1.0 <= hours <= course.time[-1] + 1e-6:
            return frame.y(course.at(max(hours, course.time[0]), before=hours > course.time[0])[2])
    return frame.base


def _draw_zone(pen: Pen, frame: Frame, band: Band, *, opened: bool) -> Place | None:
    """The ripe zone: two dashed lines at the target, named once; gives where the words are."""
    if band.target[1] > frame.top or frame.end < band.judged_at - 1e-6 or frame.start > band.judged_at:
        return None
    words = f"ripe: {interval(*band.target)}"
    begins = max(frame.left, frame.x(frame.held(band.judged_from)))
    start = begins if opened else frame.right - 0.27 * (frame.right - frame.left)
    start = max(begins, min(start, frame.x(band.judged_at) - 60.0))
    for volume in band.target:
        pen.line((start, frame.y(volume)), (frame.right, frame.y(volume)), "edge", 1.0, "5 3")
    place = _zone_place(frame, band, start, text_width(words))
    if place is None and not opened:
        return None
    right, y = place or (frame.right - 4.0, frame.y(band.target[1]) - 5.0)
    pen.text((right, y), words, "clear", "end")
    return right - text_width(words), right, y


def _zone_place(frame: Frame, band: Band, start: float, width: float) -> tuple[float, float] | None:
    """Where the zone's words end: between its lines or above them, clear of dough and dots; or nowhere."""
    low, high = (frame.y(volume) for volume in band.target)
    middle = (low + high) / 2.0 + 4.0
    lines = [middle, high - 5.0] if low - high >= 16.0 else [high - 5.0, low + 14.0]
    rights = [frame.right - 4.0, start - 6.0, start + width + 6.0]
    places = [(right, y) for right in rights for y in lines if right - width >= frame.left + 4.0]
    return next((place for place in places if _is_free(frame, band, place, width)), None)


def _is_free(frame: Frame, band: Band, place: tuple[float, float], width: float) -> bool:
    """Whether words stand clear above the dough, or clear of the dots past its judging."""
    right, y = place
    for at in range(9):
        hours = frame.start + (right - width * at / 8.0 - frame.left) * frame.hours_per_pixel
        if not band.course.time[0] <= hours <= band.course.time[-1]:
            continue
        edge = frame.y(band.course.at(hours)[2])
        if y - 14.0 < edge < y + 7.0 or (hours <= band.judged_at and edge <= y + 7.0):
            return False
    return y - 12.0 > frame.roof


def _draw_waiting(pen: Pen, frame: Frame, band: Band, zone: Place | None) -> None:
    place = draw_waiting(pen, frame, band)
    if place is None:
        return
    x, y, words = place[0] + 10.0, clear_of_zone(frame, band, place[1] + 14.0), "if you wait"
    left, right, at = zone or (0.0, 0.0, 0.0)
    on_zone = abs(at - y) < 15.0 and x < right and left < x + text_width(words)
    if not on_zone and y - place[1] > 11.0:
        pen.text((x, y), words, "soft")


def _draw_whisker(pen: Pen, frame: Frame, band: Band) -> None:
    """The 90 % interval at the judging."""
    if band.whisker is None or not frame.start < band.judged_at <= frame.end:
        return
    x, (low, high) = frame.x(band.judged_at), band.whisker
    pen.line((x, frame.y(low)), (x, frame.y(high)), "edge", 1.6)
    for volume in (low, high):
        pen.line((x - 4.0, frame.y(volume)), (x + 4.0, frame.y(volume)), "edge", 1.6)
