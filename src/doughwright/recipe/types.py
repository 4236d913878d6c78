"""The types of a document's values: text at the door, SI floats inside.

While a document is read (a validation context is given) a quantity must be a text with its unit; in
Python code a dataclass takes the SI value itself.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Annotated, Any, Literal, TypeVar

from pydantic import BeforeValidator, ValidationInfo
from pydantic_core import PydanticCustomError

from doughwright import ingredients, units
from doughwright.errors import Fault, QuantityError, UnknownNameError, did_you_mean

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Reading:
    """What a document's values are read with: the kitchen measures meant, and the names it gives itself."""

    cups: str = "US"
    own: tuple[str, ...] = ()
    mixes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Interval:
    """A range of a quantity in SI units; a single value has ``low == high``."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """The middle of the range."""
        return (self.low + self.high) / 2.0

    @property
    def single(self) -> bool:
        """Whether the document gave one value, not a range."""
        return self.low == self.high


def refuse(message: str, *, wanted: str, found: object, try_: str) -> PydanticCustomError:
    """The error that a validator raises for a value; its place is added by the reader."""
    fault = Fault(message, wanted=wanted, found=shown(found), try_=try_)
    return PydanticCustomError("doughwright", "{message}", {"message": message, "fault": fault})


def shown(value: object) -> str:
    """A found value as an error quotes it, shortened."""
    text = f'"{value}"' if isinstance(value, str) else _plainly(value)
    return text if len(text) <= 60 else text[:57] + '..."'


def _plainly(value: object) -> str:
    names = {bool: str(value).lower(), dict: "a table", list: "a list", type(None): "nothing"}
    return names.get(type(value), str(value))


def _text(parse: Callable[[str], T], wanted: str, example: str) -> BeforeValidator:
    """A validator that reads a text by ``parse`` while a document is read."""

    def read(value: Any, info: ValidationInfo) -> Any:
        if info.context is None:
            return value
        if not isinstance(value, str):
            raise refuse("", wanted=wanted, found=value, try_=f'Write for example "{example}"')
        return _parsed(parse, value, wanted, example)

    return BeforeValidator(read)


def _parsed(parse: Callable[[str], T], value: str, wanted: str, example: str) -> T:
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


def _interval(parse: Callable[[str], float]) -> Callable[[str], Interval]:
    def read(text: str) -> Interval:
        return Interval(*units.parse_range(text, parse))

    return read


def _amount(value: Any, info: ValidationInfo) -> Any:
    if info.context is None:
        return value
    wanted = "an amount with its unit"
    if not isinstance(value, str):
        raise refuse("", wanted=wanted, found=value, try_='Write for example "420 g"')
    cups = info.context.cups
    return _parsed(lambda text: units.parse_amount(text, cups=cups), value, wanted, "420 g")


def _at(text: str) -> At:
    if not text.strip():
        raise QuantityError(Fault("", wanted="a place or a temperature", try_='Write for example "room"'))
    looks = LOOKS_LIKE_TEMPERATURE.match(text.strip()) is not None
    return At(" ".join(text.split()), units.parse_temperature(text) if looks else None)


def _eat(text: str) -> Eating:
    match = EATING.fullmatch(" ".join(text.split()))
    day = _weekday(match["day"]) if match and match["day"] else None
    if match is None or (match["day"] and day is None) or not _is_moment(match["date"], match["time"]):
        raise QuantityError(Fault("", wanted="a day and a time", try_='Write for example "Saturday 19:00"'))
    return Eating(text=text, weekday=day, date=match["date"], time=match["time"])


def _weekday(word: str) -> int | None:
    """The number of a day by its name or its first three letters or more; Monday is 0."""
    found = [number for number, day in enumerate(DAYS) if day.startswith(word.casefold())]
    return found[0] if found and len(word) >= 3 else None


def _is_moment(date: str | None, time: str) -> bool:
    try:
        datetime.fromisoformat(f"{date or '2000-01-01'} {time:0>5}")
    except ValueError:
        return False
    return True


def _name(value: Any, info: ValidationInfo) -> Any:
    if info.context is not None and (not isinstance(value, str) or not value.strip()):
        raise refuse("", wanted="a name", found=value, try_='Write for example "dough"')
    return " ".join(value.split()) if isinstance(value, str) else value


def _item(value: Any, info: ValidationInfo) -> Any:
    name = _name(value, info)
    if info.context is None or name.casefold() in info.context.own:
        return name
    try:
        ingredients.find(name)
    except UnknownNameError as error:
        try_ = error.fault.try_ or "Add it to the document as an [[ingredient]] of your own"
        raise refuse("", wanted="an ingredient that is known", found=name, try_=try_) from error
    return name


def _mix_name(value: Any, info: ValidationInfo) -> Any:
    name = _name(value, info)
    if info.context is None or name in info.context.mixes:
        return name
    names = ", ".join(info.context.mixes) or "none"
    try_ = did_you_mean(name, info.context.mixes) or f"The mixes are: {names}"
    raise refuse("", wanted="the name of a mix of this document", found=name, try_=try_)


def _words(value: Any, info: ValidationInfo) -> Any:
    if info.context is not None and not isinstance(value, str):
        raise refuse("", wanted="a text in quotes", found=value, try_="Write it between quotes")
    return value


def _list(value: Any) -> Any:
    """One text stands for a list of one."""
    return (value,) if isinstance(value, str) else value


def _count(value: Any, info: ValidationInfo) -> Any:
    whole = isinstance(value, int) and not isinstance(value, bool)
    if info.context is not None and not (whole and 1 <= value <= MOST_PIECES):
        raise refuse(
            "", wanted=f"a whole number from 1 to {MOST_PIECES}", found=value, try_="Write for example 2"
        )
    return value


def _version(value: Any, info: ValidationInfo) -> Any:
    """Only a whole 1: Python would take true and 1.0 for it too."""
    if info.context is not None and not (type(value) is int and value == 1):
        raise refuse("", wanted="1", found=value, try_="Write schema = 1")
    return value


def _switch(value: Any, info: ValidationInfo) -> Any:
    if info.context is None or isinstance(value, bool):
        return value
    wanted = "true, false or a time"
    if not isinstance(value, str):
        raise refuse("", wanted=wanted, found=value, try_='Write true, or for example "10 min"')
    return _parsed(units.parse_time, value, wanted, "10 min")


def _measures(value: Any, info: ValidationInfo) -> Any:
    """Read ``measures = { cup = "120 g" }`` as pairs of a word and a mass [kg]."""
    if info.context is None:
        return value
    if not isinstance(value, dict) or not value:
        raise refuse("", wanted="a table", found=value, try_='Write for example { cup = "120 g" }')
    return tuple((str(word), _mass_of(mass)) for word, mass in value.items())


def _mass_of(value: Any) -> float:
    if not isinstance(value, str):
        raise refuse("", wanted="a mass", found=value, try_='Write for example "120 g"')
    return _parsed(units.parse_mass, value, "a mass", "120 g")


@dataclass(frozen=True, slots=True)
class At:
    """Where a step happens: the name of a place, or a temperature [degC]."""

    text: str
    degrees: float | None = None

    @property
    def name(self) -> str:
        """The place's name as it is looked up: fridge, room, or a place of the kitchen."""
        return self.text.casefold()


@dataclass(frozen=True, slots=True)
class Eating:
    """When the food is on the table: a weekday (0 is Monday) or a date, with a time; or a time alone."""

    text: str
    weekday: int | None
    date: str | None
    time: str


WHEN_UNSAID = Eating(text="Saturday 19:00", weekday=5, date=None, time="19:00")
"""The meal that is assumed where none is named."""

LOOKS_LIKE_TEMPERATURE = re.compile(r"[-+−\d½¼¾⅓⅔]|gas\b|.*(?:°|\bdeg) ?[CFK]$", re.IGNORECASE)
MOST_PIECES = 1000
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
EATING = re.compile(r"(?:(?P<day>[A-Za-z]+)[ ,]+|(?P<date>\d{4}-\d\d-\d\d)[ T])?(?P<time>\d{1,2}:\d\d)")

Amount = Annotated[units.Amount, BeforeValidator(_amount)]
Mass = Annotated[float, _text(units.parse_mass, "a mass", "420 g")]
Time = Annotated[float, _text(units.parse_time, "a time", "90 min")]
Times = Annotated[Interval, _text(_interval(units.parse_time), "a time", "90 min")]
Temperature = Annotated[float, _text(units.parse_temperature, "a temperature", "24 °C")]
Length = Annotated[float, _text(units.parse_length, "a length", "30 cm")]
Share = Annotated[float, _text(units.parse_fraction, "a share in %", "62 %")]
Rise = Annotated[Interval, _text(_interval(units.parse_number), "a rise in volumes", "1.6 to 2.0")]
Density = Annotated[float, _text(units.parse_density, "a density", "0.92 g/ml")]
Eat = Annotated[Eating, _text(_eat, "a day and a time", "Saturday 19:00")]
Somewhere = Annotated[At, _text(_at, "a place or a temperature", "room")]
Name = Annotated[str, BeforeValidator(_name)]
Item = Annotated[str, BeforeValidator(_item)]
MixName = Annotated[str, BeforeValidator(_mix_name)]
MixNames = Annotated[tuple[MixName, ...], BeforeValidator(_list)]
Text = Annotated[str, BeforeValidator(_words)]
Texts = Annotated[tuple[Text, ...], BeforeValidator(_list)]
Allergens = Texts
Version = Annotated[Literal[1], BeforeValidator(_version)]
Count = Annotated[int, BeforeValidator(_count)]
Switch = Annotated[bool | float, BeforeValidator(_switch)]
Measures = Annotated[tuple[tuple[str, float], ...], BeforeValidator(_measures)]
