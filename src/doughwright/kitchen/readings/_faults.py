"""What is wrong in readings although each value can be read, and what only reads oddly."""

from __future__ import annotations

from collections.abc import Iterator

from doughwright.errors import Fault, QuantityError
from doughwright.kitchen.readings._clock import Start
from doughwright.kitchen.readings._types import When
from doughwright.kitchen.readings.jar import like_inches, start_height
from doughwright.kitchen.readings.model import Height, Jar, Readings
from doughwright.recipe.faults import twice
from doughwright.recipe.text import Where
from doughwright.units import format_length, format_mass, format_time

Found = Iterator[tuple[Where, Fault]]

LONGEST = 60 * 86_400.0
MOST_READINGS = 2000
SIZES = {
    "mass": (0.001, 20.0, "1 g to 20 kg", "40 g"),
    "diameter": (0.01, 0.5, "1 cm to 50 cm", "6 cm"),
    "start": (0.002, 0.6, "2 mm to 60 cm", "24 mm"),
    "crown": (0.0, 0.2, "at most 20 cm", "5 mm"),
}
RISES = (0.2, 12.0)


def start_of(readings: Readings) -> Start:
    """The clock of these readings."""
    return Start(readings.mixed, readings.zone)


def faults(readings: Readings) -> list[tuple[Where, Fault]]:
    """Every fault of the whole: nothing read, times out of order, heights without a start."""
    return [one for check in (_head, _jars, _temperatures, _logs) for one in check(readings)]


def notes(readings: Readings) -> list[tuple[Where, Fault]]:
    """What reads oddly: a start height that its mass and its jar do not bear out, a dough that shrinks."""
    return [one for number, jar in enumerate(readings.jars) for one in _odd(number, jar)]


def _head(readings: Readings) -> Found:
    if not readings.readings.strip():
        fault = Fault("", wanted="what these readings are called", found='""', try_='Write "28 November"')
        yield ("readings",), fault
    if not (readings.jars or readings.temperatures or readings.logs):
        yield (
            (),
            Fault(
                "nothing was read", wanted="at least one [[jar]], [[temperature]] or [[log]]",
                try_='Write for example [[temperature]] when = "0 min" temperature = "24 °C"',
            ),
        )  # fmt: skip
    if readings.mixed is not None and readings.mixed.elapsed is not None:
        found = f'"{readings.mixed.text}"'
        fault = Fault("", wanted="when it was mixed", found=found, try_='Write "18:05" or "2026-11-28 18:05"')
        yield ("mixed",), fault
    if readings.zone is not None and (readings.mixed is None or readings.mixed.wall is None):
        yield ("zone",), Fault("", wanted="a date in mixed", try_='Write mixed = "2026-11-28 18:05"')


def _jars(readings: Readings) -> Found:
    yield from twice("jar", [jar.name for jar in readings.jars])
    for number, jar in enumerate(readings.jars):
        for part, fault in _jar(jar, start_of(readings)):
            yield ("jar", number, *part), fault


def _jar(jar: Jar, start: Start) -> Found:
    if not 1 <= len(jar.heights) <= MOST_READINGS:
        found, wanted = f"{len(jar.heights)}", f"1 to {MOST_READINGS} heights"
        yield ("heights",), Fault("", wanted=wanted, found=found, try_=_HEIGHTS)
    yield from _sizes(jar)
    for number, one in enumerate(jar.heights):
        for part, fault in _height(one):
            yield ("heights", number, *part), fault
    filled = 0.0
    if jar.filled is not None:
        wrong, filled = _time(jar.filled, start, 0.0)
        if wrong is not None:
            yield ("filled",), wrong
    yield from _times([one.when for one in jar.heights], start, filled)
    if jar.start is None and any(one.height is not None for one in jar.heights):
        yield (
            (),
            Fault(
                '"start" is missing', wanted="how high the dough stood when the jar was filled",
                try_='Write start = "24 mm", or give each reading as rise = "1.5"',
            ),
        )  # fmt: skip


_HEIGHTS = 'Write heights = [ { when = "2 h", height = "38 mm" } ]'


def _sizes(jar: Jar) -> Found:
    for key, (low, high, wanted, example) in SIZES.items():
        value = getattr(jar, key)
        if value is not None and not low <= value <= high:
            said = format_mass(value) if key == "mass" else format_length(value)
            yield (key,), Fault("", wanted=wanted, found=said, try_=f'Write for example "{example}"')


def _height(one: Height) -> Found:
    if (one.height is None) == (one.rise is None):
        found = "neither" if one.height is None else "both"
        yield (), Fault("", wanted='either "height" or "rise"', found=found, try_='Write height = "38 mm"')
    if one.height is not None and not 0.002 <= one.height <= 1.0:
        found = format_length(one.height)
        yield ("height",), Fault("", wanted="2 mm to 1 m", found=found, try_='Write for example "38 mm"')
    low, high = RISES
    if one.rise is not None and not low <= one.rise <= high:
        wanted = f"{low:g} to {high:g} volumes"
        yield ("rise",), Fault("", wanted=wanted, found=f"{one.rise:g}", try_='Write for example "1.5"')


def _times(whens: list[When], start: Start, filled: float) -> Found:
    before = filled
    for number, when in enumerate(whens):
        fault, now = _time(when, start, before)
        if fault is None and now < before - 1.0:
            fault = Fault(
                "", wanted="a time after the one before it", found=f'"{when.text}"',
                try_=f"The one before is {format_time(before)} after mixing: put the readings in order",
            )  # fmt: skip
        if fault is not None:
            yield ("heights", number, "when"), fault
        before = max(before, now)


def _time(when: When, start: Start, before: float) -> tuple[Fault | None, float]:
    try:
        now = start.seconds(when, before)
    except QuantityError as error:
        return error.fault, before
    if -1.0 <= now <= LONGEST:
        return None, now
    found = f"{format_time(abs(now))} {'before' if now < 0.0 else 'after'} mixing"
    wanted = "a time from mixing to 60 days after it"
    return Fault("", wanted=wanted, found=found, try_='See what "mixed" says'), before


def _temperatures(readings: Readings) -> Found:
    last: dict[str, float] = {}
    for number, one in enumerate(readings.temperatures):
        where = ("temperature", number)
        wrong, last[one.of] = _time(one.when, start_of(readings), last.get(one.of, 0.0))
        if wrong is not None:
            yield (*where, "when"), wrong
        if not -30.0 <= one.temperature <= 70.0:
            found = f"{one.temperature:g} °C"
            fault = Fault("", wanted="-30 to 70 °C", found=found, try_='Write for example "24.5 °C"')
            yield (*where, "temperature"), fault
        if one.spread is not None and not 0.01 <= one.spread <= 10.0:
            fault = Fault("", wanted="0.01 to 10 °C", found=f"{one.spread:g}", try_='Write "0.5 °C"')
            yield (*where, "spread"), fault


def _logs(readings: Readings) -> Found:
    for number, one in enumerate(readings.logs):
        if not one.file.strip():
            yield ("log", number, "file"), Fault("", wanted="a file", found='""', try_='Write "fridge.csv"')
        if abs(one.correction) > 20.0:
            fault = Fault("", wanted="at most 20 °C", found=f"{one.correction:g}", try_='Write "-0.4 °C"')
            yield ("log", number, "correction"), fault


def _odd(number: int, jar: Jar) -> Found:
    if jar.mass and jar.diameter and jar.start:
        expected = start_height(jar.mass, jar.diameter)
        if not 0.7 < jar.start / expected < 1.4:
            unit = like_inches(jar.start, jar.mass, jar.diameter)
            near = {
                "in": "It would fit if the number were in inches",
                "cm": "It would fit if the number were in centimetres",
            }.get(unit or "", "Look at the three again")
            says = f"{format_mass(jar.mass)} in a jar {format_length(jar.diameter)} wide"
            fault = Fault(
                f"{says} stand about {format_length(expected)} high",
                found=format_length(jar.start),
                try_=near,
            )
            yield ("jar", number, "start"), fault
    for index, one in enumerate(jar.heights):
        low = one.height is not None and jar.start is not None and one.height < 0.9 * jar.start
        if low or (one.rise is not None and one.rise < 0.9):
            fault = Fault("this is lower than at the start", try_="Look whether it is in the same unit")
            yield ("jar", number, "heights", index), fault
