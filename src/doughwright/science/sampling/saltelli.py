"""First-order and total shares of a variance, from points made for the purpose."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from doughwright.errors import Fault, InputError
from doughwright.science.sampling.sobol import sobol
from doughwright.science.yeast import Array

BLOCKS = 16
"""Blocks of successive points that the standard errors are taken over."""


@dataclass(frozen=True, slots=True)
class Indices:
    """First-order and total shares of a variance, each with its standard error; NaN where nothing varies."""

    first: Array
    first_error: Array
    total: Array
    total_error: Array


def saltelli_points(*, base: int, dimensions: int, seed: int | None, first: int = 0) -> tuple[Array, Array]:
    """Two independent samples A and B, from which Saltelli's design is put together.

    A and B: the two halves of the coordinates of one scrambled Sobol sequence

    Parameters
    ----------
    base : int
        points in either sample [-], a power of two to be most even
    dimensions : int
        inputs [-], 1 to 64
    seed : int or None
        what the scramble is drawn from [-]; None leaves the sequence as it is
    first : int
        points to pass over [-], so that a long design can be taken in pieces

    Returns
    -------
    tuple of two arrays
        A and B, each of shape (base, dimensions)

    Raises
    ------
    OutOfRangeError
        more than 64 inputs, or no points

    References
    ----------
    1. Saltelli 2002, Comput. Phys. Commun. 145:280.
    """
    both = sobol(count=base, dimensions=2 * dimensions, seed=seed, first=first)
    return both[:, :dimensions], both[:, dimensions:]


def exchanged(*, a: Array, b: Array, group: Sequence[int]) -> Array:
    """Sample A with the inputs of one group taken from B.

    AB_i: column i from B, every other from A

    Parameters
    ----------
    a, b : array
        the two samples [-], shape (base, inputs)
    group : sequence of int
        columns that are exchanged together [-]

    Returns
    -------
    array
        the exchanged sample, shape of a
    """
    mixed = a.copy()
    mixed[:, list(group)] = b[:, list(group)]
    return mixed


def saltelli_indices_jansen_1999(*, a: Array, b: Array, ab: Array) -> Indices:
    """First-order and total shares of each input, or group of inputs, with what it does with others.

    S_i = mean(f_B (f_ABi - f_A)) / V, T_i = mean((f_A - f_ABi)^2) / (2 V)

    Parameters
    ----------
    a, b : array
        the result at samples A and B [any unit], shape (base,)
    ab : array
        the result at A with each group in turn from B [the same unit], shape (groups, base)

    Returns
    -------
    Indices
        shares [1] and standard errors [1], each of shape (groups,)

    Raises
    ------
    InputError
        samples of different lengths, or fewer than 2 points

    Notes
    -----
    V is that of A and B together. Results count from the mean of all of them, which keeps the first-order
    estimate from drowning in it. The standard errors are those of a ratio of means (delta method) over 16
    blocks of successive points, more than Sobol points need. Sobol and Saltelli's first-order estimate,
    Jansen's of the total.

    References
    ----------
    1. Jansen 1999, Comput. Phys. Commun. 117:35 (total).
    2. Saltelli et al. 2010, Comput. Phys. Commun. 181:259 (first order, table 2 b).
    """
    _check(a, b, ab)
    middle = np.mean(np.concatenate([a, b, np.ravel(ab)]))
    f_a, f_b, f_ab = a - middle, b - middle, ab - middle
    own = np.mean(f_a + f_b) / 2.0
    variance = ((f_a - own) ** 2 + (f_b - own) ** 2) / 2.0
    first, first_error = _ratio(f_b * (f_ab - f_a), variance)
    total, total_error = _ratio((f_a - f_ab) ** 2 / 2.0, variance)
    return Indices(first, first_error, total, total_error)


def _ratio(over: Array, under: Array) -> tuple[Array, Array]:
    """Mean over mean along the last axis, and the standard error of that ratio."""
    size = float(np.mean(under))
    if size <= 0.0:
        nothing = np.full(len(over), np.nan)
        return nothing, nothing
    ratio = np.mean(over, axis=-1) / size
    starts = np.unique(np.arange(BLOCKS) * len(under) // BLOCKS)
    left = np.add.reduceat(over - ratio[:, np.newaxis] * under, starts, axis=-1)
    spread = np.sqrt(len(starts) / max(len(starts) - 1, 1) * np.sum(left * left, axis=-1))
    return ratio, spread / (size * len(under))


def _check(a: Array, b: Array, ab: Array) -> None:
    if not (a.shape == b.shape == ab.shape[1:]) or len(a) < 2:
        found = f"{a.shape}, {b.shape} and {ab.shape}"
        wanted = "results of A, B and each exchanged sample, of one length, at least 2"
        raise InputError(Fault("a Saltelli design", wanted=wanted, found=found))
