"""The band as a table beside the picture, and as a small picture made of letters for a terminal."""

from __future__ import annotations

import math
from dataclasses import dataclass

from doughwright.publish.band._model import Band, Course
from doughwright.publish.band._rail import spans
from doughwright.publish.render import number, rise

HEADINGS = ("time", "place", "volume, times", "core, °C", "edge, °C", "state, if judged then")
BLOCKS = " ▁▂▃▄▅▆▇█"
RAIL = {"young": "-", "ripe": "=", "past": ":"}
GUTTER = 7


@dataclass(frozen=True, slots=True)
class BandRow:
    """One row of the table, as words."""

    time: str
    place: str
    volume: str
    core: str
    edge: str
    state: str

    @property
    def cells(self) -> tuple[str, ...]:
        """The cells in the order of the headings."""
        return self.time, self.place, self.volume, self.core, self.edge, self.state


def band_table(band: Band, *, most: int = 24) -> tuple[BandRow, ...]:
    """The dough at every change and every few hours between, as far as it was run."""
    times = _times(band, most)
    return tuple(_row(band, time) for time in times)


def _times(band: Band, most: int) -> list[float]:
    start, end = band.course.time[0], min(band.course.time[-1], band.end)
    changes = {start, band.judged_at}
    changes |= {stay.start for stay in band.stays} | {mark.at for mark in band.marks}
    kept = sorted(time for time in changes if start <= time <= end)
    step = max(1, math.ceil((end - start) / most))
    for on, hour in band.clock.whole_hours(start, end):
        if hour % step == 0 and all(abs(on - other) > 0.4 for other in kept):
            kept.append(on)
    return sorted(kept)


def _row(band: Band, time: float) -> BandRow:
    core, edge, volumes = band.course.at(time, before=time == band.judged_at)
    place = next((stay.place for stay in reversed(band.stays) if stay.start <= time + 1e-6), "room")
    state = state_at(band, time)
    if time > band.judged_at + 1e-6:
        place = "if left"
    return BandRow(
        band.clock.day_time(time), place, rise(volumes), number(core, 1), number(edge, 1), state
    )  # fmt: skip


def state_at(band: Band, time: float) -> str:
    """The state at a time: that of the rail."""
    every = spans(band, band.course.time[-1])
    return next((span.state for span in reversed(every) if span.start <= time + 1e-6), "young")


def band_text(band: Band, *, width: int = 72, plain: bool = False) -> str:
    """The band in letters: volumes as columns, the ripe zone, the state, the core and the clock.

    ``plain`` keeps to ASCII, for terminals and logs that know no more.
    """
    count = width - GUTTER
    hours = [band.start + (at + 0.5) * (band.end - band.start) / count for at in range(count)]
    volumes = [_volume(band, hour) for hour in hours]
    seen = [v for v in volumes if v is not None]
    step = 0.25 if max([*seen, band.target[1]]) <= 4.0 else 0.5
    top = math.ceil((max([*seen, band.target[1]]) + 0.05) / step)
    lines = ["volume, times that after mixing"]
    for row in reversed(range(top)):
        low = row * step
        name = number(low + step, 1) if abs((low + step) % 0.5) < 1e-9 else ""
        cells = [_cell(band, hour, v, low, step, plain) for hour, v in zip(hours, volumes, strict=True)]
        lines.append(f"{name:>{GUTTER - 2}} |{''.join(cells)}")
    lines.append(f"{'':{GUTTER - 1}}+{'-' * count}")
    lines += [_rail_line(band, hours), _core_line(band, hours), *_clock_lines(band, hours)]
    return "\n".join(line.rstrip() for line in lines)


def _courses(band: Band) -> list[Course]:
    return [*(part.course for part in band.preferments), band.course]


def _volume(band: Band, hour: float) -> float | None:
    for course in reversed(_courses(band)):
        if course.time[0] <= hour <= course.time[-1]:
            return course.at(hour)[2]
    return None


def _cell(band: Band, hour: float, volume: float | None, low: float, step: float, plain: bool) -> str:
    zone = any(low < edge <= low + step + 1e-9 for edge in band.target) and hour >= band.course.time[0]
    empty = "-" if zone else " "
    if volume is None or volume <= low:
        return empty
    if hour > band.judged_at:
        return "." if volume <= low + step else empty
    full = min((volume - low) / step, 1.0)
    if plain:
        return "#" if full >= 0.5 else empty
    return BLOCKS[round(full * 8)] if round(full * 8) else empty


def _rail_line(band: Band, hours: list[float]) -> str:
    """The state under each column; the words stand in the rail."""
    letters = [RAIL[state_at(band, hour)] if _in_course(band, hour) else " " for hour in hours]
    for span in spans(band, band.end):
        inside = [at for at, hour in enumerate(hours) if span.start <= hour <= span.end]
        if len(inside) >= len(span.state) + 2:
            at = inside[0] + 1
            letters[at : at + len(span.state)] = span.state
    return f"{'state':>{GUTTER - 2}}  {''.join(letters)}"


def _in_course(band: Band, hour: float) -> bool:
    return band.course.time[0] <= hour <= band.course.time[-1]


def _core_line(band: Band, hours: list[float]) -> str:
    letters = [" "] * len(hours)
    at = 0
    while at < len(hours):
        hour = hours[at]
        if _in_course(band, hour) and hour <= band.judged_at:
            figure = number(band.course.at(hour)[0])
            letters[at : at + len(figure)] = figure
            at += 6
        else:
            at += 1
    return f"{'°C':>{GUTTER - 2}}  {''.join(letters[: len(hours)])}"


def _clock_lines(band: Band, hours: list[float]) -> list[str]:
    """Hours under their columns, and each day's name at its midnight."""
    count = len(hours)
    clock = [" "] * (count + 2)
    days = [" "] * (count + 4)
    span = band.end - band.start
    step = 6 if span <= 60.0 else 12 if span <= 120.0 else 24
    first = band.clock.day(band.start)[:3]
    for on, hour in band.clock.whole_hours(band.start, band.end - 0.5):
        at = int((on - band.start) / span * count)
        if hour % step == 0 and at + 2 <= count:
            clock[at : at + 2] = f"{hour:02d}"
        if hour == 0 and at + 3 <= count:
            days[at : at + 3] = band.clock.day(on)[:3]
    if "".join(days[:4]).strip() == "":
        days[:3] = first
    lead = " " * GUTTER
    return [lead + "".join(clock[:count]), lead + "".join(days[:count])]
