"""What flows into a column in the oven from outside it: at its underside, its bare faces and its top."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_front import Front, front
from doughwright.science.kernels.bake_layout import Column
from doughwright.science.kernels.bake_step import (
    Cells,
    Given,
    steam_flow,
)
from doughwright.science.oven import radiation_coefficient
from doughwright.science.yeast import Array

FACE_ROUNDS, FACE_STEP = 24, 2.0
"""A wet face that would move further [K] than this in a step is followed by Newton, in so many rounds."""
LEAST_BLOWN, MOST_BLOWN = 1e-9, 50.0
"""Steam through the film, times its heat and over the film's own transfer, is kept within these."""


@dataclass(frozen=True, slots=True)
class Flux:
    """Heat into one ``cell`` from outside, base - slope T [W/m2 of reference area], each (lanes,), and the
    ``resistance`` from the middle of the cell to its face over the area of the face."""

    cell: int
    base: Array
    slope: Array
    resistance: Array

    def at(self, temperature: Array) -> Array:
        """What flows in at a temperature of the cell [degC]."""
        return np.asarray(self.base - self.slope * temperature)

    def face(self, temperature: Array) -> Array:
        """Temperature of the face over its cell's [degC]."""
        return np.asarray(temperature + self.at(temperature) * self.resistance)


@dataclass(frozen=True, slots=True)
class Top:
    """The food's top: its area, the film [W/(m2 K)] on it, what that ``meets`` [degC], the resistance from
    face to middle of the top cell, where its water leaves, and with how much heat [J/kg]."""

    area: Array
    film: Array
    meets: Array
    half: Array
    front: Front
    latent: Array

    @property
    def _taken(self) -> tuple[Array, Array]:
        """Heat that water takes at the face itself, base + slope T_f [W/m2]."""
        j = self.front
        heat = np.where(j.on_top, self.latent, 0.0)
        return heat * (j.base - j.slope * j.at), heat * j.slope

    def face(self, temperature: Array) -> Array:
        """Temperature of the face over its cell's [degC]."""
        base, slope = self._taken
        warm = self.film * self.meets + temperature / self.half - base
        return np.asarray(warm / (self.film + 1.0 / self.half + slope))

    def into_cell(self) -> tuple[Array, Array]:
        """Heat into the top cell, base - slope T [W/m2 of reference area]."""
        base, slope = self._taken
        whole = (self.film + 1.0 / self.half + slope) * self.half / self.area
        return (self.film * self.meets - base) / whole, (self.film + slope) / whole

    def from_oven(self, temperature: Array) -> Array:
        """Heat through the face [W/m2 of reference area] over its cell's temperature."""
        return np.asarray(self.area * self.film * (self.meets - self.face(temperature)))


@dataclass(frozen=True, slots=True)
class Edges:
    """The faces of a column that see the oven or the room: those a phase has, in order from below."""

    under: Flux | None
    over: Flux | None
    base: Flux | None
    top: Top | None

    @property
    def bare(self) -> tuple[Flux, ...]:
        """The dry ones."""
        return tuple(one for one in (self.under, self.over, self.base) if one is not None)


def edges(
    *,
    column: Column,
    cells: Cells,
    given: Given,
    curves: BakeCurves,
    lifted: bool,
    seconds: Array,
    length: Array,
) -> Edges:
    """What a column's faces meet so long into a phase.

    base - slope T, radiation as a film at the face's last temperature

    Parameters
    ----------
    column : Column
        surface, food or both [units of Column]
    cells : Cells
        what they are like [units of Cells]
    given : dict
        the lanes' inputs [units of INPUTS]
    curves : BakeCurves
        what is looked up [see its methods]
    lifted : bool
        whether food and surface are apart [no unit]
    seconds : array
        since the phase began [s], shape (lanes,)
    length : array
        of the step that ends then [s], shape (lanes,)

    Returns
    -------
    Edges
        the faces
    """
    n, total = column.surface, len(column.kinds)
    under = over = base = top = None
    if n:
        air, walls = _met(given, "under_", seconds)
        under = _bare(column, cells, given, 0, column.area[0], column.state[0, 0], air, walls, "under_film")
    if n and (lifted or n == total):
        air, walls = _through_door(given, *_met(given, "over_", seconds), seconds)
        face = column.read("surface")
        over = _bare(column, cells, given, n - 1, column.area[n], face, air, walls, "over_film")
    if n < total:
        if lifted or n == 0:
            air, face = given["base_air"], column.read("base")
            base = _bare(column, cells, given, n, column.area[n], face, air, air, "base_film")
        air, walls = _met(given, "", seconds)
        if not lifted:
            air, walls = _through_door(given, air, walls, seconds)
        top = _top(column, cells, given, curves, air, walls, length)
    return Edges(under, over, base, top)


def _met(given: Given, side: str, seconds: Array) -> tuple[Array, Array]:
    """Air and walls [degC] of an oven that warms along its ramp."""
    ramp = given["ramp"]
    part = np.where(ramp > 0.0, np.minimum(seconds / np.maximum(ramp, 1e-9), 1.0), 1.0)
    start = given["begins"]
    return start + (given[side + "air"] - start) * part, start + (given[side + "walls"] - start) * part


def _through_door(given: Given, air: Array, walls: Array, seconds: Array) -> tuple[Array, Array]:
    fade = np.exp(-seconds / given["door_recovery"])
    return air - given["door_air"] * fade, walls - given["door_walls"] * fade


def _bare(
    column: Column,
    cells: Cells,
    given: Given,
    cell: int,
    area: Array,
    face: Array,
    air: Array,
    walls: Array,
    film: str,
) -> Flux:
    """A dry face under air and walls."""
    emissivity = given["base_emissivity" if film == "base_film" else "surface_emissivity"]
    rays = radiation_coefficient(emissivity=emissivity, face=face, walls=walls)
    half = 0.5 * cells.resistance[cell]
    through = area / (1.0 + (given[film] + rays) * half)
    base = through * (given[film] * air + rays * walls)
    return Flux(cell, base, through * (given[film] + rays), half / np.maximum(area, 1e-12))


def _top(
    column: Column,
    cells: Cells,
    given: Given,
    curves: BakeCurves,
    air: Array,
    walls: Array,
    length: Array,
) -> Top:
    """The food's top; steam that blows out of it thins the film of air (Ackermann)."""
    rays = radiation_coefficient(emissivity=given["emissivity"], face=column.read("top"), walls=walls)
    _, leaving = steam_flow(column=column, given=given)
    area = column.area[-1]
    leaving = leaving + np.maximum(column.read("drying"), 0.0)
    blown = np.clip(leaving * given["steam_heat"] / area / given["film"], LEAST_BLOWN, MOST_BLOWN)
    film = given["film"] * blown / np.expm1(blown)
    meets = (film * air + rays * walls + given["broil"]) / (film + rays)
    place = front(column=column, cells=cells, given=given, curves=curves)
    top = Top(area, film + rays, meets, 0.5 * cells.resistance[-1], place, curves.latent(place.at))
    top = _follow(top, column.state[0, -1], given, curves)
    most = top.front.pool(column).sum(axis=0) / (length * area)
    return replace(top, front=top.front.held_to(most, top.face(column.state[0, -1])))


def _follow(top: Top, cell: Array, given: Given, curves: BakeCurves) -> Top:
    """The top with evaporation about a face near the one it is going to, for which it may have to jump.

    A cold topping under a hot oven, or one whose oven changed, would otherwise swing from end to end.
    """
    low = np.zeros_like(cell)
    high = np.maximum(np.maximum(top.meets, cell), given["boiling"])
    for _ in range(FACE_ROUNDS):
        at, face = top.front.at, top.face(cell)
        jumps = top.front.on_top & (np.abs(face - at) > FACE_STEP)
        if not jumps.any():
            break
        low, high = np.where(face > at, at, low), np.where(face > at, high, at)
        inside = (face > low) & (face < high)
        nearer = np.where(jumps, np.where(inside, face, 0.5 * (low + high)), at)
        place = top.front.about(nearer, given, curves)
        top = replace(top, front=place, latent=curves.latent(nearer))
    return top
