"""The rail under the band: young a thin line, ripe a solid bar, past upright bars, each with its word."""

from __future__ import annotations

from dataclasses import dataclass, replace

from doughwright.publish.band._frame import Frame
from doughwright.publish.band._model import Band
from doughwright.publish.svg import Pen, text_width

DROP, THICK, WORDS = 15.0, 9.0, 35.0


@dataclass(frozen=True, slots=True)
class Span:
    """A state from hour to hour."""

    state: str
    start: float
    end: float


def spans(band: Band, end: float) -> list[Span]:
    """The states the dough goes through, from the mixer to ``end`` or as far as it was run."""
    start, last = band.course.time[0], min(end, band.course.time[-1])
    if band.ripe_from is None:
        return [Span(band.state if band.state != "ripe" else "young", start, last)]
    to = last if band.ripe_to is None else band.ripe_to
    every = [Span("young", start, band.ripe_from), Span("ripe", band.ripe_from, to), Span("past", to, last)]
    held = [replace(one, end=min(one.end, last)) for one in every]
    return [one for one in held if one.end > one.start + 1e-6]


def draw_rail(pen: Pen, frame: Frame, band: Band, *, times: bool) -> bool:
    """The rail within a row; says whether there was one."""
    shown = []
    for span in spans(band, frame.end):
        low, high = frame.held(span.start), frame.held(span.end)
        if high > low:
            shown.append(replace(span, start=low, end=high))
            _draw_span(pen, frame, span.state, frame.x(low), frame.x(high))
    _draw_words(pen, frame, band, shown, times=times)
    return bool(shown)


def _draw_span(pen: Pen, frame: Frame, state: str, left: float, right: float) -> None:
    y = frame.base + DROP
    if state == "young":
        pen.line((left, y), (right, y), "edge", 1.2)
    elif state == "ripe":
        pen.box((left, y - THICK / 2.0), (right - left, THICK), "ink")
    else:
        pen.bars(left + 2.0, right, y - THICK / 2.0, y + THICK / 2.0)


def _draw_words(pen: Pen, frame: Frame, band: Band, shown: list[Span], *, times: bool) -> None:
    """A word under each part, the ripe one with its times where there is room for them."""
    for with_times in (True, False) if times else (False,):
        texts = [_word(band, span, times=with_times) for span in shown]
        places = _places(frame, shown, [_width(one) for one in texts])
        if None not in places:
            break
    for place, (strong, words) in zip(places, texts, strict=True):
        if place is not None:
            pen.text((place, frame.base + WORDS), words, "word", strong=strong)


def _width(text: tuple[str, str]) -> float:
    return text_width(text[0], bold=True) + text_width(text[1]) + 8.0


def _places(frame: Frame, shown: list[Span], widths: list[float]) -> list[float | None]:
    """Where each word begins: at its part, or as near as the others leave it; the ripe one comes first."""
    places: list[float | None] = [None] * len(shown)
    order = sorted(range(len(shown)), key=lambda at: (shown[at].state != "ripe", at))
    for at in order:
        before = max(
            (p + widths[i] for i, p in enumerate(places[:at]) if p is not None),
            default=max(frame.left - 30.0, 0.0),
        )
        after = min((p for p in places[at + 1 :] if p is not None), default=frame.right + 8.0)
        place = min(max(frame.x(shown[at].start), before), after - widths[at])
        places[at] = place if place >= before else None
    return places


def _word(band: Band, span: Span, *, times: bool) -> tuple[str, str]:
    if span.state != "ripe":
        return "", span.state
    if not times or band.ripe_from is None or band.ripe_to is None:
        return "ripe", ""
    return "ripe", f"{band.clock.time(band.ripe_from)} to {band.clock.time(band.ripe_to)}"
