"""Learning a kitchen and its yeast from a cook's own readings: a Bayesian update of what is not known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from doughwright.errors import Fault, InputError
from doughwright.forecast._contents import lines_within, need_yeast
from doughwright.forecast._order import dough_named
from doughwright.forecast.calibrate._odd import jar_bands, odd_readings, seen_readings
from doughwright.forecast.calibrate._readings import likelihood_of
from doughwright.forecast.calibrate._sample import sampled
from doughwright.forecast.calibrate._told import (
    learnt_alone,
    learnt_together,
    not_learnt,
    told,
    update_of,
)
from doughwright.forecast.calibrate.results import Calibrated
from doughwright.kitchen.learning import with_learnt
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.read import KitchenDocument
from doughwright.kitchen.readings.taken import Taken
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import weigh

__all__ = ["calibrate"]


def calibrate(
    recipe: Recipe,
    kitchen: KitchenDocument | None,
    readings: Taken,
    *,
    called: str,
    dough: str | None = None,
    seed: int = 0,
) -> Calibrated:
    """What these readings of a dough, the first where none is named, teach of a kitchen and its yeast.

    What the kitchen has learnt before is where it begins, unless that is from these very readings. Raises
    ``InputError`` where it has learnt from them among others, ``NoAnswerError`` where they do not settle.
    """
    said = list(readings.said)
    before = _before(kitchen.kitchen if kitchen is not None else None, called, said)
    name = dough_named(recipe, dough)
    need_yeast(name, lines_within(weigh(recipe), name))
    likelihood = likelihood_of(recipe, name, before, readings)
    sample = sampled(likelihood, seed)
    found = told(sample)
    learnt = before.learnt if before is not None else None
    sources = [*(learnt.from_ if learnt is not None else ()), called]
    update = update_of(found, sources, learnt.names if learnt is not None else ())
    some = sample.chains.points[:, :: max(1, sample.chains.points.shape[1] // 512)]
    predicted = sample.likelihood.predicted(sample.likelihood.turned_back(some))
    return Calibrated(
        readings=called,
        learnt=learnt_alone(found),
        together=learnt_together(found),
        not_learnt=not_learnt(found),
        odd=tuple(odd_readings(sample.likelihood, predicted)),
        seen=tuple(seen_readings(sample.likelihood, predicted)),
        bands=jar_bands(likelihood, sample.likelihood, sample.chains.points, seed),
        rhat=round(sample.rhat, 4),
        effective=float(np.floor(sample.effective)),
        draws=int(np.prod(sample.chains.draws.shape[1:])),
        said=tuple(dict.fromkeys(said)),
        document=with_learnt(kitchen.text, update) if kitchen is not None and update.names else None,
        update=update,
    )


def _before(kitchen: Kitchen | None, called: str, said: list[str]) -> Kitchen | None:
    """The kitchen as it was before these readings."""
    if kitchen is None or kitchen.learnt is None or called not in kitchen.learnt.from_:
        return kitchen
    if kitchen.learnt.from_ != (called,):
        raise InputError(
            Fault(
                f'the kitchen has learnt from "{called}" already', wanted="readings that are new to it",
                try_="Take [learnt] out of its document, and learn from each of its readings again",
            )
        )  # fmt: skip
    said.append("what the kitchen had learnt from these readings is learnt anew")
    return replace(kitchen, learnt=None)
