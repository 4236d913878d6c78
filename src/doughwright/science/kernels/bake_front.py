"""Where water leaves a column in the oven below boiling, and how fast."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_layout import CHEESE, DOUGH, SAUCE, Column
from doughwright.science.kernels.bake_step import Cells, Given, binding
from doughwright.science.steam import VAPOUR_GAS, ZERO_CELSIUS
from doughwright.science.yeast import Array, Mask

SECANT = 0.5
"""Over how many kelvin the slope of evaporation is taken."""
STEEP_FROM = 20.0
"""Where evaporation near boiling is held at its ceiling, it still falls towards none at so many degC."""
_AIR_GAS, _AIR_HEAT, _FILM_AIR = 287.0, 1010.0, 150.0


@dataclass(frozen=True, slots=True)
class Front:
    """The first wet ``cell`` from the top (lanes,), whether there is one and whether it is the top cell; the
    ``activity`` of its water, the ``skin`` of what is on top [1] and the ``depth`` of crust over it [m]; and
    its flux [kg/(m2 s)] about a temperature ``at`` [degC]: j = base + slope (T - at).
    """

    cell: Array
    found: Mask
    on_top: Mask
    activity: Array
    skin: Array
    depth: Array
    at: Array
    base: Array
    slope: Array

    def about(self, at: Array, given: Given, curves: BakeCurves) -> Front:
        """The same front about another temperature [degC]."""
        base = self._leaving(at, given, curves)
        slope = (self._leaving(at + SECANT, given, curves) - base) / SECANT
        least = np.where(base > 0.0, base / np.maximum(at - STEEP_FROM, 1.0), 0.0)
        flows = self.found & (self.on_top | (base > 0.0))
        slope = np.where(flows, np.maximum(slope, least), 0.0)
        return replace(self, at=at, base=np.where(flows, base, 0.0), slope=slope)

    def pool(self, column: Column) -> Array:
        """Water it draws on [kg/m2]: that of all toppings together, else of its own cell, (cells, lanes)."""
        topping = column.is_kind(SAUCE) | column.is_kind(CHEESE)
        alone = np.arange(len(column.kinds))[:, None] == self.cell
        return np.where(np.where(topping[self.cell, 0], topping, alone), column.state[1], 0.0)

    def held_to(self, most: Array, face: Array) -> Front:
        """The same front, giving at most so much [kg/(m2 s)] at the ``face`` it is going to [degC]."""
        there = np.where(self.on_top, face, self.at)
        over = self.base + self.slope * (there - self.at) > most
        return replace(self, base=np.where(over, most, self.base), slope=np.where(over, 0.0, self.slope))

    def _leaving(self, at: Array, given: Given, curves: BakeCurves) -> Array:
        """Water that leaves [kg/(m2 s)] from the front at a temperature [degC]."""
        pressure = given["pressure"]
        middle = 0.5 * (at + _FILM_AIR) + ZERO_CELSIUS
        air = _AIR_HEAT * pressure / (_AIR_GAS * middle)
        way = given["lewis"] * air / (self.skin * given["film"]) + self.depth / given["crust_diffusivity"]
        share = np.minimum(self.activity * curves.saturation(at) / pressure, given["vapour_ceiling"])
        drive = np.log((1.0 - given["vapour"] / pressure) / (1.0 - share))
        return np.asarray(pressure / (VAPOUR_GAS * middle) * drive / way)


def front(*, column: Column, cells: Cells, given: Given, curves: BakeCurves) -> Front:
    """Evaporation below boiling at the first wet cell from the top.

    j = h_m p/(R_v T_m) ln((1 - p_v/p)/(1 - a_w p_sat(T)/p)), 1/h_m = rho c_a .9/(skin h) + d/D_crust

    Parameters
    ----------
    column : Column
        surface and food [units of Column]
    cells : Cells
        what they are like [units of Cells]
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]

    Returns
    -------
    Front
        where, and how fast about the present temperature of the face or of the cell
    """
    n, last = column.surface, len(column.kinds) - 1
    least = np.where(column.is_kind(DOUGH), given["front_dough"], given["front_topping"])[n:]
    wet = column.state[1, n:] / column.solids[n:] > least
    found = np.asarray(wet.any(axis=0))
    cell = np.where(found, last - np.argmax(wet[::-1], axis=0), last)
    lane = np.arange(len(cell))
    above = np.cumsum(cells.thickness[::-1], axis=0)[::-1]
    depth = above[cell, lane] - cells.thickness[cell, lane]
    depth = depth + 0.5 * cells.dryness[cell, lane] * cells.thickness[cell, lane]
    on_top = np.asarray(found & (cell == last))
    at = np.where(on_top, column.read("top"), column.state[0][cell, lane])
    skin = given[{DOUGH: "skin_dough", SAUCE: "skin_sauce", CHEESE: "skin_cheese"}[column.kinds[-1]]]
    activity = 1.0 / (1.0 + binding(moisture=cells.moisture[cell, lane], given=given))
    return Front(cell, found, on_top, activity, skin, depth, at, at, at).about(at, given, curves)
