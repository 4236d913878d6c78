"""What yeast does: how fast it makes gas and how fast it grows, two separate curves of temperature."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from doughwright.science.parameters import Parameters

Array: TypeAlias = NDArray[np.float64]
Real: TypeAlias = float | NDArray[np.float64]
Mask: TypeAlias = NDArray[np.bool_]

AWAKE = 12.0
"""Time constants of the gassing lag after which yeast counts as awake: 6e-6 of its rate is left."""

COLD_SHOCK_BELOW = 15.0
"""Dough [degC] under which dry yeast is hurt as it wakes."""

SALT_MOLAR_MASS = 58.44
"""Grams of sodium chloride in a mole."""


def relative_gassing_slator_1906(*, temperature: Real, parameters: Parameters) -> Array:
    """Gassing of living yeast at a temperature, over that at 30 degC.

    rho = g(T) / g(30), g = ((T - Tmin) (1 - exp(c (T - Tx))))^2, and 0 outside Tmin to Tx.

    Parameters
    ----------
    temperature : float or array
        temperature of the dough [degC], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        relative gassing [1], shape of temperature

    Notes
    -----
    Known to 8 % from 20 to 35 degC, 25 % at 10 degC, a factor 1.5 at 4 degC and 2 at 1 degC. Slator's ratios
    were read second-hand, in Harden 1911.

    References
    ----------
    1. Slator 1906, J. Chem. Soc. 89:128. 2. Ratkowsky et al. 1983, J. Bacteriol. 154:1222 (the form).
    """
    p = parameters
    low = np.maximum(temperature - p.gassing_minimum, 0.0)
    high = np.minimum(temperature - p.gassing_maximum, 0.0)
    at_30 = (30.0 - p.gassing_minimum) * np.expm1(p.gassing_slope * (30.0 - p.gassing_maximum))
    root = low * np.expm1(p.gassing_slope * high) / at_30
    return np.asarray(root * root)


def growth_rate_rosso_1993(*, temperature: Real, parameters: Parameters) -> Array:
    """Specific growth rate of yeast without salt, by the cardinal-temperature model.

    mu = mo (T - Tx)(T - Tn)^2 / ((To - Tn)[(To - Tn)(T - To) - (To - Tx)(To + Tn - 2T)]), 0 outside Tn to Tx.

    Parameters
    ----------
    temperature : float or array
        temperature of the dough [degC], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        growth rate [1/h], shape of temperature

    Notes
    -----
    Cardinal temperatures fitted to four rates in aerated wort (read second-hand); dough may differ.

    References
    ----------
    1. Rosso, Lobry & Flandrois 1993, J. Theor. Biol. 162:447. 2. Semikhatova 1980.
    """
    low, best, high = parameters.growth_minimum, parameters.growth_optimum, parameters.growth_maximum
    above = np.minimum(np.maximum(np.asarray(temperature, dtype=float) - low, 0.0), high - low)
    span, rest = best - low, high - best
    # The formula's terms, gathered by powers of T - Tn.
    below = (span * (span - 2.0 * rest)) * above - span * span * (span - rest)
    return np.asarray((above - (high - low)) * (parameters.growth_optimum_rate * above * above) / below)


def brine_molarity(*, salt: Real, water: Real, parameters: Parameters) -> Array:
    """Salt in the water of a dough.

    c = (salt / 58.44) / ((water + 12) / 1000)

    Parameters
    ----------
    salt : float or array
        salt [g per 100 g flour], any shape
    water : float or array
        all added water, that of milk, egg and butter included [g per 100 g flour], same shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        molarity [mol/L], that shape
    """
    return np.asarray(
        (np.asarray(salt) / SALT_MOLAR_MASS) / ((np.asarray(water) + parameters.brine_water) / 1000.0)
    )


def salt_on_gassing(*, molarity: Real, parameters: Parameters) -> Array:
    """Gassing with this much salt over that of the reference dough (2 % salt, 62 % water).

    fs = max(0, 1 - c / 2.6) / (1 - 0.462 / 2.6)

    Parameters
    ----------
    molarity : float or array
        salt in the dough's water [mol/L], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        factor [1], shape of molarity; 0 in a dough too salty for any gassing

    Notes
    -----
    The size of the effect is from memory of two sources; the shape is osmotic.
    """
    limit = parameters.gassing_salt_limit
    return np.asarray(
        np.maximum(1.0 - np.asarray(molarity) / limit, 0.0) / (1.0 - parameters.salt_reference / limit)
    )


def salt_on_growth(*, molarity: Real, parameters: Parameters) -> Array:
    """Growth with this much salt over growth without any.

    max(0, 1 - c / 2.2)

    Parameters
    ----------
    molarity : float or array
        salt in the dough's water [mol/L], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        factor [1], shape of molarity
    """
    return np.asarray(np.maximum(1.0 - np.asarray(molarity) / parameters.growth_salt_limit, 0.0))


def sugar_on_gassing(*, sugar: Real, parameters: Parameters) -> Array:
    """Gassing with this much sugar added at mixing, over that of a lean dough.

    fS = exp(-0.045 max(0, sugar - 5))

    Parameters
    ----------
    sugar : float or array
        sugar added at mixing, lactose too [% of flour], any shape; not the sugar of the moment
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        factor [1], shape of sugar

    Notes
    -----
    For yeast that is not made for sweet dough.
    """
    over = np.maximum(np.asarray(sugar, dtype=float) - parameters.sugar_threshold, 0.0)
    return np.asarray(np.exp(-parameters.sugar_inhibition * over))


def mean_wakefulness(*, before: Real, after: Real, lag: Real) -> Array:
    """How far gassing has come out of its lag, averaged over a step.

    a = 1 - exp(-q / lag); its mean over q from before to after is
    1 - lag (exp(-before / lag) - exp(-after / lag)) / (after - before), and 1 past AWAKE time constants.

    Parameters
    ----------
    before, after : float or array
        hours at 30 degC lived through at the ends of the step [h at 30 degC], any shape
    lag : float or array
        time constant of the lag [h at 30 degC], same shape or scalar

    Returns
    -------
    array
        share of the full rate [1], shape of before
    """
    start = np.asarray(before) / lag
    length = np.asarray(np.maximum((np.asarray(after) - before) / lag, 1e-12))
    asleep = np.exp(-start) * np.expm1(-length) / length
    return np.asarray(1.0 + np.where(start > AWAKE, 0.0, asleep))


def cold_shock(*, temperature: Real, loss: Real) -> Array:
    """What is left of the gassing of dry yeast that wakes in cold dough.

    1 - loss (15 - T) / 10, 1 from 15 degC up and 1 - loss from 5 degC down

    Parameters
    ----------
    temperature : float or array
        temperature of the dough just mixed [degC], any shape
    loss : float or array
        share lost at 5 degC [1], same shape or scalar

    Returns
    -------
    array
        factor on its gassing [1], shape of temperature

    Notes
    -----
    The ends are from memory; a straight line between them is an assumption.

    References
    ----------
    1. Ponte 1960s, and trade bulletins: dry yeast wetted under 15 degC leaks what it needs.
    """
    cold = np.clip((COLD_SHOCK_BELOW - np.asarray(temperature)) / 10.0, 0.0, 1.0)
    return np.asarray(1.0 - loss * cold)


def grown_yeast(*, yeast: Real, at_mixing: Real, growth: Real, parameters: Parameters) -> Array:
    """Yeast after a stretch of growth, by the logistic law in closed form.

    dX/dt = mu X max(0, 1 - (X - X0) / K)

    Parameters
    ----------
    yeast : float or array
        yeast before, as fresh [g per 100 g flour], any shape
    at_mixing : float or array
        yeast at mixing, X0 [g per 100 g flour], same shape or scalar
    growth : float or array
        integral of the specific growth rate over the stretch [1], same shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        yeast after [g per 100 g flour], shape of yeast

    References
    ----------
    1. Cell counts in dough by dose, Hoffman et al. 1941 lineage, read second-hand.
    """
    capacity = np.asarray(at_mixing) + parameters.growth_cap
    left = np.exp(-np.asarray(growth) * capacity / parameters.growth_cap)
    return np.asarray(capacity * yeast / (yeast + (capacity - yeast) * left))
