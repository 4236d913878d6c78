"""The types of a readings document's values: when a thing was read, a zone, a plain rise."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Annotated, Any
from zoneinfo import ZoneInfo, available_timezones

from pydantic import BeforeValidator, ValidationInfo

from doughwright import units
from doughwright.errors import Fault, QuantityError, did_you_mean
from doughwright.recipe.types import refuse


@dataclass(frozen=True, slots=True)
class When:
    """When a thing was read; one of ``elapsed`` [s after mixing], ``clock`` [s after midnight] and ``wall``.

    ``wall`` is a date and a time as the clock on the wall shows them [s, counted as if it were UTC].
    """

    text: str
    elapsed: float | None = None
    clock: float | None = None
    wall: float | None = None


CLOCK = re.compile(r"(\d{1,2}):(\d\d)")
DATED = re.compile(r"(\d{4}-\d\d-\d\d)[ T](\d{1,2}:\d\d(?::\d\d)?)")
WANTED = "a time after mixing, a time of day, or a date and a time"
EXAMPLE = 'Write for example "1 h 30 min", "19:35" or "2026-11-28 19:35"'


def parse_when(text: str) -> When:
    """Read when a thing was read; ``QuantityError`` where it is no time."""
    plain = " ".join(text.split())
    clock, dated = CLOCK.fullmatch(plain), DATED.fullmatch(plain)
    if clock is not None:
        hours, minutes = int(clock[1]), int(clock[2])
        if hours > 23 or minutes > 59:
            raise QuantityError(Fault("", wanted=WANTED, found=f'"{text}"', try_=EXAMPLE))
        return When(plain, clock=hours * 3600.0 + minutes * 60.0)
    if dated is not None:
        return When(plain, wall=_wall(f"{dated[1]}T{dated[2]:0>5}", text))
    try:
        return When(plain, elapsed=units.parse_time(plain))
    except QuantityError as error:
        raise QuantityError(Fault("", wanted=WANTED, found=f'"{text}"', try_=EXAMPLE)) from error


def _wall(iso: str, text: str) -> float:
    try:
        return datetime.fromisoformat(f"{iso}+00:00").timestamp()
    except ValueError as error:
        raise QuantityError(Fault("", wanted=WANTED, found=f'"{text}"', try_=EXAMPLE)) from error


def parse_zone(text: str) -> str:
    """The name of a time zone as the public zone table has it."""
    name = text.strip()
    if name not in available_timezones():
        near = did_you_mean(name, available_timezones())
        wanted = "the name of a time zone"
        raise QuantityError(
            Fault("", wanted=wanted, found=f'"{text}"', try_=near or 'Write for example "Europe/London"')
        )
    return name


def utc(wall: float, zone: str, *, fold: int = 0) -> float:
    """Seconds of UTC when a clock of this zone shows ``wall``; ``fold`` 1 is the second time it does."""
    shown = datetime.fromisoformat("1970-01-01T00:00:00+00:00") + timedelta(seconds=wall)
    return shown.replace(tzinfo=ZoneInfo(zone), fold=fold).timestamp()


def _read(parse: Callable[[str], object], wanted: str, example: str) -> BeforeValidator:
    def read(value: Any, info: ValidationInfo) -> Any:
        if info.context is None:
            return value
        if not isinstance(value, str):
            raise refuse("", wanted=wanted, found=value, try_=f'Write for example "{example}"')
        try:
            return parse(value)
        except QuantityError as error:
            fault = error.fault
            raise refuse(
                "" if fault.wanted else fault.message,
                wanted=fault.wanted or wanted,
                found=value,
                try_=fault.try_ or f'Write for example "{example}"',
            ) from error

    return BeforeValidator(read)


Instant = Annotated[When, _read(parse_when, WANTED, "1 h 30 min")]
Zone = Annotated[str, _read(parse_zone, "the name of a time zone", "Europe/London")]
Volumes = Annotated[float, _read(units.parse_number, "a rise in volumes", "1.5")]
Difference = Annotated[float, _read(units.parse_temperature_difference, "a temperature difference", "0.5 °C")]
