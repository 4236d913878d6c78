"""How sure the days are: 90 % intervals from what is not known of one kitchen, its yeast and its dough."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from doughwright.forecast._amounts import Changes, Weighing
from doughwright.forecast._contents import lines_within, main_protein
from doughwright.forecast._course import Course, Mark, Setting, course_of
from doughwright.forecast._judge import Judge, target_of
from doughwright.forecast._moments import judged_mark, last_mark_of
from doughwright.forecast._order import steps_of
from doughwright.forecast._window import lengthened, windows
from doughwright.forecast.many import Judged, judged_at, setting_of_many
from doughwright.forecast.results import Between, Days, Doubt, Reading, Run
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.population import Mixed, draw, kitchen_inputs
from doughwright.recipe.model import BAKES, Recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.parameters import Parameters
from doughwright.science.sampling.sobol import sobol
from doughwright.science.yeast import Array

DRAWS = 512
"""How many kitchens like this one an interval is taken from."""

ENDS = (5.0, 95.0)
"""Percentiles at the ends of an interval."""

QUANTILES = (5.0, 25.0, 50.0, 75.0, 95.0)
"""Percentiles of the rise over time."""

MEASURED = ("time", "core", "edge", "mean", "rise", "gas", "sugar", "tightness")


@dataclass(frozen=True, slots=True)
class Sampled:
    """A dough in ``count`` kitchens like one: its ``setting``, its ``course``, the mark it is judged at."""

    setting: Setting
    course: Course
    judge: Judge
    at: int
    count: int

    @property
    def moment(self) -> Mark:
        """When it is judged."""
        return self.course.marks[self.at]


def with_doubt(
    days: Days,
    recipe: Recipe,
    kitchen: Surroundings,
    *,
    seed: int,
    draws: int = DRAWS,
    threads: int | None = None,
) -> Days:
    """The days with an interval on each reading, by sampling; the same ``seed`` gives the same interval."""
    runs = [
        _doubted(run, doubt_of(recipe, kitchen, run.dough, seed=seed, draws=draws, threads=threads))
        for run in days.runs
    ]
    return Days(tuple(runs))


def _doubted(run: Run, doubt: Doubt) -> Run:
    """A run with its doubt; the run is one of those kitchens, so that no interval leaves it out."""
    window = run.ripe_window
    held = replace(
        doubt,
        judged=_held(doubt.judged, run.judged) or doubt.judged,
        at_shaping=_held(doubt.at_shaping, run.at_shaping),
        at_bake=_held(doubt.at_bake, run.at_bake),
        entered=_around(doubt.entered, run.dough_temperature.value),
        ripe_from=_around(doubt.ripe_from, window.from_),
        ripe_to=_around(doubt.ripe_to, window.to),
    )
    return replace(run, doubt=held)


def _held(between: Mapping[str, Between] | None, reading: Reading | None) -> Mapping[str, Between] | None:
    if between is None or reading is None:
        return between
    # Of a reading, gas is in mL per g of flour; of an interval, per 100 g.
    values = {name: getattr(reading, name) * (100.0 if name == "gas" else 1.0) for name in between}
    return {name: _around(ends, values[name]) or ends for name, ends in between.items()}


def _around(ends: Between | None, value: float | None) -> Between | None:
    return ends if ends is None or value is None else (min(ends[0], value), max(ends[1], value))


def doubt_of(
    recipe: Recipe,
    kitchen: Surroundings,
    dough: str,
    *,
    seed: int,
    draws: int = DRAWS,
    threads: int | None = None,
) -> Doubt:
    """How sure the days of one dough are; ``draws`` is best a power of two."""
    found = sampled(recipe, kitchen, dough, seed=seed, draws=draws, threads=threads)
    judged = judged_at(found.moment, found.judge)
    counts = np.bincount(judged.state, minlength=3)
    longer = lengthened(found.setting, found.course, found.at)
    begin, end = (None, None) if longer is None else windows(found.judge, longer)
    time, quantiles = _over_time(found)
    return Doubt(
        draws=draws,
        share=tuple((100.0 * counts / draws).tolist()),
        judged=_between(judged),
        at_shaping=_at(found, last_mark_of(found.course, ("shape",))),
        at_bake=_at(found, last_mark_of(found.course, BAKES)),
        entered=_ends(np.asarray(found.course.entered)),
        ripe_from=_ends(begin),
        ripe_to=_ends(end),
        time=time,
        quantiles=quantiles,
    )


def sampled(
    recipe: Recipe,
    kitchen: Surroundings,
    dough: str,
    *,
    seed: int,
    draws: int,
    parameters: Parameters | None = None,
    threads: int | None = None,
) -> Sampled:
    """A dough in many kitchens that are all this one, as far as it is known.

    ``parameters`` is the model's middle, the standard set where left out.
    """
    inputs = kitchen_inputs(kitchen, mixed=how_mixed(recipe, dough), parameters=parameters)
    points = sobol(count=draws, dimensions=len(inputs), seed=seed)
    protein = main_protein(lines_within(weigh(recipe), dough))
    drawn = draw(kitchen, points, inputs, protein=protein, parameters=parameters)
    setting = setting_of_many(
        recipe,
        drawn.surroundings,
        drawn.parameters,
        count=draws,
        changes=Changes(miss=drawn.miss),
        weighing=Weighing(**drawn.weighing),
        threads=threads,
    )
    course = course_of(setting, dough)
    judge = Judge(target_of(recipe), drawn.parameters)
    return Sampled(setting, course, judge, judged_mark(recipe, course), draws)


def how_mixed(recipe: Recipe, dough: str) -> Mixed:
    """How a dough's temperature is known: measured, aimed for, or only computed."""
    mixing = [step for _, step in steps_of(recipe, dough) if step.do == "mix"]
    if mixing and mixing[-1].dough_at is not None:
        return "measured"
    return "aimed" if recipe.target.dough_temperature is not None else "computed"


def _at(found: Sampled, mark: Mark | None) -> dict[str, Between] | None:
    return None if mark is None else _between(judged_at(mark, found.judge))


def _between(many: Judged) -> dict[str, Between]:
    ends = {name: _ends(getattr(many, name)) for name in MEASURED}
    return {name: both for name, both in ends.items() if both is not None}


def _ends(values: Array | None) -> Between | None:
    """The two ends, ``None`` where one of them is never or always."""
    if values is None:
        return None
    low, high = np.percentile(values, ENDS, method="closest_observation").tolist()
    return (low, high) if np.isfinite(low) and np.isfinite(high) else None


def _over_time(found: Sampled) -> tuple[tuple[float, ...], tuple[tuple[float, ...], ...]]:
    """The rise's quantiles at moments shared by all, up to the judged one."""
    rows = found.course.rows[: found.moment.rows]
    time, rise = rows[:, 0], rows[:, 4]
    if np.ptp(time, axis=1).max() > 1e-9:
        shared = np.linspace(0.0, float(np.median(time[-1])), len(time))
        rise = np.stack([np.interp(shared, time[:, n], rise[:, n]) for n in range(rise.shape[1])], axis=1)
        time = shared[:, None]
    quantiles = np.percentile(rise, QUANTILES, axis=1)
    return tuple(time[:, 0].tolist()), tuple(tuple(one.tolist()) for one in quantiles)
