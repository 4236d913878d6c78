"""Readings as a model compares them: seconds after mixing, volumes and degrees, each with its error."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.errors import DocumentError, Fault, QuantityError
from doughwright.kitchen.readings._clock import Start
from doughwright.kitchen.readings.jar import (
    MARK_WITHIN,
    READ_WITHIN,
    crown_of,
    level,
    like_inches,
    mass_in,
)
from doughwright.kitchen.readings.log import ThermometerLog
from doughwright.kitchen.readings.model import Height, Jar, Log, Probe
from doughwright.kitchen.readings.read import ReadingsDocument
from doughwright.recipe.types import At
from doughwright.recipe.validate import at
from doughwright.units import format_mass

THERMOMETER = 0.5
"""How far off a kitchen thermometer is [K], one standard deviation: section 8 of the fermentation notes."""

SMALL_SAMPLE = 0.04
"""The mass of a jar's dough where nothing says it [kg]: 30 to 50 g is usual; assumed."""


@dataclass(frozen=True, slots=True)
class TakenJar:
    """A jar: ``times`` [s after mixing], ``rise`` [volumes], and the standard deviations of the rise.

    ``spread`` is each reading's own; ``common`` is shared by all of them (the start and the crown).
    ``filled`` [s]; ``place`` is ``None`` where the jar goes with the dough; ``looks_like`` is the unit that
    its start height seems to be in, where its mass says so.
    """

    name: str
    place: At | None
    mass: float
    filled: float
    times: tuple[float, ...]
    rise: tuple[float, ...]
    spread: tuple[float, ...]
    common: tuple[float, ...]
    looks_like: str | None = None


@dataclass(frozen=True, slots=True)
class TakenProbe:
    """A thermometer read once: ``time`` [s after mixing], ``degrees`` [degC] ``of`` the dough or a place."""

    time: float
    degrees: float
    of: str
    spread: float


@dataclass(frozen=True, slots=True)
class TakenLog:
    """A log by the time of mixing: ``times`` [s after mixing], ``degrees`` [degC], corrected; of a place."""

    place: str
    times: tuple[float, ...]
    degrees: tuple[float, ...]
    spread: float


@dataclass(frozen=True, slots=True)
class Taken:
    """All readings; ``said`` is what was assumed of them, left out or put right."""

    jars: tuple[TakenJar, ...]
    probes: tuple[TakenProbe, ...]
    logs: tuple[TakenLog, ...]
    said: tuple[str, ...]


def taken(document: ReadingsDocument) -> Taken:
    """The readings of a document by the time of mixing.

    Raises ``DocumentError`` where a log cannot be put beside the time of mixing.
    """
    readings = document.readings
    said: list[str] = []
    start = Start(readings.mixed, readings.zone)
    jars = tuple(_jar(jar, start, said) for jar in readings.jars)
    probes = _probes(readings.temperatures, start)
    logs = tuple(_log(document, number, log, start) for number, log in enumerate(document.logs))
    for named, got in zip(readings.logs, document.logs, strict=True):
        said += [f"{named.file}: {note}" for note in got.notes]
    return Taken(jars, probes, logs, tuple(dict.fromkeys(said)))


def _jar(jar: Jar, start: Start, said: list[str]) -> TakenJar:
    filled = start.seconds(jar.filled) if jar.filled is not None else 0.0
    times, before = [], filled
    for one in jar.heights:
        before = start.seconds(one.when, before)
        times.append(before)
    rows = [_rise(jar, one) for one in jar.heights]
    if any(one.height is not None and one.crown is None for one in jar.heights) and jar.crown is None:
        said.append(f'jar "{jar.name}": a crown of 8 % of its width (assumed)')
    return TakenJar(
        name=jar.name,
        place=jar.at,
        mass=_mass(jar, said),
        filled=filled,
        times=tuple(times),
        rise=tuple(one[0] for one in rows),
        spread=tuple(one[1] for one in rows),
        common=tuple(one[2] for one in rows),
        looks_like=_unit(jar),
    )


def _unit(jar: Jar) -> str | None:
    if not (jar.mass and jar.diameter and jar.start):
        return None
    return like_inches(jar.start, jar.mass, jar.diameter)


def _mass(jar: Jar, said: list[str]) -> float:
    if jar.mass is not None:
        return jar.mass
    if jar.start is not None and jar.diameter is not None:
        mass = mass_in(jar.start, jar.diameter)
        said.append(f'jar "{jar.name}": {format_mass(mass)} of dough, by its start and its width')
        return mass
    said.append(f'jar "{jar.name}": {format_mass(SMALL_SAMPLE)} of dough (assumed)')
    return SMALL_SAMPLE


def _rise(jar: Jar, one: Height) -> tuple[float, float, float]:
    """A rise [volumes], its own standard deviation, and the one it shares with its jar's other readings."""
    if one.height is None or jar.start is None:
        rise = one.rise or 0.0
        return rise, MARK_WITHIN * rise, 0.0
    crown = crown_of(one.crown if one.crown is not None else jar.crown, jar.diameter)
    height, within = level(one.height, jar.read, crown, jar.diameter)
    rise = height / jar.start
    own = READ_WITHIN / jar.start
    return rise, own, _shared(rise, within, own, jar.start)


def _shared(rise: float, within: float, own: float, start: float) -> float:
    """The start's error, as a share of every rise, with what a crown is off by."""
    crown = max(0.0, (within / start) ** 2 - own**2)
    return float((crown + (rise * READ_WITHIN / start) ** 2) ** 0.5)


def _probes(probes: Sequence[Probe], start: Start) -> tuple[TakenProbe, ...]:
    last: dict[str, float] = {}
    found = []
    for one in probes:
        last[one.of] = start.seconds(one.when, last.get(one.of, 0.0))
        spread = THERMOMETER if one.spread is None else one.spread
        found.append(TakenProbe(last[one.of], one.temperature, one.of, spread))
    return tuple(found)


def _log(document: ReadingsDocument, number: int, log: ThermometerLog, start: Start) -> TakenLog:
    said = document.readings.logs[number]
    zero = _zero(document, number, log, start)
    degrees = tuple(one + said.correction for one in log.degrees)
    spread = THERMOMETER if said.spread is None else said.spread
    return TakenLog(said.place, tuple(one - zero for one in log.times), degrees, spread)


def _zero(document: ReadingsDocument, number: int, log: ThermometerLog, start: Start) -> float:
    """The moment of mixing on a log's own clock."""
    said: Log = document.readings.logs[number]
    if log.clock == "elapsed" and said.starts is not None:
        return log.times[0] - _begun(document, number, said, start)
    if log.clock == "utc" and start.moment is not None and start.zone is not None:
        return start.moment
    if log.clock == "wall" and start.wall is not None:
        return start.wall
    wanted, try_ = NEEDS[log.clock]
    fault = Fault("the log cannot be put beside the time of mixing", wanted=wanted, found="none", try_=try_)
    raise DocumentError(at(document.document, ("log", number), fault))


NEEDS = {
    "utc": ("the date of mixing and its zone", 'Write mixed = "2026-11-28 18:05" and zone = "Europe/London"'),
    "wall": ("the date and time of mixing", 'Write mixed = "2026-11-28 18:05"'),
    "elapsed": ("when the log began", 'Write in the [[log]]: starts = "0 min" (after mixing)'),
}


def _begun(document: ReadingsDocument, number: int, said: Log, start: Start) -> float:
    try:
        return start.seconds(said.starts) if said.starts is not None else 0.0
    except QuantityError as error:
        raise DocumentError(at(document.document, ("log", number, "starts"), error.fault)) from error
