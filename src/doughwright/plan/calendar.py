"""A plan as a calendar file (RFC 5545): work with an alarm, waits as free time, the meal."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import NAMESPACE_URL, uuid5
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

import icalendar

from doughwright.plan.model import Entry, Plan

PRODUCT = "-//Doughwright//Plan//EN"
# Work that begins within this time of the last work needs no alarm of its own.
STRAIGHT_ON = timedelta(minutes=15)
ALARM = timedelta(minutes=-15)
MEAL = timedelta(minutes=30)


def calendar(plan: Plan, *, stamp: datetime, sequence: int | None = None) -> bytes:
    """The calendar of a plan, stamped with a moment (aware).

    An event keeps its UID when the recipe is planned anew for a meal on the same day, so a later file
    replaces it; ``sequence`` then has to grow, and is the minutes since 1970 of the stamp where left out.
    """
    counted = int(stamp.timestamp() // 60) if sequence is None else sequence
    zone = _zone(plan.zone)
    out = icalendar.Calendar()
    out.add("prodid", PRODUCT)
    out.add("version", "2.0")
    out.add("calscale", "GREGORIAN")
    out.add("name", plan.title)
    if zone is not None:
        out.add_component(_timezone(plan, zone))
    made = {"dtstamp": stamp.astimezone(UTC), "sequence": counted}
    for event in _events(plan, zone):
        for name, value in made.items():
            event.add(name, value)
        out.add_component(event)
    return bytes(out.to_ical())


class _Exact(icalendar.vDuration):
    """A duration in hours and minutes: a day of a calendar is not always 24 hours."""

    def to_ical(self) -> bytes:
        sign = "-" if self.td < timedelta(0) else ""
        hours, minutes = divmod(int(abs(self.td).total_seconds() // 60), 60)
        return (
            f"{sign}PT{f'{hours}H' if hours else ''}{f'{minutes}M' if minutes or not hours else ''}".encode()
        )


def _events(plan: Plan, zone: ZoneInfo | None) -> Iterator[icalendar.Event]:
    uid = _uid(plan, "meal")
    meal = _event(plan.title, plan.eats, MEAL, uid, zone)
    meal.add("transp", "TRANSPARENT")
    yield meal
    last_work: datetime | None = None
    for name, entry in _named(plan):
        event = _event(entry.what, entry.starts, entry.ends - entry.starts, _uid(plan, name), zone)
        event.add("related-to", uid)
        event.add("description", _description(plan, entry))
        event.add("transp", "TRANSPARENT" if entry.wait else "OPAQUE")
        if not entry.wait:
            if last_work is None or entry.starts - last_work >= STRAIGHT_ON:
                event.add_component(_alarm(entry))
            last_work = entry.ends
        yield event


def _named(plan: Plan) -> Iterator[tuple[str, Entry]]:
    """Each entry with a name that does not depend on its time."""
    seen: dict[str, int] = {}
    for entry in plan.entries:
        name = f"{entry.step}/{entry.mix}/{entry.piece}/{'wait' if entry.wait else 'work'}"
        seen[name] = seen.get(name, 0) + 1
        yield f"{name}/{seen[name]}", entry


def _uid(plan: Plan, name: str) -> str:
    return str(uuid5(NAMESPACE_URL, f"doughwright:{plan.title}/{plan.eats:%Y-%m-%d}/{name}"))


def _event(says: str, start: datetime, length: timedelta, uid: str, zone: ZoneInfo | None) -> icalendar.Event:
    event = icalendar.Event()
    event.add("uid", uid)
    event.add("summary", says)
    event.add("dtstart", _on_the_clock(start, zone))
    event["duration"] = _Exact(length)
    return event


def _on_the_clock(moment: datetime, zone: ZoneInfo | None) -> datetime:
    """The moment in the zone; in UTC the second time an hour comes, since a local time means the first."""
    if zone is None:
        return moment.astimezone(UTC)
    local = moment.astimezone(zone)
    return moment.astimezone(UTC) if local.fold else local


def _description(plan: Plan, entry: Entry) -> str:
    said = [f"{entry.hands_on.value:g} min of work."] if entry.hands_on.value else []
    after = next((one for one in plan.entries if one.starts >= entry.ends and one.mix == entry.mix), None)
    said += [f"Then: {after.what}."] if after is not None else []
    return "\n".join([*said, *([entry.text] if entry.text else [])]) or plan.title


def _alarm(entry: Entry) -> icalendar.Alarm:
    alarm = icalendar.Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", entry.what)
    alarm["trigger"] = _Exact(ALARM)
    return alarm


def _zone(name: str) -> ZoneInfo | None:
    """The zone by name; ``None`` where the times are written in UTC: it is UTC, or has an offset only."""
    try:
        return None if name == "UTC" else ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError):
        return None


def _timezone(plan: Plan, zone: ZoneInfo) -> Any:
    """The zone's offsets from a day before the first entry to after the meal."""
    first = min(one.starts for one in plan.entries).date() - timedelta(days=2)
    last = plan.eats.date() + timedelta(days=2)
    made = icalendar.Timezone.from_tzid(zone.key, first_date=first, last_date=last)
    made.pop("comment", None)
    return made
