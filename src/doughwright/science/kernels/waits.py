"""A wait of many pieces by the fastest way there is: the compiled kernel, else its NumPy twin."""

from __future__ import annotations

import os
import sys
from collections import deque
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import cache
from types import ModuleType
from typing import Final, Literal

import numpy as np

from doughwright.science.heat import Shape
from doughwright.science.kernels import twin
from doughwright.science.kernels.bounds import check_wait
from doughwright.science.kernels.layout import ROWS, Stepping, StopKind, Waited
from doughwright.science.kernels.tables import Tables
from doughwright.science.yeast import Array

SETTING: Final = "DOUGHWRIGHT_KERNEL"
"""Environment variable: ``numpy`` takes the twin even where the kernel is compiled."""

_SLOWER = (
    "doughwright: the compiled kernel is not there (no C compiler at set-up): the days take NumPy, "
    "with the same results, slower\n"
)
_SHAPES: tuple[Shape, ...] = ("ball", "slab", "tin")
_STOPS: tuple[StopKind | None, ...] = (None, "core", "rise")
_BLOCKS_AT_ONCE = 8


def engine() -> Literal["compiled", "numpy"]:
    """Which of the two a wait takes.

    Returns
    -------
    str
        compiled or numpy
    """
    return "numpy" if _kernel() is None or os.environ.get(SETTING) == "numpy" else "compiled"


def wait(
    *,
    inputs: Array,
    state: Array,
    tightness: Array,
    curves: Tables,
    shape: Shape,
    stepping: Stepping,
    stop: StopKind | None = None,
    samples: Array,
    snapshots: bool = False,
    threads: int | None = None,
) -> Waited:
    """Many pieces wait, a lane each; a lane's digits do not depend on its neighbours or on the threads.

    As twin.wait: backward Euler twice, then Crank-Nicolson, each step's ferment at its mean temperature.

    Parameters
    ----------
    inputs : array
        what differs by lane [units of INPUTS], shape (41, lanes)
    state : array
        temperature and ferment [units of STATE], shape (9, nodes, lanes)
    tightness : array
        how tight each is [1], shape (lanes,)
    curves : Tables
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
    threads : int or None
        how many threads at most [1]; all processors when left out

    Returns
    -------
    Waited
        the pieces after it

    Raises
    ------
    OutOfRangeError
        what the kernel must not see: temperatures beyond -12 to 70 degC, waits over 60 days (see bounds)
    """
    check_wait(
        inputs=inputs,
        state=state,
        tightness=tightness,
        curves=curves,
        shape=shape,
        stepping=stepping,
        stop=stop,
        samples=samples,
    )
    kernel = _kernel()
    if kernel is None or engine() == "numpy":
        _say_once()
        return twin.wait(
            inputs=inputs,
            state=state,
            tightness=tightness,
            curves=curves,
            shape=shape,
            stepping=stepping,
            stop=stop,
            samples=samples,
            snapshots=snapshots,
        )
    lanes, count = state.shape[2], len(samples)
    waited = Waited(
        state=np.empty_like(state),
        tightness=np.empty(lanes),
        took=np.empty(lanes),
        rows=np.empty((count, len(ROWS), lanes)),
        snapshots=np.empty((count, *state.shape)) if snapshots else None,
    )
    arrays = (
        inputs, state, tightness, curves.rows, samples,
        waited.state, waited.tightness, waited.took, waited.rows, waited.snapshots,
    )  # fmt: skip
    how = (
        (_SHAPES.index(shape), _STOPS.index(stop)),
        (curves.growth_minimum, curves.growth_maximum),
        (
            stepping.first, stepping.growth, stepping.longest,
            stepping.settling, stepping.slowest, stepping.share,
        ),
    )  # fmt: skip

    def run(part: tuple[int, int]) -> None:
        kernel.wait(arrays, *how, part)

    _shared_out(run, _parts(lanes, kernel.LANES * _BLOCKS_AT_ONCE), threads)
    return waited


def _parts(lanes: int, size: int) -> deque[tuple[int, int]]:
    """The lanes in parts of a few blocks."""
    return deque((first, min(first + size, lanes)) for first in range(0, lanes, size))


def _shared_out(
    run: Callable[[tuple[int, int]], None], parts: deque[tuple[int, int]], threads: int | None
) -> None:
    """Run every part, some threads at once; the caller's thread is one of them."""

    def work() -> None:
        while parts:
            try:
                part = parts.popleft()
            except IndexError:
                return
            run(part)

    helpers = min(threads or _processors(), len(parts)) - 1
    started = [_pool().submit(work) for _ in range(helpers)]
    work()
    for one in started:
        # A helper that has not begun by now has nothing left to do.
        if not one.cancel():
            one.result()


@cache
def _kernel() -> ModuleType | None:
    try:
        from doughwright.science.kernels import _core
    except ImportError:
        return None
    return _core


@cache
def _pool() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(max_workers=max(_processors() - 1, 1), thread_name_prefix="doughwright-kernel")


def _processors() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@cache
def _say_once() -> None:
    """The twin is slower: said where nobody asked for it."""
    if _kernel() is None and os.environ.get(SETTING) != "numpy":
        sys.stderr.write(_SLOWER)
