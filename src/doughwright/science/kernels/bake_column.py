"""Columns of cells for the oven: how a surface, a dough and its toppings are cut, joined and parted."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from doughwright.science.kernels.bake_layout import (
    CHEESE,
    COLUMN,
    DOUGH,
    SAUCE,
    SURFACE,
    Column,
)
from doughwright.science.kernels.layout import fit_lanes
from doughwright.science.yeast import Array, Real

FINER = 1.6
"""Each cell of a surface over the one above it."""

RIM_LOAD, RIM_FOOT = 1.4, 0.72
"""The rim against the mean of a flat piece: its mass per area, and its foot over its top."""


def surface_column(
    *, thickness: Real, density: Real, temperature: Real, cells: int, area: Real = 1.0, lanes: int
) -> Column:
    """A stone, a plate or a tin's wall, its cells finest at the food's side.

    each cell is 1.6 times as thick as the one above it

    Parameters
    ----------
    thickness : float or array
        of the whole surface [m], scalar or (lanes,)
    density : float or array
        of what it is made of [kg/m3], scalar or (lanes,)
    temperature : float or array
        at the start [degC], scalar, (lanes,) or (cells, lanes)
    cells : int
        how many: 4 to 8 for stone, 2 for metal, 1 for a tin or a tray [1], scalar
    area : float or array
        of its upper face over the reference area [1], scalar or (lanes,)
    lanes : int
        how many kitchens [1], scalar

    Returns
    -------
    Column
        a surface without food
    """
    shares = FINER ** np.arange(cells - 1, -1, -1.0)
    each = np.outer(shares / shares.sum(), fit_lanes(value=thickness, lanes=lanes))
    foot = fit_lanes(value=area, lanes=lanes)
    return _column(
        kinds=(SURFACE,) * cells,
        solids=each * density * foot,
        thickness=each,
        moisture=np.ones((cells, lanes)),
        water=np.zeros((cells, lanes)),
        spring=np.zeros((cells, lanes)),
        area=np.tile(foot, (cells + 1, 1)),
        temperature=temperature,
    )


def dough_column(
    *,
    load: Real,
    water: Real,
    density: Real,
    spring: Real,
    temperature: Real,
    cells: int,
    finer: float,
    foot: Real = 1.0,
    wedge: float = 0.0,
    stepped: bool = False,
    lanes: int,
) -> Column:
    """A dough from its base up, its cells finest at both faces.

    share of a cell ~ 1 + (r - 1) sin(pi x)^1.5; a wedge body grows from a core both ways as distance^p:
    A = f ((Vb - V)/Vb)^(p/(p+1)) below Vb = V_end f/(1 + f), ((V - Vb)/(V_end - Vb))^(p/(p+1)) above

    Parameters
    ----------
    load : float or array
        mass over the area of the upper face [kg/m2], scalar or (lanes,)
    water : float or array
        water in the raw dough [1], scalar or (lanes,)
    density : float or array
        raw, as it is loaded [kg/m3], scalar or (lanes,)
    spring : float or array
        by what share its thickness grows in the oven [1], scalar or (lanes,)
    temperature : float or array
        at the start [degC], scalar, (lanes,) or (cells, lanes)
    cells : int
        how many [1], scalar
    finer : float
        r, the middle cell over the outermost [1]: 4 flat, 5 bun, 8 loaf, scalar
    foot : float or array
        f, the lower face over the upper [1], scalar or (lanes,)
    wedge : float
        p, how a bun or a loaf widens from its core [1]; 0 for straight sides, scalar
    stepped : bool
        whether the lower half has the area of the foot, as a rim has [no unit]
    lanes : int
        how many kitchens [1], scalar

    Returns
    -------
    Column
        a dough without surface or toppings
    """
    x = (np.arange(cells) + 0.5) / cells
    shares = 1.0 + (finer - 1.0) * np.sin(np.pi * x) ** 1.5
    shares /= shares.sum()
    load, water = fit_lanes(value=load, lanes=lanes), fit_lanes(value=water, lanes=lanes)
    mass = np.outer(shares, load)
    end = np.concatenate([[0.0], np.cumsum(shares)])
    area = _faces(end, fit_lanes(value=foot, lanes=lanes), wedge, stepped)
    moisture = water / (1.0 - water)
    solids = mass * (1.0 - water)
    return _column(
        kinds=(DOUGH,) * cells,
        solids=solids,
        thickness=mass / density / (0.5 * (area[:-1] + area[1:])),
        moisture=np.broadcast_to(moisture, solids.shape),
        water=mass * water,
        spring=np.broadcast_to(fit_lanes(value=spring, lanes=lanes), solids.shape),
        area=area,
        temperature=temperature,
    )


def _faces(end: Array, foot: Array, wedge: float, stepped: bool) -> Array:
    """Areas at cumulated volumes ``end`` (0 to 1) over that of the top face."""
    volume = end[:, None]
    if stepped:
        return np.where(volume < 0.5, foot, 1.0)
    if wedge == 0.0:
        return np.ones((len(end), len(foot)))
    core, power = foot / (1.0 + foot), wedge / (wedge + 1.0)
    below = foot * np.maximum((core - volume) / core, 0.0) ** power
    above = np.maximum((volume - core) / (1.0 - core), 0.0) ** power
    return np.where(volume < core, below, above)


def topping_column(
    *,
    load: Real,
    water: Real,
    density: Real,
    temperature: Real,
    cheese: bool,
    lanes: int,
) -> Column:
    """Sauce or cheese, a cell of its own, since melting and boiling stir it.

    one cell of load / density

    Parameters
    ----------
    load : float or array
        mass over the reference area [kg/m2], scalar or (lanes,)
    water : float or array
        water in it [1], scalar or (lanes,)
    density : float or array
        as it is spread [kg/m3], scalar or (lanes,)
    temperature : float or array
        at the start [degC], scalar or (lanes,)
    cheese : bool
        whether it is cheese; all else counts as sauce [no unit]
    lanes : int
        how many kitchens [1], scalar

    Returns
    -------
    Column
        one cell, without surface or dough
    """
    load, water = fit_lanes(value=load, lanes=lanes), fit_lanes(value=water, lanes=lanes)
    return _column(
        kinds=(CHEESE if cheese else SAUCE,),
        solids=(load * (1.0 - water))[None],
        thickness=(load / density)[None],
        moisture=(water / (1.0 - water))[None],
        water=(load * water)[None],
        spring=np.zeros((1, lanes)),
        area=np.ones((2, lanes)),
        temperature=temperature,
    )


def _column(
    *,
    kinds: tuple[int, ...],
    solids: Array,
    thickness: Array,
    moisture: Array,
    water: Array,
    spring: Array,
    area: Array,
    temperature: Real,
) -> Column:
    cells, lanes = solids.shape
    state = np.zeros((5, cells, lanes))
    state[0], state[1] = temperature, water
    carried = np.zeros((len(COLUMN), lanes))
    carried[COLUMN.index("set_at")] = np.nan
    if kinds[0] == SURFACE:
        carried[COLUMN.index("surface")] = state[0, -1]
    else:
        carried[COLUMN.index("base")] = state[0, 0]
        carried[COLUMN.index("top")] = state[0, -1]
        carried[COLUMN.index("core_peak")] = state[0].min(axis=0)
    return Column(kinds, solids, thickness, np.array(moisture), np.array(spring), area, state, carried)


def load_food(*, surface: Column, food: Column) -> Column:
    """A piece put on a surface, its clock and its books begun.

    the food's cells above the surface's; the surface keeps its temperatures

    Parameters
    ----------
    surface : Column
        the surface alone [units of Column]
    food : Column
        the piece [units of Column]

    Returns
    -------
    Column
        both
    """
    joined = _join(surface, food, food.area)
    return replace(joined, carried=_with(food.carried, surface=surface.read("surface")))


def dress_food(*, column: Column, topping: Column) -> Column:
    """A topping laid on a column; what is then on top has not browned yet.

    the topping's cell above the column's, no resistance between

    Parameters
    ----------
    column : Column
        with or without its surface [units of Column]
    topping : Column
        one cell [units of Column]

    Returns
    -------
    Column
        both
    """
    upper = topping.area * column.area[-1]
    joined = _join(column, replace(topping, solids=topping.solids), upper)
    carried = _with(column.carried, top=topping.state[0, -1], top_browning=0.0)
    return replace(joined, carried=carried)


def part_food(*, column: Column) -> tuple[Column, Column]:
    """The surface by itself and the food by itself.

    cells of the surface, cells above them

    Parameters
    ----------
    column : Column
        a surface with food on it [units of Column]

    Returns
    -------
    tuple of Column
        the surface, for the next piece; the food
    """
    n = column.surface
    bare = _cut(column, slice(0, n))
    books = np.zeros_like(column.carried)
    books[COLUMN.index("set_at")] = np.nan
    bare = replace(bare, carried=_with(books, surface=column.read("surface")))
    return bare, _cut(column, slice(n, len(column.kinds)))


def _cut(column: Column, cells: slice) -> Column:
    faces = slice(cells.start, cells.stop + 1)
    return Column(
        column.kinds[cells],
        column.solids[cells],
        column.thickness[cells],
        column.moisture[cells],
        column.spring[cells],
        column.area[faces],
        column.state[:, cells],
        column.carried,
    )


def _join(below: Column, above: Column, upper: Array) -> Column:
    """Where they meet the face is the food's, or the dough's under a topping."""
    kept = below.area[:-1] if below.kinds[-1] == SURFACE else below.area
    added = upper if below.kinds[-1] == SURFACE else upper[1:]
    return Column(
        below.kinds + above.kinds,
        np.concatenate([below.solids, above.solids]),
        np.concatenate([below.thickness, above.thickness]),
        np.concatenate([below.moisture, above.moisture]),
        np.concatenate([below.spring, above.spring]),
        np.concatenate([kept, added]),
        np.concatenate([below.state, above.state], axis=1),
        below.carried,
    )


def _with(carried: Array, **values: Real) -> Array:
    """What is carried, with some of it changed."""
    changed = carried.copy()
    for name, value in values.items():
        changed[COLUMN.index(name)] = value
    return changed
