"""The hours a cook is up, as spans of elapsed minutes: local clocks are used here and nowhere else."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from doughwright.kitchen.types import Hours

DAY = 86_400.0


def minute_of(moment: datetime) -> int:
    """Whole minutes of elapsed time since 1970, rounded down."""
    return int(moment.timestamp() // 60)


def moment_of(minute: int, zone: tzinfo) -> datetime:
    """A minute of elapsed time on the zone's clock."""
    return datetime.fromtimestamp(minute * 60, UTC).astimezone(zone)


class Awake:
    """When somebody is up between two minutes: half-open spans [start, end) of elapsed minutes."""

    def __init__(self, hours: Hours, zone: tzinfo, first: int, last: int) -> None:
        self.first, self.last = first, last
        self.spans = list(_merged(_spans(hours, zone, first, last)))
        self._starts = [start for start, _ in self.spans]
        self._nights: dict[tuple[int, int], int] = {}

    def night(self, start: int, end: int) -> int:
        """Minutes of [start, end) outside the hours awake."""
        found = self._nights.get((start, end))
        if found is None:
            found = self._nights[start, end] = self._asleep(start, end)
        return found

    def _asleep(self, start: int, end: int) -> int:
        asleep, at = end - start, max(0, bisect_right(self._starts, start) - 1)
        for up, down in self.spans[at:]:
            if up >= end:
                break
            asleep -= max(0, min(end, down) - max(start, up))
        return asleep


def _spans(hours: Hours, zone: tzinfo, first: int, last: int) -> Iterator[tuple[int, int]]:
    day = moment_of(first, zone).date() - timedelta(days=1)
    final = moment_of(last, zone).date() + timedelta(days=1)
    length_over_midnight = hours.end <= hours.start
    while day <= final:
        until = day + timedelta(days=1) if length_over_midnight else day
        # An hour that comes twice, or never, counts inwards: up at the later, to bed at the earlier.
        up = max(minute_of(_local(day, hours.start, zone, fold)) for fold in (0, 1))
        down = min(minute_of(_local(until, hours.end, zone, fold)) for fold in (0, 1))
        if up < down:
            yield up, down
        day += timedelta(days=1)


def _local(day: date, seconds: float, zone: tzinfo, fold: int) -> datetime:
    if seconds >= DAY:
        day, seconds = day + timedelta(days=1), seconds - DAY
    minutes = int(seconds // 60)
    return datetime.combine(day, time(minutes // 60, minutes % 60, fold=fold), zone)


def _merged(spans: Iterator[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    current: tuple[int, int] | None = None
    for start, end in spans:
        if current is not None and start <= current[1]:
            current = (current[0], max(current[1], end))
            continue
        if current is not None:
            yield current
        current = (start, end)
    if current is not None:
        yield current
