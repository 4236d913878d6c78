"""The words of the section: phases along the top, the crumb's setting, the surface in figures, the layers."""

from __future__ import annotations

from doughwright.publish.palette import word_colour
from doughwright.publish.render import HELD, number, temperature
from doughwright.publish.section._model import Cut, Moment, Phase
from doughwright.publish.section._place import Place
from doughwright.publish.section._words import time_words
from doughwright.publish.svg import Pen, text_width

APART = 16.0
ROOM = 8.0
NAMED_FROM = 36.0
BOILS = "water boils here"


def draw_phases(pen: Pen, place: Place, cut: Cut) -> None:
    """What is done, along the top; a phase too narrow for its name has it one line higher."""
    taken = 0.0
    for phase in cut.phases:
        left, right = place.x(phase.start), place.x(phase.end)
        pen.line((left, place.roof - 20.0), (left, place.face), "line")
        long = f"{phase.do}, {time_words(60.0 * (phase.end - phase.start))}"
        words = long if text_width(long, bold=True) + ROOM <= right - left else phase.do
        role = "strong" if phase.in_oven else "soft"
        wide = text_width(words, bold=True)
        if wide + ROOM <= right - left:
            pen.text((left + 5.0, place.roof - 8.0), words, role)
            continue
        start = min(left + 5.0, place.right - wide)
        if start >= taken:
            pen.text((start, place.roof - 26.0), words, role)
            taken = start + wide + ROOM
    pen.line((place.right, place.roof - 20.0), (place.right, place.face), "line")
    if not place.narrow:
        pen.text((place.right + 5.0, place.roof - 8.0), "out", "soft")


def draw_set(pen: Pen, place: Place, cut: Cut) -> None:
    """When the crumb is set: words, what it may be between, and a dot on the coldest dough."""
    one = cut.piece.set_at
    if one.value is None:
        return
    minute = one.value / 60.0
    if minute > cut.end + 1e-6:
        return
    x, line = place.x(minute), place.roof + 24.0
    moment, phase = _nearest(cut, minute)
    height, _ = moment.coldest
    level = place.y(height, lifted=phase.lifted)
    words = f"crumb set, {time_words(one.value)}"
    wide = text_width(words)
    start = max(min(x - 5.0, place.right - wide), place.left + 4.0)
    pen.text((start, line - 8.0), words, "clear")
    if one.low is not None and one.high is not None:
        ends = [place.x(min(end / 60.0, cut.end)) for end in (one.low, one.high)]
        pen.line((ends[0], line), (ends[1], line), "edge", 1.4)
        for end in ends:
            pen.line((end, line - 3.5), (end, line + 3.5), "edge", 1.4)
    pen.line((x, line), (x, level), "edge", 1.2)
    pen.disc((x, level), 3.2)


def draw_surface(pen: Pen, place: Place, cut: Cut) -> None:
    """The face of what it lies on in figures, where it begins and where each phase ends."""
    y = place.face + 14.0
    for nth, phase in enumerate(cut.phases):
        left, right = place.x(phase.start), place.x(phase.end)
        marks = [(right - 5.0, phase.moments[-1], "end")]
        if nth == 0 and right - left >= 74.0:
            marks.append((left + 5.0, phase.moments[0], "start"))
        for x, moment, anchor in marks if right - left >= 34.0 else []:
            if not moment.surface:
                continue
            degrees = moment.surface[-1]
            if place.under:
                pen.text((x, place.foot + 13.0), _degrees(degrees), "word", anchor)
            elif role := _on(degrees):
                pen.text((x, y), _degrees(degrees), role, anchor)


def draw_layers(pen: Pen, place: Place, cut: Cut) -> None:
    """The layers by name: at the right, outside; on the layers themselves where there is no room."""
    phase = cut.phases[-1]
    last = phase.moments[-1]
    dough = last.faces[last.dough]
    named = [("dough", place.y(dough / 2.0, lifted=phase.lifted) + 4.0, last.food[last.dough // 2])]
    if last.top > dough + 1e-6:
        height = (dough + last.top) / 2.0
        named.append(("toppings", place.y(height, lifted=phase.lifted) + 4.0, last.food[-1]))
    surface = f"{cut.surface}, {_mm(cut.thickness)}"
    if place.narrow:
        for words, y, degrees in named:
            pen.text((place.right - 6.0, y), words, _on(degrees) or "clear", "end")
        _name_surface(pen, place, surface, min(one.surface[-1] for one in phase.moments))
        return
    outside = [(words, y) for words, y, _ in named]
    outside += [(surface, (place.face + place.foot) / 2.0 + 4.0), *_boils(place, last, phase)]
    floor = place.foot + 4.0
    for words, y in sorted(outside, key=lambda one: -one[1]):
        line = min(y, floor)
        pen.text((place.right + 10.0, line), words, "strong" if words == BOILS else "word")
        floor = line - APART


def _name_surface(pen: Pen, place: Place, words: str, degrees: float) -> None:
    """On a phone: in the surface, below its figures; between them where these stand under it."""
    middle = (place.left + place.right) / 2.0
    if place.under:
        pen.text((middle, place.foot + 13.0), words, "word", "middle")
    elif place.foot - place.face >= NAMED_FROM:
        pen.text((middle, place.foot - 7.0), words, _on(degrees) or "clear", "middle")


def _boils(place: Place, last: Moment, phase: Phase) -> list[tuple[str, float]]:
    if not phase.in_oven or not 0.05 < last.from_base < last.top:
        return []
    return [(BOILS, place.y(last.from_base, lifted=False) + 4.0)]


def _nearest(cut: Cut, minute: float) -> tuple[Moment, Phase]:
    every = [(one, phase) for phase in cut.phases for one in phase.moments]
    return min(every, key=lambda pair: abs(pair[0].time - minute))


def _on(degrees: float) -> str | None:
    """The role of a word on the fill of a temperature; ``None`` where none may stand on it."""
    if word_colour(degrees) is None:
        return None
    return "on-pale" if degrees <= 40.0 else "on-dark"


def _degrees(value: float) -> str:
    return temperature(value).partition(HELD)[0] + "°"


def _mm(value: float) -> str:
    return f"{number(value, 1).removesuffix('.0')}{HELD}mm"
