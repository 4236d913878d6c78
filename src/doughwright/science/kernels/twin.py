"""The kernel's twin in NumPy: the same wait of many pieces, step by step, from the functions of science."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from doughwright.science.curves import Curves
from doughwright.science.ferment import Ferment, Medium, ferment_step
from doughwright.science.gas import GasBasis, split_gas
from doughwright.science.heat import Body, Shape, conduct, skin_temperature
from doughwright.science.kernels.layout import HOURS_A_DAY, INPUTS, Stepping, StopKind, Waited
from doughwright.science.parameters import Parameters, varied
from doughwright.science.properties import conductivity_maxwell, porosity
from doughwright.science.yeast import Array, Mask, Real


@dataclass(frozen=True, slots=True)
class Piece:
    """What stays the same while pieces wait, read from the kernel's inputs."""

    inputs: dict[str, Array]
    medium: Medium
    body: Body
    parameters: Parameters
    curves: Curves

    def air(self, seconds: Array) -> Array:
        """The air [degC] so long into the wait."""
        one, hours = self.inputs, seconds / 3600.0
        cycle = np.sin(2.0 * np.pi * hours / one["period"] + one["phase"])
        daily = np.sin(2.0 * np.pi * hours / HOURS_A_DAY + one["daily_phase"])
        return np.asarray(one["mean"] + one["swing"] * cycle + one["daily"] * daily)

    def mean(self, values: Array) -> Array:
        """The mean by mass, a value each lane."""
        return np.asarray(self.body.shares @ values)


@dataclass(frozen=True, slots=True)
class Moment:
    """The pieces at one time: ``state`` (9, nodes, lanes), ``tightness``, and what their gas means."""

    state: Array
    tightness: Array
    dissolved: Array
    rise: Array
    conductivity: Array


def wait(
    *,
    inputs: Array,
    state: Array,
    tightness: Array,
    curves: Curves,
    shape: Shape,
    stepping: Stepping,
    stop: StopKind | None = None,
    samples: Array,
    snapshots: bool = False,
) -> Waited:
    """Many pieces wait, a lane each.

    Two backward-Euler steps, then Crank-Nicolson, with the ferment of each step at the mean of its two
    temperatures; the yeast's heat of a step warms the next.

    Parameters
    ----------
    inputs : array
        what differs by lane [units of INPUTS], shape (41, lanes)
    state : array
        temperature and ferment [units of STATE], shape (9, nodes, lanes)
    tightness : array
        how tight each is [1], shape (lanes,)
    curves : Curves
        the functions of temperature [1, 1/h, %/h, mL/mL]
    shape : str
        shape of the pieces [no unit]: ball, slab or tin
    stepping : Stepping
        how time is cut [s]
    stop : str or None
        what stops a lane [no unit]: its core, its rise, or only its hours
    samples : array
        when to write a row, as a share of each lane's hours [1], shape (samples,), rising
    snapshots : bool
        whether to keep the states at the samples too [no unit]

    Returns
    -------
    Waited
        the pieces after it
    """
    nodes, lanes = state.shape[1:]
    piece = _piece(dict(zip(INPUTS, inputs, strict=True)), curves, shape, nodes)
    given, whole = piece.inputs, piece.inputs["hours"] * 3600.0
    done, length = np.zeros(lanes), np.full(lanes, stepping.first)
    warming, pace = np.zeros((nodes, lanes)), np.zeros(lanes)
    now = _look(piece, state, tightness)
    side, stopped = _at_start(piece, now, stop)
    book = _Book(samples, whole, 11, state.shape if snapshots else None)
    book.begin(_row(piece, now, done), now.state)
    taken = 0
    while (active := (whole - done > 1e-6) & ~stopped).any():
        if taken >= 2:
            length = stepping.next(length, done, pace, given["swing"], given["period"])
        left = whole - done
        # Two like steps at the end, not one and a sliver.
        seconds = np.where(left <= length, left, np.minimum(length, 0.5 * left))
        seconds = np.where(active, seconds, 1.0)
        after, warmed, paced = _step(piece, now, done, seconds, warming, 1.0 if taken < 2 else 0.5)
        part = _part_until_stop(piece, now, after, stop, side)
        crossed = active & (part < 1.0)
        if crossed.any():
            after = _look(
                piece,
                np.where(crossed, now.state + part * (after.state - now.state), after.state),
                np.where(crossed, now.tightness + part * (after.tightness - now.tightness), after.tightness),
            )
        spent = np.where(crossed, part * seconds, seconds)
        later = _choose(active, after, now)
        ends = np.where(active, done + spent, done)
        book.write(_row(piece, now, done), _row(piece, later, ends), now.state, later.state, done, ends)
        warming, pace = np.where(active, warmed, warming), np.where(active, paced, pace)
        now, done, stopped, taken = later, ends, stopped | crossed, taken + 1
    took = np.where(whole - done <= 1e-6, whole, done) / 3600.0
    rows, states = book.close(_row(piece, now, took * 3600.0), now.state)
    return Waited(now.state, now.tightness, took, rows, states)


def _piece(given: dict[str, Array], curves: Curves, shape: Shape, nodes: int) -> Piece:
    parameters = varied(
        Parameters(),
        gassing_minimum=given["gassing_minimum"],
        growth_optimum_rate=given["growth_rate"],
        growth_lag=given["growth_lag"],
        growth_cap=given["growth_cap"],
        maltose_rate=given["maltose_rate"],
        maltose_limit=given["maltose_limit"],
        sugar_half=given["sugar_half"],
        gas_yield=given["gas_yield"],
        death_temperature=given["death"],
        retention=given["retention"],
        tightness_25=60.0 / given["slack_25"],
        air_conductivity=given["gas_conductivity"],
        air=given["air_share"],
        # In ``hold`` already.
        dissolving=1.0,
    )
    basis = GasBasis(
        water=given["hold"] / given["pressure"],
        volume=given["volume"],
        air=given["air"],
        pressure=given["pressure"],
        ceiling=given["ceiling"],
    )
    medium = Medium(given["gassing"], given["growth"], given["lag"], given["at_mixing"], basis)
    body = Body(shape, given["mass"], given["unrisen"], given["skin"], given["side"], nodes)
    return Piece(given, medium, body, parameters, curves)


def _look(piece: Piece, state: Array, tightness: Array) -> Moment:
    temperature = state[0]
    split = split_gas(
        gas=state[4],
        temperature=temperature,
        basis=piece.medium.basis,
        parameters=piece.parameters,
        solubility=piece.curves.solubility(temperature),
    )
    given = piece.inputs
    conductivity = conductivity_maxwell(
        solid=given["conductivity"] + given["slope"] * piece.mean(temperature),
        porosity=porosity(rise=split.rise, parameters=piece.parameters),
        parameters=piece.parameters,
    )
    return Moment(state, tightness, split.dissolved, piece.mean(split.rise), conductivity)


def _step(
    piece: Piece, now: Moment, done: Array, seconds: Array, warming: Array, implicit: float
) -> tuple[Moment, Array, Array]:
    """The pieces a step later, the heat their yeast made in it [W/kg] and its gas [mL/h]."""
    given, p = piece.inputs, piece.parameters
    before, hours = now.state[0], seconds / 3600.0
    after = conduct(
        temperature=before,
        body=piece.body,
        rise=now.rise,
        conductivity=now.conductivity,
        heat=given["heat"],
        film=given["film"],
        ambient=piece.air(done + implicit * seconds),
        source=warming,
        seconds=seconds,
        implicit=implicit,
        resistance=given["resistance"],
    )
    old = Ferment(*now.state[1:])
    new = ferment_step(
        state=old,
        medium=piece.medium,
        before=before,
        after=after,
        hours=hours,
        parameters=p,
        curves=piece.curves,
    )
    middle = 0.5 * piece.mean(before + after)
    slack = np.exp(-hours * piece.curves.slackening(middle, p))
    pace = (new.made - old.made) / hours
    state = np.stack([after, *(getattr(new, one.name) for one in fields(new))])
    return _look(piece, state, now.tightness * slack), pace * given["warming"], pace.max(axis=0)


def _at_start(piece: Piece, now: Moment, stop: StopKind | None) -> tuple[Array, Mask]:
    """On which side of its stop each lane begins, and which are there already."""
    if stop is None:
        return np.ones(len(now.rise)), np.zeros(len(now.rise), dtype=bool)
    gap = _measured(now, stop) - piece.inputs["stop"]
    if stop == "rise":
        return np.full(len(gap), -1.0), gap >= 0.0
    return np.sign(gap), gap == 0.0


def _measured(now: Moment, stop: StopKind) -> Array:
    return np.asarray(now.rise if stop == "rise" else now.state[0][0])


def _part_until_stop(piece: Piece, now: Moment, after: Moment, stop: StopKind | None, side: Array) -> Array:
    """The part of the step before a lane reaches its stop, 1 where it does not."""
    if stop is None:
        return np.ones(len(side))
    old, new, level = _measured(now, stop), _measured(after, stop), piece.inputs["stop"]
    reached = (new - level) * side <= 0.0
    span = np.where(reached & (new != old), new - old, 1.0)
    return np.where(reached, np.clip((level - old) / span, 0.0, 1.0 - 1e-12), 1.0)


def _choose(active: Mask, after: Moment, now: Moment) -> Moment:
    if active.all():
        return after
    return Moment(
        *(np.where(active, getattr(after, one.name), getattr(now, one.name)) for one in fields(Moment))
    )


def _row(piece: Piece, now: Moment, seconds: Array) -> Array:
    film, outside = piece.inputs["film"], piece.inputs["resistance"]
    edge = skin_temperature(
        temperature=now.state[0],
        body=piece.body,
        rise=now.rise,
        conductivity=now.conductivity,
        # What lies outside the film acts as a weaker film.
        film=film / (1.0 + film * piece.body.area(now.rise) * outside),
        ambient=piece.air(seconds),
    )
    _, _, sugar, _, gas, made, leaked, _, _ = (piece.mean(one) for one in now.state)
    mean, dissolved = piece.mean(now.state[0]), piece.mean(now.dissolved)
    columns = (
        seconds / 3600.0, now.state[0][0], edge, mean, now.rise, gas, dissolved, sugar, now.tightness, made,
        leaked,
    )  # fmt: skip
    return np.stack(np.broadcast_arrays(*columns))


class _Book:
    """Rows and states at the samples, on the line between the two ends of the step each falls into."""

    def __init__(self, samples: Array, whole: Array, width: int, state: tuple[int, ...] | None) -> None:
        self.times = np.multiply.outer(samples, whole)
        self.rows = np.zeros((len(samples), width, len(whole)))
        self.states = None if state is None else np.zeros((len(samples), *state))

    def begin(self, row: Array, state: Array) -> None:
        """The first row holds wherever the sample is at the start."""
        self._put(self.times <= 0.0, row, row, state, state, 0.0)

    def write(self, old: Array, new: Array, before: Array, after: Array, start: Array, end: Array) -> None:
        """A step from ``start`` to ``end`` [s] of each lane."""
        within = (self.times > start) & (self.times <= end)
        if within.any():
            span = np.where(end > start, end - start, 1.0)
            self._put(within, old, new, before, after, (self.times - start) / span)

    def close(self, row: Array, state: Array) -> tuple[Array, Array | None]:
        """What is past the end of a lane, by stop or by rounding, is as it ended."""
        past = self.times > row[0] * 3600.0
        past[-1] |= self.times[-1] >= row[0] * 3600.0 - 1e-6
        self._put(past, row, row, state, state, 0.0)
        return self.rows, self.states

    def _put(self, where: Mask, old: Array, new: Array, before: Array, after: Array, part: Real) -> None:
        for i in np.flatnonzero(where.any(axis=1)):
            at = where[i]
            share = part[i] if isinstance(part, np.ndarray) else part
            self.rows[i] = np.where(at, old + share * (new - old), self.rows[i])
            if self.states is not None:
                self.states[i] = np.where(at, before + share * (after - before), self.states[i])
