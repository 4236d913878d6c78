"""Two functions whose shares of variance are known exactly."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
A = np.array([0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0])


def ishigami(points: Array) -> Array:
    """sin x1 + 7 sin^2 x2 + 0.1 x3^4 sin x1, each x from -pi to pi."""
    x, y, z = (2.0 * np.pi * points - np.pi).T
    return np.asarray(np.sin(x) + 7.0 * np.sin(y) ** 2 + 0.1 * z**4 * np.sin(x))


def g_function(points: Array) -> Array:
    """The product of (|4 u - 2| + a) / (1 + a)."""
    return np.asarray(np.prod((np.abs(4.0 * points - 2.0) + A) / (1.0 + A), axis=1))
