"""The kitchens in which a dough is young or past: when that shows, and what the worst have in common."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from doughwright.figures import Figure
from doughwright.forecast._amounts import Changes
from doughwright.forecast._waits import waits_of, worked_after_waiting
from doughwright.forecast.elsewhere._figures import STATES
from doughwright.forecast.elsewhere._kitchens import TRAIT_UNITS, Kitchens
from doughwright.forecast.elsewhere._sample import Sample
from doughwright.forecast.elsewhere.results import Failing, Trait

Array = NDArray[np.float64]

WORST = 0.05
"""Share of all kitchens that counts as the worst."""
LONGER = 12.0
"""Hours that the last wait is lengthened by to see when the young ones come to it."""
ASKED = 1024
"""How many of the young ones are run on."""
TELLING, MOST = 0.4, 4
"""Standard deviations by which a trait must differ to be told, and how many are told."""


def failing(kitchens: Kitchens, sample: Sample, target: tuple[float, float]) -> tuple[Failing, ...]:
    """The young and the past kitchens, each where there are any."""
    found = []
    for state in ("young", "past"):
        number = STATES.index(state)
        there = sample.state == number
        if not there.any():
            continue
        worst = _worst(sample, there, number)
        when = _left(sample, target[1]) if state == "past" else _reached(kitchens, sample, target[0])
        rise = Figure(float(np.median(sample.rise[worst])), "ratio")
        found.append(Failing(STATES[number], int(there.sum()), when, rise, _traits(sample, worst)))
    return tuple(found)


def _worst(sample: Sample, there: NDArray[np.bool_], number: int) -> NDArray[np.intp]:
    """The kitchens furthest off: of the young the least risen, of the past the most."""
    which = np.flatnonzero(there)
    order = which[np.argsort(sample.rise[which], kind="stable")]
    count = min(max(int(WORST * len(sample.state)), 1), len(order))
    return order[:count] if number == 0 else order[-count:]


def _traits(sample: Sample, worst: NDArray[np.intp]) -> tuple[Trait, ...]:
    """How the worst differ from all, in standard deviations of all, the most telling first."""
    told = []
    for name, values in sample.traits.items():
        spread = float(np.std(values))
        there, everywhere = float(np.mean(values[worst])), float(np.mean(values))
        off = abs(there - everywhere) / spread if spread > 0.0 else 0.0
        if off >= TELLING:
            unit = TRAIT_UNITS[name]
            told.append((off, Trait(name, Figure(there, unit), Figure(everywhere, unit))))
    return tuple(trait for _, trait in sorted(told, key=lambda one: -one[0])[:MOST])


def _left(sample: Sample, high: float) -> Figure:
    """When the past ones rose above the range for good (a dough that is balled late may do so twice)."""
    course = sample.course[:, sample.state[: sample.kept] == STATES.index("past")]
    ends = np.array([_crossed(sample.time, one, high) for one in course.T], dtype=np.float64)
    return _hours(ends[np.isfinite(ends)], "they are past by gas lost or sugar, not by rise")


def _reached(kitchens: Kitchens, sample: Sample, low: float) -> Figure:
    """When the young ones would reach the range, were the last wait lengthened."""
    waits = waits_of(kitchens.recipe, kitchens.dough)
    if not waits or worked_after_waiting(kitchens.recipe, kitchens.dough):
        return Figure(None, "h", why="the dough is worked after its last wait")
    young = np.flatnonzero(sample.state[: sample.kept] == STATES.index("young"))[:ASKED]
    longer = Changes(hours={waits[-1].number: waits[-1].hours + LONGER})
    ran = replace(kitchens, changes=longer).run(sample.points[young])
    ends = np.array(
        [_crossed(ran.time[:, one], ran.course[:, one], low) for one in range(len(young))], dtype=np.float64
    )
    return _hours(ends, f"half of them are still young {LONGER:g} h later")


def _crossed(time: Array, course: Array, level: float) -> float:
    """The moment from which a course stays at or above a level; infinite where it ends below."""
    below = np.flatnonzero(course < level)
    last = int(below[-1]) if len(below) else -1
    if last + 1 == len(time):
        return np.inf
    if last < 0:
        return float(time[0])
    before, after = course[last], course[last + 1]
    return float(time[last] + (level - before) / (after - before) * (time[last + 1] - time[last]))


def _hours(moments: Array, why: str) -> Figure:
    """The middle of moments and its 90 % range; a middle that never comes says why."""
    if len(moments) == 0:
        return Figure(None, "h", why=why)
    low, middle, high = np.quantile(moments, [0.05, 0.5, 0.95], method="inverted_cdf")
    if not np.isfinite(middle):
        return Figure(None, "h", why=why)
    return Figure(float(middle), "h", float(low), float(high) if np.isfinite(high) else None)
