"""A dough waiting: stepped through time in one place, its temperatures and its ferment together."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from math import pi, sin
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


@dataclass(frozen=True, slots=True)
class Stepping:
    """How time is cut [s]: two implicit steps of ``first`` after each change, each ``growth`` times the last
    after that, none above ``longest``.
    """

    first: float = 30.0
    growth: float = 1.4
    # A little under the 5 min that a series promises, so that rounded times keep it.
    longest: float = 299.0

    def steps(self, hours: float, air: Air) -> Iterator[tuple[float, float]]:
        """Length [s] of each step and its weight on the new time."""
        left, length, taken = hours * 3600.0, self.first, 0
        longest = min(self.longest, air.period * 3600.0 / 12.0) if air.swing else self.longest
        while left > 1e-6:
            if taken >= 2:
                length = min(length * self.growth, longest)
            # Two like steps at the end, not one and a sliver.
            step = left if left <= length else min(length, 0.5 * left)
            yield step, 1.0 if taken < 2 else 0.5
            left -= step
            taken += 1


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


def row(time: float, dough: Dough, air: Air, split: GasSplit | None = None) -> Row:
    """The dough at a time [h] in this air."""
    gas = split or dough.split()
    state = dough.state
    many = np.array(
        [dough.temperature, gas.rise, state.gas, gas.dissolved, state.sugar, state.made, state.leaked]
    )
    mean, rise, held, dissolved, sugar, made, leaked = (many @ dough.body.shares).tolist()
    edge = skin_temperature(
        temperature=dough.temperature,
        body=dough.body,
        rise=rise,
        conductivity=dough.conductivity(gas.rise),
        film=film_of(dough, air),
        ambient=air.at(time),
    )
    own = made - dough.brought
    lost = leaked / own if own > 0.0 else 0.0
    core = float(dough.temperature[0])
    return Row(time, core, edge, mean, rise, held, dissolved, sugar, dough.tightness, made, lost)


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
    """Leave a dough where it is; the track gets a row at the start and after each step."""
    film = film_of(dough, air)
    now, end, warming = start, start + hours, np.zeros(dough.body.nodes)
    split = dough.split()
    track.append(row(now, dough, air, split))
    if watch is not None:
        watch(now, dough)
    for seconds, implicit in stepping.steps(hours, air):
        span = seconds / 3600.0
        after = conduct(
            temperature=dough.temperature,
            body=dough.body,
            rise=dough.mean(split.rise),
            conductivity=dough.conductivity(split.rise),
            heat=dough.solids.heat,
            film=film,
            ambient=air.at(now + span if implicit == 1.0 else now + 0.5 * span),
            source=warming,
            seconds=seconds,
            implicit=implicit,
        )
        dough, warming = _aged(dough, after, span)
        split = dough.split()
        now = now + span if end - now - span > 1e-9 else end
        track.append(row(now, dough, air, split))
        if watch is not None:
            watch(now, dough)
    return dough


def _aged(dough: Dough, after: Array, span: float) -> tuple[Dough, Array]:
    """The dough a step later at these temperatures, and the heat its yeast makes [W/kg]."""
    p = dough.parameters
    state = ferment_step(
        state=dough.state,
        medium=dough.medium,
        before=dough.temperature,
        after=after,
        hours=span,
        parameters=p,
    )
    middle = 0.5 * (dough.mean(dough.temperature) + dough.mean(after))
    slack = float(np.exp(-span * slackening(temperature=middle, parameters=p)))
    used = (state.made - dough.state.made) / p.gas_yield
    per_kilogram = p.fermentation_heat * 1000.0 / 3600.0 * 1000.0 / dough.contents.percent("mass")
    later = replace(dough, state=state, temperature=after, tightness=dough.tightness * slack)
    return later, used / span * per_kilogram
