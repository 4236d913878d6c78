"""A plan goes back from the meal, keeps to the hours awake and to the ranges, and says when it cannot."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from doughwright.errors import InputError
from doughwright.forecast.days import days
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.types import Hours
from doughwright.plan.hands import MINUTES
from doughwright.plan.model import Entry, NoPlanError, Plan
from doughwright.plan.timeline import pinned, plan, shortest
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe
from tests.plan.checker import objections
from tests.plan.recipes import DOUGH, HEAD, LEEKS, pie, step

LONDON = ZoneInfo("Europe/London")
SATURDAY = datetime(2026, 11, 28, 19, 0, tzinfo=LONDON)


def kitchen(start: float = 7.0, end: float = 23.0) -> Surroundings:
    return replace(surroundings(None), awake=Hours(start * 3600.0, end * 3600.0))


def planned(recipe: Recipe, eat: datetime = SATURDAY, **more: object) -> Plan:
    return plan(recipe, kitchen(), eat=eat, **more)  # type: ignore[arg-type]


def entry(made: Plan, words: str) -> Entry:
    return next(one for one in made.entries if words in one.what)


def test_a_fixed_recipe_is_laid_back_from_the_meal_minute_by_minute() -> None:
    """Hand calculation: 27 min of oven, 6 of shaping, 2 h, 24 h, 10 of balling, 1 h, 20 of mixing."""
    made = planned(pie(bulk="1 h", retard="24 h", temper="2 h"))
    assert made.start == "2026-11-27T14:57:00+00:00"
    assert entry(made, "Bulk").start == "2026-11-27T15:17:00+00:00"
    assert entry(made, "Divide").start == "2026-11-27T16:17:00+00:00"
    assert entry(made, "Retard").start == "2026-11-27T16:27:00+00:00"
    assert entry(made, "out of the fridge").start == "2026-11-28T16:27:00+00:00"
    assert entry(made, "Shape").start == "2026-11-28T18:27:00+00:00"
    assert [one.start[11:16] for one in made.entries if one.piece == 2] == ["18:48", "18:52", "18:55"]
    assert made.entries[-1].end == made.eat == "2026-11-28T19:00:00+00:00"


def test_each_piece_goes_through_the_whole_oven_before_the_next() -> None:
    """Par-bake, dress, bake; then the pause; then the second piece."""
    made = planned(pie())
    assert [(one.piece, one.what.split()[2].rstrip(",")) for one in made.entries if one.piece] == [
        (1, "par-bake"), (1, "dress"), (1, "bake"), (2, "par-bake"), (2, "dress"), (2, "bake"),
    ]  # fmt: skip


def test_the_middle_of_the_ranges_is_taken_where_nothing_is_in_the_way() -> None:
    """Bulk 2 h, retard 26 h: all hands-on work is by day."""
    made = planned(pie(bulk="1 h to 3 h", retard="24 h to 28 h", temper="2 h"))
    assert [one.chosen.value for one in made.chosen] == [2.0, 26.0]
    assert objections(made, pie(bulk="1 h to 3 h", retard="24 h to 28 h")) == []


def test_ranges_move_the_work_out_of_the_night() -> None:
    """In the middle of its ranges this one would be mixed at 05:30 on Friday."""
    recipe = pie(bulk="1 h to 3 h", retard="24 h to 44 h", temper="2 h")
    made = planned(recipe)
    assert objections(made, recipe) == []
    assert made.entries[0].start[11:16] >= "07:00"


def test_taking_out_of_the_fridge_is_work_and_not_done_at_night() -> None:
    """For a meal at 08:30 with 2 h of tempering somebody would be up at 06:00: it is cut or refused."""
    breakfast = datetime(2026, 11, 28, 8, 30, tzinfo=LONDON)
    with pytest.raises(NoPlanError) as caught:
        planned(pie(temper="2 h", oven=False), breakfast)
    assert [one.what for one in caught.value.in_the_way] == ["Take the dough out of the fridge"]
    made = planned(pie(temper="1 h to 2 h", oven=False), breakfast)
    assert entry(made, "out of the fridge").start[11:16] >= "07:00"


def test_a_preferment_is_on_its_own_way_and_joins_the_dough_when_it_is_mixed() -> None:
    """The poolish ends where the dough's mixing begins."""
    recipe = pie(rest="10 h to 16 h", retard="12 h to 60 h")
    made = planned(recipe)
    assert objections(made, recipe) == []
    assert entry(made, "poolish rests").end == entry(made, "Mix the dough").start


def test_a_topping_is_cooked_before_it_is_needed_and_not_while_hands_are_busy() -> None:
    """The leeks are ready when the first piece goes in, and their cook is not shaping meanwhile."""
    recipe = pie(cook="20 min", heat="45 min")
    made = planned(recipe)
    assert objections(made, recipe) == []
    assert entry(made, "Cook the leeks").end <= entry(made, "par-bake").start


def test_the_oven_is_hot_when_the_first_piece_goes_in_and_not_before_it_has_to_be() -> None:
    """A preheat of 45 min, turned on by somebody, ends at the first bake or within the hour before."""
    made = planned(pie(heat="45 min"))
    heats = entry(made, "The oven heats")
    assert (heats.ends - heats.starts) == timedelta(minutes=45)
    gap = entry(made, "par-bake").starts - heats.ends
    assert timedelta(0) <= gap <= timedelta(minutes=10)


def test_a_recipe_that_never_heats_its_oven_gets_an_assumed_entry() -> None:
    """It is marked assumed, has no step of the document, and is said."""
    made = planned(pie())
    turned = entry(made, "Turn the oven on")
    assert (turned.assumed, turned.step) == (True, None)
    assert "no step heats the oven: the time for it is assumed" in made.notes


def test_fixed_waits_through_the_night_are_refused_with_what_is_in_the_way() -> None:
    """A poolish of 12 h before this dough would be mixed at 02:47; the nearest meal is 3 h 45 min earlier,

    where the poolish, mixed just before 23:00, stands ready for a few minutes.
    """
    recipe = pie(rest="12 h", bulk="1 h", retard="24 h")
    with pytest.raises(NoPlanError) as caught:
        planned(recipe)
    error = caught.value
    assert error.exit_code == 3
    assert [one.what for one in error.in_the_way] == ["Mix the poolish"]
    assert error.in_the_way[0].start == "2026-11-27T02:47:00+00:00"
    assert error.nearest == "2026-11-28T15:15:00+00:00"
    assert "change" in (error.fault.try_ or "")


def test_the_nearest_meal_that_works_does_work_and_none_nearer_does() -> None:
    """Quarter of an hour by quarter of an hour, both ways."""
    recipe = pie(rest="12 h", bulk="1 h", retard="24 h")
    with pytest.raises(NoPlanError) as caught:
        planned(recipe)
    nearest = datetime.fromisoformat(caught.value.nearest or "")
    assert objections(planned(recipe, nearest.astimezone(LONDON)), recipe) == []
    for quarters in range(1, int((SATURDAY - nearest) / timedelta(minutes=15))):
        for sign in (-1, 1):
            with pytest.raises(NoPlanError):
                planned(recipe, SATURDAY + sign * quarters * timedelta(minutes=15))


def test_a_start_that_is_past_is_refused_with_the_earliest_meal() -> None:
    """Asked on Saturday noon for the same evening: the earliest meal leaves time for all of it."""
    now = datetime(2026, 11, 28, 12, 0, tzinfo=LONDON)
    recipe = pie()
    with pytest.raises(NoPlanError) as caught:
        planned(recipe, now=now)
    earliest = datetime.fromisoformat(caught.value.nearest or "").astimezone(LONDON)
    made = planned(recipe, earliest, now=now)
    assert made.entries[0].starts >= now
    with pytest.raises(NoPlanError):
        planned(recipe, earliest - timedelta(minutes=15), now=now)


def test_now_only_binds_where_it_is_given() -> None:
    """With time enough the plan is the same with and without a now."""
    now = datetime(2026, 11, 20, 12, 0, tzinfo=LONDON)
    assert planned(pie(), now=now) == planned(pie())


def test_a_plan_says_which_minutes_are_assumed() -> None:
    """Mixing says its hands in this document; taking out of the fridge does not."""
    made = planned(pie())
    assert not entry(made, "Mix the dough").assumed
    assert entry(made, "out of the fridge").assumed
    assert any("assumed" in note for note in made.notes)


def test_hands_on_total_is_the_sum_of_the_entries() -> None:
    """Minutes of the cook, not of the dough."""
    made = planned(pie())
    assert made.hands_on_total.value == sum(one.hands_on.value or 0.0 for one in made.entries)
    assert made.hands_on_total.unit == "min"


def test_pinning_gives_a_recipe_whose_waits_are_what_was_chosen() -> None:
    """A range becomes one value, in seconds; the rest stays as it is."""
    recipe = pie()
    exact = pinned(recipe, {1: 5400.0})
    assert exact.steps[1].for_ is not None
    assert (exact.steps[1].for_.low, exact.steps[1].for_.high) == (5400.0, 5400.0)
    assert exact.steps[0] == recipe.steps[0]


def test_the_recipe_of_a_plan_has_the_times_of_its_entries() -> None:
    """What the days are run on is what the cook will do."""
    made = planned(pie())
    assert made.recipe is not None
    for number, one in enumerate(made.recipe.steps, start=1):
        if one.do in ("bulk", "retard", "temper") and one.for_ is not None:
            took = sum((e.ends - e.starts).total_seconds() for e in made.entries if e.step == number)
            assert one.for_.low == one.for_.high == took


def test_a_meal_without_a_zone_is_refused() -> None:
    """Nothing is guessed about whose clock is meant."""
    with pytest.raises(InputError):
        planned(pie(), datetime(2026, 11, 28, 19, 0))  # noqa: DTZ001


def test_a_recipe_without_steps_is_refused() -> None:
    """There is nothing to plan, and it says so."""
    with pytest.raises(InputError, match="nothing to plan"):
        planned(read_recipe(HEAD + DOUGH % "").recipe)


def test_tins_go_in_together_and_rounds_one_by_one() -> None:
    """Four buns bake at once, and the plan says that this is assumed."""
    text = (
        'schema = 1\ntitle = "Buns"\n[makes]\npieces = 4\nshape = "ball"\n'
        + DOUGH % ""
        + step("mix", for_="5 min")
    )
    text += step("proof", for_="3 h", at="room") + step("bake", for_="30 min", at="200 °C")
    made = planned(read_recipe(text).recipe)
    assert [one.piece for one in made.entries if one.place == "oven"] == [None]
    assert any("all 4 pieces bake at once" in note for note in made.notes)


def test_two_preferments_of_equal_length_are_mixed_one_after_the_other() -> None:
    """Two hands cannot weigh both at once: one stands ready a few minutes, and it is said."""
    text = 'schema = 1\ntitle = "Two"\n'
    for name in ("poolish", "soaker"):
        text += f"""[[mix]]
name = "{name}"
kind = "preferment"
ingredients = [ {{ item = "bread flour", amount = "90 g" }}, {{ item = "water", amount = "90 g" }} ]
"""
    text += DOUGH % '{ mix = "poolish", amount = "all" }, { mix = "soaker", amount = "all" }'
    for name in ("poolish", "soaker"):
        text += step("mix", mix=name, hands="5 min") + step("rest", of=name, for_="8 h", at="room")
    text += step("mix", mix="dough", hands="10 min") + step("bulk", for_="1 h", at="room")
    made = planned(read_recipe(text).recipe)
    assert any("ready 5 min before it is used" in note for note in made.notes)
    assert entry(made, "Mix the poolish").start != entry(made, "Mix the soaker").start


def test_shortest_is_the_least_time_from_first_step_to_meal() -> None:
    """Hand calculation: 20 + 60 + 10 + 720 + 120 + 6 + 27 min."""
    assert shortest(pie()) == timedelta(minutes=963)


@pytest.mark.parametrize(
    ("eat", "what"),
    [
        (datetime(2026, 3, 29, 19, 0, tzinfo=LONDON), "forward"),
        (datetime(2026, 10, 25, 19, 0, tzinfo=LONDON), "back"),
        (datetime(2026, 10, 4, 19, 0, tzinfo=ZoneInfo("Australia/Sydney")), "forward"),
        (datetime(2026, 4, 5, 19, 0, tzinfo=ZoneInfo("Australia/Sydney")), "back"),
    ],
)
def test_a_night_of_23_or_25_hours_needs_no_special_case(eat: datetime, what: str) -> None:
    """Waits are elapsed hours: 24 h in the fridge are 24 h although the clock shows 23 or 25; said."""
    recipe = pie(bulk="1 h", retard="24 h", temper="2 h")
    made = planned(recipe, eat)
    assert objections(made, recipe) == []
    cold = entry(made, "Retard")
    assert (cold.ends.astimezone(UTC) - cold.starts.astimezone(UTC)) == timedelta(hours=24)
    shown = cold.ends.replace(tzinfo=None) - cold.starts.replace(tzinfo=None)
    assert shown == timedelta(hours=25 if what == "forward" else 23)
    assert any(f"the clocks go {what} 1 h" in note for note in made.notes)


def test_hours_awake_may_go_over_midnight() -> None:
    """A cook who is up from 15:00 to 03:00 works after midnight and not at noon."""
    recipe = pie(bulk="1 h to 3 h", retard="12 h to 40 h", temper="2 h")
    made = plan(recipe, kitchen(15.0, 3.0), eat=datetime(2026, 11, 28, 22, 0, tzinfo=LONDON))
    clocks = [one.start[11:16] for one in made.entries if not one.wait]
    assert all(clock >= "15:00" or clock < "03:00" for clock in clocks)
    assert made.awake == "between 15:00 and 03:00"


def test_a_sauce_that_simmers_leaves_the_hands_free() -> None:
    """Three hours on the stove with 15 minutes of hands go beside taking out and shaping."""
    text = (
        HEAD
        + DOUGH % ""
        + LEEKS.replace("leeks", "sauce", 1)
        + step("cook", mix="sauce", for_="3 h", hands="15 min")
        + step("mix", mix="dough", for_="10 min")
        + step("retard", for_="20 h", at="fridge")
        + step("temper", for_="2 h", at="room")
        + step("shape")
        + step("dress", with_='["sauce"]')
        + step("bake", for_="6 min", at="250 °C")
    )
    made = planned(read_recipe(text).recipe)
    sauce, out = entry(made, "Cook the sauce"), entry(made, "out of the fridge")
    assert sauce.starts < out.starts < sauce.ends


def test_a_topping_that_cannot_be_made_meanwhile_is_made_before_and_kept_cold() -> None:
    """Three hours of hands do not fit beside the rest: earlier that day, and the note says fridge."""
    recipe = pie(cook="3 h")
    made = planned(recipe)
    assert objections(made, recipe) == []
    assert any("put it in the fridge" in note for note in made.notes)


@pytest.mark.tree
def test_the_page_has_the_minutes_that_are_used() -> None:
    """Every verb of the table is named in ``docs/plan.md``."""
    page = (Path(__file__).parents[2] / "docs" / "plan.md").read_text(encoding="utf-8")
    rows = [line.split("|")[1] for line in page.splitlines() if line.startswith("| ")]
    named = {word.strip() for row in rows for word in row.split(",")}
    assert set(MINUTES) - named == {"preheat"}


def test_work_that_is_longer_than_a_day_is_named_and_no_meal_is_looked_for() -> None:
    """Forty hours at the stove end in a night whenever they begin."""
    with pytest.raises(NoPlanError) as caught:
        planned(pie(cook="40 h"))
    assert caught.value.nearest is None
    assert '"Cook the leeks" is longer than a day' in str(caught.value)


def test_the_refusal_as_json_has_the_nearest_meal_and_what_is_in_the_way() -> None:
    """Scripts read the same as the sentence says."""
    with pytest.raises(NoPlanError) as caught:
        planned(pie(rest="12 h", bulk="1 h", retard="24 h"))
    out = caught.value.to_json()
    assert out["nearest"] == "2026-11-28T15:15:00+00:00"
    assert [one["what"] for one in out["in_the_way"]] == ["Mix the poolish"]  # type: ignore[attr-defined]


def test_planning_loads_no_arrays() -> None:
    """The plan itself is whole minutes: neither NumPy nor the calendar's library comes with it."""
    code = "import sys, doughwright.plan.timeline; print({'numpy', 'scipy', 'icalendar'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"


def test_each_of_two_doughs_is_divided_as_its_own_step_says() -> None:
    """Three of one and two of the other, not two of both."""
    mix = '[[mix]]\nname = "{}"\ningredients = [ {{ item = "bread flour", amount = "500 g" }} ]\n'
    text = 'schema = 1\ntitle = "Two"\n[makes]\npieces = 3\n' + mix.format("light") + mix.format("dark")
    for name, pieces in (("light", ""), ("dark", "pieces = 2\n")):
        text += f'[[step]]\ndo = "mix"\nmix = "{name}"\nfor = "5 min"\n'
        text += f'[[step]]\ndo = "divide"\nof = "{name}"\n{pieces}'
        text += f'[[step]]\ndo = "bake"\nof = "{name}"\nfor = "20 min"\nat = "230 °C"\n'
    recipe = read_recipe(text).recipe
    meal = datetime(2026, 11, 28, 19, 0, tzinfo=ZoneInfo("Europe/London"))
    said = [one.what for one in plan(recipe, surroundings(None), eat=meal).entries]
    assert "Divide the light into 3" in said
    assert "Divide the dark into 2" in said


def test_a_plan_of_two_doughs_names_them_and_speaks_of_the_one_that_is_not_ripe() -> None:
    """Each wait and bake says which dough; of several doughs the first that is not ripe is read."""
    recipe = read_recipe(TWO_DOUGHS).recipe
    kitchen = surroundings(None)
    made = plan(recipe, kitchen, eat=TWO_AT, run_days=lambda one: days(one, kitchen))
    says = [(entry.mix, entry.what) for entry in made.entries if entry.what.startswith(("Bake", "Bulk"))]
    assert len(says) == 4
    assert all(mix is not None and f"({mix})" in what for mix, what in says)
    assert made.dough is not None
    assert made.dough.state == "young"


TWO_AT = datetime(2026, 12, 5, 19, 0, tzinfo=ZoneInfo("Europe/London"))
TWO_DOUGHS = """schema = 1
title = "Two"
[makes]
pieces = 2
shape = "ball"
""" + "".join(
    f"""[[mix]]
name = "{name}"
ingredients = [
  {{ item = "bread flour", amount = "300 g" }},
  {{ item = "water", amount = "195 g" }},
  {{ item = "instant yeast", amount = "{yeast}" }},
]
[[step]]
do = "mix"
mix = "{name}"
for = "8 min"
[[step]]
do = "bulk"
of = "{name}"
for = "2 h"
at = "room"
[[step]]
do = "bake"
of = "{name}"
for = "20 min"
at = "220 °C"
"""
    for name, yeast in (("light", "2.5 g"), ("dark", "0.5 g"))
)
