"""What a redesign comes to: the changes, the shares and costs in fresh kitchens, the changed text."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast._edits import temperature_edit, yeast_edit
from doughwright.forecast._waits import waits_of
from doughwright.forecast.elsewhere._figures import shares, spread
from doughwright.forecast.elsewhere._kitchens import Kitchens, Ran
from doughwright.forecast.elsewhere._sample import CHUNK, joined
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.redesign._best import Best
from doughwright.forecast.redesign._document import edited
from doughwright.forecast.redesign._levers import NAMES, hours_of
from doughwright.forecast.redesign.results import Changed, Outcome
from doughwright.recipe.edit import Change
from doughwright.recipe.read import RecipeDocument
from doughwright.science.sampling.sobol import sobol
from doughwright.units import format_time

UNITS: dict[str, str] = {"yeast": "g", "room": "h", "cold": "h", "temper": "h", "dough_temperature": "degC"}


def fresh_run(kitchens: Kitchens, count: int, seed: int, watch: Watch) -> Ran:
    """A recipe in kitchens that no search has seen."""
    parts = []
    for first in range(0, count, CHUNK):
        size = min(CHUNK, count - first)
        drawn = sobol(count=size, dimensions=kitchens.inputs, seed=seed, first=first)
        parts.append(replace(kitchens, every=None).run(drawn).judged_only())
        watch.add(size)
    return joined(parts)


def outcome_of(ran: Ran, kitchens: Kitchens) -> Outcome:
    """The shares that come of a recipe, and what it costs."""
    cold = [one for one in waits_of(kitchens.recipe, kitchens.dough) if one.cold]
    hours = sum(float(np.mean(kitchens.changes.hours.get(one.number, one.hours))) for one in cold)
    return Outcome(
        share=shares(ran.state),
        rise=spread(ran.rise, "ratio"),
        sugar=spread(ran.sugar, "percent"),
        hours=spread(ran.judged_at, "h"),
        cold_hours=Figure(hours, "h"),
    )


def changed_of(best: Best, written: Kitchens) -> tuple[Changed, ...]:
    """What differs from the recipe as it is written, each with what it was."""
    found = []
    for lever, value in zip(best.trial.levers, best.values, strict=True):
        times = written.yeast if lever.name == "yeast" else 1.0
        if abs(value - lever.now) * times > 1e-6:
            unit = UNITS[lever.name]
            before, after = Figure(lever.now * times, unit), Figure(value * times, unit)
            found.append(Changed(NAMES[lever.name], before, after))
    if best.order is not None:
        early, late = "before the cold", "after the cold"
        now, then = (early, late) if _divides_before(written) else (late, early)
        found.append(Changed("dividing", now, then))
    return tuple(found)


def _divides_before(written: Kitchens) -> bool:
    """Whether the recipe as written divides before its cold wait."""
    cold = next(one.number for one in waits_of(written.recipe, written.dough) if one.cold)
    return any(step.do == "divide" for step in written.recipe.steps[:cold])


def text_of(document: RecipeDocument | None, best: Best, written: Kitchens) -> tuple[str | None, str | None]:
    """The changed text; else why there is none."""
    if document is None:
        return None, "the recipe came without its text"
    changes: list[Change] = []
    for lever, value in zip(best.trial.levers, best.values, strict=True):
        if lever.name == "yeast" and abs(value - 1.0) > 1e-9:
            changes += yeast_edit(written.recipe, written.dough, value)
        elif lever.name == "dough_temperature":
            changes += temperature_edit(written.recipe, written.dough, value)
        elif lever.waits and abs(value - lever.now) > 1e-6:
            for number, hours in hours_of(lever, value).items():
                place = number if best.order is None else best.order[number]
                changes.append(Change(("step", place, "for"), format_time(3600.0 * float(hours))))
    if best.order is not None:
        changes += _places(best, written)
    return edited(document.document, changes, best.order), None


def _places(best: Best, written: Kitchens) -> list[Change]:
    """A wait that did not say where it is, because it stayed there, says so once it follows other work."""
    found = []
    for place, number in enumerate(best.order or ()):
        at = best.trial.kitchens.recipe.steps[place].at
        if written.recipe.steps[number].at is None and at is not None:
            found.append(Change(("step", number, "at"), at.text))
    return found
