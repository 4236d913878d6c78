"""The types of a kitchen's values: each says how it is known and how far it may be off."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from doughwright import units
from doughwright.errors import Fault, QuantityError, did_you_mean
from doughwright.recipe.types import refuse

How = Literal["known", "measured", "assumed"]
HOWS = ("known", "measured", "assumed")


@dataclass(frozen=True, slots=True)
class Known:
    """A value [SI], how it is known, and its spread (one standard deviation [SI]) where it is given."""

    value: float
    how: How = "known"
    spread: float | None = None


@dataclass(frozen=True, slots=True)
class Assumption:
    """What is assumed of a kitchen where it says nothing: middle and spread [SI], as said, and the source."""

    middle: float
    spread: float
    said: str
    source: str


@dataclass(frozen=True, slots=True)
class Hours:
    """The cook's hours awake: seconds after midnight; ``end`` is before ``start`` over midnight."""

    start: float
    end: float


def _known(
    parse: Callable[[str], float], difference: Callable[[str], float], example: str
) -> BeforeValidator:
    def read(value: Any, info: ValidationInfo) -> Any:
        if info.context is None or isinstance(value, Known):
            return value
        if isinstance(value, str):
            return Known(_one(parse, value, example))
        return _from_table(parse, difference, value, example)

    return BeforeValidator(read)


def _from_table(
    parse: Callable[[str], float], difference: Callable[[str], float], value: Any, example: str
) -> Known:
    if not isinstance(value, dict):
        raise refuse(
            "", wanted="a quantity with its unit", found=value, try_=f'Write for example "{example}"'
        )
    for key in value:
        if key not in ("value", "how", "spread"):
            near = did_you_mean(key, ("value", "how", "spread"))
            raise refuse("", wanted="the keys value, how, spread", found=key, try_=near or "Leave it out")
    if "value" not in value:
        raise refuse('"value" is missing', wanted="a value", found="none", try_=f'Write value = "{example}"')
    how = value.get("how", "known")
    if how not in HOWS:
        raise refuse('"how"', wanted="known, measured or assumed", found=how, try_='Write how = "measured"')
    spread = _one(difference, value["spread"], "0.5 °C") if "spread" in value else None
    if spread is not None and spread < 0:
        raise refuse('"spread"', wanted="zero or more", found=value["spread"], try_='Write spread = "0.5 °C"')
    return Known(_one(parse, value["value"], example), how, spread)


def _one(parse: Callable[[str], float], value: Any, example: str) -> float:
    if not isinstance(value, str):
        raise refuse(
            "", wanted="a quantity with its unit", found=value, try_=f'Write for example "{example}"'
        )
    try:
        return parse(value)
    except QuantityError as error:
        raise _again(error.fault, value, example) from error


def _again(fault: Fault, value: str, example: str) -> PydanticCustomError:
    return refuse(
        "" if fault.wanted else fault.message,
        wanted=fault.wanted or "a quantity with its unit",
        found=value,
        try_=fault.try_ or f'Write for example "{example}"',
    )


HOURS = re.compile(r"([01]?\d|2[0-3]):([0-5]\d) (?:to|-|–) ([01]?\d|2[0-4]):([0-5]\d)")


def _hours(value: Any, info: ValidationInfo) -> Any:
    if info.context is None:
        return value
    match = HOURS.fullmatch(" ".join(value.split())) if isinstance(value, str) else None
    if match is None or (match[3] == "24" and match[4] != "00"):
        raise refuse("", wanted="hours awake", found=value, try_='Write for example "07:00 to 23:00"')
    first, second, third, fourth = (int(part) for part in match.groups())
    return Hours(first * 3600.0 + second * 60.0, third * 3600.0 + fourth * 60.0)


TIME_OF_DAY = re.compile(r"([01]?\d|2[0-3]):([0-5]\d)")
OPENINGS = re.compile(r"(\d{1,4})(?: times)? (?:a|per) day")


def _moment(value: Any, info: ValidationInfo) -> Any:
    if info.context is None:
        return value
    match = TIME_OF_DAY.fullmatch(value.strip()) if isinstance(value, str) else None
    if match is None:
        raise refuse("", wanted="a time of day", found=value, try_='Write for example "17:00"')
    return int(match[1]) * 3600.0 + int(match[2]) * 60.0


def _openings(value: Any, info: ValidationInfo) -> Any:
    if info.context is None:
        return value
    match = OPENINGS.fullmatch(" ".join(value.split())) if isinstance(value, str) else None
    if match is None or int(match[1]) > MOST_OPENINGS:
        wanted = f"how often it is opened, at most {MOST_OPENINGS} a day"
        raise refuse("", wanted=wanted, found=value, try_='Write for example "20 a day"')
    return float(match[1])


MOST_OPENINGS = 300


def _altitude(text: str) -> float:
    return units.parse_length(text, signed=True)


_difference = units.parse_temperature_difference
KnownTemperature = Annotated[Known, _known(units.parse_temperature, _difference, "5 °C")]
KnownDifference = Annotated[Known, _known(_difference, _difference, "1 °C")]
KnownShare = Annotated[Known, _known(units.parse_fraction, units.parse_fraction, "12.4 %")]
KnownAltitude = Annotated[Known, _known(_altitude, units.parse_length, "1800 m")]
KnownTime = Annotated[Known, _known(units.parse_time, units.parse_time, "45 min")]
Moment = Annotated[float, BeforeValidator(_moment)]
Openings = Annotated[float, BeforeValidator(_openings)]
Awake = Annotated[Hours, BeforeValidator(_hours)]
