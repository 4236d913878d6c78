"""The best design of a recipe: both orders of its steps looked at, the better one searched on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._amounts import Changes
from doughwright.forecast.elsewhere._kitchens import Kitchens
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.redesign._levers import hours_of, levers_of
from doughwright.forecast.redesign._order import other_order, reordered
from doughwright.forecast.redesign._search import Found, search
from doughwright.forecast.redesign._trial import Trial
from doughwright.forecast.redesign.results import Limits
from doughwright.science.sampling.sobol import sobol
from doughwright.units import format_time

Array = NDArray[np.float64]

Ordered: TypeAlias = tuple[tuple[int, ...] | None, Trial]
"""A trial with the order of its steps, ``None`` for the one that is written."""

FIRST_LOOK = 128
"""Designs tried in either order of the steps before one is chosen."""
FINALISTS, APART = 15, 0.04
"""How many of the best, so far apart, are tried once more."""
WIDER = 8
"""In so many times as many kitchens."""
WORTH_IT = 0.005
"""The share of ripe kitchens that a change must gain to be proposed."""


@dataclass(frozen=True, slots=True)
class Best:
    """The best design of a search: its trial, the order of its steps, its values, how many were tried."""

    trial: Trial
    order: tuple[int, ...] | None
    values: tuple[float, ...]
    tried: int


def trials_of(written: Kitchens, limits: Limits, points: Array, watch: Watch) -> list[Ordered]:
    """The recipe's own order of steps, and the other where dividing may be moved."""
    other = other_order(written.recipe, written.dough) if limits.divide == "either" else None
    found = []
    for order in [None, *([other] if other is not None else [])]:
        recipe = written.recipe if order is None else reordered(written.recipe, written.dough, order)
        kitchens = replace(written, recipe=recipe)
        aimed = written.wanted if written.readers.aim else None
        levers = levers_of(recipe, written.dough, limits=limits, yeast=written.yeast, aimed=aimed)
        if not levers:
            raise NoAnswerError(
                Fault("nothing is left free to search", try_="Give a wait a range, or widen a limit")
            )
        found.append((order, Trial(kitchens, levers, limits.total, points, watch)))
    _within_hours(found)
    return found


def _within_hours(trials: Sequence[Ordered]) -> None:
    """Refuse a total that no design can keep to."""
    for _, trial in trials:
        low, high = trial.hours
        if trial.total is None or (trial.total[0] <= high + 1e-6 and low <= trial.total[1] + 1e-6):
            return
    asked = trials[0][1].total or (0.0, 0.0)
    few, many = (format_time(3600.0 * end) for end in trials[0][1].hours)
    raise NoAnswerError(
        Fault(
            "no design keeps to the hours in all",
            wanted=f"a limit that leaves some of {few} to {many}",
            found=" to ".join(format_time(3600.0 * end) for end in asked),
            try_="Widen the limit of hours, or let a wait be shorter or longer",
        )
    )


def best_of(trials: Sequence[Ordered], tries: int, seed: int) -> Best:
    """The best design: with two orders of steps both are looked at, and the better one is searched on.

    What a search finds best in its own kitchens flatters it. So the last of the tries go into more kitchens
    that it has not seen, where the best few, as a recipe would say them, meet the recipe as it is written.
    """
    finalists = int(np.clip(tries // (4 * WIDER), 1, FINALISTS))
    left = max(tries - WIDER * (finalists + 1), 8)
    one, spent, first = trials[0], 0, None
    if len(trials) > 1:
        look = min(FIRST_LOOK, left // (2 * len(trials)))
        looked = [(each, _searched(each[1], look, seed)) for each in trials]
        spent = sum(found.tried for _, found in looked)
        one, first = max(looked, key=lambda each: float(each[1].values[0]))
    found = _searched(one[1], left - spent, seed + 10, first)
    few = [Best(one[1], one[0], one[1].values_of(point), 0) for point in found.apart(finalists, APART)]
    written = trials[0][1]
    few.append(Best(written, None, written.values_of(written.start), 0))
    best = _final(few, seed + 20)
    return replace(best, tried=spent + found.tried + WIDER * len(few))


def _final(few: Sequence[Best], seed: int) -> Best:
    """The best of a few in more kitchens; the last of them, as it is written, unless another gains by it."""
    first = few[0].trial
    points = sobol(count=WIDER * len(first.points), dimensions=first.kitchens.inputs, seed=seed)
    values = [
        float(replace(one.trial, points=points).value(one.trial.design_of(one.values)[np.newaxis])[0])
        for one in few
    ]
    best = int(np.argmax(values))
    return few[best] if values[best] > values[-1] + WORTH_IT or values[-1] < 0.0 else few[-1]


def _searched(trial: Trial, budget: int, seed: int, first: Found | None = None) -> Found:
    start = trial.start if first is None else np.vstack([trial.start, first.points[0]])
    return search(trial.value, dimensions=len(trial.levers), budget=budget, seed=seed, start=start)


def changes_in(best: Best) -> Changes:
    """The changes of the best design, the same in every kitchen."""
    by_name = dict(zip((lever.name for lever in best.trial.levers), best.values, strict=True))
    hours = {
        number: each
        for lever, value in zip(best.trial.levers, best.values, strict=True)
        for number, each in hours_of(lever, value).items()
    }
    return Changes(
        yeast=by_name.get("yeast", 1.0), hours=hours, dough_temperature=by_name.get("dough_temperature")
    )
