"""A likelihood that one wild reading does not upset."""

from __future__ import annotations

from math import lgamma, log, pi

import numpy as np

from doughwright.science.yeast import Array

ROBUST = 4.0
"""Degrees of freedom of the readings' errors: a reading five deviations off counts little. Assumed."""


def student_t_log_lange_1989(*, residual: Array, spread: Array, freedom: float = ROBUST) -> Array:
    """Log density of a reading's error under Student's t, whose tails forgive a wild one.

    lnG((v+1)/2) - lnG(v/2) - ln(v pi)/2 - ln s - (v+1)/2 ln(1 + (r/s)^2 / v)

    Parameters
    ----------
    residual : array
        reading less model [any], any shape
    spread : array
        scale of the error [as residual], broadcast with it
    freedom : float
        degrees of freedom [1], scalar

    Returns
    -------
    array
        log density [-], shape of residual

    References
    ----------
    1. Lange, Little & Taylor 1989, J. Am. Statist. Assoc. 84:881.
    """
    norm = lgamma(0.5 * (freedom + 1.0)) - lgamma(0.5 * freedom) - 0.5 * log(freedom * pi)
    scaled = np.square(residual / spread)
    return np.asarray(norm - np.log(spread) - 0.5 * (freedom + 1.0) * np.log1p(scaled / freedom))


def reading_weight_lange_1989(*, residual: Array, spread: Array, freedom: float = ROBUST) -> Array:
    """How much a reading counts beside one that fits: 1 and a little for a good one, near 0 for a wild one.

    (v + 1) / (v + (r/s)^2)

    Parameters
    ----------
    residual : array
        reading less model [any], any shape
    spread : array
        scale of the error [as residual], broadcast with it
    freedom : float
        degrees of freedom [1], scalar

    Returns
    -------
    array
        the weight [1], shape of residual

    References
    ----------
    1. Lange, Little & Taylor 1989, J. Am. Statist. Assoc. 84:881.
    """
    return np.asarray((freedom + 1.0) / (freedom + np.square(residual / spread)))
