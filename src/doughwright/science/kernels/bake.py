"""A phase of many columns in the oven by the fastest way there is: the compiled kernel, else its twin."""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType

import numpy as np

from doughwright.science.kernels import bake_twin
from doughwright.science.kernels.bake_bounds import check_bake, check_baked
from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_layout import ROWS, Baked, BakeStepping, Column
from doughwright.science.kernels.bake_tables import BakeTables, bake_tables
from doughwright.science.kernels.waits import _kernel, _parts, _say_once, _shared_out, engine
from doughwright.science.yeast import Array

_BLOCKS_AT_ONCE = 2


def bake(
    *,
    inputs: Array,
    rules: Array,
    column: Column,
    curves: BakeCurves | None = None,
    lifted: bool = False,
    stepping: BakeStepping,
    samples: Array,
    snapshots: bool = False,
    threads: int | None = None,
) -> Baked:
    """One phase of many columns; a lane's digits do not depend on its neighbours or on the threads.

    backward Euler in one tridiagonal system with apparent capacity, then water from enthalpy

    Parameters
    ----------
    inputs : array
        what differs by lane [units of INPUTS], shape (48, lanes)
    rules : array
        what does not [units of RULES], shape (15,)
    column : Column
        surface, food or both [units of Column]
    curves : BakeCurves or None
        what is looked up [see its methods]: the tables when left out; other than tables take the twin
    lifted : bool
        whether the food is off its surface, each in its own surroundings [no unit]
    stepping : BakeStepping
        how time is cut [s]
    samples : array
        when to write a row, as a share of each lane's seconds [1], shape (samples,), rising
    snapshots : bool
        whether to keep the states at the samples too [no unit]
    threads : int or None
        how many threads at most [1]; all processors when left out

    Returns
    -------
    Baked
        the columns after it

    Raises
    ------
    OutOfRangeError
        what the kernel must not see, and what no formula covers: temperatures beyond -50 to 600 degC, phases
        over a day (see bake_bounds)
    """
    check_bake(inputs=inputs, rules=rules, column=column, lifted=lifted, stepping=stepping, samples=samples)
    looked_up = bake_tables() if curves is None else curves
    kernel = _kernel()
    if kernel is None or engine() == "numpy" or not isinstance(looked_up, BakeTables):
        _say_once()
        done = bake_twin.bake(
            inputs=inputs,
            rules=rules,
            column=column,
            curves=looked_up,
            lifted=lifted,
            stepping=stepping,
            samples=samples,
            snapshots=snapshots,
        )
    else:
        done = _compiled(
            kernel, inputs, rules, column, looked_up, lifted, stepping, samples, snapshots, threads
        )
    check_baked(column=done.column)
    return done


def _compiled(
    kernel: ModuleType,
    inputs: Array,
    rules: Array,
    column: Column,
    curves: BakeTables,
    lifted: bool,
    stepping: BakeStepping,
    samples: Array,
    snapshots: bool,
    threads: int | None,
) -> Baked:
    """The same in C, the lanes shared out among threads."""
    shape, count = column.state.shape, len(samples)
    rows = np.empty((count, len(ROWS), shape[2]))
    states = np.empty((count, *shape)) if snapshots else None
    after, carried = np.empty(shape), np.empty(column.carried.shape)
    given = (
        inputs, rules, column.solids, column.thickness, column.moisture, column.spring, column.area,
        column.state, column.carried, curves.rows, samples,
    )  # fmt: skip
    arrays = (*(np.ascontiguousarray(one) for one in given), after, carried, rows, states)
    how = bytes(column.kinds), lifted, (stepping.first, stepping.growth, stepping.longest)

    def run(part: tuple[int, int]) -> None:
        kernel.bake(arrays, *how, part)

    _shared_out(run, _parts(shape[2], kernel.BAKE_LANES * _BLOCKS_AT_ONCE), threads)
    return Baked(replace(column, state=after, carried=carried), rows, states)
