"""How tight a dough is, and a rule of thumb for its acidity."""

from __future__ import annotations

import numpy as np

from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array, Real


def slackening(*, temperature: Real, parameters: Parameters) -> Array:
    """Rate at which a worked dough slackens: tightness is exp(-integral of it).

    1 / tau, tau = 25 min 1.9^((25 - T) / 10)

    Parameters
    ----------
    temperature : float or array
        mean temperature of the dough [degC], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        rate [1/h], shape of temperature

    Notes
    -----
    From memory; first order where a rheometer finds a hyperbola.

    References
    ----------
    1. Launay & Bure 1974, Cereal Chem. 51:151 (direction).
    """
    tau = (
        parameters.tightness_25 / 60.0 * parameters.tightness_q10 ** ((25.0 - np.asarray(temperature)) / 10.0)
    )
    return np.asarray(1.0 / tau)


def ph_heuristic(*, made: Real, parameters: Parameters) -> Array:
    """A rule of thumb for the pH of a straight dough, from the gas it has made.

    max(5, 5.95 - 0.10 made / 100)

    Parameters
    ----------
    made : float or array
        all gas made, lost or not [mL per 100 g flour], any shape
    parameters : Parameters
        the parameter set [see its table]

    Returns
    -------
    array
        pH [1], shape of made

    Notes
    -----
    A heuristic, marked as one wherever it is shown; not for sourdough.
    """
    fall = parameters.ph_fall * np.asarray(made) / 100.0
    return np.asarray(np.maximum(parameters.ph_start - fall, parameters.ph_floor))
