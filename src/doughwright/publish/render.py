"""How figures and states are written for people: the one place that knows.

A value and its unit are held by a no-break space, a minus is a minus, times have 24 hours.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Literal

from doughwright import units
from doughwright.figures import Figure

System = Literal["metric", "US", "both"]

HELD = "\u00a0"
MINUS = "\u2212"
UNKNOWN = "not known"

# State, its mark and its rail, as look and words: no colour says any of them.
MARKS = {"young": "ring", "ripe": "disc", "past": "cross"}
RAILS = {"young": "thin line", "ripe": "solid bar", "past": "upright bars"}
SIGNS = {"young": "○", "ripe": "●", "past": "×"}

_SYMBOLS = {
    "percent": "%", "degC": "°C", "g/cm2": "g/cm²", "ml/g": "ml/g", "ratio": "", "L*": "",
}  # fmt: skip
_DECIMALS = {"percent": 1, "degC": 0, "g/cm2": 2, "ml/g": 1, "ratio": 2, "cm": 1, "L*": 0, "ml": 0}


def number(value: float, decimals: int = 0) -> str:
    """A number with so many decimals, zeros kept (columns line up), and a true minus."""
    text = f"{value:.{decimals}f}"
    if float(text) == 0.0:
        text = text.lstrip("-")
    return text.replace("-", MINUS)


def held(text: str) -> str:
    """A value and its unit as one word."""
    return text.replace(" ", HELD).replace("-", MINUS)


def figure(one: Figure, decimals: int | None = None) -> str:
    """A figure with its unit, and its interval where it shows at these decimals: "3.2 % (3.0 to 3.4)"."""
    if one.value is None:
        return UNKNOWN
    if one.unit == "g" and decimals is None:
        return mass(one.value / 1000.0)
    if one.unit in ("h", "min", "s") and decimals is None:
        return duration(one.value / {"h": 1.0, "min": 60.0, "s": 3600.0}[one.unit])
    places = _places(one) if decimals is None else decimals
    symbol = _SYMBOLS.get(one.unit, one.unit)
    text = number(one.value, places)
    text = f"{text}{HELD}{symbol}" if symbol else text
    width = doubt(one, places)
    return f"{text} ({width})" if width else text


def doubt(one: Figure, decimals: int = 1) -> str:
    """The interval of a figure, "3.0 to 3.4"; empty where none shows at these decimals."""
    if one.low is None or one.high is None or one.high - one.low < 1.5 * 10.0**-decimals:
        return ""
    return f"{number(one.low, decimals)} to {number(one.high, decimals)}"


def _places(one: Figure) -> int:
    """Decimals of a figure: a percentage below 1 (of yeast, of salt) needs one more."""
    small = one.unit == "percent" and one.value is not None and 0.0 < abs(one.value) < 0.995
    return 2 if small else _DECIMALS.get(one.unit, 1)


def mass(kilograms: float, system: str = "metric") -> str:
    """A mass as a kitchen says it: "420 g", "0.12 g", "14.8 oz"; with ``both``, "420 g (14.8 oz)"."""
    if system == "both":
        return f"{mass(kilograms)} ({mass(kilograms, 'US')})"
    return held(units.format_mass(kilograms, system))


def temperature(degrees: float, system: str = "metric", decimals: int = 0) -> str:
    """A temperature [degC]: "24 °C", "75 °F"; with ``both``, "24 °C (75 °F)"."""
    metric = f"{number(degrees, decimals)}{HELD}°C"
    if system == "metric":
        return metric
    fahrenheit = f"{number(units.convert(degrees, 'degC', 'degF'))}{HELD}°F"
    return fahrenheit if system == "US" else f"{metric} ({fahrenheit})"


def length(metres: float, system: str = "metric") -> str:
    """A length: "30 cm", "12 in"; with ``both``, "30 cm (11.8 in)"."""
    if system == "both":
        return f"{length(metres)} ({length(metres, 'US')})"
    if system == "US":
        return f"{number(units.convert(metres, 'm', 'in'), 1).removesuffix('.0')}{HELD}in"
    return held(units.format_length(metres))


def duration(hours: float) -> str:
    """A time as a whole: "40 min", "1 h 40 min", "27 h 30 min"; to the minute from ten minutes up."""
    text = held(units.format_time(abs(hours) * 3600.0))
    return MINUS + text if hours < 0 and not text.startswith("0") else text


def rise(volumes: float) -> str:
    """A rise in volumes, to two decimals: "1.80"."""
    return number(volumes, 2)


def interval(low: float, high: float, decimals: int = 1) -> str:
    """From the lower to the higher: "1.6 to 2.0"; both ends get the decimals that either needs."""
    while decimals < 3 and any(abs(round(v, decimals) - v) > 1e-9 for v in (low, high)):
        decimals += 1
    return f"{number(low, decimals)} to {number(high, decimals)}"


def share(fraction: float, decimals: int = 1) -> str:
    """A share in per cent: "62.4 %"."""
    return f"{number(fraction * 100.0, decimals)}{HELD}%"


def baker_percent(percent: float | None) -> str:
    """A baker's percentage without its sign, in a column: one decimal, two below 1."""
    if percent is None or not math.isfinite(percent):
        return "–"
    return number(percent, 1 if percent >= 0.995 or percent == 0.0 else 2)


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words in a row: "milk, egg and wheat"."""
    every = list(words)
    if len(every) < 2:
        return "".join(every)
    return f"{', '.join(every[:-1])} {last} {every[-1]}"


def curled(words: str) -> str:
    """The same with its apostrophes as they are printed."""
    return words.replace("'", "’")


def counted(count: int, word: str, many: str | None = None) -> str:
    """A count with its word: "1 round", "2 rounds"."""
    return f"{count}{HELD}{word if count == 1 else many or word + 's'}"


def capital(sentence: str) -> str:
    """The same with a capital at its head."""
    return sentence[:1].upper() + sentence[1:]
