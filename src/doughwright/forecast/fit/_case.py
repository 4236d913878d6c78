"""One question to fit: the documents, the two kitchens, what is wanted, and the search for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from doughwright.forecast._course import Setting
from doughwright.forecast._edits import with_changes, yeast_lines
from doughwright.forecast._moments import clock_of
from doughwright.forecast._order import dough_named
from doughwright.forecast.days import run_of
from doughwright.forecast.fit._bench import RIPE, Bench
from doughwright.forecast.fit._choose import Search
from doughwright.forecast.fit._levers import levers_of
from doughwright.forecast.fit._measure import Wanted, measured, measured_run, wanted
from doughwright.forecast.fit._places import moved_places
from doughwright.forecast.fit._schedule import Schedule
from doughwright.forecast.fit.results import Limits
from doughwright.forecast.many import many
from doughwright.forecast.results import Run
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.parameters import Parameters


@dataclass(frozen=True)
class Case:
    """A recipe to be fitted; ``placed`` is the same with places of this kitchen.

    ``run_own`` and ``run_here`` are its days in either kitchen, as written. ``aim`` is what is wanted by the
    run of many lanes, ``shown`` by the days in full.
    """

    document: RecipeDocument
    placed: RecipeDocument
    dough: str
    own: Surroundings
    here: Surroundings
    limits: Limits
    name: str | None
    parameters: Parameters
    aim: Wanted
    shown: Wanted
    run_own: Run
    run_here: Run

    def search(self) -> Search:
        """The search in this kitchen."""
        recipe = self.placed.recipe
        warmth = self.run_here.dough_temperature.value
        levers = levers_of(recipe, self.dough, warmth=warmth, limits=self.limits)
        schedule = Schedule(recipe, self.dough, self.here.awake, self.limits)
        night = schedule.at_night(levers.designs(np.zeros((1, len(levers.every)))))
        return Search(
            bench=Bench(recipe, self.dough, self.here, self.parameters, self.aim, levers),
            schedule=replace(schedule, night=night),
            grams=1000.0 * sum(line.mass or 0.0 for _, line in yeast_lines(recipe, self.dough)),
            scale=1000.0 * self.here.scale,
        )

    def days(self, recipe: Recipe) -> Run:
        """The days of a recipe's dough in this kitchen."""
        return _days(recipe, self.dough, self.here, self.parameters)


def case_of(
    document: RecipeDocument,
    own: Surroundings,
    here: Surroundings,
    *,
    limits: Limits,
    dough: str | None,
    name: str | None,
) -> Case:
    """A question to fit; raises ``UnknownNameError`` for a dough or a lever that is not there."""
    p = Parameters()
    which = dough_named(document.recipe, dough)
    moves = list(moved_places(document.recipe, own, here))
    placed = (
        read_recipe(with_changes(document.document, moves), document.document.file) if moves else document
    )
    run_own = _days(document.recipe, which, own, p)
    run_here = _days(placed.recipe, which, here, p)
    target = run_own.target
    ran = many(document.recipe, own, p, count=1, dough=which, every=20.0)
    ripe = bool(ran.judged.state[0] == RIPE)
    aim = wanted(measured(ran, p)[0], ripe=ripe, low=target.low, high=target.high)
    shown = wanted(measured_run(run_own, p), ripe=ripe, low=target.low, high=target.high)
    return Case(document, placed, which, own, here, limits, name, p, aim, shown, run_own, run_here)


def _days(recipe: Recipe, dough: str, kitchen: Surroundings, parameters: Parameters) -> Run:
    setting = Setting(recipe, kitchen, weigh(recipe), parameters, clock=clock_of(recipe))
    return run_of(setting, dough)
