"""What the oven's kernel is given, held against its bounds: nothing else reaches it."""

from __future__ import annotations

from dataclasses import fields
from typing import Final

import numpy as np

from doughwright.science.browning import BURNT_CHANGE
from doughwright.science.kernels.bake_layout import (
    CHEESE,
    COLUMN,
    DOUGH,
    INPUTS,
    RULES,
    STATE,
    SURFACE,
    BakeStepping,
    Column,
)
from doughwright.science.kernels.bounds import _check_range, _wrong
from doughwright.science.yeast import Array

MOST_CELLS: Final = 256
"""Cells of a column."""

LONGEST_PHASE: Final = 86400.0
"""Seconds: no phase of a bake is longer than a day."""

_COLDEST, _HOTTEST = -50.0, 600.0
_PLACE = (_COLDEST, _HOTTEST)
_ABOVE = (1e-3, 1e6)
_SHARE = (0.0, 1.0)
_STARVED = (1e-30, 1e3)

INPUT_BOUNDS: dict[str, tuple[float, float]] = dict.fromkeys(INPUTS, _ABOVE) | {
    **dict.fromkeys((one for one in INPUTS if one.endswith(("air", "walls")) or one == "begins"), _PLACE),
    **dict.fromkeys((one for one in INPUTS if one.endswith("emissivity")), _SHARE),
    **dict.fromkeys(("skin_dough", "skin_sauce", "skin_cheese"), _STARVED),
    "pressure": (1e4, 1.5e5),
    "boiling": (40.0, 112.0),
    "sorption_moisture": (1e-3, 1.0),
    "boiling_rise": (1e-3, 1.0),
    "vapour_share": _SHARE,
    "crust_diffusivity": (1e-30, 1.0),
    "topping_dry_moisture": (1e-3, 10.0),
    "contact_depth": (1e-7, 1.0),
    "browning": (0.0, 100.0),
    "yeast_z": (0.1, 1e3),
    "seconds": (0.0, LONGEST_PHASE),
    "vapour": (0.0, 1.5e5),
    "broil": (0.0, 1e5),
    "ramp": (0.0, LONGEST_PHASE),
}
"""Lowest and highest of each row of the inputs, in its unit."""

RULE_BOUNDS: dict[str, tuple[float, float]] = dict.fromkeys(RULES, _SHARE) | {
    "front_dough": (0.0, 10.0),
    "front_topping": (0.0, 10.0),
    "vapour_limit": (1.0, 1e6),
    "vapour_ceiling": (0.01, 0.9999),
    "lewis": (0.1, 10.0),
    "water_heat": (100.0, 1e5),
    "steam_heat": (0.0, 1e5),
    "spring_from": _PLACE,
    "spring_span": (0.01, 1e3),
    "browning_from": _PLACE,
    "set_temperature": _PLACE,
}
"""The same of what all lanes share."""

_STEPPING_BOUNDS = {"first": (1e-4, 600.0), "growth": (1.001, 10.0), "longest": (1e-4, 600.0)}
_STATE_BOUNDS = dict.fromkeys(STATE, _SHARE) | {
    "temperature": _PLACE,
    "water": (0.0, 1e4),
    "boiled": (0.0, 1e4),
}
_COLUMN_BOUNDS = {"thickness": (1e-9, 10.0), "moisture": (1e-6, 1e4), "spring": (0.0, 10.0)}
_FACES = ("base", "top", "surface")
_CARRIED_BOUNDS = (
    dict.fromkeys(COLUMN, (-1e300, 1e300))
    | dict.fromkeys(_FACES, _PLACE)
    | {"base_browning": (0.0, BURNT_CHANGE), "top_browning": (0.0, BURNT_CHANGE), "set_at": (0.0, 1e9)}
)


def check_bake(
    *,
    inputs: Array,
    rules: Array,
    column: Column,
    lifted: bool = False,
    stepping: BakeStepping,
    samples: Array,
) -> None:
    """Refuse what a kernel must not see.

    Every number is finite and within its bounds, every array of its shape, and the cells in their order.

    Parameters
    ----------
    inputs : array
        what differs by lane [units of INPUTS], shape (48, lanes)
    rules : array
        what does not [units of RULES], shape (15,)
    column : Column
        surface, food or both [units of Column]
    lifted : bool
        whether the food is off its surface, out of what the oven's door does [no unit]
    stepping : BakeStepping
        how time is cut [s]
    samples : array
        when to write a row, as a share of each lane's seconds [1], shape (samples,), rising

    Returns
    -------
    None
        where nothing is amiss

    Raises
    ------
    OutOfRangeError
        the first thing that is wrong, and the kitchen it is in: temperatures from -50 to 600 degC, phases up
        to a day, 1 to 256 cells
    """
    _check_shapes(inputs, rules, column, samples)
    for one in fields(BakeStepping):
        value = np.array([getattr(stepping, one.name)], dtype=float)
        _check_range(f"stepping {one.name}", value, _STEPPING_BOUNDS[one.name])
    if samples.size:
        _check_range("samples", samples, (0.0, 1.0))
        if np.any(np.diff(samples) < 0.0):
            raise _wrong("samples", "shares of the phase in rising order", "one that falls")
    _check_rows(rules[:, None], RULE_BOUNDS)
    _check_rows(inputs, INPUT_BOUNDS)
    given = dict(zip(INPUTS, inputs, strict=True))
    _check_range("vapour over the pressure", given["vapour"] / given["pressure"], (0.0, 0.97))
    for side in ("over_",) if lifted else ("", "over_"):
        for what in ("air", "walls"):
            _check_range(f"{what} behind the door", given[side + what] - given[f"door_{what}"], _PLACE)
    for what in ("air", "walls"):
        _check_range(f"{what} as the oven warms", given["begins"] - given[f"door_{what}"], _PLACE)
    _check_column(column)


def check_baked(*, column: Column) -> None:
    """Refuse what came of a phase that nothing known covers.

    every temperature within the range of the formulas

    Parameters
    ----------
    column : Column
        after the phase [units of Column]

    Returns
    -------
    None
        where nothing is amiss

    Raises
    ------
    OutOfRangeError
        outside -50 to 600 degC, the range of the formulas of radiation and browning
    """
    _check_range("temperature", column.state[0], _PLACE)
    for name in _FACES:
        _check_range(f"temperature of the {name}", column.read(name), _PLACE)


def _check_shapes(inputs: Array, rules: Array, column: Column, samples: Array) -> None:
    kinds, state = column.kinds, column.state
    if state.ndim != 3 or state.shape[:2] != (len(STATE), len(kinds)) or state.shape[2] < 1:
        raise _wrong("the state", f"shape ({len(STATE)}, {len(kinds)}, lanes)", str(state.shape))
    if not 1 <= len(kinds) <= MOST_CELLS:
        raise _wrong("cells of a column", f"from 1 to {MOST_CELLS}", str(len(kinds)))
    order = [min(one, DOUGH + 1) for one in kinds]
    if order != sorted(order) or min(kinds) < SURFACE or max(kinds) > CHEESE:
        raise _wrong("the cells of a column", "surface, then dough, then toppings", str(kinds))
    if max(kinds) > SURFACE and DOUGH not in kinds:
        raise _wrong("the cells of a column", "dough under the toppings", str(kinds))
    cells, lanes = state.shape[1:]
    wanted = {
        "inputs": (inputs, (len(INPUTS), lanes)),
        "rules": (rules, (len(RULES),)),
        "samples": (samples, (samples.size,)),
        "area": (column.area, (cells + 1, lanes)),
        "carried": (column.carried, (len(COLUMN), lanes)),
        **{name: (getattr(column, name), (cells, lanes)) for name in ("solids", *_COLUMN_BOUNDS)},
    }
    for name, (array, shape) in wanted.items():
        if array.dtype != np.float64 or array.shape != shape:
            raise _wrong(name, f"doubles, shape {shape}", f"{array.dtype}, shape {array.shape}")


def _check_column(column: Column) -> None:
    _check_rows(column.state, _STATE_BOUNDS)
    _check_range("solids", column.solids, (1e-9, 1e6))
    for name, bounds in _COLUMN_BOUNDS.items():
        _check_range(name, getattr(column, name), bounds)
    _check_range("area", column.area, (0.0, 1e4))
    _check_range("area of the top", column.area[-1], (1e-6, 1e4))
    carried, at = column.carried.copy(), COLUMN.index("set_at")
    carried[at] = np.where(np.isnan(carried[at]), 0.0, carried[at])
    _check_rows(carried, _CARRIED_BOUNDS)


def _check_rows(values: Array, bounds: dict[str, tuple[float, float]]) -> None:
    """Each row within the bounds of its name, in their order; all at once where nothing is wrong."""
    ends = np.array(list(bounds.values())).T.reshape(2, -1, *(1,) * (values.ndim - 1))
    if ((values >= ends[0]) & (values <= ends[1])).all():
        return
    for (name, pair), row in zip(bounds.items(), values, strict=True):
        _check_range(name, row, pair)
