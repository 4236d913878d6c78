"""The sheet's clock."""

from __future__ import annotations

from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from doughwright.publish.clock import Clock, clock_to_meal
from doughwright.publish.render import HELD
from doughwright.recipe.types import Eating

SATURDAY = Eating(text="Saturday 19:00", weekday=5, date=None, time="19:00")


def test_the_meal_sets_the_clock() -> None:
    """A run of 27 h ends at the meal, so it begins on Friday at 16:00."""
    clock = clock_to_meal(SATURDAY, 27.0)
    assert clock.day_time(0.0) == f"Fri{HELD}16:00"
    assert clock.day_time(27.0) == f"Sat{HELD}19:00"
    assert clock.said is None


def test_a_meal_that_is_not_given_is_assumed_and_said() -> None:
    """Saturday at seven."""
    clock = clock_to_meal(None, 5.0)
    assert (clock.day(5.0), clock.time(5.0)) == ("Saturday", "19:00")
    assert clock.said == "a meal on Saturday 19:00"


def test_a_meal_on_a_date_has_that_day() -> None:
    """28 November 2026 is a Saturday."""
    clock = clock_to_meal(Eating(text="2026-11-28 12:30", weekday=None, date="2026-11-28", time="12:30"), 2.0)
    assert (clock.day_time(2.0), clock.dated) == (f"Sat{HELD}12:30", True)


def test_a_span_names_the_second_day_only_where_it_is_another() -> None:
    """From Saturday afternoon into Sunday."""
    clock = clock_to_meal(SATURDAY, 0.0)
    assert clock.span(-3.0, -1.0) == f"Sat{HELD}16:00 to 18:00"
    assert clock.span(-3.0, 6.0) == f"Sat{HELD}16:00 to Sun{HELD}01:00"


@pytest.mark.outside(
    source="Europe/London, 25 October 2026: clocks go back at 02:00 (tz database)", how="identity"
)
def test_hours_of_the_dough_go_on_when_the_clock_goes_back() -> None:
    """Twelve hours from 20:00 is 07:00 on the wall, not 08:00."""
    london = ZoneInfo("Europe/London")
    clock = Clock(datetime(2026, 10, 24, 20, 0, tzinfo=london).astimezone(UTC), london, dated=True)
    assert clock.time(12.0) == "07:00"
    midnights = [on for on, hour in clock.whole_hours(0.0, 30.0) if hour == 0]
    assert midnights == [4.0, 29.0]


def test_midnights_lie_on_either_side() -> None:
    """Of a Saturday evening."""
    clock = clock_to_meal(SATURDAY, 0.0)
    assert (clock.midnight_before(0.0), clock.midnight_after(0.0)) == (-19.0, 5.0)
