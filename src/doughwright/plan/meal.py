"""When the meal is: a day and a time on the clocks of a zone, also on the days when clocks change."""

from __future__ import annotations

import difflib
import os
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from doughwright.errors import Fault, InputError, QuantityError, UnknownNameError
from doughwright.recipe.types import DAYS, EATING, WHEN_UNSAID, Eating

# Years whose clocks the zone tables know, and far enough from the ends of the calendar to count in.
FIRST_YEAR, LAST_YEAR = 1900, 2200


@dataclass(frozen=True, slots=True)
class Meal:
    """A meal as a moment, and what had to be said of it (``None`` where nothing)."""

    at: datetime
    said: str | None = None


def parse_eat(text: str, zone: tzinfo, after: datetime) -> Meal:
    """Read "2026-11-28 19:00", "Saturday 19:00" or "19:00" on the zone's clocks.

    A weekday or a time alone is the first such moment from ``after`` on. A time that the clocks skip is
    moved on by what they skip, one that comes twice is the first; both are said. Raises ``QuantityError``.
    """
    match = EATING.fullmatch(" ".join(text.split()))
    day = _weekday(match["day"]) if match is not None and match["day"] else None
    if match is None or (match["day"] and day is None):
        raise _refused(text)
    return next_meal(Eating(text=text, weekday=day, date=match["date"], time=match["time"]), zone, after)


def next_meal(eating: Eating | None, zone: tzinfo, after: datetime) -> Meal:
    """The meal that a document means, from ``after`` on where it gives no date; Saturday 19:00 if unsaid."""
    meant = eating or WHEN_UNSAID
    try:
        hour, minute = (int(part) for part in meant.time.split(":"))
        clock = time(hour, minute)
        fixed = date.fromisoformat(meant.date) if meant.date else None
    except ValueError as error:
        raise _refused(meant.text) from error
    unsaid = None if eating else "no meal is named: Saturday 19:00 is assumed"
    if fixed is not None:
        return _on(fixed, clock, zone, unsaid)
    today = after.astimezone(zone).date()
    days = (today + timedelta(days=n) for n in range(9))
    meals = (_on(one, clock, zone, unsaid) for one in days if meant.weekday in (None, one.weekday()))
    return next(meal for meal in meals if meal.at >= after)


def zone_named(name: str | None) -> ZoneInfo:
    """A zone by its name, the machine's own where none is given; raises ``UnknownNameError``."""
    wanted = name if name is not None else machine_zone()
    try:
        return ZoneInfo(wanted)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise UnknownNameError(
            Fault("the zone", wanted="a time zone by its name", found=f'"{wanted}"', try_=_near(wanted))
        ) from error


def machine_zone() -> str:
    """The name of the machine's zone; UTC where it does not say."""
    said = os.environ.get("TZ", "").removeprefix(":")
    if said in available_timezones():
        return said
    local = Path("/etc/localtime")
    if local.is_symlink():
        _, _, name = str(local.readlink()).partition("zoneinfo/")
        if name in available_timezones():
            return name
    written = Path("/etc/timezone")
    name = written.read_text(encoding="utf-8", errors="replace").strip() if written.is_file() else ""
    return name if name in available_timezones() else "UTC"


def zone_name(zone: tzinfo) -> str:
    """A zone's name: that of the zone table, else its offset."""
    return getattr(zone, "key", None) or str(zone)


def _weekday(word: str) -> int | None:
    named = (number for number, day in enumerate(DAYS) if day.startswith(word.casefold()))
    return next(named, None) if len(word) >= 3 else None


def _on(day: date, clock: time, zone: tzinfo, unsaid: str | None) -> Meal:
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise _refused(f"{day} {clock:%H:%M}")
    try:
        first, second = (datetime.combine(day, clock.replace(fold=fold), zone) for fold in (0, 1))
        real = _real(first)
        said = [unsaid] if unsaid else []
    except (OverflowError, ValueError) as error:
        raise _refused(f"{day} {clock:%H:%M}") from error
    if real.replace(tzinfo=None) != first.replace(tzinfo=None):
        said.append(f"there is no {clock:%H:%M} on {day}: the clocks go forward, {real:%H:%M} is meant")
    elif first.utcoffset() != second.utcoffset():
        said.append(f"{clock:%H:%M} comes twice on {day}: the clocks go back, the first is meant")
    return Meal(real, "; ".join(said) or None)


def _real(moment: datetime) -> datetime:
    """The moment as the clock shows it: a time that is skipped becomes the one that is shown instead."""
    return datetime.fromtimestamp(moment.timestamp(), moment.tzinfo)


def _refused(text: str) -> InputError:
    return QuantityError(
        Fault(
            "the meal",
            wanted="a day and a time",
            found=f'"{text}"',
            try_='Write for example "2026-11-28 19:00"',
        )
    )


def _near(name: str) -> str:
    by_name = _zones()
    wanted = name.casefold().replace(" ", "_")
    ends = [zone for key, zone in by_name.items() if key.rpartition("/")[2] == wanted]
    close = [by_name[key] for key in difflib.get_close_matches(wanted, by_name, n=3, cutoff=0.6)]
    found = list(dict.fromkeys(ends + close))[:3]
    if not found:
        return 'Write for example "Europe/London"'
    return "Did you mean " + " or ".join(f'"{zone}"' for zone in found) + "?"


@cache
def _zones() -> dict[str, str]:
    return {zone.casefold(): zone for zone in sorted(available_timezones())}
