"""A recipe's plan: back from the meal through the steps, chosen within the ranges of the waits."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

from doughwright.errors import Fault, InputError
from doughwright.figures import Figure
from doughwright.kitchen.assumed import Surroundings
from doughwright.plan._awake import minute_of, moment_of
from doughwright.plan._chains import network
from doughwright.plan._entries import chosen, entries, lengths, with_texts
from doughwright.plan._mend import Mending, pinned
from doughwright.plan._notes import notes
from doughwright.plan._ripe import Outlook, RunDays, advice, outlook
from doughwright.plan._solve import Solution, solve
from doughwright.plan._why import Question, no_plan
from doughwright.plan._words import awake_says
from doughwright.plan.meal import zone_name
from doughwright.plan.model import Plan
from doughwright.recipe.model import Recipe

MENDED = "the waits are moved from the middle of their ranges so that the dough is ripe"


def plan(
    recipe: Recipe,
    surroundings: Surroundings,
    *,
    eat: datetime,
    now: datetime | None = None,
    run_days: RunDays | None = None,
    mend: bool = True,
) -> Plan:
    """Plan a recipe back from a meal.

    Every minute of work falls into the hours awake, every wait into its range; among those plans the waits
    are nearest the middle of their ranges, then shortest. ``run_days`` gives the days of a recipe; where the
    dough would not be ripe, ``mend`` moves its waits within their ranges so that it is, if that is to be had.
    Raises ``InputError`` where the recipe has no steps or the meal no zone, ``NoPlanError`` where no plan
    keeps the rules or its first step lies before ``now``: it says what is in the way and the nearest meal
    that works.
    """
    if eat.tzinfo is None or (now is not None and now.tzinfo is None):
        raise InputError(
            Fault("the meal", wanted="a moment with its zone", try_='Give --zone "Europe/London"')
        )
    asked = Question(network(recipe), minute_of(eat), eat.tzinfo, surroundings.awake, _up(now))
    solution = solve(asked.meal, asked.at, asked.rules(strict=True))
    if solution is None:
        raise no_plan(asked)
    first = outlook(pinned(recipe, lengths(solution, recipe)), run_days)
    if not mend or run_days is None or first.ripe:
        return _told(recipe, asked, solution, first)
    made = _told(recipe, asked, *Mending(recipe, asked, run_days).found(solution, first))
    moved = made.dough is not None and made.dough.state == "ripe"
    return replace(made, notes=(MENDED, *made.notes)) if moved else made


def shortest(recipe: Recipe) -> timedelta:
    """The least time from the first step to the meal, nights not counted."""
    return timedelta(minutes=network(recipe).shortest)


def _up(now: datetime | None) -> int | None:
    """The first whole minute that is not past."""
    return None if now is None else -int(-now.timestamp() // 60)


def _told(recipe: Recipe, asked: Question, solution: Solution, found: Outlook) -> Plan:
    made = entries(solution, asked.zone, asked.rules(strict=True).awake)
    eat = moment_of(asked.at, asked.zone)
    said = list(notes(recipe, made, eat))
    if found.run is not None and not found.ripe:
        said.insert(0, advice(asked.meal, found.run))
    return Plan(
        title=recipe.title,
        eat=eat.isoformat(),
        zone=zone_name(asked.zone),
        start=made[0].start,
        awake=awake_says(asked.hours),
        entries=with_texts(made, recipe),
        hands_on_total=Figure(sum(one.hands_on.value or 0.0 for one in made), "min"),
        length=Figure((asked.at - solution.start) / 60.0, "h"),
        chosen=chosen(solution, recipe),
        dough=found.reading,
        dough_why=found.why,
        notes=tuple(said),
        recipe=pinned(recipe, lengths(solution, recipe)),
    )


__all__ = ["RunDays", "pinned", "plan", "shortest"]
