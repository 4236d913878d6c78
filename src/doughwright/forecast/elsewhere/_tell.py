"""Tell the reader: how the share that is ripe moves if readers measure, or weigh more finely."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast._waits import waits_of
from doughwright.forecast.elsewhere._figures import RIPE
from doughwright.forecast.elsewhere._kitchens import Kitchens
from doughwright.forecast.elsewhere._sample import CHUNK, Sample
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.elsewhere.results import NORMAL_90, Told
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.inputs import AIMED, FINE_STEP, SET
from doughwright.kitchen.population import Readers

ASKED = CHUNK
"""Kitchens that each advice is tried in: the first of the run, so that only the advice differs."""


@dataclass(frozen=True, slots=True)
class Advice:
    """What readers are told, what it is taken to mean, and who they are then."""

    what: str
    means: str
    readers: Readers


def advice_for(kitchens: Kitchens, own: Surroundings | None) -> tuple[Advice, ...]:
    """What can be told the readers of a recipe; what they do already, or has no part in it, is left out.

    ``own`` is the recipe's own kitchen, whose fridge readers set theirs to.
    """
    who, cold = kitchens.readers, (own or surroundings(None)).place("fridge").value
    found = []
    if any(one.at.name == "fridge" for one in waits_of(kitchens.recipe, kitchens.dough)):
        means = f"where the dough stands it is set to {cold:.3g} °C, right to {SET.spread:g} °C"
        found.append(Advice("measure the fridge", means, replace(who, fridge=cold)))
    if kitchens.wanted is not None and not who.aim:
        means = f"they aim for {kitchens.wanted:.3g} °C and miss it by {AIMED.spread:g} °C"
        found.append(Advice("measure the dough", means, replace(who, aim=True)))
    if kitchens.yeast > 0.0 and not who.fine:
        means = f"their scale shows {FINE_STEP:g} g"
        found.append(Advice("weigh on a finer scale", means, replace(who, fine=True)))
    if len(found) > 1:
        everything = replace(
            who,
            fridge=cold if any(one.readers.fridge is not None for one in found) else None,
            aim=any(one.readers.aim for one in found),
            fine=any(one.readers.fine for one in found),
        )
        found.append(Advice("do all of these", "as above", everything))
    return tuple(found)


def told(kitchens: Kitchens, sample: Sample, every: tuple[Advice, ...], watch: Watch) -> tuple[Told, ...]:
    """The share that is ripe under each advice, by what it changes in the same kitchens."""
    points = sample.points[:ASKED]
    before = sample.state[: len(points)] == RIPE
    ripe = 100.0 * float(np.mean(sample.state == RIPE))
    found = []
    for advice in every:
        if watch.stopped:
            break
        after = replace(kitchens, readers=advice.readers, every=None).run(points).state == RIPE
        watch.add(len(points))
        moved = 100.0 * (after.astype(np.float64) - before)
        change = float(np.mean(moved))
        far = NORMAL_90 * float(np.std(moved)) / np.sqrt(len(moved))
        then = Figure(float(np.clip(ripe + change, 0.0, 100.0)), "percent")
        found.append(
            Told(advice.what, advice.means, then, Figure(change, "percent", change - far, change + far))
        )
    return tuple(found)
