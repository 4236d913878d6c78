"""What ends a wait before its time: the core has come to a temperature, or the dough has risen so far."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ValidationInfo

from doughwright import units
from doughwright.errors import QuantityError
from doughwright.recipe.types import refuse

WANTED = "core and a temperature, or rise and a number of volumes"
TRY = 'Write "core 16 °C" or "rise 1.5"'
# What a core can be waited for [degC]: dough freezes below, yeast is dead above.
CORE = (-2.0, 50.0)
# Volumes over the volume after mixing: a strong dough leaks at 3.5.
RISE = (1.0, 4.0)


@dataclass(frozen=True, slots=True)
class Until:
    """What a wait waits for: a core [degC], reached either way, or a rise [volume over that after mixing]."""

    kind: Literal["core", "rise"]
    value: float

    @property
    def text(self) -> str:
        """As a document writes it: "core 16 °C"."""
        if self.kind == "core":
            return f"core {units.format_temperature(self.value)}"
        return f"rise {self.value:g}"

    @property
    def says(self) -> str:
        """As a cook says it: "until the core is at 16 °C"."""
        if self.kind == "core":
            return f"until the core is at {units.format_temperature(self.value)}"
        return f"until it is {self.value:g} times its volume"


_FORM = re.compile(r"(core|rise)\b\s*(?:at|of|is|=)?\s*(.*)", re.IGNORECASE)
_SAYING = {"risen by half": "rise 1.5", "doubled": "rise 2", "double": "rise 2", "tripled": "rise 3"}


def _read(text: str) -> Until:
    plain = " ".join(text.split())
    match = _FORM.fullmatch(plain)
    if match is None or not match[2]:
        raise refuse("", wanted=WANTED, found=text, try_=_advice(plain))
    return _core(text, match[2]) if match[1].casefold() == "core" else _rise(text, match[2])


def _core(text: str, said: str) -> Until:
    try:
        value = units.parse_temperature(said)
    except QuantityError as error:
        raise _again(error, "core and a temperature", text, 'Write "core 16 °C"') from error
    low, high = CORE
    if not low <= value <= high:
        raise refuse(
            "", wanted=f"a core of {low:g} to {high:g} °C", found=text, try_='Write for example "core 16 °C"'
        )
    return Until("core", value)


def _rise(text: str, said: str) -> Until:
    try:
        value = units.parse_number(said)
    except QuantityError as error:
        raise _again(error, "rise and a number of volumes", text, 'Write "rise 1.5"') from error
    low, high = RISE
    if not low < value <= high:
        wanted = f"a rise above {low:g} and at most {high:g} volumes"
        raise refuse("", wanted=wanted, found=text, try_='Risen by half is "rise 1.5", doubled "rise 2"')
    return Until("rise", value)


def _again(error: QuantityError, wanted: str, text: str, try_: str) -> Exception:
    """The fault of a quantity within the whole text; a comma that can be read two ways keeps its advice."""
    said = error.fault.try_ or ""
    return refuse("", wanted=wanted, found=text, try_=said if said.startswith("If") else try_)


def _advice(plain: str) -> str:
    if plain.casefold() in _SAYING:
        return f'Write "{_SAYING[plain.casefold()]}"'
    try:
        return f'Write "core {units.format_temperature(units.parse_temperature(plain))}"'
    except QuantityError:
        return TRY


def _until(value: Any, info: ValidationInfo) -> Any:
    if info.context is None or isinstance(value, Until):
        return value
    if not isinstance(value, str):
        raise refuse("", wanted=WANTED, found=value, try_=TRY)
    return _read(value)


Event = Annotated[Until, BeforeValidator(_until)]
