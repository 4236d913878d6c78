"""What stands behind and inside the dough: the places, temperatures in figures, and names of the parts."""

from __future__ import annotations

from doughwright.publish.band._frame import Frame
from doughwright.publish.band._model import Band, Course
from doughwright.publish.band._words import strand_words
from doughwright.publish.palette import word_colour
from doughwright.publish.render import HELD, temperature
from doughwright.publish.svg import Pen, text_width

NAMED_FROM, NAME_ONLY_FROM = 80.0, 36.0


def draw_ground(pen: Pen, frame: Frame, band: Band) -> None:
    """One rectangle a place, a line where it changes, its name and temperature at the top left."""
    last = ""
    for stay in band.stays:
        left, right = frame.x(frame.held(stay.start)), frame.x(frame.held(stay.end))
        if right - left < 0.5:
            continue
        pen.box((left, frame.roof), (right - left, frame.base - frame.roof), stay.ground)
        if stay.place != last and left > frame.left + 0.5:
            pen.line((left, frame.roof), (left, frame.base), "line")
        last = stay.place
        if stay.start > band.judged_at + 1e-6 and stay.place != "oven":
            continue
        pen.text(
            (left + 6.0, frame.roof + 15.0),
            _place_words(stay.place, stay.temperature, right - left, band.system),
            "soft",
        )


def _place_words(place: str, degrees: float | None, width: float, system: str) -> str:
    full = place if degrees is None or place[:1].isdigit() else f"{place} {temperature(degrees, system)}"
    if width >= max(NAMED_FROM, text_width(full) + 8.0):
        return full
    return place if width >= max(NAME_ONLY_FROM, text_width(place) + 8.0) else ""


def draw_inside(pen: Pen, frame: Frame, band: Band) -> None:
    """Temperatures where a part begins and ends, and what it is."""
    for part in band.preferments:
        shown = part.course.between(frame.start, frame.end)
        if shown is not None:
            _draw_preferment_name(pen, frame, shown, part.name)
    shown = band.course.between(frame.start, min(frame.end, band.judged_at))
    if shown is None:
        return
    named: set[int] = set()
    for smooth in shown.pieces():
        _draw_temperatures(pen, frame, smooth, band.system)
        divided = band.divided_at is not None and smooth.time[0] >= band.divided_at - 1e-6
        strands = band.strands if divided else 1
        if strands not in named and _draw_names(pen, frame, band, smooth, strands):
            named.add(strands)


def _draw_temperatures(pen: Pen, frame: Frame, course: Course, system: str) -> None:
    left, right = frame.x(course.time[0]), frame.x(course.time[-1])
    low = frame.base - 7.0
    if right - left >= 34.0 and word_colour(course.core[0]):
        pen.text((left + 5.0, low), _degrees(course.core[0], system), "on-pale")
    if right - left >= 74.0 and word_colour(course.core[-1]):
        pen.text((right - 5.0, low), _degrees(course.core[-1], system), "on-pale", "end")


def _degrees(value: float, system: str) -> str:
    """A temperature where the ground names the scale: "5°"."""
    return temperature(value, system).partition(HELD)[0] + "°"


def _draw_names(pen: Pen, frame: Frame, band: Band, course: Course, strands: int) -> bool:
    """The name of the whole or of each strand, where there is room; says whether there was."""
    left, right = frame.x(course.time[0]), frame.x(course.time[-1])
    words = [strand_words(band, strand) for strand in range(strands)]
    words = ["dough in one piece"] if strands == 1 else words
    x = left + max(44.0, 0.22 * (right - left))
    height = course.at((course.time[0] + course.time[-1]) / 2.0)[2] * frame.unit / strands
    if x + max(text_width(one) for one in words) > right - 34.0 or height < 20.0:
        return False
    for strand, one in enumerate(words):
        pen.text((x, clear_of_zone(frame, band, frame.base - height * (strand + 0.5) + 4.0)), one, "on-pale")
    return True


def clear_of_zone(frame: Frame, band: Band, y: float) -> float:
    """The line on which words stand, moved off a dashed line of the ripe zone."""
    for line in (frame.y(volume) for volume in band.target):
        if y - 11.0 < line < y + 4.0:
            return line + 14.0 if line > y - 4.0 else line - 5.0
    return y


def _draw_preferment_name(pen: Pen, frame: Frame, course: Course, name: str) -> None:
    left, right = frame.x(course.time[0]), frame.x(course.time[-1])
    if right - left < text_width(name) + 12.0:
        return
    height = course.rise[-1] * frame.unit
    if height >= 22.0:
        pen.text((right - 8.0, frame.base - 8.0), name, "on-pale", "end")
    elif frame.base - height - 20.0 > frame.roof + 18.0:
        pen.text((right - 8.0, frame.base - height - 6.0), name, "clear", "end")
