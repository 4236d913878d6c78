"""Doughs waiting in one place, each in its lane: what the kernel is given, and the rows it gives."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from math import ceil
from typing import NamedTuple

import numpy as np

from doughwright.forecast._dough import Dough
from doughwright.recipe.until import Until
from doughwright.science.ferment import Ferment
from doughwright.science.heat import skin_temperature
from doughwright.science.kernels.layout import HOURS_A_DAY, INPUTS, Stepping, fit_lanes
from doughwright.science.kernels.tables import tables
from doughwright.science.kernels.waits import wait as kernel_wait
from doughwright.science.yeast import Array, Real

# A second under the 5 min that a series promises, so that times rounded to five decimals keep it.
POINTS = 299.0
"""Longest time [s] between two points of a series on screen."""

ON_SCREEN = Stepping(slowest=3.0 * POINTS)
"""How the days of one kitchen are cut; see docs/convergence.md."""


@dataclass(frozen=True, slots=True)
class Air:
    """The air of a place: ``mean`` [degC], ``film`` [W/(m2 K)] at a dough's skin, sines around the mean.

    ``swing`` [K] over ``period`` [h] (a fridge's cycle) and ``daily`` [K], at its highest at ``warmest`` [h
    after midnight on the clock of ``offset``]; ``offset`` [h] is how long the clock ran before that of the
    dough; ``grip`` [W/K] is how hard the place holds its own temperature against warm dough, ``None`` where
    that does not count.
    """

    mean: Real
    film: Real
    swing: Real = 0.0
    period: Real = 24.0
    daily: Real = 0.0
    warmest: Real = 0.0
    offset: Real = 0.0
    grip: Real | None = None

    def phases(self, hours: Real) -> tuple[Real, Real]:
        """Phases [rad] of the two sines at a time [h] of the dough."""
        clock = hours + self.offset
        cycle = 2.0 * np.pi * clock / self.period
        return cycle, 2.0 * np.pi * (clock - self.warmest + HOURS_A_DAY / 4.0) / HOURS_A_DAY

    def at(self, hours: Real) -> Real:
        """Temperature [degC] at a time [h] of the dough."""
        cycle, daily = self.phases(hours)
        return np.asarray(self.mean + self.swing * np.sin(cycle) + self.daily * np.sin(daily))[()]


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


def rows_of(block: Array) -> list[Row]:
    """The rows of the first lane of a block, shape (rows, 11, lanes)."""
    return [Row(*one) for one in block[:, :, 0].tolist()]


def row(time: Real, dough: Dough, air: Air) -> Array:
    """The dough at a time [h] in this air, shape (11, lanes), in the order of Row."""
    gas = dough.split()
    rise = dough.mean(gas.rise)
    state = dough.state
    edge = skin_temperature(
        temperature=dough.temperature,
        body=dough.body,
        rise=rise,
        conductivity=dough.conductivity(gas.rise),
        film=film_of(dough, air),
        ambient=air.at(time),
    )
    made = dough.mean(state.made)
    columns = (
        time, dough.temperature[0], edge, dough.mean(dough.temperature), rise, dough.mean(state.gas),
        dough.mean(gas.dissolved), dough.mean(state.sugar), dough.tightness, made,
        _share_leaked(dough, made, dough.mean(state.leaked)),
    )  # fmt: skip
    return np.stack(np.broadcast_arrays(*columns))


def _share_leaked(dough: Dough, made: Array, leaked: Array) -> Array:
    own = made - dough.brought
    return np.where(own > 0.0, leaked / np.where(own > 0.0, own, 1.0), 0.0)


def film_of(dough: Dough, air: Air) -> Real:
    """Heat transfer over the model's skin: a free-standing dough has slumped and shows more of it."""
    return air.film * dough.parameters.slump_area if dough.body.shape == "ball" else air.film


@dataclass(frozen=True, slots=True)
class Left:
    """A dough that has waited: the ``dough`` itself, the hours it ``took``, the ``rows`` of the wait, shape
    (samples, 11, lanes); where asked, ``states`` at the samples, shape (samples, 9, nodes, lanes).
    """

    dough: Dough
    took: Real
    rows: Array
    states: Array | None = None

    def along(self) -> Iterator[Dough]:
        """The dough at each sample; of one kitchen a single dough, whose lanes are the samples."""
        if self.states is None:
            return
        if self.dough.lanes == 1:
            yield _with_state(self.dough, np.moveaxis(self.states[..., 0], 0, -1), self.rows[:, 8, 0])
            return
        for state, row in zip(self.states, self.rows, strict=True):
            yield _with_state(self.dough, state, row[8])


def wait(
    dough: Dough,
    *,
    start: Real,
    hours: Real,
    air: Air,
    stepping: Stepping,
    samples: Array | None = None,
    until: Until | None = None,
    along: bool = False,
    threads: int | None = None,
) -> Left:
    """Leave a dough where it is; ``samples`` are shares of the wait, those on screen where left out."""
    lanes = dough.lanes
    waited = kernel_wait(
        inputs=_inputs(dough, start, hours, air, until),
        state=np.stack([dough.temperature, *(getattr(dough.state, one.name) for one in fields(Ferment))]),
        tightness=fit_lanes(value=dough.tightness, lanes=lanes),
        curves=tables(dough.parameters),
        shape=dough.body.shape,
        stepping=stepping,
        stop=until.kind if until is not None else None,
        samples=on_screen(float(np.max(hours)), air) if samples is None else samples,
        snapshots=along,
        threads=threads,
    )
    rows = waited.rows
    rows[:, 0] += start
    rows[:, -1] = _share_leaked(dough, rows[:, -2], rows[:, -1])
    took = waited.took if lanes > 1 else float(waited.took[0])
    return Left(_with_state(dough, waited.state, waited.tightness), took, rows, waited.snapshots)


def _with_state(dough: Dough, state: Array, tightness: Array) -> Dough:
    return replace(dough, temperature=state[0], state=Ferment(*state[1:]), tightness=tightness)


def on_screen(hours: float, air: Air) -> Array:
    """When a wait is looked at, as shares of it: at its first quick steps, then at least every POINTS, and
    twelve times in a cycle of the air.
    """
    whole = hours * 3600.0
    if whole <= 1e-6:
        return np.zeros(1)
    longest = min(POINTS, float(np.min(air.period)) * 300.0) if np.any(air.swing) else POINTS
    times, length = [0.0], ON_SCREEN.first
    while length < longest and times[-1] + length < whole:
        times.append(times[-1] + length)
        if len(times) > 2:
            length *= ON_SCREEN.growth
    count = ceil((whole - times[-1]) / longest - 1e-9)
    rest = np.linspace(times[-1], whole, max(count, 1) + 1)[1:]
    return np.append(np.concatenate([times, rest[:-1]]) / whole, 1.0)


def evenly(hours: float, minutes: float) -> Array:
    """When a wait is looked at, as shares of it: both ends and evenly between, at least so often."""
    return np.linspace(0.0, 1.0, max(ceil(hours * 60.0 / minutes - 1e-9), 1) + 1)


def _inputs(dough: Dough, start: Real, hours: Real, air: Air, until: Until | None) -> Array:
    p, medium, body = dough.parameters, dough.medium, dough.body
    basis = medium.basis
    cycle, daily = air.phases(start)
    per_kilogram = p.fermentation_heat * 1.0e6 / 3600.0 / dough.contents.percent("mass")
    given: dict[str, Real] = {
        "gassing": medium.gassing,
        "growth": medium.growth,
        "lag": medium.lag,
        "at_mixing": medium.at_mixing,
        "hold": basis.water * p.dissolving * basis.pressure,
        "air": basis.air,
        "volume": basis.volume,
        "pressure": basis.pressure,
        "ceiling": basis.ceiling,
        "retention": p.retention,
        "gassing_minimum": p.gassing_minimum,
        "gassing_norm": tables(p).norm(p),
        "growth_rate": p.growth_optimum_rate,
        "growth_lag": p.growth_lag,
        "growth_cap": p.growth_cap,
        "maltose_rate": p.maltose_rate,
        "maltose_limit": p.maltose_limit,
        "sugar_half": p.sugar_half,
        "gas_yield": p.gas_yield,
        "warming": per_kilogram / p.gas_yield,
        "slack_25": 60.0 / p.tightness_25,
        "death": p.death_temperature,
        "mass": body.mass,
        "unrisen": body.volume,
        "skin": body.skin,
        "side": body.side,
        "heat": dough.solids.heat,
        "conductivity": dough.solids.conductivity,
        "slope": dough.solids.slope,
        "gas_conductivity": p.air_conductivity,
        "air_share": p.air,
        "film": film_of(dough, air),
        "resistance": 0.0 if air.grip is None else dough.pieces / air.grip,
        "hours": hours,
        "mean": air.mean,
        "swing": air.swing,
        "period": air.period,
        "phase": cycle,
        "daily": air.daily,
        "daily_phase": daily,
        "stop": until.value if until is not None else 0.0,
    }
    return np.stack([fit_lanes(value=given[name], lanes=dough.lanes) for name in INPUTS])
