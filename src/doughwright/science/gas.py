"""Where the gas of a dough is: dissolved, in bubbles, or gone; and the volume it gives."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array, Real

CRC_ROWS: tuple[tuple[float, float], ...] = (
    (0.0, 1.337),
    (5.0, 1.123),
    (10.0, 0.950),
    (15.0, 0.814),
    (20.0, 0.704),
    (25.0, 0.614),
    (30.0, 0.541),
    (35.0, 0.481),
    (40.0, 0.431),
)
"""Carbon dioxide in water at 100 kPa: degC, 1000 x mole fraction (CRC Handbook p. 8-90, accuracy 2 %)."""

_LOG_FIT = (0.28998, -0.035868, 1.9003e-4)
"""ln of the CRC rows as a polynomial of degC; residual under 0.2 %, -5 to 50 degC."""

_ML_PER_ROW = 1.375
"""mL of gas at 25 degC and 1 atm in 1 mL of water at 1 atm, for a CRC row of 1."""

_ZERO_CELSIUS = 273.15
_BASIS_KELVIN = 298.15


@dataclass(frozen=True, slots=True)
class GasBasis:
    """What a dough brings to its gas, per 100 g of flour: room for it in water, air, volume and a ceiling.

    ``water`` [mL] is where gas dissolves; ``volume`` V0 [mL] and ``air`` Va [mL] are those just after
    mixing, at the pressure of the place; ``pressure`` [atm]; ``ceiling`` is the volume ratio that leaks.
    """

    water: Real
    volume: Real
    air: Real
    pressure: Real
    ceiling: Real


def gas_basis(*, mass: Real, water: Real, protein: Real, altitude: Real, parameters: Parameters) -> GasBasis:
    """What a dough brings to its gas, from what is in it and where it is.

    V0 = mass / 1.12, Va = 0.08 V0, W = water + 13

    Parameters
    ----------
    mass : float
        all that is weighed in [g per 100 g flour], scalar
    water : float
        all added water [g per 100 g flour], scalar
    protein : float
        protein of the flour as weighed [%], scalar
    altitude : float
        height above the sea [m], scalar
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    GasBasis
        the basis, V0 and Va fixed whatever the temperature
    """
    volume = mass / parameters.fresh_density
    return GasBasis(
        water=water + parameters.split_water,
        volume=volume,
        air=parameters.air * volume,
        pressure=air_pressure(altitude=altitude),
        ceiling=volume_ceiling(protein=protein, parameters=parameters),
    )


def air_pressure(*, altitude: Real) -> Real:
    """Pressure of the standard atmosphere at a height.

    P = (1 - 2.25577e-5 z)^5.25588

    Parameters
    ----------
    altitude : float
        height above the sea [m], scalar

    Returns
    -------
    float
        pressure [atm]

    References
    ----------
    1. ISO 2533:1975, Standard Atmosphere, up to 11 000 m.
    """
    return np.asarray((1.0 - 2.25577e-5 * np.asarray(altitude)) ** 5.25588)[()]


def volume_ceiling(*, protein: Real, parameters: Parameters) -> Real:
    """Volume ratio at which a dough begins to leak, by the protein of its flour.

    Linear between 10, 11.5 and 13 %, level beyond.

    Parameters
    ----------
    protein : float
        protein of the flour as weighed [%], scalar
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    float
        ceiling of V / V0 [1]

    Notes
    -----
    An assumption that a measurement may replace.
    """
    levels = [parameters.ceiling_weak, parameters.ceiling_medium, parameters.ceiling_strong]
    return np.asarray(np.interp(protein, [10.0, 11.5, 13.0], levels))[()]


def solubility_crc(*, temperature: Real) -> Array:
    """Carbon dioxide that a mL of pure water holds under 1 atm of it.

    1.375 exp(0.28998 - 0.035868 T + 1.9003e-4 T^2)

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape; the fit holds from -5 to 50 degC

    Returns
    -------
    array
        gas [mL at 25 degC and 1 atm per mL], shape of temperature

    References
    ----------
    1. CRC Handbook p. 8-90 (Carroll; Fernandez-Prini; Crovetto).
    """
    t = np.asarray(temperature, dtype=float)
    return np.asarray(_ML_PER_ROW * np.exp(_LOG_FIT[0] + t * (_LOG_FIT[1] + t * _LOG_FIT[2])))


@dataclass(frozen=True, slots=True)
class GasSplit:
    """Gas ``dissolved`` and in ``bubbles`` [mL per 100 g flour], and the ``rise`` V / V0 [1]."""

    dissolved: Array
    bubbles: Array
    rise: Array


def split_gas(
    *,
    gas: Real,
    temperature: Real,
    basis: GasBasis,
    parameters: Parameters,
    solubility: Array | None = None,
) -> GasSplit:
    """How the gas of a dough divides between its water and its bubbles, and the volume that gives.

    With A the water's hold, k = T / 298.15 and x the share of carbon dioxide in the bubbles:
    A x^2 - (A + Va/k + G) x + G = 0 (small root), dissolved = A x, Vg = Va + k (G - A x),
    V/V0 = 1 + R (Vg - Va) / V0. At pressure P: A becomes A P, Va/k becomes Va P / k, and Vg - Va is over P.

    Parameters
    ----------
    gas : float or array
        gas in the dough, dissolved and free [mL at 25 degC and 1 atm per 100 g flour], any shape
    temperature : float or array
        temperature [degC], same shape
    basis : GasBasis
        what the dough brings [mL per 100 g flour, atm]
    parameters : Parameters
        the parameter set [see its table]
    solubility : array
        gas that water dissolves at that temperature [mL/mL], that shape; the CRC fit when left out

    Returns
    -------
    GasSplit
        dissolved gas, bubbles and volume ratio, shape of gas

    Notes
    -----
    The root is written so that it keeps its digits for little gas and for bubbles that are nearly all gas.
    Henry's law with the air of mixing; equilibrium at once; no collapse.
    """
    swelling = (np.asarray(temperature) + _ZERO_CELSIUS) / (_BASIS_KELVIN * basis.pressure)
    hold = _hold(temperature, basis, parameters, solubility)
    linear = hold + basis.air / swelling + gas
    twice = 2.0 * hold * gas
    dissolved = twice / (linear + np.sqrt(linear * linear - 2.0 * twice))
    growth = swelling * (gas - dissolved)
    return GasSplit(dissolved, basis.air + growth, 1.0 + (parameters.retention / basis.volume) * growth)


def _hold(temperature: Real, basis: GasBasis, parameters: Parameters, solubility: Array | None) -> Array:
    room = basis.water * parameters.dissolving * basis.pressure
    return np.asarray(room * (solubility_crc(temperature=temperature) if solubility is None else solubility))


def most_gas(
    *, temperature: Real, basis: GasBasis, parameters: Parameters, solubility: Array | None = None
) -> Array:
    """The gas a dough can hold: what is over leaks away.

    Vg* = Va + (ceiling - 1) V0 / R, x* = 1 - Va / Vg*, G* = A P x* + Vg* x* P / k

    Parameters
    ----------
    temperature : float or array
        temperature [degC], any shape
    basis : GasBasis
        what the dough brings [mL per 100 g flour, atm]
    parameters : Parameters
        the parameter set [see its table]
    solubility : array
        gas that water dissolves at that temperature [mL/mL], that shape; the CRC fit when left out

    Returns
    -------
    array
        gas at the ceiling [mL at 25 degC and 1 atm per 100 g flour], shape of temperature

    Notes
    -----
    Gas is cut, not volume, so that none comes back on cooling. A dough does not collapse in this model.
    """
    bubbles = basis.air + (basis.ceiling - 1.0) * basis.volume / parameters.retention
    share = 1.0 - basis.air / bubbles
    kelvin_ratio = (np.asarray(temperature) + _ZERO_CELSIUS) / _BASIS_KELVIN
    return np.asarray(
        share * (_hold(temperature, basis, parameters, solubility) + bubbles * basis.pressure / kelvin_ratio)
    )


def degas(*, gas: Real, dissolved: Real, share: Real) -> Array:
    """Gas in a dough after work that loses a share of its bubbles' gas.

    G - share (G - dissolved)

    Parameters
    ----------
    gas : float or array
        gas before [mL per 100 g flour], any shape
    dissolved : float or array
        the dissolved part of it [mL per 100 g flour], same shape
    share : float
        share of the free gas that is lost [1], scalar, 0 to 1

    Returns
    -------
    array
        gas after [mL per 100 g flour], shape of gas

    Notes
    -----
    The dissolved part refills the bubbles at once, so a ripe dough knocked back is not at V / V0 = 1.
    """
    return np.asarray(gas - share * (np.asarray(gas) - dissolved))
