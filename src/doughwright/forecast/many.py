"""The days of a recipe in many kitchens at once: what each dough is when it is judged, and before that."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.forecast._amounts import Changes, Weighing
from doughwright.forecast._course import Mark, Setting, course_of
from doughwright.forecast._judge import Codes, Judge, target_of
from doughwright.forecast._moments import clock_of, dough_of, judged_mark
from doughwright.forecast._wait import row
from doughwright.forecast.results import Target
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.kernels.layout import Stepping, fit_lanes
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array

NODES = 10
"""Shells of a piece in many kitchens: with steps of 6 min they hold 1 % of the rise and 0.2 K."""

STEPPING = Stepping(first=30.0, growth=1.6, longest=360.0, settling=5400.0, slowest=900.0)
"""How many kitchens cut time; see docs/convergence.md."""

NOT_KEPT = 1.0e6


@dataclass(frozen=True, slots=True)
class Judged:
    """Many doughs at the moment they are judged, arrays of shape (lanes,).

    ``time`` [h from the end of the dough's last mix step], ``rise`` [1], ``core``, ``edge``, ``mean`` [degC],
    ``gas`` [mL per 100 g flour], ``sugar`` [% of flour], ``tightness`` [1], ``made`` [mL per 100 g flour],
    ``leaked`` [share of that]; ``state`` 0 young, 1 ripe, 2 past.
    """

    time: Array
    rise: Array
    core: Array
    edge: Array
    mean: Array
    gas: Array
    sugar: Array
    tightness: Array
    made: Array
    leaked: Array
    state: Codes


@dataclass(frozen=True, slots=True)
class Many:
    """A dough's days in ``count`` kitchens, arrays of shape (points, lanes) up to the judged moment.

    ``time`` [h from the end of the dough's last mix step], ``rise`` [1], ``core``, ``edge``, ``mean`` [degC],
    ``sugar`` [% of flour], ``leaked`` [share of the gas made], and the ``states`` of those points;
    ``entered`` [degC] is what each began its days at, shape (lanes,).
    """

    count: int
    target: Target
    time: Array
    rise: Array
    core: Array
    edge: Array
    mean: Array
    sugar: Array
    leaked: Array
    states: Codes
    judged: Judged
    entered: Array


def many(
    recipe: Recipe,
    kitchen: Surroundings,
    parameters: Parameters,
    *,
    count: int,
    changes: Changes | None = None,
    weighing: Weighing | None = None,
    dough: str | None = None,
    every: float | None = 15.0,
    computed: bool = False,
    threads: int | None = None,
) -> Many:
    """Run a dough of a recipe, the first where none is named, in ``count`` kitchens.

    Any value of ``kitchen``, ``parameters``, ``changes`` and ``weighing`` may be an array of shape (count,).
    ``every`` [min] is how often a point is kept, ``None`` keeps only the ends of waits; with ``computed``
    each dough is as warm as its kitchen makes it, whatever the recipe wants. Raises as ``days`` does.
    """
    setting = setting_of_many(
        recipe,
        kitchen,
        parameters,
        count=count,
        changes=changes,
        weighing=weighing,
        every=every,
        computed=computed,
        threads=threads,
    )
    course = course_of(setting, dough or recipe.doughs[0].name)
    mark = course.marks[judged_mark(recipe, course)]
    judge = Judge(target_of(recipe), parameters)
    rows = course.rows[: mark.rows]
    return Many(
        count=count,
        target=judge.target,
        time=rows[:, 0],
        rise=rows[:, 4],
        core=rows[:, 1],
        edge=rows[:, 2],
        mean=rows[:, 3],
        sugar=rows[:, 7],
        leaked=rows[:, 10],
        states=judge.codes(rows[:, 4], rows[:, 10], rows[:, 7]),
        judged=judged_at(mark, judge),
        entered=fit_lanes(value=course.entered, lanes=count),
    )


def setting_of_many(
    recipe: Recipe,
    kitchen: Surroundings,
    parameters: Parameters,
    *,
    count: int,
    changes: Changes | None = None,
    weighing: Weighing | None = None,
    every: float | None = 15.0,
    computed: bool = False,
    threads: int | None = None,
) -> Setting:
    """What a course in many kitchens is run with; see ``many``."""
    return Setting(
        recipe=recipe,
        kitchen=kitchen,
        weighed=weigh(recipe),
        parameters=parameters,
        stepping=STEPPING,
        nodes=NODES,
        lanes=count,
        changes=changes or Changes(),
        weighing=weighing or Weighing(),
        computed=computed,
        every=NOT_KEPT if every is None else every,
        clock=clock_of(recipe),
        threads=threads,
    )


def judged_at(mark: Mark, judge: Judge) -> Judged:
    """The doughs at a mark, judged."""
    at = row(mark.time, dough_of(mark), mark.where.air)
    time, core, edge, mean, rise, gas, _, sugar, tightness, made, leaked = at
    state = judge.codes(rise, leaked, sugar)
    return Judged(time, rise, core, edge, mean, gas, sugar, tightness, made, leaked, state)
