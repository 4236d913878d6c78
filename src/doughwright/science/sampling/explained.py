"""What explains the spread of a result: first-order shares from the very points it was run on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, InputError
from doughwright.science.yeast import Array

BINS = 20
"""Bins an input is cut into (ruling 40)."""
DEGREE = 3
"""Highest power of either input in what two of a group do together."""
STANDS_OUT = 3.0
"""Standard errors of no effect at all beyond which a pair of a group counts."""
CHUNKS = 20
"""Parts of the points that are left out in turn for the standard error."""

Places = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Explained:
    """Shares of an output's variance, each with a standard error; NaN where the output does not vary."""

    share: Array
    error: Array


def explained_shares(
    *, points: Array, output: Array, groups: Sequence[Sequence[int]] | None = None, bins: int = BINS
) -> Explained:
    """Share of an output's variance that each input, or each group of inputs, explains by itself.

    S = (B - (b - 1) / (n - b) W) / T, B, W the squares between and within the b bins of an input, T all.
    A group: the sum of its inputs' S, and for each pair of them the sum over k, l to 3 of
    mean(y phi_k(u) phi_l(v))^2 / var(y) - 1 / n, phi Legendre's orthonormal polynomials on 0 to 1, where it
    is more than 3 sqrt(2) 3 / n (three standard errors of no effect at all).

    Parameters
    ----------
    points : array
        the inputs as they were drawn, uniform on 0 to 1 and independent [-], shape (points, inputs)
    output : array
        the result at each point, a number or 0 and 1 [any unit], shape (points,)
    groups : sequence of sequences of int, or None
        columns of points that go under one heading [-]; None: each by itself
    bins : int
        bins an input is cut into [-], equally wide

    Returns
    -------
    Explained
        share [1] and its standard error [1], one a group

    Raises
    ------
    InputError
        fewer than 4 points a bin, or points and output of different lengths

    Notes
    -----
    The squares within are taken off because bins of points drawn by chance differ; Sobol points lie more
    evenly, so that a share comes out low by up to (b - 1) / n, and a little below 0 where an input does
    nothing; what goes on within a bin (a long tail) is missed. A group's share holds what its inputs do
    together, two at a time and smoothly: finer bins of pairs would take for theirs what two others do
    together, where Sobol points line up four dimensions. What only three together do is left out. The
    standard error leaves out each twentieth of the points in turn (jackknife), which is more than Sobol
    points need. Ruling 40 found 0.015 of a full design at 10,000 points.

    References
    ----------
    1. Plischke, Borgonovo & Smith 2013, Eur. J. Oper. Res. 226:536 (given data, bins).
    2. Kelley 1935, Proc. Natl. Acad. Sci. 21:554 (epsilon squared, the part taken off).
    """
    _check(points, output, bins)
    headings = groups if groups is not None else [[one] for one in range(points.shape[1])]
    runs = np.array([_joint(points[:, list(group)], output - np.mean(output), bins) for group in headings])
    whole, parts = runs[:, 0], runs[:, 1:]
    deviation = parts - parts.mean(axis=1, keepdims=True)
    return Explained(whole, np.sqrt((CHUNKS - 1) / CHUNKS * np.sum(deviation**2, axis=1)))


def _joint(points: Array, output: Array, bins: int) -> Array:
    """A group's share from all points, then with each chunk of them left out: shape (1 + chunks,)."""
    fine = [_places(one, bins) for one in points.T]
    share = sum((_share(one, bins, output) for one in fine), np.zeros(1 + CHUNKS))
    powers = [_legendre(one) for one in points.T] if len(fine) > 1 else []
    chance = STANDS_OUT * np.sqrt(2.0) * DEGREE / len(output)
    for one, other in combinations(powers, 2):
        pair = _pair(one, other, output)
        share = share + (pair if pair[0] > chance else 0.0)
    return share


def _pair(one: Array, other: Array, output: Array) -> Array:
    """What two inputs explain together beyond each alone, whole and with each chunk left out."""
    products = (one[:, np.newaxis] * other).reshape(-1, len(output)) * output
    starts = np.arange(CHUNKS) * len(output) // CHUNKS
    count = _left_out(np.diff(starts, append=len(output))[:, np.newaxis].astype(np.float64))
    sums = _left_out(np.add.reduceat(products, starts, axis=1).T)
    squares = _left_out(np.add.reduceat(output * output, starts)[:, np.newaxis])
    n, variance = count[:, 0], squares[:, 0] / count[:, 0]
    found = np.sum((sums / count) ** 2, axis=1)
    varies = variance > 0.0
    return np.where(varies, found / np.where(varies, variance, 1.0), np.nan) - DEGREE**2 / n


def _legendre(coordinate: Array) -> Array:
    """Legendre's polynomials of degree 1 to 3 of a coordinate, each of mean square 1: shape (3, points)."""
    x = 2.0 * coordinate - 1.0
    found = [np.ones_like(x), x]
    for degree in range(1, DEGREE):
        next_one = ((2 * degree + 1) * x * found[degree] - degree * found[degree - 1]) / (degree + 1)
        found.append(next_one)
    return np.array([np.sqrt(2.0 * degree + 1.0) * found[degree] for degree in range(1, DEGREE + 1)])


def _places(coordinate: Array, bins: int) -> Places:
    """The bin each point lies in."""
    return np.minimum((coordinate * bins).astype(np.intp), bins - 1)


def _share(places: Places, bins: int, output: Array) -> Array:
    """Epsilon squared of the bins, whole and with each chunk left out."""
    chunk = np.arange(len(output)) * CHUNKS // len(output)
    place = chunk * bins + places
    count, total, squares = (
        _left_out(np.bincount(place, weights, CHUNKS * bins).reshape(CHUNKS, bins))
        for weights in (None, output, output * output)
    )
    n, used = count.sum(axis=1), np.count_nonzero(count, axis=1)
    middle = total.sum(axis=1) ** 2 / n
    everything = squares.sum(axis=1) - middle
    between = np.sum(total * total / np.maximum(count, 1), axis=1) - middle
    taken_off = (used - 1) / np.maximum(n - used, 1) * (everything - between)
    varies = everything > 1e-12 * np.maximum(squares.sum(axis=1), 1e-300)
    return np.where(varies, (between - taken_off) / np.where(varies, everything, 1.0), np.nan)


def _left_out(sums: Array | Places) -> Array:
    """The sum over all chunks, then over all but each in turn."""
    whole = sums.sum(axis=0, dtype=np.float64)
    return np.concatenate([whole[np.newaxis], whole - sums])


def _check(points: Array, output: Array, bins: int) -> None:
    if len(points) != len(output):
        found = f"{len(points)} and {len(output)}"
        raise InputError(Fault("explained shares", wanted="as many results as points", found=found))
    if len(points) < 4 * bins:
        wanted = f"at least 4 points in each of {bins} bins"
        raise InputError(Fault("explained shares", wanted=wanted, found=f"{len(points)} points"))
