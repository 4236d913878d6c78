"""What loggers call their columns, in several languages."""

from __future__ import annotations

import re

from doughwright.kitchen.readings._celsius import unit_word


def _set(text: str) -> frozenset[str]:
    return frozenset(text.split())


TIMES = _set(
    "time timestamp datetime date clock when zeit zeitpunkt zeitstempel uhrzeit datum temps heure date/heure "
    "horodatage jour hora fecha tiempo momento data ora tempo orario tijd tijdstip datumtijd dato tid "
    "tidspunkt klokkeslett klockslag aika pvm czas godzina čas dátum idő ώρα время дата 日時 時刻 时间 "
    "日期"
)
DATES = _set("date datum fecha data dato jour dátum pvm дата 日期")
ELAPSED = _set("elapsed elapsedtime seconds sec minutes min hours vergangen écoulé transcurrido trascorso")
EPOCHS = _set("epoch unix unixtime posix")
TEMPERATURES = _set(
    "temperature temp temperatur température temperatura temperatuur lämpötila teplota hőmérséklet "
    "celsius fahrenheit kelvin tempc tempf temperature_c temperature_f θερμοκρασία температура 温度"
)
OTHERS = _set(
    "dew dewpoint wet heat index feels taupunkt rosée rocío rugiada min max minimum maximum alarm limit "
    "setpoint set sollwert high low humidity rh feuchte humidité humedad umidità"
)
ZONES = re.compile(r"\b(?:gmt|utc)\s*([-+−]\s*\d{1,2}(?::?\d\d)?)?", re.IGNORECASE)
WORD = re.compile(r"[^\W\d_]+(?:/[^\W\d_]+)?|°[CFcf]|[℃℉]")
GLUED = re.compile(r"(?<=[a-z])(?=[A-Z])")


def words(name: str) -> list[str]:
    """The words of a heading, casefolded; "ElapsedTime" and "temp_c" are two each."""
    return [one.casefold() for one in WORD.findall(GLUED.sub(" ", name).replace("_", " "))]


def is_time(name: str) -> bool:
    """Whether a heading names a time or a date."""
    said = words(name)
    warm = any(one in TEMPERATURES for one in said)
    return any(one in TIMES or one in ELAPSED or one in EPOCHS for one in said) and not warm


def is_date(name: str) -> bool:
    """Whether a heading names a date without a time."""
    said = words(name)
    return any(one in DATES for one in said) and not any(one in TIMES - DATES for one in said)


def is_elapsed(name: str) -> bool:
    """Whether a heading names the time since the log began."""
    return any(one in ELAPSED for one in words(name))


def is_temperature(name: str) -> bool:
    """Whether a heading names a temperature of the air or the dough."""
    said = words(name)
    named = any(one in TEMPERATURES or one in ("°c", "°f", "℃", "℉") for one in said)
    return named and not any(one in OTHERS for one in said)


def unit_in(name: str) -> str | None:
    """The unit that a heading names, in brackets or after the name."""
    for inside in re.findall(r"[\[(/]\s*([^\])/(\[]+?)\s*(?:[\])]|$)", name):
        if unit_word(inside):
            return unit_word(inside)
    found = [unit for one in words(name) if (unit := unit_word(one)) is not None]
    return found[0] if len(set(found)) == 1 else None


def time_unit(name: str) -> float | None:
    """How long the unit of an elapsed time's heading is [s]."""
    said = words(name)
    for names, seconds in (
        (("s", "sec", "secs", "second", "seconds", "sekunden", "secondes", "segundos"), 1.0),
        (("min", "mins", "minute", "minutes", "minuten", "minutos", "minuti"), 60.0),
        (("h", "hr", "hrs", "hour", "hours", "stunden", "heures", "horas", "ore"), 3600.0),
    ):
        if any(one in names for one in said):
            return seconds
    return None


def zone_in(text: str) -> float | None:
    """The offset [s] from UTC that a heading names: "Time, GMT+01:00"; 0 for plain UTC."""
    match = ZONES.search(text)
    if match is None:
        return None
    if match[1] is None:
        return 0.0
    digits = re.sub(r"[^\d]", "", match[1])
    hours, minutes = (int(digits[:-2]), int(digits[-2:])) if len(digits) > 2 else (int(digits), 0)
    sign = -1.0 if match[1].strip()[0] in "-−" else 1.0
    return sign * (hours * 3600.0 + minutes * 60.0)
