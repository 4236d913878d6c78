"""A quick stand-in for a slow model: a quadratic through points at which the model was run."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.yeast import Array

RIDGE = 1e-6


@dataclass(frozen=True, slots=True)
class Quadratic:
    """Outputs of a model as quadratics of its inputs: ``coefficients`` (terms, outputs).

    The first ``informed`` inputs have all their products, the others only their squares.
    """

    coefficients: Array
    informed: int

    def __call__(self, points: Array) -> Array:
        """The outputs at points (inputs, n), shape (outputs, n)."""
        return np.asarray(self.coefficients.T @ _terms(points, self.informed))


def quadratic_box_1951(*, points: Array, outputs: Array, weights: Array, informed: int) -> Quadratic:
    """A quadratic response surface by weighted least squares.

    min sum_n w_n |y_n - (a + b'x_n + x_n'C x_n)|^2

    Parameters
    ----------
    points : array
        inputs at which the model was run [any], shape (inputs, n)
    outputs : array
        what the model gave [any], shape (outputs, n)
    weights : array
        how much each point counts [-], shape (n,)
    informed : int
        how many inputs, the first, have all their products [-]

    Returns
    -------
    Quadratic
        the surface

    Raises
    ------
    OutOfRangeError
        fewer points than terms

    References
    ----------
    1. Box & Wilson 1951, J. R. Statist. Soc. B 13:1.
    """
    terms = _terms(points, informed)
    if terms.shape[1] < terms.shape[0]:
        wanted, found = f"at least {terms.shape[0]} points", str(terms.shape[1])
        raise OutOfRangeError(Fault("a quadratic through points", wanted=wanted, found=found))
    weighed = terms * weights
    normal = weighed @ terms.T
    normal += RIDGE * np.trace(normal) / len(normal) * np.eye(len(normal))
    coefficients: Array = np.linalg.solve(normal, weighed @ outputs.T).astype(np.float64)
    return Quadratic(coefficients, informed)


def _terms(points: Array, informed: int) -> Array:
    first, second = np.triu_indices(min(informed, len(points)))
    rest = points[informed:]
    return np.concatenate(
        [np.ones((1, points.shape[1])), points, points[first] * points[second], rest * rest]
    )
