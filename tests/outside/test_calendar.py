"""The calendar of a plan against RFC 5545: read by a second library, and by rules written out here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import pytest

from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.types import Hours
from doughwright.plan.calendar import calendar
from doughwright.plan.model import Plan
from doughwright.plan.timeline import plan
from doughwright.recipe.read import read_recipe
from tests.plan.recipes import DOUGH, HEAD, pie, step

STAMP = datetime(2026, 11, 20, 12, 0, tzinfo=UTC)
LONDON = ZoneInfo("Europe/London")
AUTUMN = datetime(2026, 10, 25, 19, 0, tzinfo=LONDON)


def made(eat: datetime = AUTUMN, **waits: str) -> Plan:
    given = {"bulk": "1 h", "retard": "24 h", "temper": "2 h"} | waits
    return plan(pie(**given), surroundings(None), eat=eat)  # type: ignore[arg-type]


def noted(title: str, text: str) -> bytes:
    """A calendar whose title and note are these."""
    head = HEAD.replace("Harbour pie", title)
    steps = step("mix", for_="5 min", text=text) + step("bulk", for_="2 h", at="room")
    one = read_recipe(head + DOUGH % "" + steps).recipe
    return calendar(plan(one, surroundings(None), eat=AUTUMN), stamp=STAMP)


def unfolded(data: bytes) -> list[str]:
    return data.replace(b"\r\n ", b"").decode().split("\r\n")


def blocks(data: bytes, name: str) -> Iterator[list[str]]:
    """The lines of each component of a name, those of components in it included."""
    inside: list[str] | None = None
    for line in unfolded(data):
        if line == f"BEGIN:{name}":
            inside = []
        elif line == f"END:{name}" and inside is not None:
            yield inside
            inside = None
        elif inside is not None:
            inside.append(line)


def value(lines: list[str], name: str) -> str:
    return next(line for line in lines if line.partition(":")[0].partition(";")[0] == name)


@pytest.mark.outside(source="RFC 5545, read by the icalendar library", how="second library")
@pytest.mark.parametrize("zone", ["Europe/London", "Australia/Sydney", "Asia/Tokyo", "America/St_Johns"])
def test_a_second_reader_finds_every_entry_at_its_moment(zone: str) -> None:
    """Starts and lengths come back as planned, and nothing is missing."""
    one = made(datetime(2026, 10, 25, 19, 0, tzinfo=ZoneInfo(zone)))
    read = icalendar.Calendar.from_ical(calendar(one, stamp=STAMP))
    events = {str(event["SUMMARY"]): event for event in read.walk("VEVENT")}
    assert len(list(read.walk("VEVENT"))) == len(one.entries) + 1
    for entry in one.entries:
        event = events[entry.what]
        assert event["DTSTART"].dt.astimezone(UTC) == entry.starts.astimezone(UTC)
        assert event["DURATION"].dt == entry.ends - entry.starts
    assert read.errors == []


@pytest.mark.outside(source="RFC 5545 section 3.3.6, nominal and exact durations", how="identity")
def test_a_day_in_the_fridge_across_a_change_of_the_clocks_is_24_hours_not_a_day() -> None:
    """24 h are PT24H: P1D would end an hour off."""
    lines = next(
        one for one in blocks(calendar(made(), stamp=STAMP), "VEVENT") if "Retard" in value(one, "SUMMARY")
    )
    assert value(lines, "DURATION") == "DURATION:PT24H"
    assert value(lines, "DTSTART") == "DTSTART;TZID=Europe/London:20261024T172700"


@pytest.mark.outside(source="RFC 5545 sections 3.2.19 and 3.6.5", how="identity")
def test_every_zone_that_is_named_is_described_and_its_offsets_are_right() -> None:
    """TZID has its VTIMEZONE; over the change it gives both offsets, from the published dates."""
    data = calendar(made(), stamp=STAMP)
    named = {part for line in unfolded(data) for part in line.partition(":")[0].split(";") if "TZID=" in part}
    described = [value(lines, "TZID") for lines in blocks(data, "VTIMEZONE")]
    assert named == {"TZID=Europe/London"}
    assert described == ["TZID:Europe/London"]
    standard = next(blocks(data, "STANDARD"))
    assert value(standard, "DTSTART") == "DTSTART:20261025T020000"
    assert value(standard, "TZOFFSETFROM") == "TZOFFSETFROM:+0100"
    assert value(standard, "TZOFFSETTO") == "TZOFFSETTO:+0000"


@pytest.mark.outside(
    source="RFC 5545 section 3.3.5: a local time that comes twice is the first", how="identity"
)
def test_the_second_time_an_hour_comes_it_is_written_in_utc() -> None:
    """01:30 comes twice that night; a cook who is up writes the second one as 01:30 UTC."""
    up = replace(surroundings(None), awake=Hours(0.0, 86_400.0))
    recipe = pie(bulk="1 h", retard="12 h", temper="1 h", oven=False)
    meal = datetime(2026, 10, 25, 2, 33, tzinfo=UTC).astimezone(LONDON)
    one = plan(recipe, up, eat=meal)
    lines = [value(block, "DTSTART") for block in blocks(calendar(one, stamp=STAMP), "VEVENT")]
    assert "DTSTART:20261025T012700Z" in lines
    assert [entry.start for entry in one.entries if "out of the" in entry.what] == [
        "2026-10-25T01:27:00+00:00"
    ]


@pytest.mark.outside(source="RFC 5545 section 3.1", how="identity")
@pytest.mark.parametrize("text", ["x" * 80, "é" * 50, "plain 🥖 " * 20, "ß" * 200])
def test_no_line_is_longer_than_75_octets_and_no_letter_is_split(text: str) -> None:
    """Lines end in CR LF, go on after a blank, and each is whole UTF-8 by itself."""
    data = noted("Pie", text)
    assert data.endswith(b"\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    for line in data.split(b"\r\n"):
        assert len(line) <= 75
        line.decode("utf-8")
    assert any(text in line for line in unfolded(data))


@pytest.mark.outside(source="RFC 5545 section 3.3.11", how="identity")
def test_text_is_escaped_as_the_standard_says() -> None:
    """Comma, semicolon, line end and backslash; the colon stays."""
    read = read_recipe(
        HEAD
        + DOUGH % ""
        + step("mix", for_="5 min").replace("for =", "text = 'T'\nfor =")
        + step("bulk", for_="2 h")
    ).recipe
    steps = (replace(read.steps[0], text="Mix flour, water; rest\nC:\\temp"), *read.steps[1:])
    one = plan(replace(read, steps=steps), surroundings(None), eat=AUTUMN)
    _, first, *_ = blocks(calendar(one, stamp=STAMP), "VEVENT")
    assert value(first, "DESCRIPTION").endswith(r"Mix flour\, water\; rest\nC:\\temp")


@pytest.mark.outside(source="RFC 5545 sections 3.6, 3.6.1 and 3.6.6", how="identity")
def test_required_properties_are_there_once() -> None:
    """VERSION and PRODID; in each event UID, DTSTAMP in UTC, DTSTART and a DURATION without a DTEND."""
    data = calendar(made(), stamp=STAMP)
    lines = unfolded(data)
    assert lines[0] == "BEGIN:VCALENDAR"
    assert sum(line == "VERSION:2.0" for line in lines) == 1
    assert sum(line.startswith("PRODID:") for line in lines) == 1
    uids = []
    for event in blocks(data, "VEVENT"):
        names = [line.partition(":")[0].partition(";")[0] for line in event]
        for name in ("UID", "DTSTAMP", "DTSTART", "DURATION", "SEQUENCE", "SUMMARY"):
            assert names.count(name) == 1
        assert "DTEND" not in names
        assert value(event, "DTSTAMP") == "DTSTAMP:20261120T120000Z"
        uids.append(value(event, "UID"))
    assert len(set(uids)) == len(uids)


@pytest.mark.outside(source="RFC 5545 sections 3.6.6 and 3.8.6.3", how="identity")
def test_work_has_an_alarm_a_quarter_of_an_hour_before_and_waits_have_none() -> None:
    """DISPLAY with a text, 15 minutes before the start; work straight after work needs none."""
    for event in blocks(calendar(made(), stamp=STAMP), "VEVENT"):
        says = value(event, "SUMMARY")
        if "BEGIN:VALARM" in event:
            assert {"ACTION:DISPLAY", "TRIGGER:-PT15M"} <= set(event)
            assert value(event, "TRANSP") == "TRANSP:OPAQUE"
        if "Retard" in says or "Bulk" in says:
            assert "BEGIN:VALARM" not in event
            assert value(event, "TRANSP") == "TRANSP:TRANSPARENT"
        if "Mix" in says or "fridge" in says.partition("Take")[2]:
            assert "BEGIN:VALARM" in event


def test_a_plan_made_anew_for_the_same_day_replaces_the_old_one() -> None:
    """Same UIDs at other times, and a SEQUENCE that has grown with the stamp."""
    old = calendar(made(), stamp=STAMP)
    new = calendar(made(AUTUMN + timedelta(minutes=30)), stamp=STAMP + timedelta(hours=1))
    uids = [{value(event, "UID") for event in blocks(data, "VEVENT")} for data in (old, new)]
    assert uids[0] == uids[1]
    counts = [int(value(next(blocks(data, "VEVENT")), "SEQUENCE").partition(":")[2]) for data in (old, new)]
    assert counts[1] == counts[0] + 60


def test_the_calendar_is_the_same_bytes_each_time() -> None:
    """No clock and no chance but the stamp that is handed in."""
    assert calendar(made(), stamp=STAMP) == calendar(made(), stamp=STAMP)


def test_every_step_is_related_to_the_meal() -> None:
    """RELATED-TO names the meal's UID, so that a reader can keep them together."""
    meal, *steps = blocks(calendar(made(), stamp=STAMP), "VEVENT")
    uid = value(meal, "UID").partition(":")[2]
    assert {value(event, "RELATED-TO").partition(":")[2] for event in steps} == {uid}
