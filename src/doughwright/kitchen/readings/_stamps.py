"""A cell of a log to a time stamp, in each form that loggers write; what is ambiguous stays so."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import UTC, datetime

FORMS = 'Write times as "2026-11-28 18:05"'
DAY = 86_400.0
LONGEST_CELL = 60


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a column of times holds: ``unit`` [s] of a plain number, and whether it is time elapsed."""

    unit: float | None = None
    elapsed: bool = False


@dataclass(frozen=True, slots=True)
class Stamp:
    """One time as written; exactly one of these is there.

    ``utc`` [s since 1970], ``wall`` [s as if UTC], ``clock`` [s after midnight], ``elapsed`` [s], or
    ``slashed``: two numbers that are day and month or month and day, the year, and the time [s].
    """

    utc: float | None = None
    wall: float | None = None
    clock: float | None = None
    elapsed: float | None = None
    slashed: tuple[int, int, int, float] | None = None

    @property
    def kind(self) -> str:
        """Which one it is; a slashed date is of the wall."""
        names = {"utc": self.utc, "clock": self.clock, "elapsed": self.elapsed}
        return next((name for name, value in names.items() if value is not None), "wall")


_TIME = r"(?P<h>\d{1,2})[:hH.](?P<m>\d\d)(?:[:.m](?P<s>\d\d(?:[.,]\d+)?))?\s*(?P<half>[AaPp]\.?\s?[Mm]\.?)?"
_ZONE = r"\s*(?P<zone>Z|[-+]\d\d:?\d\d|[-+]\d\d|UTC|GMT)?"
_AND = r"(?:[T,]?\s*" + _TIME + _ZONE + r")?"
YEAR_FIRST = re.compile(r"(?P<y>\d{4})(?P<sep>[-/.])(?P<mo>\d{1,2})(?P=sep)(?P<d>\d{1,2})" + _AND)
YEAR_LAST = re.compile(r"(?P<a>\d{1,2})(?P<sep>[-/.])(?P<b>\d{1,2})(?P=sep)(?P<y>\d{4}|\d\d)" + _AND)
DAY_NAME = re.compile(r"(?P<d>\d{1,2})\.?[- /]?(?P<name>[^\W\d_]{3,})\.?[- /,]*(?P<y>\d{4}|\d\d)" + _AND)
NAME_DAY = re.compile(r"(?P<name>[^\W\d_]{3,})\.?\s+(?P<d>\d{1,2}),?\s+(?P<y>\d{4})" + _AND)
CLOCK = re.compile(_TIME.replace("[:hH.]", "[:hH]", 1))
SPAN = re.compile(r"(?:(?P<days>\d+)\s*d(?:ays?)?[ ,]*)?(?P<h>\d+):(?P<m>\d\d)(?::(?P<s>\d\d(?:[.,]\d+)?))?")
NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
MONTHS = (
    ("jan", "ene", "gen", "янв"), ("feb", "fév", "fev", "фев"), ("mar", "mär", "mrz", "maa", "мар"),
    ("apr", "avr", "abr", "апр"), ("may", "mai", "mei", "mag", "май"), ("jun", "juin", "giu", "июн"),
    ("jul", "juil", "lug", "июл"), ("aug", "aoû", "aou", "ago", "авг"), ("sep", "set", "сен"),
    ("oct", "okt", "ott", "out", "окт"), ("nov", "ноя"), ("dec", "dez", "déc", "dic", "дек"),
)  # fmt: skip


def looks_like_time(cell: str) -> bool:
    """Whether a cell that nothing is known of is a time."""
    stamp = read_stamp(cell, Meaning())
    serial = NUMBER.fullmatch(cell.strip()) is not None and (stamp is None or stamp.utc is None)
    return stamp is not None and not serial


def read_stamp(cell: str, meaning: Meaning) -> Stamp | None:
    """A cell as a time; ``None`` where it is none."""
    text = " ".join(cell.split())
    if not text or len(text) > LONGEST_CELL:
        return None
    if meaning.elapsed:
        return _elapsed(text, meaning.unit)
    if NUMBER.fullmatch(text):
        return _numbered(float(text.replace(",", ".")), meaning.unit)
    for pattern in (YEAR_FIRST, YEAR_LAST, DAY_NAME, NAME_DAY):
        match = pattern.fullmatch(text)
        if match is not None:
            return _dated(match)
    match = CLOCK.fullmatch(text)
    seconds = _seconds(match) if match is not None else None
    return Stamp(clock=seconds) if seconds is not None else None


def _elapsed(text: str, unit: float | None) -> Stamp | None:
    match = SPAN.fullmatch(text)
    if match is not None:
        parts = (int(match["days"] or 0) * DAY, int(match["h"]) * 3600.0, int(match["m"]) * 60.0)
        return Stamp(elapsed=sum(parts) + float((match["s"] or "0").replace(",", ".")))
    if NUMBER.fullmatch(text) and unit is not None:
        return Stamp(elapsed=float(text.replace(",", ".")) * unit)
    return None


def _numbered(value: float, unit: float | None) -> Stamp | None:
    """Seconds, thousandths or millionths since 1970; days since 1900 as spreadsheets count; or a unit's."""
    for scale in (1.0, 1e3, 1e6):
        if 5e8 * scale <= value <= 5e9 * scale:
            return Stamp(utc=value / scale)
    if unit is not None:
        return Stamp(elapsed=value * unit)
    return Stamp(wall=round((value - 25_569.0) * DAY, 3)) if 30_000.0 <= value <= 80_000.0 else None


def _seconds(match: re.Match[str]) -> float | None:
    """Seconds after midnight of a match's time; 0 where it has none, ``None`` where there is no such time."""
    if match["h"] is None:
        return 0.0
    hours, minutes = int(match["h"]), int(match["m"])
    seconds = float((match["s"] or "0").replace(",", "."))
    if match["half"]:
        if not 1 <= hours <= 12:
            return None
        hours = hours % 12 + (12 if match["half"][0] in "pP" else 0)
    if hours > 24 or minutes > 59 or seconds >= 61.0 or (hours == 24 and minutes + seconds > 0):
        return None
    return hours * 3600.0 + minutes * 60.0 + seconds


def _dated(match: re.Match[str]) -> Stamp | None:
    seconds = _seconds(match)
    parts = match.groupdict()
    year = int(parts["y"]) + (2000 if len(parts["y"]) == 2 else 0)
    if seconds is None or not 1970 <= year <= 2200:
        return None
    if "a" in parts:
        first, second = int(parts["a"]), int(parts["b"])
        if parts["sep"] != ".":
            return _slashed(first, second, year, seconds) if parts["zone"] is None else None
        day, month = first, second
    elif "name" in parts:
        day, month = int(parts["d"]), month_of(parts["name"])
    else:
        day, month = int(parts["d"]), int(parts["mo"])
    wall = wall_of(day, month, year, seconds)
    if wall is None:
        return None
    offset = _offset(parts["zone"])
    return Stamp(wall=wall) if offset is None else Stamp(utc=wall - offset)


def _slashed(first: int, second: int, year: int, seconds: float) -> Stamp | None:
    either = wall_of(first, second, year, 0.0), wall_of(second, first, year, 0.0)
    return Stamp(slashed=(first, second, year, seconds)) if either != (None, None) else None


def month_of(name: str) -> int:
    """The number of a month by how its name begins; 0 where no month does."""
    said = name.casefold()
    found = [number for number, names in enumerate(MONTHS, 1) if any(said.startswith(one) for one in names)]
    return found[0] if len(found) == 1 else 0


def wall_of(day: int, month: int, year: int, seconds: float) -> float | None:
    """Seconds, as if UTC, of a date and a time; ``None`` where there is no such day."""
    try:
        return datetime(year, month, day, tzinfo=UTC).timestamp() + seconds
    except ValueError:
        return None


def _offset(zone: str | None) -> float | None:
    if zone is None:
        return None
    if zone in ("Z", "UTC", "GMT"):
        return 0.0
    digits = zone[1:].replace(":", "").ljust(4, "0")
    return (-1.0 if zone[0] == "-" else 1.0) * (int(digits[:2]) * 3600.0 + int(digits[2:]) * 60.0)
