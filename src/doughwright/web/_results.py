"""All that follows from a recipe's text in a kitchen, worked out once and kept by its text."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import lru_cache, partial
from typing import TypeVar
from zoneinfo import ZoneInfo

from doughwright.errors import DoughwrightError, Fault, InputError
from doughwright.forecast.days import days
from doughwright.forecast.results import Days, Run
from doughwright.forecast.water import Water, water
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.plan.meal import next_meal, parse_eat
from doughwright.plan.model import Plan
from doughwright.plan.timeline import plan, shortest
from doughwright.publish.band import all_events, run_clock
from doughwright.publish.card import plan_clock
from doughwright.publish.cautions import Caution, cautions
from doughwright.publish.clock import Clock
from doughwright.recipe.formula import Formula, formula
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.store import Bench

T = TypeVar("T")
_KEPT = 64
# A plan is worked out anew when this much time has passed: its first step may be past by then.
_STILL_NOW = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class Occasion:
    """When it is, on whose clocks, and which meal the cook asks for (empty: the recipe's own, next).

    ``wide_only``: the window is wide, so the pictures for phones need not be drawn again.
    """

    now: datetime
    zone: ZoneInfo
    eat: str = ""
    wide_only: bool = False

    def settled(self) -> Occasion:
        """The same to a few minutes, so that what was worked out can be used again."""
        whole = self.now.timestamp() // _STILL_NOW.total_seconds() * _STILL_NOW.total_seconds()
        return Occasion(datetime.fromtimestamp(whole, UTC), self.zone, self.eat)


@dataclass(frozen=True)
class Results:
    """A recipe in a kitchen: what was read and what follows. What has no answer says why in ``missing``.

    ``runs`` are the days at the waits that the plan chose; ``meal`` is the meal planned for, where known.
    """

    read: RecipeDocument
    kitchen: Surroundings
    kitchen_file: str | None
    kitchen_fault: Fault | None
    formula: Formula
    waters: tuple[Water, ...]
    runs: tuple[Run, ...]
    cautions: tuple[Caution, ...]
    plan: Plan | None
    meal: datetime | None
    missing: dict[str, DoughwrightError]

    @property
    def recipe(self) -> Recipe:
        """The recipe itself."""
        return self.read.recipe

    @property
    def shown(self) -> Recipe:
        """The recipe whose days are shown: with every wait at what the plan chose, where there is a plan."""
        return self.plan.recipe if self.plan is not None and self.plan.recipe is not None else self.recipe

    @property
    def run(self) -> Run | None:
        """The days of the first dough, where it has any."""
        return self.runs[0] if self.runs else None

    def clock(self, run: Run) -> Clock:
        """The sheet's clock on a run's hours: the plan's where there is one, else back from the meal."""
        if self.plan is not None and run is self.run:
            return plan_clock(self.plan, run)
        assumed = run_clock(run, self.shown)
        if self.meal is None:
            return assumed
        ends = max((one.end for one in all_events(run, self.shown)), default=0.0)
        zero = self.meal.astimezone(UTC) - timedelta(minutes=round(ends * 60.0))
        return Clock(zero, self.meal.tzinfo or UTC, dated=True, said=assumed.said)


@dataclass(frozen=True, slots=True)
class _Around:
    """The kitchen of a recipe: the file that it names, and that file's text."""

    named: str | None
    file: str | None
    text: str | None


def results_of(text: str, file: str, bench: Bench, occasion: Occasion) -> Results:
    """What follows from a text on this bench; raises ``DocumentError`` where the text cannot be read."""
    named = _read(text, file).recipe.kitchen
    found: str | None = None
    if named is not None:
        found = next((one for one in bench.names("kitchen") if one.casefold() == named.casefold()), None)
    kitchen_text = bench.head("kitchen", found).text if found is not None else None
    return _results(text, file, _Around(named, found, kitchen_text), occasion.settled())


def results_in(text: str, file: str, kitchen_file: str, kitchen_text: str, occasion: Occasion) -> Results:
    """What follows from a text in a kitchen of this text, whatever is saved; raises as ``results_of``."""
    return _results(text, file, _Around(kitchen_file, kitchen_file, kitchen_text), occasion.settled())


def kitchens_of(bench: Bench) -> tuple[tuple[str, str], ...]:
    """The kitchens of the bench: the file, and what each is called (the file where it has faults)."""
    return tuple((head.name, _kitchen_title(head.text, head.name)) for head in bench.heads("kitchen"))


@lru_cache(maxsize=_KEPT)
def _kitchen_title(text: str, file: str) -> str:
    try:
        return read_kitchen(text, file).kitchen.kitchen
    except InputError:
        return file


def read_of(text: str, file: str) -> RecipeDocument | None:
    """The recipe of a text with its document; ``None`` where it cannot be read."""
    try:
        return _read(text, file)
    except InputError:
        return None


@lru_cache(maxsize=_KEPT)
def _read(text: str, file: str) -> RecipeDocument:
    return read_recipe(text, file)


@lru_cache(maxsize=_KEPT)
def _results(text: str, file: str, around: _Around, occasion: Occasion) -> Results:
    read = _read(text, file)
    recipe = read.recipe
    kitchen, fault = _kitchen(around)
    missing: dict[str, DoughwrightError] = {}
    made, waters = _of_kitchen(recipe, around)
    meal = _tried(missing, "plan", lambda: _meal(recipe, occasion))
    planned = None
    if meal is not None:
        planned = _tried(missing, "plan", lambda: _plan(recipe, around, meal, occasion.now))
    shown = planned.recipe if planned is not None and planned.recipe is not None else recipe
    found = _tried(missing, "days", lambda: _days(shown, around))
    return Results(
        read=read,
        kitchen=kitchen,
        kitchen_file=around.file,
        kitchen_fault=fault,
        formula=made,
        waters=waters,
        runs=found.runs if found is not None else (),
        cautions=cautions(shown, kitchen, found),
        plan=planned,
        meal=meal,
        missing=missing,
    )


@lru_cache(maxsize=_KEPT)
def _of_kitchen(recipe: Recipe, around: _Around) -> tuple[Formula, tuple[Water, ...]]:
    kitchen, _ = _kitchen(around)
    waters = [_tried({}, "water", partial(water, recipe, kitchen, mix.name)) for mix in recipe.doughs]
    return formula(recipe, kitchen), tuple(one for one in waters if one is not None)


def _meal(recipe: Recipe, occasion: Occasion) -> datetime:
    if occasion.eat:
        return parse_eat(occasion.eat, occasion.zone, occasion.now).at
    return next_meal(recipe.makes.eat, occasion.zone, occasion.now + shortest(recipe)).at


@lru_cache(maxsize=_KEPT)
def _plan(recipe: Recipe, around: _Around, meal: datetime, now: datetime) -> Plan:
    kitchen, _ = _kitchen(around)
    return plan(
        recipe, kitchen, eat=meal, now=now if meal > now else None, run_days=lambda one: _days(one, around)
    )


@lru_cache(maxsize=_KEPT)
def _days(recipe: Recipe, around: _Around) -> Days:
    return days(recipe, _kitchen(around)[0])


@lru_cache(maxsize=_KEPT)
def _kitchen(around: _Around) -> tuple[Surroundings, Fault | None]:
    """The kitchen that the recipe names; the middle of the population where it cannot be had, and why."""
    if around.named is None:
        return surroundings(None), None
    if around.file is None or around.text is None:
        return surroundings(None), Fault(f'this bench has no kitchen "{around.named}"')
    try:
        return surroundings(read_kitchen(around.text, around.file).kitchen), None
    except InputError:
        return surroundings(None), Fault(f"the kitchen {around.file} has faults")


def _tried(missing: dict[str, DoughwrightError], what: str, work: Callable[[], T]) -> T | None:
    """The result, or why there is none."""
    try:
        return work()
    except DoughwrightError as error:
        missing[what] = error
        return None
