"""A meal is a moment on the clocks of a zone, also when the clocks change."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from doughwright.errors import QuantityError, UnknownNameError
from doughwright.kitchen.assumed import surroundings
from doughwright.plan.meal import machine_zone, next_meal, parse_eat, zone_name, zone_named
from doughwright.plan.timeline import plan, shortest
from doughwright.recipe.read import read_recipe
from doughwright.recipe.start import SHAPES, StartShape, starting_document

LONDON = ZoneInfo("Europe/London")
WEDNESDAY = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("2026-11-28 19:00", "2026-11-28T19:00:00+00:00"),
        ("2026-11-28T19:00", "2026-11-28T19:00:00+00:00"),
        ("2026-07-01 19:00", "2026-07-01T19:00:00+01:00"),
        ("Saturday 19:00", "2026-11-28T19:00:00+00:00"),
        ("sat 7:30", "2026-11-28T07:30:00+00:00"),
        ("Wednesday, 12:00", "2026-11-25T12:00:00+00:00"),
        ("Wednesday 11:59", "2026-12-02T11:59:00+00:00"),
        ("11:00", "2026-11-26T11:00:00+00:00"),
    ],
)
def test_a_day_and_a_time_are_read_on_the_zones_clock(text: str, meant: str) -> None:
    """A date is that date; a weekday or a time alone is the first from the given moment on."""
    assert parse_eat(text, LONDON, WEDNESDAY).at.isoformat() == meant


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "Saturday",
        "2026-02-30 19:00",
        "Caturday 19:00",
        "25:00",
        "sa 19:00",
        "0001-01-01 00:00",
        "9999-12-31 23:59",
    ],
)
def test_what_is_no_moment_is_refused(text: str) -> None:
    """Each names what is wanted and what to write."""
    with pytest.raises(QuantityError) as caught:
        parse_eat(text, LONDON, WEDNESDAY)
    assert "2026-11-28 19:00" in (caught.value.fault.try_ or "")


def test_a_time_that_the_clocks_skip_is_moved_on_and_said() -> None:
    """01:30 on 29 March 2026 is no time in London: 02:30 is shown in its place."""
    meal = parse_eat("2026-03-29 01:30", LONDON, WEDNESDAY)
    assert meal.at.isoformat() == "2026-03-29T02:30:00+01:00"
    assert "there is no 01:30" in (meal.said or "")


def test_a_time_that_comes_twice_is_the_first_and_said() -> None:
    """01:30 on 25 October 2026 comes in summer time and again in winter time."""
    meal = parse_eat("2026-10-25 01:30", LONDON, WEDNESDAY)
    assert meal.at.isoformat() == "2026-10-25T01:30:00+01:00"
    assert "comes twice" in (meal.said or "")


def test_saturday_evening_is_meant_where_a_document_says_nothing() -> None:
    """As the document's own words have it: 19:00 on the next Saturday, and it is said."""
    meal = next_meal(None, LONDON, WEDNESDAY + timedelta(days=4))
    assert meal.at.isoformat() == "2026-12-05T19:00:00+00:00"
    assert "assumed" in (meal.said or "")


@pytest.mark.parametrize("name", ["London", "europe/london", "Europe/Lodnon"])
def test_an_unknown_zone_gets_did_you_mean(name: str) -> None:
    """A town alone, or a slip of the pen."""
    with pytest.raises(UnknownNameError) as caught:
        zone_named(name)
    assert "Europe/London" in (caught.value.fault.try_ or "")


@pytest.mark.parametrize("name", ["../etc/passwd", "", "Nowhere/Never", "\0", "/etc/localtime"])
def test_what_cannot_be_a_zone_is_refused(name: str) -> None:
    """No path leads out of the table of zones."""
    with pytest.raises(UnknownNameError):
        zone_named(name)


def test_the_machines_zone_is_meant_where_none_is_given(monkeypatch: pytest.MonkeyPatch) -> None:
    """TZ says it; whatever it says, the name is one of the table."""
    monkeypatch.setenv("TZ", "Australia/Sydney")
    assert zone_name(zone_named(None)) == "Australia/Sydney"
    monkeypatch.setenv("TZ", "no zone")
    assert zone_named(machine_zone()).key == machine_zone()


@pytest.mark.parametrize("shape", SHAPES)
def test_each_starting_document_has_a_plan_for_its_own_meal(shape: StartShape) -> None:
    """Who starts from ours meets no refusal at the first try."""
    recipe = read_recipe(starting_document(shape)).recipe
    meal = next_meal(recipe.makes.eat, LONDON, WEDNESDAY + shortest(recipe))
    made = plan(recipe, surroundings(None), eat=meal.at, now=WEDNESDAY)
    assert made.entries[0].starts >= WEDNESDAY
