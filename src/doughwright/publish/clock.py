"""The sheet's clock: from hours of a run to a weekday and a time, and back to where midnight falls."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

from doughwright.publish.render import HELD
from doughwright.recipe.types import WHEN_UNSAID, Eating

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
# A Monday: a meal "on Saturday" lies in its week.
_SOME_MONDAY = datetime(2001, 1, 1, tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class Clock:
    """When hour 0 of a run is; ``said`` is what was assumed for it, ``dated`` whether the date is real."""

    zero: datetime
    zone: tzinfo = UTC
    dated: bool = False
    said: str | None = None

    def at(self, hours: float) -> datetime:
        """The wall clock's time so many hours after hour 0, to the minute."""
        moment = self.zero.astimezone(UTC) + timedelta(minutes=round(hours * 60.0))
        return moment.astimezone(self.zone)

    def hours(self, moment: datetime) -> float:
        """The hour of the run at a moment."""
        return (moment - self.zero) / timedelta(hours=1)

    def time(self, hours: float) -> str:
        """The time: "07:40"."""
        return f"{self.at(hours):%H:%M}"

    def day(self, hours: float) -> str:
        """The day's name: "Friday"."""
        return WEEKDAYS[self.at(hours).weekday()]

    def day_time(self, hours: float) -> str:
        """Day and time, held together: "Sat 16:15"."""
        return f"{self.day(hours)[:3]}{HELD}{self.time(hours)}"

    def span(self, start: float, end: float) -> str:
        """From when to when: "Sat 16:15 to 19:35", the second day only where it is another."""
        same = self.at(start).date() == self.at(end).date()
        return f"{self.day_time(start)} to {self.time(end) if same else self.day_time(end)}"

    def whole_hours(self, start: float, end: float) -> Iterator[tuple[float, int]]:
        """Every full hour of the wall clock between two hours: its hour of the run, and of the day."""
        first = self.at(start)
        on = self.hours(first) - first.minute / 60.0
        while on <= end + 1e-9:
            if on >= start - 1e-9:
                yield on, self.at(on).hour
            on += 1.0

    def midnight_after(self, hours: float) -> float:
        """The hour of the run of the next midnight."""
        return next(on for on, hour in self.whole_hours(hours + 1.0 / 60.0, hours + 26.0) if hour == 0)

    def midnight_before(self, hours: float) -> float:
        """The hour of the run of the last midnight."""
        return [on for on, hour in self.whole_hours(hours - 26.0, hours) if hour == 0][-1]


def clock_to_meal(eat: Eating | None, meal_at: float, zone: tzinfo = UTC) -> Clock:
    """The clock by which the meal falls at hour ``meal_at``; without a meal one is assumed, and said."""
    given = eat or WHEN_UNSAID
    hour, minute = (int(part) for part in given.time.split(":"))
    if given.date is not None:
        day = datetime.fromisoformat(given.date).replace(tzinfo=zone)
    else:
        weekday = WHEN_UNSAID.weekday if given.weekday is None else given.weekday
        day = (_SOME_MONDAY + timedelta(days=weekday or 0)).replace(tzinfo=zone)
    meal = day.replace(hour=hour, minute=minute)
    zero = meal.astimezone(UTC) - timedelta(minutes=round(meal_at * 60.0))
    said = None if eat is not None else f"a meal on {WHEN_UNSAID.text}"
    return Clock(zero, zone, dated=given.date is not None, said=said)
