"""The oven's kernel in NumPy: one phase of many columns, a lane each, step by step."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from doughwright.science.kernels.bake_after import close_step
from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_edges import Edges, edges
from doughwright.science.kernels.bake_layout import (
    CHEESE,
    INPUTS,
    ROWS,
    RULES,
    SAUCE,
    Baked,
    BakeStepping,
    Column,
)
from doughwright.science.kernels.bake_step import Cells, Given, contact, look, refit, steam_flow
from doughwright.science.yeast import Array

REFITS = 12
"""At most so many solves again for cells that took up more heat than they can hold."""


def bake(
    *,
    inputs: Array,
    rules: Array,
    column: Column,
    curves: BakeCurves,
    lifted: bool = False,
    stepping: BakeStepping,
    samples: Array,
    snapshots: bool = False,
) -> Baked:
    """One phase of many columns, a lane each.

    backward Euler in one tridiagonal system with apparent capacity, then water from enthalpy

    Parameters
    ----------
    inputs : array
        what differs by lane [units of INPUTS], shape (48, lanes)
    rules : array
        what does not [units of RULES], shape (15,)
    column : Column
        surface, food or both [units of Column]
    curves : BakeCurves
        what is looked up [see its methods]
    lifted : bool
        whether the food is off its surface, each in its own surroundings [no unit]
    stepping : BakeStepping
        how time is cut [s]
    samples : array
        when to write a row, as a share of each lane's seconds [1], shape (samples,), rising
    snapshots : bool
        whether to keep the states at the samples too [no unit]

    Returns
    -------
    Baked
        the columns after it
    """
    given = dict(zip(INPUTS, inputs, strict=True)) | dict(zip(RULES, rules, strict=True))
    lanes = inputs.shape[1]
    whole, done = given["seconds"], np.zeros(lanes)
    length = np.full(lanes, stepping.first / stepping.growth)
    book = _Book(samples, whole, column.state.shape if snapshots else None)
    row = _row(column, done)
    book.write(row, row, column.state, column.state, done - 1.0, done)
    while (active := whole > done).any():
        left = whole - done
        length = stepping.next(last=length, left=np.where(active, left, 1.0))
        after = step_column(
            column=column, given=given, curves=curves, lifted=lifted, done=done, seconds=length
        )
        if not active.all():
            after = replace(
                after,
                state=np.where(active, after.state, column.state),
                carried=np.where(active, after.carried, column.carried),
            )
        ends = np.where(active, np.where(left <= length, whole, done + length), done)
        later = _row(after, ends)
        book.write(row, later, column.state, after.state, done, ends)
        column, done, row = after, ends, later
    return Baked(column, book.rows, book.states)


def step_column(
    *, column: Column, given: Given, curves: BakeCurves, lifted: bool, done: Array, seconds: Array
) -> Column:
    """One step of a phase.

    C_app (T' - T)/dt = sum of conductances times differences, + what the faces let in, at the new T'

    Parameters
    ----------
    column : Column
        before it [units of Column]
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]
    lifted : bool
        whether food and surface are apart [no unit]
    done : array
        since the phase began [s], shape (lanes,)
    seconds : array
        length of the step [s], shape (lanes,)

    Returns
    -------
    Column
        after it
    """
    cells = look(column=column, given=given, curves=curves)
    faces = edges(
        column=column,
        cells=cells,
        given=given,
        curves=curves,
        lifted=lifted,
        seconds=done + seconds,
        length=seconds,
    )
    conductance = _conductances(column, cells, given, lifted)
    crossing = _crossing(column, given)
    solved = _solved(column, cells, faces, conductance, crossing, seconds)
    for _ in range(REFITS):
        apparent = refit(column=column, cells=cells, solved=solved, given=given, curves=curves)
        if (apparent == cells.apparent).all():
            break
        cells = replace(cells, apparent=apparent)
        solved = _solved(column, cells, faces, conductance, crossing, seconds)
    return close_step(
        column=column,
        cells=cells,
        edges=faces,
        conductance=conductance,
        crossing=crossing,
        solved=solved,
        given=given,
        curves=curves,
        seconds=seconds,
    )


def _solved(
    column: Column,
    cells: Cells,
    faces: Edges,
    conductance: Array,
    crossing: tuple[Array, Array],
    seconds: Array,
) -> Array:
    """Temperatures at the end of the step, before water is settled."""
    diagonal = cells.apparent / seconds
    right = diagonal * column.state[0]
    for flux in faces.bare:
        right[flux.cell] += flux.base
        diagonal[flux.cell] += flux.slope
    if faces.top is not None:
        base, slope = faces.top.into_cell()
        right[-1] += base
        diagonal[-1] += slope
        j, lane = faces.top.front, np.arange(len(seconds))
        deep = np.where(j.found & ~j.on_top, faces.top.latent * faces.top.area, 0.0)
        right[j.cell, lane] -= deep * (j.base - j.slope * j.at)
        diagonal[j.cell, lane] += deep * j.slope
    return _solve(diagonal, right, conductance, *crossing)


def _conductances(column: Column, cells: Cells, given: Given, lifted: bool) -> Array:
    """Between neighbours [W/(m2 K) of reference area], (cells - 1, lanes); none through a lifted base."""
    n = column.surface
    between = 0.5 * (cells.resistance[:-1] + cells.resistance[1:])
    if 0 < n < len(column.kinds):
        opened = 1.0 / contact(column=column, cells=cells, given=given)
        between[n - 1] = np.inf if lifted else between[n - 1] + opened
    return np.asarray(column.area[1:-1] / between)


def _crossing(column: Column, given: Given) -> tuple[Array, Array]:
    """Steam heated as it passes into a hotter cell: from the cell below, from the cell above [W/(m2 K)]."""
    n, temperature = column.surface, column.state[0]
    lower, upper = np.zeros_like(temperature), np.zeros_like(temperature)
    if n < len(column.kinds):
        arriving, _ = steam_flow(column=column, given=given)
        step = np.diff(temperature[n:], axis=0)
        lower[n + 1 :] = np.where(step > 0.0, np.maximum(arriving[1:], 0.0), 0.0) * given["steam_heat"]
        upper[n:-1] = np.where(step < 0.0, np.maximum(-arriving[:-1], 0.0), 0.0) * given["steam_heat"]
    return lower, upper


def _solve(diagonal: Array, right: Array, conductance: Array, lower: Array, upper: Array) -> Array:
    """The tridiagonal system, forward and back."""
    pivot = diagonal + lower + upper
    pivot[:-1] += conductance
    pivot[1:] += conductance
    below, above = conductance + lower[1:], conductance + upper[:-1]
    value = right.copy()
    for i in range(1, len(pivot)):
        part = below[i - 1] / pivot[i - 1]
        pivot[i] -= part * above[i - 1]
        value[i] += part * value[i - 1]
    value[-1] /= pivot[-1]
    for i in range(len(pivot) - 2, -1, -1):
        value[i] = (value[i] + above[i] * value[i + 1]) / pivot[i]
    return value


def _row(column: Column, seconds: Array) -> Array:
    """What is written down now; NaN for what the column has not."""
    missing = np.full(len(seconds), np.nan)
    values = dict.fromkeys(ROWS, missing) | {"time": seconds, "surface": column.read("surface")}
    if column.surface == 0:
        values["surface"] = missing
    temperature, water = column.state[0], column.state[1]
    if column.surface < len(column.kinds):
        dough, lane = column.dough, np.arange(len(seconds))
        core = column.surface + np.argmin(temperature[dough], axis=0)
        wet = water[core, lane]
        for name in ("base", "top", "lost", "base_browning", "top_browning", "killed"):
            values[name] = column.read(name)
        values["core"] = temperature[core, lane]
        values["set"] = column.state[2, dough].min(axis=0)
        values["moisture"] = wet / (wet + column.solids[core, lane])
        for name, kind in (("sauce", SAUCE), ("cheese", CHEESE)):
            if kind in column.kinds:
                values[name] = temperature[column.kinds.index(kind)]
    return np.stack([values[name] for name in ROWS])


class _Book:
    """Rows and states at the samples, on the line between the two ends of the step each falls into."""

    def __init__(self, samples: Array, whole: Array, state: tuple[int, ...] | None) -> None:
        self.times = np.multiply.outer(samples, whole)
        self.rows = np.zeros((len(samples), len(ROWS), len(whole)))
        self.states = None if state is None else np.zeros((len(samples), *state))

    def write(self, old: Array, new: Array, before: Array, after: Array, start: Array, end: Array) -> None:
        """A step from ``start`` to ``end`` [s] of each lane."""
        within = (self.times > start) & (self.times <= end)
        part = (self.times - start) / np.where(end > start, end - start, 1.0)
        for i in np.flatnonzero(within.any(axis=1)):
            self.rows[i] = np.where(within[i], old + part[i] * (new - old), self.rows[i])
            if self.states is not None:
                self.states[i] = np.where(within[i], before + part[i] * (after - before), self.states[i])
