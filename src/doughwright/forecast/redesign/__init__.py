"""Redesign: the free ranges of a recipe searched for the largest share of ripe kitchens."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast.elsewhere._figures import RIPE
from doughwright.forecast.elsewhere._kitchens import kitchens_of
from doughwright.forecast.elsewhere._said import said
from doughwright.forecast.elsewhere._watch import Progress, Stop, Watch
from doughwright.forecast.elsewhere.results import NORMAL_90
from doughwright.forecast.redesign._best import best_of, changes_in, trials_of
from doughwright.forecast.redesign._levers import NAMES
from doughwright.forecast.redesign._told import changed_of, fresh_run, outcome_of, text_of
from doughwright.forecast.redesign.results import Limits, Redesign
from doughwright.kitchen.assumed import Surroundings
from doughwright.kitchen.population import Readers, Season
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import RecipeDocument
from doughwright.science.sampling.sobol import sobol

__all__ = ["TRIES", "Limits", "Redesign", "redesign"]

TRIES = 768
"""Designs tried, when nobody says how many."""
EACH = 128
"""Kitchens that each design is tried in, always the same."""
FRESH = 4096
"""Kitchens, drawn anew, that the recipe and its redesign are judged in."""


def redesign(
    recipe: Recipe,
    *,
    limits: Limits | None = None,
    tries: int = TRIES,
    each: int = EACH,
    fresh: int = FRESH,
    season: Season = "year",
    aim: bool = False,
    seed: int = 0,
    dough: str | None = None,
    own: Surroundings | None = None,
    document: RecipeDocument | None = None,
    progress: Progress | None = None,
    stop: Stop | None = None,
) -> Redesign:
    """Search what the author of a recipe leaves free for the largest share of ripe kitchens.

    ``limits`` are the cook's. The result is judged in ``fresh`` kitchens that the search has not seen, beside
    the recipe as it is written; with ``document``, its text is edited. ``progress`` and ``stop`` are those of
    ``elsewhere``: a search that is stopped gives the best so far. Raises ``NoAnswerError`` where nothing is
    left free.
    """
    limits = limits or Limits()
    written = kitchens_of(recipe, readers=Readers(season=season, aim=aim), dough=dough, own=own)
    watch = Watch(tries * each + 2 * fresh, progress, stop)
    points = sobol(count=each, dimensions=written.inputs, seed=seed + 1)
    best = best_of(trials_of(written, limits, points, watch), tries, seed)
    changed = replace(best.trial.kitchens, changes=changes_in(best))
    before, after = (fresh_run(one, fresh, seed + 2, watch) for one in (written, changed))
    better = 100.0 * ((after.state == RIPE).astype(np.float64) - (before.state == RIPE))
    far = NORMAL_90 * float(np.std(better)) / np.sqrt(fresh)
    gain = float(np.mean(better))
    text, why = text_of(document, best, written)
    return Redesign(
        dough=written.dough,
        changes=changed_of(best, written),
        before=outcome_of(before, written),
        after=outcome_of(after, changed),
        gain=Figure(gain, "percent", gain - far, gain + far),
        tried=best.tried,
        kitchens=each,
        fresh=fresh,
        free=tuple(NAMES[lever.name] for lever in best.trial.levers),
        said=said(written),
        document=text,
        why=why,
        seconds=Figure(watch.seconds, "s"),
    )
