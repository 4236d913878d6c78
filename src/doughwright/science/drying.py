"""Water leaving food below boiling, vapour in its pores, and the resistance of layers that dry and rise."""

from __future__ import annotations

import numpy as np

from doughwright.science._ranges import above, within
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import (
    SEA_LEVEL,
    VAPOUR_GAS,
    ZERO_CELSIUS,
    boiling_point,
    latent_heat,
    saturation_pressure_iapws_1992,
    vapour_density_slope,
)
from doughwright.science.yeast import Array, Real

_AIR_GAS, _AIR_HEAT = 287.0, 1010.0
# The air of the film is taken half way between the food and this, an oven a little below its setting [degC].
_FILM_AIR = 150.0


def vapour_diffusivity(*, temperature: Real, pressure: Real) -> Array:
    """Diffusivity of water vapour in air.

    2.6e-5 (T/298.15)^1.8 (101325/p)

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape, 0 to 350
    pressure : float or array
        pressure of the air [Pa], same shape, above 0

    Returns
    -------
    array
        diffusivity [m2/s], that shape

    Raises
    ------
    OutOfRangeError
        outside 0 to 350 degC, or for a pressure that is not above 0

    References
    ----------
    1. Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, table A.8 (2.6e-5 at 298 K); the power
       1.8 as in Massman 1998, Atmos. Environ. 32:1111.
    """
    t = within("a temperature for vapour in air", temperature, 0.0, 350.0, "degC")
    p = above("a pressure", pressure, "Pa")
    return np.asarray(2.6e-5 * ((t + ZERO_CELSIUS) / 298.15) ** 1.8 * (SEA_LEVEL / p))


def vapour_conductivity(*, temperature: Real, pressure: Real, parameters: OvenParameters) -> Array:
    """Heat conductivity that vapour adds to a porous dough: it evaporates where hot, condenses where cold.

    f D L (d rho_sat/dT) min(p/(p - p_sat), limit), T held at the boiling point

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape, 0 to 600
    pressure : float or array
        pressure of the air [Pa], same shape
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        conductivity [W/(m K)], that shape

    Raises
    ------
    OutOfRangeError
        outside 0 to 600 degC, or for a pressure outside 1000 Pa to 1.5 MPa

    Notes
    -----
    The water itself is not moved: only the heat it carries is.

    References
    ----------
    1. De Vries 1987, Int. J. Heat Mass Transfer 30:1343 (vapour path in porous bodies).
    """
    boiling = boiling_point(pressure=pressure)
    t = np.minimum(within("a temperature of dough", temperature, 0.0, 600.0, "degC"), boiling)
    air = np.maximum(pressure - saturation_pressure_iapws_1992(temperature=t), 0.0)
    speeding = pressure / np.maximum(air, np.asarray(pressure) / parameters.vapour_limit)
    path = parameters.vapour_share * vapour_diffusivity(temperature=t, pressure=pressure)
    carried = latent_heat(temperature=t) * vapour_density_slope(temperature=t)
    return np.asarray(path * carried * speeding)


def vapour_film(
    *, temperature: Real, film: Real, pressure: Real, skin: Real, crust: Real, parameters: OvenParameters
) -> Array:
    """How fast vapour gets from an evaporating front through crust, skin and film into the oven.

    1/h_m = rho c_a Le^(2/3) / (skin h) + d / D_crust, rho c_a at the mean of T and 150 degC

    Parameters
    ----------
    temperature : float or array
        temperature at the front [degC], any shape, 0 to 350
    film : float or array
        heat transfer by air [W/(m2 K)], same shape, above 0
    pressure : float or array
        pressure of the air [Pa], same shape, above 0
    skin : float or array
        evaporation through the skin over that of free water [1], same shape, above 0 to 1
    crust : float or array
        thickness of crust above the front [m], same shape, from 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        mass transfer coefficient [m/s], that shape

    Raises
    ------
    OutOfRangeError
        for a value outside its range

    References
    ----------
    1. Chilton & Colburn 1934, Ind. Eng. Chem. 26:1183 (heat and mass transfer through one film).
    """
    p = above("a pressure", pressure, "Pa")
    free = above("a heat transfer", film, "W/(m2 K)") * within("a skin", skin, 1e-6, 1.0, "(1)")
    d = within("a thickness of crust", crust, 0.0, np.inf, "m")
    air = _AIR_HEAT * p / (_AIR_GAS * _film_kelvin(temperature))
    return np.asarray(1.0 / (air * parameters.lewis / free + d / parameters.crust_diffusivity))


def _film_kelvin(temperature: Real) -> Array:
    t = within("a temperature at the front", temperature, 0.0, 350.0, "degC")
    return np.asarray(0.5 * (t + _FILM_AIR) + ZERO_CELSIUS)


def evaporation(
    *,
    temperature: Real,
    activity: Real,
    transfer: Real,
    vapour: Real,
    pressure: Real,
    parameters: OvenParameters,
) -> Array:
    """Water that evaporates below boiling, with the flow of its own vapour; below 0 where it condenses.

    j = h_m p/(R_v T_m) ln((1 - p_v/p) / (1 - a_w p_sat(T)/p)), a_w p_sat/p held at 0.97

    Parameters
    ----------
    temperature : float or array
        temperature at the front [degC], any shape, 0 to 350
    activity : float or array
        water activity there [1], same shape, 0 to 1
    transfer : float or array
        mass transfer coefficient, see ``vapour_film`` [m/s], same shape
    vapour : float or array
        pressure of water vapour in the oven [Pa], same shape, 0 to under the pressure
    pressure : float or array
        pressure of the air [Pa], same shape, above 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        evaporation [kg/(m2 s)], that shape

    Raises
    ------
    OutOfRangeError
        for a value outside its range

    Notes
    -----
    Near boiling the share of vapour is held: there the water boils, and is booked as boiling.

    References
    ----------
    1. Bird, Stewart & Lightfoot, Transport Phenomena, sec. 18.2 (diffusion through a stagnant gas, Stefan).
    """
    p = above("a pressure", pressure, "Pa")
    outside = within("vapour over pressure in the oven", np.asarray(vapour) / p, 0.0, 0.99, "(1)")
    kelvin = _film_kelvin(temperature)
    held = within("a water activity", activity, 0.0, 1.0, "(1)")
    inside = held * saturation_pressure_iapws_1992(temperature=temperature) / p
    inside = np.minimum(inside, parameters.vapour_ceiling)
    return np.asarray(transfer * p / (VAPOUR_GAS * kelvin) * (np.log1p(-outside) - np.log1p(-inside)))


def dryness(*, moisture: Real, wet: Real) -> Array:
    """How dry a layer is: 0 as it went in, 1 bone dry.

    clip(1 - X/X0, 0, 1)

    Parameters
    ----------
    moisture : float or array
        water over solids [kg/kg], any shape, from 0
    wet : float or array
        moisture from which it counts as wet [kg/kg], same shape, above 0: of dough its own at the start

    Returns
    -------
    array
        dryness [1], that shape

    Raises
    ------
    OutOfRangeError
        for a moisture below 0 or a ``wet`` that is not above 0
    """
    x = within("a moisture", moisture, 0.0, np.inf, "kg/kg")
    return np.asarray(np.clip(1.0 - x / above("a moisture when wet", wet, "kg/kg"), 0.0, 1.0))


def layer_resistance(*, thickness: Real, dryness: Real, wet: Real, dry: Real) -> Array:
    """Resistance to heat of a layer that is partly dried.

    dz (f/k_dry + (1 - f)/k_wet)

    Parameters
    ----------
    thickness : float or array
        thickness of the layer [m], any shape, from 0
    dryness : float or array
        how much of it has dried [1], same shape, 0 to 1
    wet, dry : float or array
        conductivities wet and dried [W/(m K)], same shape, above 0

    Returns
    -------
    array
        resistance [m2 K/W], that shape; half of it lies to each side of the middle

    Raises
    ------
    OutOfRangeError
        for a value outside its range
    """
    depth = within("a thickness", thickness, 0.0, np.inf, "m")
    f = within("a dryness", dryness, 0.0, 1.0, "(1)")
    moist = (1.0 - f) / above("a conductivity", wet, "W/(m K)")
    return np.asarray(depth * (f / above("a conductivity", dry, "W/(m K)") + moist))


def spring(*, temperature: Real, parameters: OvenParameters) -> Array:
    """Share of its oven spring that dough has made at a temperature, as long as it has not set.

    clip((T - 25)/50, 0, 1)

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        share [1], shape of temperature; dough grows to 1 + (spring of its form) times this

    Notes
    -----
    A form of our own: it never falls back, and stops once the starch has set.
    """
    warmed = (np.asarray(temperature, dtype=float) - parameters.spring_from) / parameters.spring_span
    return np.asarray(np.clip(warmed, 0.0, 1.0))
