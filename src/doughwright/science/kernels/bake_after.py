"""What a step of the oven leaves: water gone, faces, colour, setting, and the books of heat."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from doughwright.science.browning import BURNT_CHANGE
from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_edges import Edges, Top
from doughwright.science.kernels.bake_layout import COLUMN, Column
from doughwright.science.kernels.bake_step import Cells, Given, recover
from doughwright.science.setting import _DEATH_REFERENCE, _MOST_DECADES
from doughwright.science.yeast import Array


def close_step(
    *,
    column: Column,
    cells: Cells,
    edges: Edges,
    conductance: Array,
    crossing: tuple[Array, Array],
    solved: Array,
    given: Given,
    curves: BakeCurves,
    seconds: Array,
) -> Column:
    """The column after its temperatures are solved for.

    T and water from enthalpy; heat in = sum C dT + sum L m + sum L j + what steam took across the crust

    Parameters
    ----------
    column : Column
        before the step [units of Column]
    cells : Cells
        what it was like [units of Cells]
    edges : Edges
        its faces [units of Edges]
    conductance : array
        between neighbours [W/(m2 K)], shape (cells - 1, lanes)
    crossing : tuple of array
        steam heated from below and from above [W/(m2 K)], shape (cells, lanes)
    solved : array
        temperatures [degC], shape (cells, lanes)
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]
    seconds : array
        length of the step [s], shape (lanes,)

    Returns
    -------
    Column
        after it
    """
    n, before = column.surface, column.state[0]
    has_food = n < len(column.kinds)
    carried = dict(zip(COLUMN, column.carried, strict=True))
    heat, water = cells.apparent * (solved - before), column.state[1].copy()
    _flows(carried, column, edges, conductance, crossing, solved, seconds)
    if edges.top is not None:
        _evaporate(carried, column, edges.top, heat, water, solved, seconds)
    state = column.state.copy()
    state[0], boiled = recover(heat=heat, cells=cells, column=column, water=water, given=given, curves=curves)
    state[1], state[4] = water - boiled, boiled / seconds
    lost, warmed = boiled.sum(axis=0), cells.capacity * (state[0] - before)
    carried["lost"] = carried["lost"] + lost
    carried["latent"] = carried["latent"] + curves.latent(given["boiling"]) * lost
    carried["warmed"] = carried["warmed"] + warmed[n:].sum(axis=0)
    carried["surface_warmed"] = carried["surface_warmed"] + warmed[:n].sum(axis=0)
    _see_faces(carried, column, cells, edges, conductance, state[0])
    if has_food:
        _brown(carried, given, curves, seconds)
        _settle(carried, column, state, given, curves, seconds)
    carried["clock"] = carried["clock"] + seconds
    return replace(column, state=state, carried=np.stack([carried[name] for name in COLUMN]))


def _flows(
    carried: Given,
    column: Column,
    edges: Edges,
    conductance: Array,
    crossing: tuple[Array, Array],
    solved: Array,
    seconds: Array,
) -> None:
    """Heat through the faces and to the steam on its way out, into the books."""
    n = column.surface
    for flux in edges.bare:
        name = "heat_base" if flux is edges.base else "heat_surface"
        carried[name] = carried[name] + seconds * flux.at(solved[flux.cell])
    if edges.top is not None:
        carried["heat_top"] = carried["heat_top"] + seconds * edges.top.from_oven(solved[-1])
    if 0 < n < len(column.kinds):
        flow = conductance[n - 1] * (solved[n - 1] - solved[n])
        carried["heat_contact"] = carried["heat_contact"] + seconds * flow
    step = np.diff(solved, axis=0)
    taken = (crossing[0][1:] * step).sum(axis=0) - (crossing[1][:-1] * step).sum(axis=0)
    carried["steam_heat"] = carried["steam_heat"] + seconds * taken


def _evaporate(
    carried: Given, column: Column, top: Top, heat: Array, water: Array, solved: Array, seconds: Array
) -> None:
    """Water that left below boiling, from all toppings together; what was not there gives its heat back."""
    j, lane = top.front, np.arange(len(seconds))
    pool = j.pool(column)
    held = pool.sum(axis=0)
    felt = np.where(j.on_top, top.face(solved[-1]), solved[j.cell, lane])
    asked = np.where(j.found, top.area * (j.base + j.slope * (felt - j.at)), 0.0) * seconds
    left = np.where(j.on_top, asked, np.maximum(asked, 0.0))
    left = np.minimum(left, held)
    heat[j.cell, lane] += top.latent * (asked - left)
    np.maximum(water - left * pool / np.maximum(held, 1e-300), 0.0, out=water)
    carried["lost"], carried["drying"] = carried["lost"] + left, left / seconds
    carried["latent"] = carried["latent"] + top.latent * left


def _see_faces(
    carried: Given, column: Column, cells: Cells, edges: Edges, conductance: Array, temperature: Array
) -> None:
    """Temperatures of the faces, from the cells' and what flows between."""
    n, total = column.surface, len(column.kinds)
    if 0 < n < total:
        flow = conductance[n - 1] * (temperature[n - 1] - temperature[n]) / np.maximum(column.area[n], 1e-12)
        carried["surface"] = temperature[n - 1] - flow * 0.5 * cells.resistance[n - 1]
        carried["base"] = temperature[n] + flow * 0.5 * cells.resistance[n]
    if edges.over is not None:
        carried["surface"] = edges.over.face(temperature[n - 1])
    if edges.base is not None:
        carried["base"] = edges.base.face(temperature[n])
    if edges.top is not None:
        carried["top"] = edges.top.face(temperature[-1])


def _brown(carried: Given, given: Given, curves: BakeCurves, seconds: Array) -> None:
    """Colour of both faces; solved over the step, so that it never passes burnt."""
    for face, name in (("base", "base_browning"), ("top", "top_browning")):
        at = carried[face]
        rate = np.where(at > given["browning_from"], curves.browning(at) * given["browning"], 0.0)
        carried[name] = BURNT_CHANGE - (BURNT_CHANGE - carried[name]) * np.exp(-rate * seconds)


def _settle(
    carried: Given, column: Column, state: Array, given: Given, curves: BakeCurves, seconds: Array
) -> None:
    """Starch set, spring, dead yeast, and when all of the dough has set."""
    dough = column.dough
    was, now = column.state[0, dough].min(axis=0), state[0, dough].min(axis=0)
    old = column.state[2, dough].min(axis=0)
    temperature = state[0, dough]
    springing = state[2, dough] < given["spring_stop"]
    sprung = np.clip((temperature - given["spring_from"]) / given["spring_span"], 0.0, 1.0)
    state[3, dough] = np.where(springing, np.maximum(state[3, dough], sprung), state[3, dough])
    setting = np.exp(-curves.gelatinising(temperature) * seconds)
    state[2, dough] = 1.0 - (1.0 - state[2, dough]) * setting
    new = state[2, dough].min(axis=0)
    part = np.minimum(_crosses(was, now, given["set_temperature"]), _crosses(old, new, given["set_share"]))
    first = np.isnan(carried["set_at"]) & (part <= 1.0)
    carried["set_at"] = np.where(first, carried["clock"] + part * seconds, carried["set_at"])
    carried["core_peak"] = np.maximum(carried["core_peak"], now)
    decades = np.minimum((now - _DEATH_REFERENCE) / given["yeast_z"], _MOST_DECADES)
    carried["killed"] = carried["killed"] + seconds * 10.0**decades / given["yeast_decimal"]


def _crosses(old: Array, new: Array, level: Array) -> Array:
    """The part of the step at which a level is reached, 2 where it is not."""
    span = np.where(new > old, new - old, 1.0)
    return np.where(new >= level, np.clip((level - old) / span, 0.0, 1.0), 2.0)
