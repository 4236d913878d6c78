"""What food is baked on and what it is made of: heat properties of surfaces, doughs, sauces and cheeses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from doughwright.errors import Fault, UnknownNameError, did_you_mean
from doughwright.science._ranges import above, within
from doughwright.science.parameter_rows import How
from doughwright.science.properties import (
    COMPONENTS,
    conductivity_choi_okos_1986,
    density_choi_okos_1986,
    heat_capacity_choi_okos_1986,
)
from doughwright.science.yeast import Array, Real

Kind = Literal["stone", "metal", "sheet"]

# Water of flour as weighed, and salt beside it, in the dough the model was tuned on: 1 flour + water + salt.
_FLOUR_WATER, _SALT = 0.13, 0.025


@dataclass(frozen=True, slots=True)
class Material:
    """What a surface is made of, near 250 degC: ``conductivity`` [W/(m K)], ``density`` [kg/m3],
    ``heat_capacity`` [J/(kg K)], ``emissivity`` [1]; ``thickness`` [m] where nobody says; how it is known.
    """

    name: str
    kind: Kind
    conductivity: float
    density: float
    heat_capacity: float
    emissivity: float
    thickness: float
    how: How
    source: str

    @property
    def effusivity(self) -> float:
        """Root of conductivity, density and heat capacity [W s^0.5/(m2 K)]."""
        return float(np.sqrt(self.conductivity * self.density * self.heat_capacity))


_INCROPERA = "Incropera & DeWitt, tables A.1 and A.3"
_SHEET = "steel as above; bright to tinned sheet"

MATERIALS: tuple[Material, ...] = (
    Material(
        "cordierite", "stone", 1.5, 2000.0, 850.0, 0.85, 16e-3, "from memory",
        "kiln shelf: density 1.8 to 2.4 from a maker's sheet; k 1.0 to 3.0, c 750 to 1000 general data",
    ),
    Material(
        "firebrick", "stone", 1.0, 2050.0, 960.0, 0.85, 30e-3, "from memory",
        _INCROPERA + " (fire clay, burnt)",
    ),
    Material(
        "soft clay", "stone", 0.6, 1750.0, 870.0, 0.85, 30e-3, "from memory",
        "unglazed clay tile: k 0.5 to 0.7, density 1600 to 1800, c 840 to 900",
    ),
    Material(
        "soapstone", "stone", 3.0, 2980.0, 980.0, 0.85, 20e-3, "from memory",
        "stone stoves: k 2.5 to 3.5",
    ),
    Material(
        "cast iron", "metal", 50.0, 7200.0, 500.0, 0.85, 6e-3, "from memory",
        "grey iron, handbooks: k 45 to 55, c 460 to 540; seasoned",
    ),
    Material(
        "carbon steel", "metal", 50.0, 7832.0, 530.0, 0.85, 6e-3, "from memory",
        _INCROPERA + " (AISI 1010 at 500 K); seasoned, bright steel has emissivity 0.3",
    ),
    Material(
        "aluminium", "metal", 167.0, 2700.0, 896.0, 0.85, 8e-3, "from memory",
        "6061-T6, handbooks; anodised or dark, bare aluminium has emissivity 0.1",
    ),
    Material(
        "stainless steel", "metal", 16.0, 7900.0, 500.0, 0.30, 6e-3, "from memory",
        _INCROPERA + " (304 between 300 and 400 K); bright",
    ),
    Material("tray", "sheet", 50.0, 7832.0, 530.0, 0.50, 0.8e-3, "assumed", _SHEET),
    Material("tin", "sheet", 50.0, 7832.0, 530.0, 0.60, 0.6e-3, "assumed", _SHEET + ", darkened"),
)  # fmt: skip
"""The surfaces a kitchen may name, the soft floor of a wood oven and the tin of a loaf."""


@dataclass(frozen=True, slots=True)
class Food:
    """A food by its composition: ``water`` over all of it [1], ``solids_heat`` of the rest [J/(kg K)],
    ``heat`` [J/(kg K)], ``density`` [kg/m3] and ``conductivity`` [W/(m K)] without gas.
    """

    water: Real
    solids_heat: Real
    heat: Real
    density: Real
    conductivity: Real


def material(*, name: str) -> Material:
    """The row of a material.

    Parameters
    ----------
    name : str
        its name as in the table [no unit]

    Returns
    -------
    Material
        the row [SI]

    Raises
    ------
    UnknownNameError
        where the table has no such name
    """
    for one in MATERIALS:
        if one.name == name:
            return one
    names = [one.name for one in MATERIALS]
    near = did_you_mean(name, names)
    wanted = "one of " + ", ".join(names)
    raise UnknownNameError(Fault("a surface's material", wanted=wanted, found=f'"{name}"', try_=near))


def areal_capacity(*, density: Real, heat_capacity: Real, thickness: Real) -> Array:
    """Heat capacity of a plate by its area.

    rho c d

    Parameters
    ----------
    density : float or array
        density [kg/m3], any shape, above 0
    heat_capacity : float or array
        heat capacity [J/(kg K)], same shape, above 0
    thickness : float or array
        thickness [m], same shape, above 0

    Returns
    -------
    array
        heat capacity by area [J/(m2 K)], that shape

    Raises
    ------
    OutOfRangeError
        for a value that is not above 0
    """
    mass = above("a density", density, "kg/m3") * above("a thickness", thickness, "m")
    return np.asarray(mass * above("a heat capacity", heat_capacity, "J/(kg K)"))


def dough_water(*, hydration: Real) -> Array:
    """Share of a raw dough that is water, the flour's own included.

    (0.13 + hydration) / (1.025 + hydration)

    Parameters
    ----------
    hydration : float or array
        water over flour [1], any shape, 0.3 to 1.2

    Returns
    -------
    array
        water over dough [1], shape of hydration

    Raises
    ------
    OutOfRangeError
        outside 0.3 to 1.2: not a dough

    Notes
    -----
    Flour at 13 % water, 2.5 % salt. A dough whose composition is known has its own.
    """
    water = within("a hydration", hydration, 0.3, 1.2, "of the flour")
    return np.asarray((_FLOUR_WATER + water) / (1.0 + _SALT + water))


def food_choi_okos_1986(*, composition: Array, temperature: float) -> Food:
    """Heat properties of a food from its composition.

    c = sum of x_i c_i, c_s the same without water, 1/rho = sum of x_i/rho_i, k by volume

    Parameters
    ----------
    composition : array
        parts by mass, any total [g], in the order of COMPONENTS, shape (6,) or (6, lanes)
    temperature : float
        temperature [degC], scalar, 0 to 150

    Returns
    -------
    Food
        the properties [1, J/(kg K), kg/m3, W/(m K)]

    Raises
    ------
    OutOfRangeError
        outside 0 to 150 degC, where the components' properties are known; for a food of water alone

    Notes
    -----
    Conductivity is the upper of its bounds (layers side by side); cheese lies nearer the middle.

    References
    ----------
    1. Choi & Okos 1986, in ASHRAE Handbook Refrigeration ch. 9.
    """
    t = float(within("a temperature of food", temperature, 0.0, 150.0, "degC"))
    at = COMPONENTS.index("water")
    solids = np.array(composition, dtype=float)
    solids[at] = 0.0
    above("what a food has beside water", solids.sum(axis=0), "g")
    return Food(
        water=np.asarray(composition[at] / composition.sum(axis=0))[()],
        solids_heat=heat_capacity_choi_okos_1986(composition=solids, temperature=t),
        heat=heat_capacity_choi_okos_1986(composition=composition, temperature=t),
        density=density_choi_okos_1986(composition=composition, temperature=t),
        conductivity=conductivity_choi_okos_1986(composition=composition, temperature=t),
    )
