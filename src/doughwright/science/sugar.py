"""The sugar yeast lives on: maltose made by the flour's enzymes, and what a stretch of gassing takes."""

from __future__ import annotations

import numpy as np

from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array, Real


def maltose_rate(*, temperature: Real, parameters: Parameters) -> Array:
    """Rate at which maltose begins to form in a dough.

    0.45 1.85^((T - 30) / 10)

    Parameters
    ----------
    temperature : float or array
        temperature of the dough [degC], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        rate with no maltose formed yet [% of flour/h], shape of temperature

    Notes
    -----
    Known for normal flour (falling number 250 to 350); the coefficient was measured from 25 to 35 degC.
    """
    warmer = (np.asarray(temperature) - 30.0) * (0.1 * np.log(parameters.maltose_q10))
    return np.asarray(parameters.maltose_rate * np.exp(warmer))


def formed_maltose(*, formed: Real, rate: Real, hours: Real, parameters: Parameters) -> Array:
    """Maltose formed since wetting, after a step, in closed form.

    dM/dt = rate (1 - M / 5.5)

    Parameters
    ----------
    formed : float or array
        maltose formed before the step [% of flour], any shape
    rate : float or array
        rate with no maltose formed yet [% of flour/h], same shape
    hours : float
        length of the step [h], scalar or (lanes,)
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        maltose formed after the step [% of flour], shape of formed

    References
    ----------
    1. Saunders, Ng & Kline 1972, Cereal Chem. 49:86 (the end point).
    """
    limit = parameters.maltose_limit
    return np.asarray(limit - (limit - np.asarray(formed)) * np.exp(-np.asarray(rate) * hours / limit))


def sugar_left(*, available: Real, wanted: Real, parameters: Parameters) -> Array:
    """Sugar left after a step in which yeast would take so much if sugar did not limit it.

    S + wanted S / (S + 0.1) = available, by its positive root (implicit: stiff where sugar runs out)

    Parameters
    ----------
    available : float or array
        sugar before the step and what the step supplies [% of flour], any shape
    wanted : float or array
        what unlimited gassing would take in the step [% of flour], same shape

    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        sugar after the step [% of flour], shape of available; never below 0
    """
    half = parameters.sugar_half
    linear = half + np.asarray(wanted) - available
    twice = 2.0 * half * np.asarray(available)
    # The usual form of the root loses all its digits where sugar runs out; this one, two at most.
    return np.asarray(twice / (linear + np.sqrt(linear * linear + 2.0 * twice)))
