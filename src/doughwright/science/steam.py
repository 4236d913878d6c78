"""Water and its vapour: latent heat, saturation, boiling by altitude, and water that solids hold back."""

from __future__ import annotations

import numpy as np

from doughwright.science._ranges import above, within
from doughwright.science.gas import air_pressure
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.yeast import Array, Real

ZERO_CELSIUS = 273.15
SEA_LEVEL = 101325.0
"""Pressure of the standard atmosphere [Pa] (ISO 2533)."""
VAPOUR_GAS = 461.5
"""Gas constant of water vapour [J/(kg K)]."""

_CRITICAL_KELVIN, _CRITICAL_PASCAL = 647.096, 22.064e6
# IAPWS 1992: power of (1 - T/Tc) and its coefficient.
_SATURATION = (
    (1.0, -7.85951783),
    (1.5, 1.84408259),
    (3.0, -11.7866497),
    (3.5, 22.6807411),
    (4.0, -15.9618719),
    (7.5, 1.80122502),
)
# J/kg and degC: fitted to the IAPWS saturation equations with Clapeyron; off by 0.01 % to 150, 0.3 % to 200.
_LATENT = (2500.74e3, -2367.00, 0.57084, -1.31918e-2)
_ROUNDS = 8


def latent_heat(*, temperature: Real) -> Array:
    """Heat that turns water into vapour.

    2500.74 - 2.36700 t + 5.7084e-4 t^2 - 1.31918e-5 t^3, kJ/kg

    Parameters
    ----------
    temperature : float or array
        temperature of the water [degC], any shape, 0 to 200

    Returns
    -------
    array
        latent heat [J/kg], shape of temperature

    Raises
    ------
    OutOfRangeError
        outside 0 to 200 degC: the cubic is within 0.3 kJ/kg to 150 degC and within 0.3 % to 200

    Notes
    -----
    Fitted to the IAPWS saturation equations. The usual cubic of meteorology is 1.6 % low at 100 degC.

    References
    ----------
    1. Wagner & Pruss 1993, J. Phys. Chem. Ref. Data 22:783 (IAPWS saturation properties).
    """
    t = within("a temperature for the latent heat", temperature, 0.0, 200.0, "degC")
    return np.asarray(_LATENT[0] + t * (_LATENT[1] + t * (_LATENT[2] + t * _LATENT[3])))


def saturation_pressure_iapws_1992(*, temperature: Real) -> Array:
    """Pressure of saturated vapour over water.

    ln(p/pc) = (Tc/T) sum of a_i (1 - T/Tc)^n_i

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape, 0 to 373

    Returns
    -------
    array
        pressure [Pa], shape of temperature

    Raises
    ------
    OutOfRangeError
        outside 0 to 373 degC, freezing to the critical point

    References
    ----------
    1. IAPWS 1992, Revised Supplementary Release on Saturation Properties of Ordinary Water Substance.
    """
    t = within("a temperature for the saturation pressure", temperature, 0.0, 373.0, "degC")
    kelvin = t + ZERO_CELSIUS
    rest = 1.0 - kelvin / _CRITICAL_KELVIN
    powers = sum(a * rest**n for n, a in _SATURATION)
    return np.asarray(_CRITICAL_PASCAL * np.exp(_CRITICAL_KELVIN / kelvin * powers))


def atmosphere(*, altitude: Real) -> Array:
    """Pressure of the standard atmosphere at a height.

    101325 (1 - 2.25577e-5 z)^5.25588

    Parameters
    ----------
    altitude : float or array
        height above the sea [m], any shape, -500 to 9000

    Returns
    -------
    array
        pressure [Pa], shape of altitude

    Raises
    ------
    OutOfRangeError
        outside -500 to 9000 m: nobody bakes there

    References
    ----------
    1. ISO 2533:1975, Standard Atmosphere.
    """
    height = within("an altitude", altitude, -500.0, 9000.0, "m")
    return np.asarray(SEA_LEVEL * air_pressure(altitude=height))


def boiling_point(*, pressure: Real) -> Array:
    """Temperature at which pure water boils.

    p_sat(T) = p, by Newton on ln p against 1/T

    Parameters
    ----------
    pressure : float or array
        pressure of the air [Pa], any shape, 1000 to 1.5e6

    Returns
    -------
    array
        boiling point [degC], shape of pressure

    Raises
    ------
    OutOfRangeError
        outside 1000 Pa to 1.5 MPa, 7 to 198 degC, where the latent heat is known

    References
    ----------
    1. IAPWS 1992, Revised Supplementary Release on Saturation Properties of Ordinary Water Substance.
    """
    wanted = np.log(within("a pressure to boil at", pressure, 1e3, 1.5e6, "Pa"))
    t = np.full(wanted.shape, 100.0)
    for _ in range(_ROUNDS):
        kelvin = t + ZERO_CELSIUS
        over = wanted - np.log(saturation_pressure_iapws_1992(temperature=t))
        t = np.clip(kelvin / (1.0 - over / _steepness(kelvin)) - ZERO_CELSIUS, 0.0, 200.0)
    return np.asarray(t)


def _steepness(kelvin: Array) -> Array:
    """T d(ln p_sat)/dT of the saturation curve."""
    ratio, rest = _CRITICAL_KELVIN / kelvin, 1.0 - kelvin / _CRITICAL_KELVIN
    return np.asarray(-sum(a * (ratio * rest**n + n * rest ** (n - 1.0)) for n, a in _SATURATION))


def water_activity(*, moisture: Real, parameters: OvenParameters) -> Array:
    """Activity of the water in a hot dough or crust, from its moisture.

    1 / (1 + (a/X)^n)

    Parameters
    ----------
    moisture : float or array
        water over solids [kg/kg], any shape, from 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        water activity [1], shape of moisture

    Raises
    ------
    OutOfRangeError
        for a moisture below 0

    Notes
    -----
    One isotherm for all temperatures, of Oswin's shape: wheat sorption at about 120 degC, from memory.

    References
    ----------
    1. Oswin 1946, J. Soc. Chem. Ind. 65:419.
    """
    x = within("a moisture", moisture, 0.0, np.inf, "kg/kg") ** parameters.sorption_power
    return np.asarray(x / (x + parameters.sorption_moisture**parameters.sorption_power))


def boiling_rise(*, moisture: Real, parameters: OvenParameters) -> Array:
    """How much hotter than pure water the water held by solids boils.

    ln(1 + (a/X)^n) / b

    Parameters
    ----------
    moisture : float or array
        water over solids [kg/kg], any shape, above 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        rise of the boiling point [K], shape of moisture

    Raises
    ------
    OutOfRangeError
        for a moisture that is not above 0

    Notes
    -----
    Stands in for a hard residual water, and smooths the boiling front.
    """
    x = above("a moisture", moisture, "kg/kg")
    held = parameters.sorption_power * np.log(parameters.sorption_moisture / x)
    return np.asarray(np.logaddexp(0.0, held) / parameters.boiling_rise)


def boiling_slope(*, moisture: Real, parameters: OvenParameters) -> Array:
    """How fast the boiling point rises as water leaves the solids.

    -dT_b/dX = n B / (X (1 + B) b), B = (a/X)^n

    Parameters
    ----------
    moisture : float or array
        water over solids [kg/kg], any shape, above 0
    parameters : OvenParameters
        the parameter set [see its table]

    Returns
    -------
    array
        rise for each fall of moisture [K per kg/kg], shape of moisture

    Raises
    ------
    OutOfRangeError
        for a moisture that is not above 0
    """
    x = above("a moisture", moisture, "kg/kg")
    held = 1.0 - water_activity(moisture=x, parameters=parameters)
    return np.asarray(parameters.sorption_power * held / (x * parameters.boiling_rise))


def vapour_density_slope(*, temperature: Real) -> Array:
    """How fast the density of saturated vapour rises with temperature.

    p_sat/(R_v T) (L/(R_v T^2) - 1/T)

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape, 0 to 200

    Returns
    -------
    array
        d rho_sat/dT [kg/(m3 K)], shape of temperature

    Raises
    ------
    OutOfRangeError
        outside 0 to 200 degC

    Notes
    -----
    Vapour as an ideal gas: 0.5 % off at 60 degC, 2 % at 100.
    """
    latent = latent_heat(temperature=temperature)
    kelvin = np.asarray(temperature) + ZERO_CELSIUS
    density = saturation_pressure_iapws_1992(temperature=temperature) / (VAPOUR_GAS * kelvin)
    return np.asarray(density * (latent / (VAPOUR_GAS * kelvin * kelvin) - 1.0 / kelvin))
