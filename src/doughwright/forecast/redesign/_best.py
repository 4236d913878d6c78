"""The best design of a recipe: both orders of its steps looked at, the better one searched on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._amounts import Changes
from doughwright.forecast.elsewhere._kitchens import Kitchens
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.redesign._levers import hours_of, levers_of
from doughwright.forecast.redesign._order import other_order, reordered
from doughwright.forecast.redesign._search import Found, search
from doughwright.forecast.redesign._trial import Trial, rounded
from doughwright.forecast.redesign.results import Limits

Array = NDArray[np.float64]

FIRST_LOOK = 128
"""Designs tried in either order of the steps before one is chosen."""


@dataclass(frozen=True, slots=True)
class Best:
    """The best design of a search: its trial, the order of its steps, its values, how many were tried."""

    trial: Trial
    order: tuple[int, ...] | None
    values: tuple[float, ...]
    tried: int


def trials_of(
    written: Kitchens, limits: Limits, points: Array, watch: Watch
) -> list[tuple[tuple[int, ...] | None, Trial]]:
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
    return found


def best_of(trials: Sequence[tuple[tuple[int, ...] | None, Trial]], tries: int, seed: int) -> Best:
    """The best design: with two orders of steps both are looked at, and the better one is searched on."""
    (order, trial), spent, first = trials[0], 0, None
    if len(trials) > 1:
        look = min(FIRST_LOOK, tries // (2 * len(trials)))
        looked = [(*one, _searched(one[1], look, seed)) for one in trials]
        spent = sum(found.tried for _, _, found in looked)
        order, trial, first = max(looked, key=lambda one: one[2].value)
    found = _searched(trial, tries - spent, seed + 10, first)
    shares = [lever.value(found.point[[at]])[0] for at, lever in enumerate(trial.levers)]
    values = rounded(trial.levers, [float(one) for one in shares], trial.kitchens.yeast)
    return Best(trial, order, values, spent + found.tried)


def _searched(trial: Trial, budget: int, seed: int, first: Found | None = None) -> Found:
    start = trial.start if first is None else np.vstack([trial.start, first.point])
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
