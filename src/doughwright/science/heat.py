"""Heat in a piece of dough: conduction through shells of equal thickness, and the film of air around it.

Shells are fixed in the dough's mass; the piece grows around them as it rises. Arrays run from the core out
along their first axis; a second one, where there is one, runs over many pieces at once ("lanes").
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import pi
from typing import Literal

import numpy as np

from doughwright.science.yeast import Array, Real

Shape = Literal["ball", "slab", "tin"]


@dataclass(frozen=True)
class Body:
    """A piece of dough cut into shells for conduction.

    ``mass`` [kg], ``volume`` [m3] before it has risen; ``skin`` [m2] that does not grow and ``side`` [m2]
    that grows with the height of what stands in a tin; ``nodes`` shells. A slab conducts one way (its volume
    is linear in depth), a ball or a tin three ways (volume by the cube of depth). Of many pieces of one shape
    at once, each is an array of shape (lanes,).
    """

    shape: Shape
    mass: Real
    volume: Real
    skin: Real
    side: Real
    nodes: int

    @property
    def ways(self) -> int:
        """1 where heat comes through two flat faces, 3 where it comes from all around."""
        return 1 if self.shape == "slab" else 3

    @cached_property
    def shares(self) -> Array:
        """Share of the mass in each shell, from the core out, shape (nodes,)."""
        return np.diff(self._depths**self.ways)

    @cached_property
    def weights(self) -> Array:
        """Mass of each shell [kg], shape (nodes,) or (nodes, lanes)."""
        return np.multiply.outer(self.shares, self.mass)

    @cached_property
    def faces(self) -> Array:
        """Area between the shells over the area of the skin, from the core out, shape (nodes - 1,)."""
        return np.asarray(self._depths[1:-1] ** (self.ways - 1))

    @property
    def _depths(self) -> Array:
        return np.linspace(0.0, 1.0, self.nodes + 1)

    def area(self, rise: Real) -> Real:
        """Skin [m2] at this rise: a ball's grows all round, a slab's not at all, a tin's with its height."""
        if self.shape == "ball":
            return self.skin * rise ** (2.0 / 3.0)
        return self.skin + self.side * rise

    def thickness(self, rise: Real) -> Real:
        """Thickness of a shell [m] at this rise."""
        return self.ways * self.volume * rise / (self.area(rise) * self.nodes)


def ball(*, mass: Real, density: float, nodes: int) -> Body:
    """A piece that stands free, as a sphere of the same volume.

    R = (3 m / (4 pi rho))^(1/3)

    Parameters
    ----------
    mass : float
        mass of the piece [kg], scalar or (lanes,)
    density : float
        density of the dough just mixed [kg/m3], scalar
    nodes : int
        shells [1], scalar

    Returns
    -------
    Body
        the piece
    """
    volume = mass / density
    skin = (36.0 * pi) ** (1.0 / 3.0) * volume ** (2.0 / 3.0)
    return Body("ball", mass, volume, skin, 0.0 * volume, nodes)


def slab(*, mass: Real, density: float, area: float, nodes: int) -> Body:
    """A piece spread flat with air on both faces; it grows in thickness only.

    half thickness = m / (rho area) / 2

    Parameters
    ----------
    mass : float
        mass of the piece [kg], scalar or (lanes,)
    density : float
        density of the dough just mixed [kg/m3], scalar
    area : float
        area of one face [m2], scalar
    nodes : int
        shells from the middle to a face [1], scalar

    Returns
    -------
    Body
        the piece
    """
    volume = mass / density
    return Body("slab", mass, volume, 2.0 * area + 0.0 * volume, 0.0 * volume, nodes)


def tin(*, mass: Real, density: float, length: float, width: float, nodes: int) -> Body:
    """A piece that fills the floor of a tin and grows upward.

    A ball-like nest of shells with the piece's own volume and skin: depth 3 V / A.

    Parameters
    ----------
    mass : float
        mass of the piece [kg], scalar or (lanes,)
    density : float
        density of the dough just mixed [kg/m3], scalar
    length, width : float
        inner floor of the tin [m], scalars
    nodes : int
        shells [1], scalar

    Returns
    -------
    Body
        the piece

    Notes
    -----
    Exact where the film decides; the slowest time of a 30 x 11 x 7 cm block is 7 % short where conduction
    alone does. The tin's own heat is left out.
    """
    volume = mass / density
    floor = length * width
    side = 2.0 * (length + width) * volume / floor
    return Body("tin", mass, volume, 2.0 * floor + 0.0 * volume, side, nodes)


def conduct(
    *,
    temperature: Array,
    body: Body,
    rise: Real,
    conductivity: Array,
    heat: Real,
    film: Real,
    ambient: Real,
    source: Array,
    seconds: Real,
    implicit: float,
    resistance: Real = 0.0,
) -> Array:
    """Temperatures of the shells a time later.

    m_i cp dT_i/dt = sum over neighbours of k A / dr (T_j - T_i) + m_i q_i; the film stands in series with
    half of the outer shell. Weight ``implicit`` on the new time: 1 backward Euler, 0.5 Crank-Nicolson.

    Parameters
    ----------
    temperature : array
        temperatures from the core out [degC], shape (nodes,) or (nodes, lanes)
    body : Body
        the piece [kg, m2, m3]
    rise : float
        mean volume ratio of the piece [1], scalar or (lanes,)
    conductivity : array
        conductivity of each shell [W/(m K)], shape (nodes,) or (nodes, lanes)
    heat : float
        heat capacity [J/(kg K)], scalar
    film : float
        heat transfer at the skin [W/(m2 K)], scalar; of a slumped piece, times its greater skin
    ambient : float
        temperature of the air in the step [degC], scalar
    source : array
        heat made in each shell [W/kg], shape (nodes,) or (nodes, lanes)
    seconds : float
        length of the step [s], scalar
    implicit : float
        weight on the new time [1], scalar, 0.5 to 1
    resistance : float
        what stands between the air at the skin and the air of the place [K/W], scalar

    Returns
    -------
    array
        temperatures after the step [degC], shape (nodes,)

    References
    ----------
    1. Crank & Nicolson 1947, Proc. Camb. Phil. Soc. 43:50. 2. Patankar 1980 (finite volumes).
    """
    inner, outer = _conductances(body, rise, conductivity, film, resistance)
    store = (heat / (implicit * seconds)) * body.weights
    diagonal = store.copy()
    diagonal[:-1] += inner
    diagonal[1:] += inner
    diagonal[-1] += outer
    right = store * temperature + body.weights * source
    right[-1] += outer * ambient
    # Solved for the state at the weighted time, which the whole step passes through in a straight line.
    between = _solve_tridiagonal(diagonal, -inner, right)
    return np.asarray(temperature + (between - temperature) / implicit)


def _conductances(
    body: Body, rise: Real, conductivity: Array, film: Real, resistance: Real
) -> tuple[Array, Real]:
    area, step = body.area(rise), body.thickness(rise)
    near, far = conductivity[:-1], conductivity[1:]
    faces = body.faces if near.ndim == 1 else body.faces[:, None]
    inner = (2.0 * area / step) * faces * near * far / (near + far)
    half = 2.0 * conductivity[-1] / step
    outer = area * half * film / (half + film)
    return inner, outer / (1.0 + resistance * outer)


def _solve_tridiagonal(diagonal: Array, beside: Array, right: Array) -> Array:
    # Thomas's elimination, every lane at once: as the compiled kernel does it.
    pivots, values = diagonal.copy(), right.copy()
    for i in range(1, len(pivots)):
        factor = beside[i - 1] / pivots[i - 1]
        pivots[i] -= factor * beside[i - 1]
        values[i] -= factor * values[i - 1]
    values[-1] /= pivots[-1]
    for i in range(len(pivots) - 2, -1, -1):
        values[i] = (values[i] - beside[i] * values[i + 1]) / pivots[i]
    return values


def skin_temperature(
    *, temperature: Array, body: Body, rise: Real, conductivity: Array, film: Real, ambient: Real
) -> Real:
    """Temperature of the surface, between the outer shell and the air.

    (g T_last + h T_air) / (g + h), g = 2 k / dr

    Parameters
    ----------
    temperature : array
        temperatures from the core out [degC], shape (nodes,) or (nodes, lanes)
    body : Body
        the piece [kg, m2, m3]
    rise : float
        mean volume ratio of the piece [1], scalar or (lanes,)
    conductivity : array
        conductivity of each shell [W/(m K)], shape (nodes,) or (nodes, lanes)
    film : float
        heat transfer at the skin [W/(m2 K)], scalar
    ambient : float
        temperature of the air [degC], scalar

    Returns
    -------
    float
        surface temperature [degC]
    """
    half = 2.0 * conductivity[-1] / body.thickness(rise)
    return np.asarray((half * temperature[-1] + film * ambient) / (half + film))[()]
