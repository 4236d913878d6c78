"""Any document that loads can be asked for a plan: it gives one that keeps the rules, or says why not."""

from __future__ import annotations

import itertools
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import DocumentError, DoughwrightError
from doughwright.kitchen.assumed import surroundings
from doughwright.plan.calendar import calendar
from doughwright.plan.model import NoPlanError, Plan
from doughwright.plan.timeline import plan
from doughwright.publish.cautions import cautions
from doughwright.recipe.read import read_recipe
from tests.plan.recipes import DOUGH, HEAD, LEEKS, POOLISH, step

KITCHEN = surroundings(None)
TIMES = ("5 min", "90 s", "40 min", "2 h", "1 h to 4 h", "12 h", "10 h to 30 h", "3 days", "1 day to 5 days")
PLACES = ("room", "fridge", "28 °C")
WORK = ("fold", "divide", "ball", "shape", "score", "glaze", "flip", "slice")
WAITS = ("rest", "autolyse", "bulk", "bench rest", "retard", "temper", "proof", "cool", "freeze", "thaw")
MIXES = ("poolish", "dough", "leeks")


@st.composite
def a_step(draw: st.DrawFn) -> str:
    kind = draw(st.sampled_from(("wait", "wait", "work", "mix", "oven", "cook", "dress", "preheat", "note")))
    time = draw(st.sampled_from(TIMES))
    if kind == "wait":
        more = {"at": draw(st.sampled_from(PLACES))} if draw(st.booleans()) else {}
        return step(draw(st.sampled_from(WAITS)), of=draw(st.sampled_from(MIXES)), for_=time, **more)
    if kind == "mix":
        return step("mix", mix=draw(st.sampled_from(MIXES)), for_=draw(st.sampled_from(TIMES[:2])))
    if kind == "oven":
        return step(draw(st.sampled_from(("par-bake", "bake"))), of="dough", for_=time, at="220 °C")
    if kind in ("cook", "preheat"):
        return step(kind, for_=time, **({"mix": "leeks"} if kind == "cook" else {"at": "220 °C"}))
    if kind == "dress":
        return step("dress", of=draw(st.sampled_from(MIXES)), with_=f'["{draw(st.sampled_from(MIXES))}"]')
    return step("note", text="look") if kind == "note" else step(draw(st.sampled_from(WORK)), of="dough")


@st.composite
def a_document(draw: st.DrawFn) -> str:
    shape = draw(st.sampled_from(('shape = "round"\n', 'shape = "ball"\n')))
    inside = draw(st.sampled_from(("", ' { mix = "poolish", amount = "all", add = "later" },')))
    head = HEAD.replace('shape = "round"\n', shape)
    steps = draw(st.lists(a_step(), min_size=1, max_size=9))
    return head + POOLISH + DOUGH % inside + LEEKS + "".join(steps)


def assert_keeps_the_rules(made: Plan) -> None:
    eat = datetime.fromisoformat(made.eat)
    working = [one for one in made.entries if one.hands_on.value]
    assert max(one.ends for one in made.entries) <= eat
    assert not any(one.night for one in made.entries)
    for one in working:
        assert 7 <= one.starts.hour < 23
    whole = [one for one in working if (one.ends - one.starts) <= timedelta(minutes=one.hands_on.value or 0)]
    whole.sort(key=lambda one: one.starts)
    for before, after in itertools.pairwise(whole):
        assert before.ends <= after.starts


@pytest.mark.property
@given(a_document(), st.integers(0, 200))
def test_only_our_own_errors_come_out(text: str, quarters: int) -> None:
    """Steps in any order, of any mix, at any hour: a plan that keeps the rules, or a reason and a way out."""
    try:
        recipe = read_recipe(text).recipe
    except DocumentError:
        return
    cautions(recipe, KITCHEN)
    eat = datetime(2026, 10, 24, 7, 0, tzinfo=UTC) + quarters * timedelta(minutes=15)
    try:
        made = plan(recipe, KITCHEN, eat=eat.astimezone(ZoneInfo("Europe/London")))
    except DoughwrightError as error:
        assert isinstance(error, NoPlanError) or "nothing to plan" in str(error)
        assert error.fault.try_
        return
    assert_keeps_the_rules(made)
    assert calendar(made, stamp=datetime(2026, 1, 1, tzinfo=UTC)).startswith(b"BEGIN:VCALENDAR")
