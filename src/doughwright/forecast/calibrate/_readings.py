"""A cook's readings beside the models that they are compared with."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._contents import lines_within, main_protein
from doughwright.forecast.calibrate._forward import dough_model, jar_model
from doughwright.forecast.calibrate._likelihood import (
    DOUGH,
    MEAN_WITHIN,
    MODEL_CORE,
    Degrees,
    JarReadings,
    Likelihood,
    Thermometers,
)
from doughwright.forecast.calibrate._unknowns import unknowns
from doughwright.forecast.doubt import how_mixed
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.readings.taken import Taken, TakenLog, TakenProbe
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import weigh
from doughwright.units import format_time

JUST_MIXED = 600.0
"""A dough read this soon after mixing [s] is as warm as it was then."""

MOST_OF_LOG = 16
"""Rows of a log in the dough that are compared: more would say the same again."""

SWING_SHARE = 0.7
"""A reading of a place at one moment is off its mean by this share of the place's swing: a sine's."""


def likelihood_of(recipe: Recipe, dough: str, kitchen: Kitchen | None, taken: Taken) -> Likelihood:
    """The readings with their models and all that is not known of this kitchen.

    Raises ``NoAnswerError`` where nothing of it can be compared, ``UnknownNameError`` for a place unknown.
    """
    if not (taken.jars or taken.probes or taken.logs):
        raise NoAnswerError(Fault("there are no readings to learn from", try_="Read a jar or a thermometer"))
    base = surroundings(kitchen)
    read = [(jar, jar_model(recipe, dough, jar)) for jar in taken.jars]
    jars = [JarReadings(jar, model, f"jar: {jar.name}") for jar, model in read]
    read_off = _thermometers(recipe, dough, base, taken)
    unknown = unknowns(
        kitchen,
        mixed=how_mixed(recipe, dough),
        protein=main_protein(lines_within(weigh(recipe), dough)),
        thermometer=bool(read_off.rows),
        others=[jar.unknown for jar in jars],
    )
    return Likelihood(unknown, _grouped(jars), read_off)


def _grouped(jars: Sequence[JarReadings]) -> tuple[tuple[JarReadings, ...], ...]:
    """Jars of one mass, at one place, filled at one time share a run, that of the one read longest."""
    found: dict[object, list[JarReadings]] = {}
    for one in jars:
        key = (one.jar.place, round(one.jar.mass, 6), one.jar.filled)
        found.setdefault(key, []).append(one)
    return tuple(tuple(sorted(group, key=lambda one: -max(one.jar.times))) for group in found.values())


def _thermometers(recipe: Recipe, dough: str, kitchen: Surroundings, taken: Taken) -> Thermometers:
    rows = [_probe(one, kitchen) for one in taken.probes]
    for log in taken.logs:
        rows += _logged(log, taken) if log.place.casefold() == DOUGH else [_mean(log, kitchen, taken)]
    later = [row.time for row in rows if row.of == DOUGH and row.time is not None]
    entered = any(row.of == DOUGH and row.time is None for row in rows)
    needed = bool(later) or (entered and not taken.jars)
    return Thermometers(tuple(rows), dough_model(recipe, dough, np.array(later)) if needed else None)


def _probe(one: TakenProbe, kitchen: Surroundings) -> Degrees:
    of, when = one.of.casefold(), f"{format_time(max(one.time, 0.0))} after mixing"
    if of == DOUGH:
        soon = one.time <= JUST_MIXED
        within = one.spread if soon else hypot(one.spread, MODEL_CORE)
        return Degrees(of, one.degrees, within, None if soon else one.time / 3600.0, f"the dough {when}")
    kitchen.place(of)
    swing = kitchen.swing(of)
    within = hypot(one.spread, MEAN_WITHIN, SWING_SHARE * swing.value if swing is not None else SWING_SHARE)
    return Degrees(of, one.degrees, within, None, f"the {of} {when}")


def _mean(log: TakenLog, kitchen: Surroundings, taken: Taken) -> Degrees:
    """The mean of a place's log over the time that the readings span, over all of it where it is outside."""
    of = log.place.casefold()
    kitchen.place(of)
    last = max((max(jar.times) for jar in taken.jars), default=float("inf"))
    inside = [row for row in zip(log.times, log.degrees, strict=True) if 0.0 <= row[0] <= last]
    rows = inside if len(inside) > 1 else list(zip(log.times, log.degrees, strict=True))
    return Degrees(of, _over_time(rows), hypot(MEAN_WITHIN, 0.2), None, f"the log of the {of}")


def _over_time(rows: Sequence[tuple[float, float]]) -> float:
    """The mean over time; a gap counts for no more than four usual steps."""
    steps = [after[0] - before[0] for before, after in pairwise(rows)]
    if not steps or sum(steps) <= 0.0:
        return float(np.mean([degrees for _, degrees in rows]))
    most = 4.0 * float(np.median(steps))
    weights = [min(step, most) for step in steps]
    middles = [0.5 * (before[1] + after[1]) for before, after in pairwise(rows)]
    return float(np.average(middles, weights=weights))


def _logged(log: TakenLog, taken: Taken) -> list[Degrees]:
    """A few rows of a log in the dough, evenly over it; their common error is the thermometer's."""
    rows = [row for row in zip(log.times, log.degrees, strict=True) if row[0] >= 0.0]
    if not rows:
        raise NoAnswerError(Fault("the log in the dough ends before mixing", try_='See what "mixed" says'))
    chosen = np.unique(np.linspace(0, len(rows) - 1, min(MOST_OF_LOG, len(rows))).astype(int))
    within = hypot(MODEL_CORE, 0.2) * np.sqrt(len(chosen) / 4.0)
    return [
        Degrees(
            DOUGH, rows[index][1], float(within), max(rows[index][0] / 3600.0, 1e-3),
            f"the log in the dough {format_time(rows[index][0])} after mixing",
        )
        for index in chosen
    ]  # fmt: skip
