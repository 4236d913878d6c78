"""A crumb that sets: starch that gelatinises, yeast that dies, and when dough counts as set."""

from __future__ import annotations

import numpy as np

from doughwright.science._ranges import within
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import ZERO_CELSIUS
from doughwright.science.yeast import Array, Mask, Real

GAS_CONSTANT = 8.314
"""Molar gas constant as the baking papers round it [J/(mol K)]."""
# Zanoni, Schiraldi & Simonetta 1995: 1/s and J/mol.
_GELATINISATION = (2.8e18, 139000.0)
_DEATH_REFERENCE = 60.0
# Past 10^12 reductions a second nothing is left to tell, and the power would overflow.
_MOST_DECADES = 12.0


def gelatinisation_rate_zanoni_1995(*, temperature: Real, extrapolate: bool = False) -> Array:
    """Rate at which the starch of a dough gelatinises.

    2.8e18 exp(-139000 / (8.314 T))

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape, 40 to 110, or 0 to 600 when extrapolated
    extrapolate : bool
        go on past that range, where it all but stands still or is all but instant [no unit]

    Returns
    -------
    array
        rate [1/s], shape of temperature

    Raises
    ------
    OutOfRangeError
        outside 40 to 110 degC, the range of doughs that bake, unless told to go on

    Notes
    -----
    The paper was not at hand: its numbers are from memory. A crust is past 110 degC, and gelatinised long
    before.

    References
    ----------
    1. Zanoni, Schiraldi & Simonetta 1995, J. Food Eng. 24:25.
    """
    low, high = (0.0, 600.0) if extrapolate else (40.0, 110.0)
    t = within("a temperature for gelatinisation", temperature, low, high, "degC")
    factor, energy = _GELATINISATION
    return np.asarray(factor * np.exp(-energy / (GAS_CONSTANT * (t + ZERO_CELSIUS))))


def gelatinised(*, share: Real, rate: Real, seconds: Real) -> Array:
    """Share of the starch gelatinised a time later at a constant rate.

    1 - (1 - g) exp(-k t)

    Parameters
    ----------
    share : float or array
        share gelatinised before [1], any shape, 0 to 1
    rate : float or array
        rate [1/s], same shape
    seconds : float or array
        time [s], same shape, from 0

    Returns
    -------
    array
        share [1], that shape

    Raises
    ------
    OutOfRangeError
        for a share outside 0 to 1 or a time below 0
    """
    before = within("a share gelatinised", share, 0.0, 1.0, "(1)")
    t = within("a time", seconds, 0.0, np.inf, "s")
    return np.asarray(1.0 - (1.0 - before) * np.exp(-np.asarray(rate) * t))


def yeast_death_bigelow(*, temperature: Real, parameters: OvenParameters) -> Array:
    """How fast yeast dies, in powers of ten.

    10^((T - 60)/z) / D60

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        decimal reductions a second [1/s], shape of temperature

    Raises
    ------
    OutOfRangeError
        outside 0 to 600 degC

    Notes
    -----
    D60 and z of moist vegetative yeast, from memory and known to a factor of 2.5. Held at 10^12 where hot.

    References
    ----------
    1. Bigelow 1921, J. Infect. Dis. 29:528.
    """
    t = within("a temperature for yeast", temperature, 0.0, 600.0, "degC")
    decades = np.minimum((t - _DEATH_REFERENCE) / parameters.yeast_z, _MOST_DECADES)
    return np.asarray(10.0**decades / parameters.yeast_decimal)


def is_set(*, temperature: Real, gelatinised: Real, parameters: OvenParameters) -> Mask:
    """Whether dough has set: hot enough, or its starch gelatinised.

    T >= 80 degC or g >= 0.98

    Parameters
    ----------
    temperature : float or array
        temperature of the coldest dough [degC], any shape
    gelatinised : float or array
        share of its starch gelatinised [1], same shape
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array of bool
        set or not, that shape

    Notes
    -----
    The published rate alone would leave a pie of 75 s raw.
    """
    hot = np.asarray(temperature) >= parameters.set_temperature
    return np.asarray(hot | (np.asarray(gelatinised) >= parameters.set_share))
