"""One step of a column in the oven: its properties, what it meets, the solve, and the water that boils."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_layout import CHEESE, DOUGH, SURFACE, Column
from doughwright.science.steam import SEA_LEVEL
from doughwright.science.yeast import Array

DRIEST = 1e-6
"""Water over solids under which a cell's boiling curve is not followed further."""
WIDTH = 0.25
"""Over how many kelvin a wet cell may take up heat by boiling in one step."""
NEAR = 0.05
"""How far below boiling [K] a cell already counts as boiling."""
OVERFILLED = 5.0
"""How far [K] a cell may end over the temperature its step was solved for."""
ROUNDS, CLOSE = 60, 1e-10
"""At most so many rounds of Newton for the water that boils, or until so close [K] to its boiling curve."""

Given = dict[str, Array]


@dataclass(frozen=True, slots=True)
class Cells:
    """What the cells are like at the start of a step, each (cells, lanes): heat capacity [J/(m2 K)], water
    over solids, dryness [1], thickness [m], resistance from face to face [m2 K/W], capacity with boiling.
    """

    capacity: Array
    moisture: Array
    dryness: Array
    thickness: Array
    resistance: Array
    apparent: Array


def boiling_curve(*, moisture: Array, given: Given, curves: BakeCurves) -> tuple[Array, Array]:
    """Where held water boils, and how steeply that rises as it dries.

    B = (a/X)^2.5, T_b = T_b0 + ln(1 + B)/b, -dT_b/dX = 2.5 B/(X (1 + B) b)

    Parameters
    ----------
    moisture : array
        water over solids, above 0 [1], shape (..., lanes)
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]

    Returns
    -------
    tuple of array
        degC and K, shape of moisture
    """
    held, rise = binding(moisture=moisture, given=given), given["boiling_rise"]
    slope = 2.5 * held / (moisture * (1.0 + held) * rise)
    return given["boiling"] + curves.above_boiling(held) / rise, slope


def binding(*, moisture: Array, given: Given) -> Array:
    """How strongly solids hold their water.

    B = (a/X)^2.5

    Parameters
    ----------
    moisture : array
        water over solids, above 0 [1], shape (..., lanes)
    given : dict
        the lanes' inputs [units of INPUTS]

    Returns
    -------
    array
        1, shape of moisture; water activity is 1/(1 + B)
    """
    ratio = given["sorption_moisture"] / moisture
    return np.asarray(ratio * ratio * np.sqrt(ratio))


def look(*, column: Column, given: Given, curves: BakeCurves) -> Cells:
    """What the cells are like as they are now.

    C = s c_s + w c_w, R = dz (f/k_dry + (1 - f)/k_wet)

    Parameters
    ----------
    column : Column
        the cells [units of Column]
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]

    Returns
    -------
    Cells
        their properties
    """
    temperature, water, _, sprung, _ = column.state
    surface, dough, cheese = (column.is_kind(one) for one in (SURFACE, DOUGH, CHEESE))
    moisture = np.maximum(water / column.solids, DRIEST)
    raw = np.where(dough, column.moisture, given["topping_dry_moisture"])
    dryness = np.where(surface, 0.0, np.clip(1.0 - water / column.solids / raw, 0.0, 1.0))
    heat = np.where(dough, given["dough_heat"], given["sauce_heat"])
    heat = np.where(surface, given["surface_heat"], np.where(cheese, given["cheese_heat"], heat))
    capacity = column.solids * heat + water * given["water_heat"]
    topped = (column.solids + water) / (column.solids * (1.0 + column.moisture))
    swell = np.where(dough, 1.0 + column.spring * sprung, np.where(surface, 1.0, topped))
    thickness = column.thickness * swell
    wet = np.where(cheese, given["cheese_conductivity"], given["sauce_conductivity"])
    wet = np.where(dough, given["dough_conductivity"] + _vapour_path(temperature, given, curves), wet)
    wet = np.where(surface, given["surface_conductivity"], wet)
    dry = np.where(dough, given["crust_conductivity"], given["topping_dry_conductivity"])
    resistance = thickness * (dryness / dry + (1.0 - dryness) / wet)
    boiling, slope = boiling_curve(moisture=moisture, given=given, curves=curves)
    boils = (temperature >= boiling - NEAR) & ~surface & (water > 0.0)
    latent = curves.latent(given["boiling"])
    extra = latent * np.minimum(column.solids / np.maximum(slope, 1e-12), water / WIDTH)
    apparent = capacity + np.where(boils, extra, 0.0)
    return Cells(capacity, moisture, dryness, thickness, resistance, apparent)


def _vapour_path(temperature: Array, given: Given, curves: BakeCurves) -> Array:
    """What steam going from warm to cold pores adds to conduction [W/(m K)]."""
    capped = np.minimum(temperature, given["boiling"])
    pressure = given["pressure"]
    free = np.maximum(pressure - curves.saturation(capped), pressure / given["vapour_limit"])
    flow = pressure / free
    return np.asarray(given["vapour_share"] * curves.carrying(capped) * (SEA_LEVEL / pressure) * flow)


def contact(*, column: Column, cells: Cells, given: Given) -> Array:
    """Conductance between surface and dough, which opens as the base dries.

    h_c = h_dry + (h_wet - h_dry) exp(-d/d_c), d the dried depth from the base up

    Parameters
    ----------
    column : Column
        surface and food [units of Column]
    cells : Cells
        what they are like [units of Cells]
    given : dict
        the lanes' inputs [units of INPUTS]

    Returns
    -------
    array
        W/(m2 K), shape (lanes,)
    """
    dried, thickness = cells.dryness[column.dough], cells.thickness[column.dough]
    depth, going = np.zeros(dried.shape[1]), np.ones(dried.shape[1], dtype=bool)
    for one, thick in zip(dried, thickness, strict=True):
        going = going & (one > given["contact_noticed"])
        if not going.any():
            break
        depth = np.where(going, depth + one * thick, depth)
        going = going & (one >= given["contact_dried"])
    span = given["contact_wet"] - given["contact_dry"]
    return np.asarray(given["contact_dry"] + span * np.exp(-depth / given["contact_depth"]))


def steam_flow(*, column: Column, given: Given) -> tuple[Array, Array]:
    """Steam of the last step on its way out through each cell.

    what boiled in the cells inside it: up above the coldest food cell, down below it; from the middle where
    the food is within 1 K of boiling

    Parameters
    ----------
    column : Column
        surface and food [units of Column]
    given : dict
        the lanes' inputs [units of INPUTS]

    Returns
    -------
    tuple of array
        kg/(m2 s) arriving in each food cell, up where positive, (cells, lanes); leaving the top, (lanes,)
    """
    n = column.surface
    temperature, boiled = column.state[0, n:], column.state[4, n:]
    order = np.arange(len(temperature))[:, None]
    coldest = np.argmin(temperature, axis=0)
    warm = temperature.min(axis=0) > given["boiling"] - 1.0
    inner = np.where(warm, len(temperature) // 2, coldest)
    up = np.cumsum(np.where(order >= inner, boiled, 0.0), axis=0)
    down = np.where(order < inner, boiled, 0.0)
    down = np.cumsum(down[::-1], axis=0)[::-1]
    arriving = np.zeros_like(temperature)
    arriving[1:] += up[:-1]
    arriving[:-1] -= down[1:]
    return arriving, np.asarray(up[-1])


def refit(*, column: Column, cells: Cells, solved: Array, given: Given, curves: BakeCurves) -> Array:
    """Capacity of cells that the step would overfill, or cool, with that of boiling.

    (C (T' - T) + L (w - s X_b(T'))) / (T' - T) where the heat taken up would end over 5 K above T'; C below T

    Parameters
    ----------
    column : Column
        the cells before the step [units of Column]
    cells : Cells
        what they are like [units of Cells]
    solved : array
        temperatures that their apparent capacity leads to [degC], shape (cells, lanes)
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]

    Returns
    -------
    array
        J/(m2 K), shape (cells, lanes); the same where nothing is amiss
    """
    step = solved - column.state[0]
    boils = cells.apparent > cells.capacity
    over = boils & (step > WIDTH)
    apparent = np.where(boils & (step < 0.0), cells.capacity, cells.apparent)
    if over.any():
        rise = np.where(over, np.maximum(solved - given["boiling"], 0.0) * given["boiling_rise"], 1.0)
        # a/X = B^(2/5), the boiling curve turned round; past 300 nothing is left.
        held = given["sorption_moisture"] / np.expm1(np.minimum(rise, 300.0)) ** 0.4
        boiled = np.clip(column.state[1] - column.solids * held, 0.0, None)
        latent = curves.latent(given["boiling"]) * boiled
        true = cells.capacity + latent / np.where(over, step, 1.0)
        amiss = over & ((cells.apparent - true) * step > OVERFILLED * cells.capacity)
        apparent = np.where(amiss, true, apparent)
    return np.asarray(apparent)


def recover(
    *, heat: Array, cells: Cells, column: Column, water: Array, given: Given, curves: BakeCurves
) -> tuple[Array, Array]:
    """Temperature and boiled water from the heat a cell took up, none of it lost.

    T* = T + dH/C; where T* > T_b(X): m with T* - L m/C = T_b((w - m)/s), by Newton kept in its bracket

    Parameters
    ----------
    heat : array
        taken up in the step [J/m2], shape (cells, lanes)
    cells : Cells
        what they were like at its start [units of Cells]
    column : Column
        the cells then [units of Column]
    water : array
        in them, less what left below boiling [kg/m2], shape (cells, lanes)
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]

    Returns
    -------
    tuple of array
        degC, and kg/m2 boiled, shape (cells, lanes)
    """
    reached = column.state[0] + heat / cells.capacity
    moisture = np.maximum(water / column.solids, DRIEST)
    boils_at, slope = boiling_curve(moisture=moisture, given=given, curves=curves)
    boils = (reached > boils_at) & (water > 0.0) & ~column.is_kind(SURFACE)
    boiled = np.zeros_like(reached)
    if boils.any():
        lane = np.nonzero(boils)[1]
        part = {name: given[name][lane] for name in ("boiling", "boiling_rise", "sorption_moisture")}
        cool = (curves.latent(given["boiling"]) / cells.capacity)[boils]
        boiled[boils] = _boiled(
            reached[boils],
            cool,
            water[boils],
            column.solids[boils],
            boils_at[boils],
            slope[boils],
            part,
            curves,
        )
    return reached - curves.latent(given["boiling"]) / cells.capacity * boiled, boiled


def _boiled(
    reached: Array,
    cool: Array,
    water: Array,
    solids: Array,
    boils_at: Array,
    slope: Array,
    given: Given,
    curves: BakeCurves,
) -> Array:
    """Water [kg/m2] whose boiling brings each cell down onto its boiling curve; all of it where it runs dry.

    The gap falls all the way from 0 to the bracket's end, so a step outside of it is halved instead.
    """
    low, high = np.zeros_like(reached), np.minimum((reached - boils_at) / cool, water)
    dry = (
        reached - cool * water
        >= boiling_curve(moisture=np.full_like(water, DRIEST), given=given, curves=curves)[0]
    )
    m, gap, going = low, reached - boils_at, np.ones(len(low), dtype=bool)
    for _ in range(ROUNDS):
        step = m + gap / (cool + slope / solids)
        step = np.where((step > low) & (step < high), step, 0.5 * (low + high))
        m = np.where(going, step, m)
        left = np.maximum((water - m) / solids, DRIEST)
        at, slope = boiling_curve(moisture=left, given=given, curves=curves)
        gap = reached - cool * m - at
        going = going & (np.abs(gap) > CLOSE)
        if not going.any():
            break
        low, high = np.where(gap > 0.0, m, low), np.where(gap > 0.0, high, m)
    return np.where(dry, water, m)
