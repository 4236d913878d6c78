"""What a kernel is given, held against its bounds: nothing else reaches it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, get_args

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.heat import Shape
from doughwright.science.kernels.layout import INPUTS, STATE, Stepping, StopKind
from doughwright.science.kernels.tables import COLDEST, HOTTEST, STEP, Tables
from doughwright.science.yeast import Array

FEWEST_NODES, MOST_NODES = 2, 64
"""Shells of a piece."""

LONGEST_WAIT: Final = 60.0 * 24.0
"""Hours: no dough waits for longer."""

_ANY = (-1e6, 1e6)
_SHARE = (0.0, 1e6)
_ABOVE = (1e-12, 1e9)

INPUT_BOUNDS: dict[str, tuple[float, float]] = dict.fromkeys(INPUTS, _ABOVE) | {
    **dict.fromkeys(("gassing", "growth", "at_mixing", "growth_rate", "growth_lag", "maltose_rate"), _SHARE),
    **dict.fromkeys(("warming", "side", "resistance", "film"), _SHARE),
    **dict.fromkeys(("phase", "daily_phase", "slope", "stop"), _ANY),
    "lag": (1e-3, 1e3),
    "pressure": (0.1, 10.0),
    "ceiling": (1.0, 100.0),
    "retention": (1e-3, 10.0),
    "gassing_minimum": (-50.0, 25.0),
    "death": (0.0, 200.0),
    "mass": (1e-4, 1e4),
    "heat": (100.0, 1e5),
    "conductivity": (1e-3, 100.0),
    "gas_conductivity": (1e-6, 1.0),
    "air_share": (0.0, 0.9),
    "hours": (0.0, LONGEST_WAIT),
    "mean": (COLDEST, HOTTEST),
    "swing": (-(HOTTEST - COLDEST), HOTTEST - COLDEST),
    "daily": (-(HOTTEST - COLDEST), HOTTEST - COLDEST),
    "period": (0.0, 1e6),
}
"""Lowest and highest of each row of the inputs, in its unit."""

SHORTEST_PERIOD: Final = 0.05
"""Hours of the quickest cycle that is stepped through."""

_INPUT_ENDS = np.array([INPUT_BOUNDS[name] for name in INPUTS]).T
_STATE_ENDS = np.array([(COLDEST, HOTTEST) if name == "temperature" else _SHARE for name in STATE]).T
_MALTOSE, _MALTOSE_LIMIT = STATE.index("maltose"), INPUTS.index("maltose_limit")
_OF_THE_AIR = {
    name: INPUTS.index(name) for name in ("mean", "swing", "daily", "period", "conductivity", "slope")
}
_STEPPING_BOUNDS = {
    "first": (0.1, 3600.0),
    "growth": (1.01, 10.0),
    "longest": (0.1, 86400.0),
    "settling": (0.0, 1e9),
    "slowest": (0.1, 86400.0),
    "share": (1e-6, 1e6),
}


def check_wait(
    *,
    inputs: Array,
    state: Array,
    tightness: Array,
    curves: Tables,
    shape: Shape,
    stepping: Stepping,
    stop: StopKind | None,
    samples: Array,
) -> None:
    """Refuse what a kernel must not see.

    Every number is finite and within its bounds, every array of its shape, of doubles, row after row.

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
        what stops a lane [no unit]
    samples : array
        when to write a row, as a share of each lane's hours [1], shape (samples,), rising

    Returns
    -------
    None
        where nothing is amiss

    Raises
    ------
    OutOfRangeError
        the first thing that is wrong, and the kitchen it is in: temperatures from -12 to 70 degC (those of
        the tables), waits up to 60 days, 2 to 64 nodes
    """
    if shape not in get_args(Shape):
        raise _wrong("the shape of a piece", " or ".join(get_args(Shape)), repr(shape))
    if stop is not None and stop not in get_args(StopKind):
        raise _wrong("what stops a wait", " or ".join(get_args(StopKind)), repr(stop))
    lanes = _lanes(state)
    _check_array("inputs", inputs, (len(INPUTS), lanes))
    _check_array("tightness", tightness, (lanes,))
    _check_array("curves", curves.rows, (round((HOTTEST - COLDEST) / STEP) + 1, 5))
    _check_array("samples", samples, (max(samples.size, 1),))
    for name, (low, high) in _STEPPING_BOUNDS.items():
        if not low <= getattr(stepping, name) <= high:
            raise _wrong(f"stepping {name}", f"from {low:g} to {high:g}", f"{getattr(stepping, name):g}")
    _check_range("samples", samples, (0.0, 1.0))
    if (samples[1:] < samples[:-1]).any():
        raise _wrong("samples", "shares of the wait in rising order", "one that falls")
    _check_rows(INPUTS, inputs, _INPUT_ENDS)
    _check_rows(STATE, state, _STATE_ENDS)
    spare = 1.0 - state[_MALTOSE] / inputs[_MALTOSE_LIMIT]
    _check_range("maltose still to form, as a share", spare, (-1e-9, 1.0))
    _check_range("tightness", tightness, _SHARE)
    _check_air({name: inputs[row] for name, row in _OF_THE_AIR.items()})


def _lanes(state: Array) -> int:
    if state.ndim != 3 or state.shape[0] != len(STATE):
        raise _wrong("the state", f"shape ({len(STATE)}, nodes, lanes)", str(state.shape))
    nodes, lanes = state.shape[1:]
    if not FEWEST_NODES <= nodes <= MOST_NODES:
        raise _wrong("nodes of a piece", f"from {FEWEST_NODES} to {MOST_NODES}", str(nodes))
    if lanes < 1:
        raise _wrong("lanes", "one kitchen at least", "none")
    _check_array("state", state, (len(STATE), nodes, lanes))
    return int(lanes)


def _check_array(name: str, values: Array, shape: tuple[int, ...]) -> None:
    if values.dtype != np.float64 or not values.flags.c_contiguous:
        raise _wrong(name, "doubles, row after row", f"{values.dtype}, strides {values.strides}")
    if values.shape != shape:
        raise _wrong(name, f"shape {shape}", str(values.shape))


def _check_range(name: str, values: Array, bounds: tuple[float, float]) -> None:
    low, high = bounds
    # One pass each; NaN fails both comparisons.
    if values.min() >= low and values.max() <= high:
        return
    wrong = ~((values >= low) & (values <= high))
    found = values[wrong].flat[0]
    lane = np.nonzero(wrong)[-1][0]
    raise _wrong(
        f"{name} (kitchen {lane + 1} of {values.shape[-1]})", f"from {low:g} to {high:g}", f"{found:g}"
    )


def _check_rows(names: Sequence[str], values: Array, ends: Array) -> None:
    """Every row within its own bounds: all at once, and one by one only to say which is not."""
    flat = values.reshape(len(names), -1)
    if (flat.min(axis=1) >= ends[0]).all() and (flat.max(axis=1) <= ends[1]).all():
        return
    for name, row, low, high in zip(names, values, *ends, strict=True):
        _check_range(name, row, (low, high))


def _check_air(given: dict[str, Array]) -> None:
    if given["swing"].any() or given["daily"].any():
        sway = np.abs(given["swing"]) + np.abs(given["daily"])
        _check_range("coldest air", given["mean"] - sway, (COLDEST, HOTTEST))
        _check_range("warmest air", given["mean"] + sway, (COLDEST, HOTTEST))
        period = np.where(given["swing"] != 0.0, given["period"], SHORTEST_PERIOD)
        _check_range("period of a swing", period, (SHORTEST_PERIOD, 1e6))
    for at in (COLDEST, HOTTEST):
        _check_range(
            "conductivity in the cold and heat", given["conductivity"] + at * given["slope"], (1e-3, 1e3)
        )


def _wrong(what: str, wanted: str, found: str) -> OutOfRangeError:
    return OutOfRangeError(Fault(what, wanted=wanted, found=found))
