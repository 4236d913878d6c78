"""Density, heat capacity and conductivity of a dough from what it is made of."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array, Real

COMPONENTS = ("water", "protein", "fat", "carbohydrate", "fibre", "ash")
"""The pure components, in the order of every array below."""

# Choi & Okos 1986 as in the ASHRAE Handbook, Refrigeration, ch. 9: A + B T + C T^2, T in degC, -40 to 150.
# Water's heat capacity begins with 4.1762 (the handbook's 4.1289 gives 4.13 at 20 degC; true is 4.18).
_HEAT_CAPACITY = np.array(
    [
        (4.1762, -9.0864e-5, 5.4731e-6),
        (2.0082, 1.2089e-3, -1.3129e-6),
        (1.9842, 1.4733e-3, -4.8008e-6),
        (1.5488, 1.9625e-3, -5.9399e-6),
        (1.8459, 1.8306e-3, -4.6509e-6),
        (1.0926, 1.8896e-3, -3.6817e-6),
    ]
)
_CONDUCTIVITY = np.array(
    [
        (0.57109, 1.7625e-3, -6.7036e-6),
        (0.17881, 1.1958e-3, -2.7178e-6),
        (0.18071, -2.7604e-4, -1.7749e-7),
        (0.20141, 1.3874e-3, -4.3312e-6),
        (0.18331, 1.2497e-3, -3.1683e-6),
        (0.32962, 1.4011e-3, -2.9069e-6),
    ]
)
_DENSITY = np.array(
    [
        (997.18, 3.1439e-3, -3.7574e-3),
        (1329.9, -0.5184, 0.0),
        (925.59, -0.41757, 0.0),
        (1599.1, -0.31046, 0.0),
        (1311.5, -0.36589, 0.0),
        (2423.8, -0.28063, 0.0),
    ]
)

_FLOUR = {"water": 14.0, "fat": 1.5, "fibre": 2.7, "ash": 0.5}
"""Wheat flour as weighed, %; protein is given, carbohydrate is the rest (reproduces the dough table)."""


@dataclass(frozen=True, slots=True)
class Solids:
    """Heat properties of a dough without its gas: ``heat`` [J/(kg K)], ``conductivity`` [W/(m K)] at 0 degC
    and its ``slope`` [W/(m K2)].
    """

    heat: Real
    conductivity: Real
    slope: Real


def flour_composition(*, protein: Real) -> Array:
    """What flour is made of, from its protein.

    Carbohydrate is what the rest leaves of 100.

    Parameters
    ----------
    protein : float
        protein of the flour as weighed [%], scalar or (lanes,)

    Returns
    -------
    array
        grams in 100 g [g per 100 g], in the order of COMPONENTS, shape (6,) or (6, lanes)
    """
    rest = 100.0 - protein - sum(_FLOUR.values())
    parts = (_FLOUR["water"], protein, _FLOUR["fat"], rest, _FLOUR["fibre"], _FLOUR["ash"])
    return np.array(np.broadcast_arrays(*parts))


def heat_capacity_choi_okos_1986(*, composition: Array, temperature: float) -> Real:
    """Heat capacity of a food from its composition.

    sum of x_i cp_i(T)

    Parameters
    ----------
    composition : array
        parts by mass, any total [g], in the order of COMPONENTS, shape (6,) or (6, lanes)
    temperature : float
        temperature [degC], scalar, -40 to 150, above freezing

    Returns
    -------
    float
        heat capacity [J/(kg K)]

    References
    ----------
    1. Choi & Okos 1986, in ASHRAE Handbook Refrigeration ch. 9; water's first term: see the table.
    """
    shares = composition / composition.sum(axis=0)
    return np.asarray(1000.0 * (_polynomial(_HEAT_CAPACITY, temperature) @ shares))[()]


def density_choi_okos_1986(*, composition: Array, temperature: float) -> Real:
    """Density of a food without gas, from its composition.

    1 / sum of x_i / rho_i(T)

    Parameters
    ----------
    composition : array
        parts by mass, any total [g], in the order of COMPONENTS, shape (6,) or (6, lanes)
    temperature : float
        temperature [degC], scalar, -40 to 150, above freezing

    Returns
    -------
    float
        density [kg/m3]

    References
    ----------
    1. Choi & Okos 1986, in ASHRAE Handbook Refrigeration ch. 9.
    """
    shares = composition / composition.sum(axis=0)
    return np.asarray(1.0 / ((1.0 / _polynomial(_DENSITY, temperature)) @ shares))[()]


def conductivity_choi_okos_1986(*, composition: Array, temperature: float) -> Real:
    """Heat conductivity of a food without gas, from its composition.

    sum of (volume share)_i k_i(T), the parallel model

    Parameters
    ----------
    composition : array
        parts by mass, any total [g], in the order of COMPONENTS, shape (6,) or (6, lanes)
    temperature : float
        temperature [degC], scalar, -40 to 150, above freezing

    Returns
    -------
    float
        conductivity [W/(m K)]

    References
    ----------
    1. Choi & Okos 1986, in ASHRAE Handbook Refrigeration ch. 9.
    """
    volumes = (composition.T / _polynomial(_DENSITY, temperature)).T
    return np.asarray(_polynomial(_CONDUCTIVITY, temperature) @ volumes / volumes.sum(axis=0))[()]


def _polynomial(table: Array, temperature: float) -> Array:
    return np.asarray(table @ np.array([1.0, temperature, temperature * temperature]))


def dough_solids(*, composition: Array) -> Solids:
    """Heat properties of a dough without its gas: heat capacity at 15 degC, conductivity linear.

    k = k(0) + T (k(30) - k(0)) / 30

    Parameters
    ----------
    composition : array
        parts by mass, any total [g], in the order of COMPONENTS, shape (6,) or (6, lanes)

    Returns
    -------
    Solids
        the properties [J/(kg K), W/(m K), W/(m K2)]
    """
    cold = conductivity_choi_okos_1986(composition=composition, temperature=0.0)
    warm = conductivity_choi_okos_1986(composition=composition, temperature=30.0)
    heat = heat_capacity_choi_okos_1986(composition=composition, temperature=15.0)
    return Solids(heat=heat, conductivity=cold, slope=(warm - cold) / 30.0)


def conductivity_maxwell(*, solid: Real, porosity: Real, parameters: Parameters) -> Array:
    """Heat conductivity of a dough with gas in it.

    k [2k + ka - 2 phi (k - ka)] / [2k + ka + phi (k - ka)]

    Parameters
    ----------
    solid : float
        conductivity without gas [W/(m K)], scalar or (lanes,)
    porosity : float or array
        share of the volume that is gas [1], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        conductivity [W/(m K)], shape of porosity

    References
    ----------
    1. Maxwell's model of spheres in a continuum.
    """
    over = (solid - parameters.air_conductivity) * np.asarray(porosity)
    base = 2.0 * solid + parameters.air_conductivity
    return np.asarray(solid * (base - 2.0 * over) / (base + over))


def porosity(*, rise: Real, parameters: Parameters) -> Array:
    """Share of a dough that is gas, from its rise.

    phi = 1 - (1 - 0.08) / (V / V0)

    Parameters
    ----------
    rise : float or array
        volume over that after mixing, V / V0 [1], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        porosity [1], shape of rise
    """
    return np.asarray(1.0 - (1.0 - parameters.air) / np.asarray(rise))
