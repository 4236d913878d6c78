"""SI floats to the texts a cook reads, with the digits a kitchen can use."""

from __future__ import annotations

import math

from doughwright.units._convert import convert
from doughwright.units._faults import refuse


def format_mass(kg: float, system: str = "metric") -> str:
    """A mass: "420 g", "0.12 g", "12.35 kg"; for US "3.5 oz", "1 lb 4 oz"."""
    if _is_us(system):
        return _pounds(convert(_shown(kg), "kg", "oz"))
    grams = convert(_shown(kg), "kg", "g")
    if grams >= 9999.5:
        return f"{_trimmed(grams / 1000, 2)} kg"
    return f"{_trimmed(grams, _kitchen_decimals(grams))} g"


def format_volume(m3: float) -> str:
    """A volume: "5 ml", "250 ml", "1.25 l"."""
    millilitres = convert(_shown(m3), "m3", "ml")
    if millilitres >= 999.5:
        return f"{_trimmed(millilitres / 1000, 2)} l"
    return f"{_trimmed(millilitres, _kitchen_decimals(millilitres))} ml"


def format_time(s: float) -> str:
    """A time: "45 s", "4 min 30 s", "1 h 30 min", "72 h"; to the minute from ten minutes up."""
    seconds = round(_shown(s))
    if seconds >= 600:
        seconds = round(seconds / 60) * 60
    hours, rest = divmod(seconds, 3600)
    minutes, rest = divmod(rest, 60)
    parts = [f"{n} {unit}" for n, unit in ((hours, "h"), (minutes, "min"), (rest, "s")) if n]
    return " ".join(parts) or "0 min"


def format_temperature(degC: float, system: str = "metric", *, difference: bool = False) -> str:
    """A temperature: "24 °C", "24.5 °C", or for US "75 °F"; with ``difference``, a step of it."""
    if not _is_us(system):
        return f"{_trimmed(_shown(degC, signed=True), 1)} °C"
    fahrenheit = convert(_shown(degC, signed=True), "degC", "degF", difference=difference)
    return f"{_trimmed(fahrenheit, 1 if difference else 0)} °F"


def format_length(m: float, system: str = "metric") -> str:
    """A length: "6 mm", "30.5 cm", "1800 m"; for US "12 in", "5906 ft"."""
    metres, far = _shown(m, signed=True), abs(m) >= 3
    if _is_us(system):
        unit = "ft" if far else "in"
        return f"{_trimmed(convert(metres, 'm', unit), 0 if far else 2)} {unit}"
    if far:
        return f"{_trimmed(metres, 1)} m"
    if abs(metres) < 0.0195 and metres != 0:
        return f"{_trimmed(metres * 1000, 1)} mm"
    return f"{_trimmed(metres * 100, 1)} cm"


def format_fraction(fraction: float) -> str:
    """A fraction as a percentage of three digits: "62 %", "62.4 %", "0.35 %"."""
    percent = _shown(fraction, signed=True) * 100
    return f"{_trimmed(percent, _decimals(percent, 3))} %"


def _pounds(ounces: float) -> str:
    if ounces < 15.95:
        return f"{_trimmed(ounces, _kitchen_decimals(ounces))} oz"
    pounds, rest = divmod(round(ounces * 2) / 2, 16)
    return f"{pounds:.0f} lb" + (f" {_trimmed(rest, 1)} oz" if rest else "")


def _kitchen_decimals(number: float) -> int:
    """Two digits below 1, one decimal below 100, none above."""
    if number < 0.995:
        return _decimals(number, 2)
    return 1 if number < 99.95 else 0


def _decimals(number: float, digits: int) -> int:
    """How many decimals show so many digits of the number."""
    if number == 0:
        return 0
    return max(0, digits - 1 - math.floor(math.log10(abs(number))))


def _trimmed(number: float, decimals: int) -> str:
    """Rounded, without zeros at the end and without a minus before zero."""
    text = f"{number:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def _shown(value: float, *, signed: bool = False) -> float:
    if not math.isfinite(value) or (value < 0 and not signed):
        raise refuse(value, "a number that can be written down", "Say why it is unknown instead")
    return value


def _is_us(system: str) -> bool:
    if system not in ("metric", "US"):
        raise refuse(system, "metric or US", 'Write "metric" or "US"', "the system")
    return system == "US"
