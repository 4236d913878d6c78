"""A recipe in many kitchens: how often it is young, ripe or past, and what that hangs on."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from doughwright.figures import Figure
from doughwright.forecast.elsewhere._explain import explained, full_runs
from doughwright.forecast.elsewhere._explain import full as full_indices
from doughwright.forecast.elsewhere._failing import failing
from doughwright.forecast.elsewhere._figures import RIPE, STATES, shares, spread
from doughwright.forecast.elsewhere._kitchens import kitchens_of
from doughwright.forecast.elsewhere._said import said
from doughwright.forecast.elsewhere._sample import Sample, sample
from doughwright.forecast.elsewhere._tell import ASKED, advice_for, told
from doughwright.forecast.elsewhere._watch import Progress, Stop, Watch
from doughwright.forecast.elsewhere.results import LEVELS, Elsewhere
from doughwright.forecast.printed import PrintedColumn, State
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.population import Readers, Season
from doughwright.recipe.model import Recipe

__all__ = ["BASE", "KITCHENS", "Elsewhere", "elsewhere"]

KITCHENS = 10_000
"""So many, when nobody says how many."""
BASE = 1024
"""Points of the design behind the full indices."""

Array = NDArray[np.float64]


def elsewhere(
    recipe: Recipe,
    *,
    kitchens: int = KITCHENS,
    season: Season = "year",
    aim: bool = False,
    full: bool = False,
    seed: int = 0,
    dough: str | None = None,
    own: Surroundings | None = None,
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> Elsewhere:
    """Run a recipe in kitchens drawn from the published population, each with its own yeast and dough.

    ``seed`` is the document's, so that the same document gives the same result; ``aim`` is for readers who
    aim for the recipe's dough temperature; ``own`` is the recipe's own kitchen: readers who measure their
    fridge set it to that one's, and a place that the recipe names (a proofing box) is as it is there.
    ``progress`` is told after each chunk, ``stop`` asked: a run that is stopped keeps what it has. Raises
    ``NoAnswerError`` where the days have no answer.
    """
    one = kitchens_of(recipe, readers=Readers(season=season, aim=aim), dough=dough, own=own)
    every = advice_for(one, own)
    advised, design = min(ASKED, kitchens) * len(every), full_runs(one, BASE) if full else 0
    watch = Watch(kitchens + advised + design, progress, stop)
    found = sample(one, count=kitchens, seed=seed, watch=watch)
    advice = told(one, found, every, watch)
    indices = full_indices(one, base=BASE, seed=seed, watch=watch) if full else None
    kept = slice(0, found.kept)
    ripe = (found.state[kept] == RIPE).astype(np.float64)
    return Elsewhere(
        dough=one.dough,
        kitchens=len(found.state),
        asked=kitchens,
        season=season,
        aim=aim,
        judged=one.target.judged,
        judged_at=spread(found.judged_at, "h"),
        target=(one.target.low, one.target.high),
        share=shares(found.state),
        explained_by=explained(found.points, found.rise[kept], one),
        ripe_explained_by=explained(found.points, ripe, one),
        quantiles=_fan(found),
        percentiles=PrintedColumn("ratio", tuple(round(float(at), 5) for at in _hundred(found.rise))),
        states=_states(found),
        rise=spread(found.rise, "ratio"),
        sugar=spread(found.sugar, "percent"),
        dough_temperature=spread(found.dough_temperature, "degC"),
        failing=failing(one, found, (one.target.low, one.target.high)),
        readers=advice,
        full=indices,
        seed=seed,
        said=said(one),
        seconds=Figure(watch.seconds, "s"),
    )


def _fan(found: Sample) -> dict[str, PrintedColumn]:
    rows = np.quantile(found.course, [level / 100.0 for level in LEVELS], axis=1)
    columns = {"time": PrintedColumn("h", tuple(round(float(at), 5) for at in found.time))}
    for level, row in zip(LEVELS, rows, strict=True):
        columns[str(level)] = PrintedColumn("ratio", tuple(round(float(at), 5) for at in row))
    return columns


def _hundred(values: Array) -> Array:
    """The middles of a hundred hundredths."""
    return np.asarray(np.quantile(values, (np.arange(100) + 0.5) / 100.0))


def _states(found: Sample) -> tuple[State, ...]:
    """The state of the kitchen that stands at each of the hundred places."""
    order = np.argsort(found.rise, kind="stable")
    places = ((np.arange(100) + 0.5) / 100.0 * len(order)).astype(np.intp)
    return tuple(STATES[number] for number in found.state[order[places]])
