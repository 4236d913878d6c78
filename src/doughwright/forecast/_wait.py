"""A dough waiting: stepped through time in one place, its temperatures and its ferment together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil, pi, sin
from typing import NamedTuple, TypeAlias

import numpy as np

from doughwright.forecast._dough import Dough
from doughwright.science.ferment import ferment_step
from doughwright.science.gas import GasSplit
from doughwright.science.gluten import slackening
from doughwright.science.heat import conduct, skin_temperature
from doughwright.science.yeast import Array


@dataclass(frozen=True, slots=True)
class Air:
    """The air of a place: ``mean`` [degC], ``film`` [W/(m2 K)]; a sine of ``swing`` [K] over ``period`` [h].

    ``offset`` [h] is how long its clock ran before that of the dough.
    """

    mean: float
    film: float
    swing: float = 0.0
    period: float = 24.0
    offset: float = 0.0

    def at(self, hours: float) -> float:
        """Temperature [degC] at a time."""
        if self.swing == 0.0:
            return self.mean
        return self.mean + self.swing * sin(2.0 * pi * (hours + self.offset) / self.period)


# A second under the 5 min that a series promises, so that times rounded to five decimals keep it.
POINTS = 299.0
"""Longest time [s] between two points of a series; a longer step gets points on the line between its ends."""


@dataclass(frozen=True, slots=True)
class Stepping:
    """How time is cut [s]: two implicit steps of ``first`` after each change, then each ``growth`` times the
    last, up to ``longest``; past ``settling`` in one place a dough that makes little gas takes steps in which
    it makes ``share`` [mL per 100 g flour], up to ``slowest``.
    """

    first: float = 30.0
    growth: float = 1.4
    longest: float = POINTS
    settling: float = 5400.0
    slowest: float = POINTS
    share: float = 3.0

    def next(self, last: float, done: float, pace: float, air: Air) -> float:
        """The length [s] after one of ``last``, ``done`` [s] after a change; ``pace`` is gas [mL/h]."""
        limit = self.longest
        if done >= self.settling and self.slowest > limit:
            limit = min(self.slowest, max(limit, 3600.0 * self.share / max(pace, 1e-9)))
        if air.swing:
            limit = min(limit, air.period * 300.0)
        return min(last * self.growth, limit)


ON_SCREEN = Stepping(slowest=3.0 * POINTS)
"""How the days are cut; see docs/convergence.md."""


class Row(NamedTuple):
    """A dough at a time: ``time`` [h]; ``core``, ``edge``, ``mean`` [degC]; ``rise`` [1].

    ``gas``, ``dissolved`` and ``made`` [mL per 100 g flour]; ``sugar`` [% of flour]; ``tightness`` [1];
    ``leaked``, the share [1] of the gas made that leaked at the ceiling.
    """

    time: float
    core: float
    edge: float
    mean: float
    rise: float
    gas: float
    dissolved: float
    sugar: float
    tightness: float
    made: float
    leaked: float


def row(time: float, dough: Dough, air: Air, look: Look | None = None) -> Row:
    """The dough at a time [h] in this air."""
    seen = look or Look.at(dough)
    state, gas = dough.state, seen.gas
    many = np.array([dough.temperature, state.gas, gas.dissolved, state.sugar, state.made, state.leaked])
    mean, held, dissolved, sugar, made, leaked = (many @ dough.body.shares).tolist()
    edge = skin_temperature(
        temperature=dough.temperature,
        body=dough.body,
        rise=seen.rise,
        conductivity=seen.conductivity,
        film=film_of(dough, air),
        ambient=air.at(time),
    )
    own = made - dough.brought
    lost = leaked / own if own > 0.0 else 0.0
    core = float(dough.temperature[0])
    return Row(time, core, edge, mean, seen.rise, held, dissolved, sugar, dough.tightness, made, lost)


@dataclass(frozen=True, slots=True)
class Look:
    """What a dough's gas means for its heat: the split, the mean ``rise`` [1], ``conductivity`` [W/(m K)]."""

    gas: GasSplit
    rise: float
    conductivity: Array

    @classmethod
    def at(cls, dough: Dough) -> Look:
        """Look at a dough as it is now."""
        gas = dough.split()
        return cls(gas, dough.mean(gas.rise), dough.conductivity(gas.rise))


Watch: TypeAlias = Callable[[float, Dough], None]


def film_of(dough: Dough, air: Air) -> float:
    """Heat transfer over the model's skin: a free-standing dough has slumped and shows more of it."""
    return air.film * dough.parameters.slump_area if dough.body.shape == "ball" else air.film


def wait(
    dough: Dough,
    *,
    start: float,
    hours: float,
    air: Air,
    stepping: Stepping,
    track: list[Row],
    watch: Watch | None = None,
) -> Dough:
    """Leave a dough where it is; the track gets a row at the start and after each step, ``watch`` a dough."""
    film, whole, done, taken = film_of(dough, air), hours * 3600.0, 0.0, 0
    length, warming, pace = stepping.first, np.zeros(dough.body.nodes), 0.0
    look = Look.at(dough)
    track.append(row(start, dough, air, look))
    if watch is not None:
        watch(start, dough)
    while whole - done > 1e-6:
        length = length if taken < 2 else stepping.next(length, done, pace, air)
        left = whole - done
        # Two like steps at the end, not one and a sliver.
        seconds = left if left <= length else min(length, 0.5 * left)
        now, implicit = start + done / 3600.0, 1.0 if taken < 2 else 0.5
        after = conduct(
            temperature=dough.temperature,
            body=dough.body,
            rise=look.rise,
            conductivity=look.conductivity,
            heat=dough.solids.heat,
            film=film,
            ambient=air.at(now + implicit * seconds / 3600.0),
            source=warming,
            seconds=seconds,
            implicit=implicit,
        )
        dough, warming, pace = _aged(dough, after, seconds / 3600.0)
        look, done, taken = Look.at(dough), done + seconds, taken + 1
        time = start + (hours if whole - done <= 1e-6 else done / 3600.0)
        _append(track, row(time, dough, air, look), seconds)
        if watch is not None:
            watch(time, dough)
    return dough


def _append(track: list[Row], new: Row, seconds: float) -> None:
    """Add a row, and rows on the line to it where the step was long."""
    parts = ceil(seconds / POINTS - 1e-9)
    if parts > 1:
        old = np.array(track[-1])
        step = (np.array(new) - old) / parts
        track.extend(Row(*(old + part * step).tolist()) for part in range(1, parts))
    track.append(new)


def _aged(dough: Dough, after: Array, span: float) -> tuple[Dough, Array, float]:
    """The dough a step later at these temperatures, the heat its yeast makes [W/kg] and its gas [mL/h]."""
    p = dough.parameters
    state = ferment_step(
        state=dough.state,
        medium=dough.medium,
        before=dough.temperature,
        after=after,
        hours=span,
        parameters=p,
    )
    middle = 0.5 * dough.mean(dough.temperature + after)
    slack = float(np.exp(-span * slackening(temperature=middle, parameters=p)))
    made = (state.made - dough.state.made) / span
    per_kilogram = p.fermentation_heat * 1000.0 / 3600.0 * 1000.0 / dough.contents.percent("mass")
    later = replace(dough, state=state, temperature=after, tightness=dough.tightness * slack)
    return later, made * (per_kilogram / p.gas_yield), float(made.max())
