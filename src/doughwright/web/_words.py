"""When something was saved, as one says it."""

from __future__ import annotations

from datetime import datetime, tzinfo

from doughwright.publish.clock import WEEKDAYS


def when_words(when: str, now: datetime, zone: tzinfo) -> str:
    """A moment (ISO 8601) seen from now: "08:12", "Tuesday 21:30", "14 November 2026"."""
    moment, today = datetime.fromisoformat(when).astimezone(zone), now.astimezone(zone)
    days = (today.date() - moment.date()).days
    if days == 0:
        return f"{moment:%H:%M}"
    if 0 < days < 6:
        return f"{WEEKDAYS[moment.weekday()]} {moment:%H:%M}"
    return f"{moment.day} {moment:%B %Y}"
