"""The checker objects to what is wrong, and only to that."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from doughwright.kitchen.assumed import surroundings
from doughwright.plan.model import Entry, Plan
from doughwright.plan.timeline import plan
from tests.plan.checker import objections
from tests.plan.recipes import pie

RECIPE = pie(rest="10 h to 16 h", retard="12 h to 60 h", cook="20 min", heat="45 min")
PLAN = plan(RECIPE, surroundings(None), eat=datetime(2026, 11, 28, 19, 0, tzinfo=ZoneInfo("Europe/London")))
EVERY = range(len(PLAN.entries))


def moved(entry: Entry, start: float = 0.0, end: float = 0.0) -> Entry:
    return replace(
        entry,
        start=(entry.starts + timedelta(minutes=start)).isoformat(),
        end=(entry.ends + timedelta(minutes=end)).isoformat(),
    )


def with_entry(number: int, *entries: Entry) -> Plan:
    return replace(PLAN, entries=(*PLAN.entries[:number], *entries, *PLAN.entries[number + 1 :]))


def test_a_right_plan_meets_no_objection() -> None:
    """Every rule at once, on a plan with a poolish, a topping and the oven."""
    assert objections(PLAN, RECIPE) == []


@pytest.mark.parametrize("number", [n for n in EVERY if PLAN.entries[n].step is not None])
def test_a_deleted_entry_is_missed(number: int) -> None:
    """Of the document's steps none may go."""
    assert objections(with_entry(number), RECIPE) != []


@pytest.mark.parametrize("number", [n for n in EVERY if not PLAN.entries[n].wait])
def test_a_doubled_entry_is_noticed(number: int) -> None:
    """The same work twice at one time needs two cooks."""
    assert objections(with_entry(number, PLAN.entries[number], PLAN.entries[number]), RECIPE) != []


@pytest.mark.parametrize("number", [n for n in EVERY if PLAN.entries[n].mix == "dough"])
def test_a_moved_entry_of_the_dough_is_noticed(number: int) -> None:
    """The dough's entries follow one another: half an hour earlier leaves a hole."""
    assert objections(with_entry(number, moved(PLAN.entries[number], -30, -30)), RECIPE) != []


def test_work_in_the_night_is_noticed() -> None:
    """All entries half a day earlier: each wait is right, and the work is not."""
    early = replace(PLAN, entries=tuple(moved(one, -720, -720) for one in PLAN.entries))
    assert any(" at 0" in one for one in objections(early, RECIPE))


def test_a_wait_beyond_its_range_is_noticed() -> None:
    """One minute over the longest rest of the poolish."""
    number = next(n for n in EVERY if "poolish rests" in PLAN.entries[n].what)
    rest = PLAN.entries[number]
    over = 16 * 60 + 1 - (rest.ends - rest.starts).total_seconds() / 60
    assert any("rest takes" in one for one in objections(with_entry(number, moved(rest, -over)), RECIPE))
