"""The normal distribution and its inverse, for arrays."""

from __future__ import annotations

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.yeast import Array, Real

# Coefficients from the highest power down; Wichura's PPND16: middle, tail, far tail (numerator, denominator).
_MIDDLE = (
    (2.5090809287301226727e3, 3.3430575583588128105e4, 6.7265770927008700853e4, 4.5921953931549871457e4,
     1.3731693765509461125e4, 1.9715909503065514427e3, 1.3314166789178437745e2, 3.3871328727963666080e0),
    (5.2264952788528545610e3, 2.8729085735721942674e4, 3.9307895800092710610e4, 2.1213794301586595867e4,
     5.3941960214247511077e3, 6.8718700749205790830e2, 4.2313330701600911252e1, 1.0),
)  # fmt: skip
_TAIL = (
    (7.74545014278341407640e-4, 2.27238449892691845833e-2, 2.41780725177450611770e-1,
     1.27045825245236838258e0, 3.64784832476320460504e0, 5.76949722146069140550e0,
     4.63033784615654529590e0, 1.42343711074968357734e0),
    (1.05075007164441684324e-9, 5.47593808499534494600e-4, 1.51986665636164571966e-2,
     1.48103976427480074590e-1, 6.89767334985100004550e-1, 1.67638483018380384940e0,
     2.05319162663775882187e0, 1.0),
)  # fmt: skip
_FAR = (
    (2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.24266094738807843860e-3,
     2.65321895265761230930e-2, 2.96560571828504891230e-1, 1.78482653991729133580e0,
     5.46378491116411436990e0, 6.65790464350110377720e0),
    (2.04426310338993978564e-15, 1.42151175831644588870e-7, 1.84631831751005468180e-5,
     7.86869131145613259100e-4, 1.48753612908506148525e-2, 1.36929880922735805310e-1,
     5.99832206555887937690e-1, 1.0),
)  # fmt: skip

# Cody's erfc: |x| below 15/32, up to 4, and beyond.
_ERF = (
    (1.85777706184603153e-1, 3.16112374387056560e0, 1.13864154151050156e2, 3.77485237685302021e2,
     3.20937758913846947e3),
    (1.0, 2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3, 2.84423683343917062e3),
)  # fmt: skip
_ERFC = (
    (2.15311535474403846e-8, 5.64188496988670089e-1, 8.88314979438837594e0, 6.61191906371416295e1,
     2.98635138197400131e2, 8.81952221241769090e2, 1.71204761263407058e3, 2.05107837782607147e3,
     1.23033935479799725e3),
    (1.0, 1.57449261107098347e1, 1.17693950891312499e2, 5.37181101862009858e2, 1.62138957456669019e3,
     3.29079923573345963e3, 4.36261909014324716e3, 3.43936767414372164e3, 1.23033935480374942e3),
)  # fmt: skip
_BEYOND = (
    (1.63153871373020978e-2, 3.05326634961232344e-1, 3.60344899949804439e-1, 1.25781726111229246e-1,
     1.60837851487422766e-2, 6.58749161529837803e-4),
    (1.0, 2.56852019228982242e0, 1.87295284992346725e0, 5.27905102951428412e-1, 6.05183413124413191e-2,
     2.33520497626869185e-3),
)  # fmt: skip


def normal_quantile(*, probability: Real) -> Array:
    """Value that a standard normal variable stays below with a probability.

    z with Phi(z) = p, by rational functions of p - 1/2, or of sqrt(-ln p) in the tails

    Parameters
    ----------
    probability : float or array
        probability [-], any shape, between 0 and 1

    Returns
    -------
    array
        the quantile [1], shape of probability

    Raises
    ------
    OutOfRangeError
        a probability at or beyond 0 or 1 (the quantile there is infinite)

    Notes
    -----
    Right to about one part in 10^16 (PPND16). From memory, and held against SciPy's own.

    References
    ----------
    1. Wichura 1988, Appl. Statist. 37:477, algorithm AS 241.
    """
    p = np.asarray(probability, dtype=np.float64)
    if not np.all((p > 0.0) & (p < 1.0)):
        raise OutOfRangeError(Fault("a probability", wanted="a number between 0 and 1", found=_worst(p)))
    q = p - 0.5
    middle = 0.180625 - q * q
    depth = np.sqrt(-np.log(np.minimum(p, 1.0 - p)))
    tail = np.where(depth <= 5.0, _ratio(_TAIL, depth - 1.6), _ratio(_FAR, depth - 5.0))
    inside = q * _ratio(_MIDDLE, np.maximum(middle, 0.0))
    return np.asarray(np.where(middle >= 0.0, inside, np.copysign(tail, q)))


def normal_cdf(*, value: Real) -> Array:
    """Probability that a standard normal variable stays below a value.

    Phi(z) = erfc(-z / sqrt(2)) / 2

    Parameters
    ----------
    value : float or array
        the value z [1], any shape

    Returns
    -------
    array
        probability [1], shape of value

    Notes
    -----
    Right to a part in 10^12, the lower tail too. From memory, and held against SciPy's own.

    References
    ----------
    1. Cody 1969, Math. Comp. 23:631.
    """
    x = np.asarray(value, dtype=np.float64) / np.sqrt(2.0)
    size = np.minimum(np.abs(x), 30.0)
    inner = np.minimum(size, 0.46875)
    near = 1.0 - inner * _ratio(_ERF, inner * inner)
    inverse = 1.0 / np.square(np.maximum(size, 4.0))
    far = (1.0 / np.sqrt(np.pi) - inverse * _ratio(_BEYOND, inverse)) / np.maximum(size, 4.0)
    outer = np.exp(-size * size) * np.where(size <= 4.0, _ratio(_ERFC, np.minimum(size, 4.0)), far)
    lower = 0.5 * np.where(size <= 0.46875, near, outer)
    return np.asarray(np.where(x <= 0.0, lower, 1.0 - lower))


def _ratio(coefficients: tuple[tuple[float, ...], tuple[float, ...]], x: Array) -> Array:
    over, under = coefficients
    return np.asarray(np.polyval(np.array(over), x) / np.polyval(np.array(under), x))


def _worst(p: Array) -> str:
    return str(np.ravel(p)[np.ravel(~((p > 0.0) & (p < 1.0)))][0])
