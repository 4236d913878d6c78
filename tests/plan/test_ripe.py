"""The chosen waits are run through the days; where the last wait allows it, the dough is ripe."""

from __future__ import annotations

from datetime import datetime
from types import SimpleNamespace
from typing import Any
from zoneinfo import ZoneInfo

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast.days import days
from doughwright.kitchen.assumed import surroundings
from doughwright.plan.model import Plan
from doughwright.plan.timeline import plan
from doughwright.recipe.model import Recipe
from tests.plan.checker import objections
from tests.plan.recipes import pie

EAT = datetime(2026, 11, 28, 19, 0, tzinfo=ZoneInfo("Europe/London"))
KITCHEN = surroundings(None)


def run_as_if(low: float, high: float | None, seen: list[float]) -> Any:
    """Days in which the dough is ripe if its last wait takes from ``low`` to ``high`` hours."""

    def run(recipe: Recipe) -> Any:
        number, last = [(n, s) for n, s in enumerate(recipe.steps) if s.do == "temper"][-1]
        took = last.for_.middle / 3600.0 if last.for_ else 0.0
        seen.append(took)
        state = "young" if took < low else "past" if high is not None and took > high else "ripe"
        event = SimpleNamespace(verb="temper", start=30.0, end=30.0 + took, step=number)
        judged = SimpleNamespace(state=state, state_why=f"{took:.2f} h")
        window = SimpleNamespace(from_=30.0 + low, to=None if high is None else 30.0 + high)
        one = SimpleNamespace(judged=judged, judged_at=30.0 + took, events=(event,), ripe_window=window)
        return SimpleNamespace(runs=(one,))

    return run


def planned(run: Any, **waits: str) -> Plan:
    return plan(pie(**waits), KITCHEN, eat=EAT, run_days=run)  # type: ignore[arg-type]


def test_the_last_wait_is_moved_so_that_the_dough_is_ripe() -> None:
    """In the middle (2 h) it would be young; from 2 h 30 min on it is ripe, and 2 h 30 min is taken."""
    seen: list[float] = []
    made = planned(run_as_if(2.5, None, seen), temper="1 h to 3 h")
    assert seen == [2.0, 2.5]
    assert made.dough is not None
    assert made.dough.state == "ripe"
    assert [one.chosen.value for one in made.chosen][-1] == 2.5


def test_a_wait_is_not_stretched_beyond_its_range_for_ripeness() -> None:
    """It stays as it was, and the plan says what the dough would need."""
    made = planned(run_as_if(5.0, 6.0, []), temper="1 h to 3 h")
    assert made.dough is not None
    assert made.dough.state == "young"
    assert "took from 5 h to 6 h" in made.notes[0]
    assert [one.chosen.value for one in made.chosen][-1] == 2.0


def test_the_night_goes_before_ripeness() -> None:
    """Ripe only if taken out after the first piece is in: no plan by day would have it, so it is not done."""
    breakfast = datetime(2026, 11, 28, 8, 45, tzinfo=ZoneInfo("Europe/London"))
    recipe = pie(temper="30 min to 3 h", retard="10 h to 40 h")
    made = plan(recipe, KITCHEN, eat=breakfast, run_days=run_as_if(2.5, None, []))
    assert all(not one.night for one in made.entries)
    assert made.dough is not None
    assert made.dough.state == "young"


def test_days_that_have_no_answer_leave_the_plan_and_say_why() -> None:
    """A dough without yeast is planned all the same."""

    def no_days(recipe: Recipe) -> Any:
        raise NoAnswerError(Fault('"dough" has no yeast'))

    made = planned(no_days)
    assert made.dough is None
    assert made.dough_why == '"dough" has no yeast.'


def test_without_days_the_plan_says_that_they_were_not_run() -> None:
    """Nothing is claimed about a dough nobody looked at."""
    made = plan(pie(), KITCHEN, eat=EAT)
    assert (made.dough, made.dough_why) == (None, "the days were not run")


def test_the_reading_is_that_of_the_days_at_the_plans_own_times() -> None:
    """The real model, run once more on the recipe the plan hands back, says the same."""
    made = plan(pie(), KITCHEN, eat=EAT, run_days=lambda one: days(one, KITCHEN))
    assert made.recipe is not None
    assert made.dough == days(made.recipe, KITCHEN).runs[0].judged


def test_all_waits_move_where_the_last_one_cannot() -> None:
    """In the middle of its ranges this dough is past with the real model; earlier, by day, it is ripe."""
    recipe = pie(rest="10 h to 16 h", bulk="30 min to 3 h", retard="8 h to 60 h")
    stays = plan(recipe, KITCHEN, eat=EAT, run_days=lambda one: days(one, KITCHEN), mend=False)
    made = plan(recipe, KITCHEN, eat=EAT, run_days=lambda one: days(one, KITCHEN))
    assert stays.dough is not None and made.dough is not None
    assert (stays.dough.state, made.dough.state) == ("past", "ripe")
    assert objections(made, recipe) == []
    assert "so that the dough is ripe" in made.notes[0]


def test_a_dough_that_no_range_makes_ripe_stays_where_the_day_puts_it() -> None:
    """Both ends are tried; the plan is as without, and says that the dough will be past."""
    recipe = pie(rest="10 h to 16 h", bulk="3 h to 4 h", retard="40 h to 60 h")
    stays = plan(recipe, KITCHEN, eat=EAT, run_days=lambda one: days(one, KITCHEN), mend=False)
    assert plan(recipe, KITCHEN, eat=EAT, run_days=lambda one: days(one, KITCHEN)) == stays
    assert "the dough will be past" in stays.notes[0]
