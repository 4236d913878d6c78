"""Points that fill a cube more evenly than chance does."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.sampling._directions import DIRECTIONS
from doughwright.science.yeast import Array

DIMENSIONS = len(DIRECTIONS)
"""The most dimensions there are direction numbers for."""
BITS = 52
"""Binary digits of a coordinate: with the half that is added, all that a float holds."""

Bits = NDArray[np.uint64]


def sobol(*, count: int, dimensions: int, seed: int | None, first: int = 0) -> Array:
    """Points of a scrambled Sobol sequence, evenly spread over the unit cube.

    x_n = (L v(gray(n)) xor s) 2^-52 + 2^-53; L a random lower triangular bit matrix, s a random shift

    Parameters
    ----------
    count : int
        number of points [-], at least 1; a power of two is spread most evenly
    dimensions : int
        coordinates of a point [-], 1 to 128
    seed : int or None
        what the scramble is drawn from [-], 0 or more; None leaves the sequence as it is
    first : int
        points of the sequence to pass over [-], so that a long one can be taken in pieces

    Returns
    -------
    array
        the points, shape (count, dimensions), each coordinate inside 0 and 1 and never at either

    Raises
    ------
    OutOfRangeError
        dimensions beyond 1 to 128, no points, or more than 2^40 of them

    Notes
    -----
    Half of the last digit is added, so that a normal quantile of a coordinate is always finite. The scramble
    is Matousek's random linear one with a shift of digits, as Owen's 1995 full scramble would cost memory;
    its raw bits are PCG64's, which stay the same from one version of NumPy to the next.

    References
    ----------
    1. Sobol 1967, USSR Comput. Math. Math. Phys. 7:86.
    2. Joe & Kuo 2008, SIAM J. Sci. Comput. 30:2635 (direction numbers).
    3. Matousek 1998, J. Complexity 14:527 (scramble).
    """
    _check(count, dimensions, first)
    directions, shift = _directions(dimensions), np.zeros(dimensions, dtype=np.uint64)
    if seed is not None:
        directions, shift = _scrambled(directions, seed)
    index = np.arange(first, first + count, dtype=np.uint64)
    gray = index ^ (index >> np.uint64(1))
    points = np.broadcast_to(shift, (count, dimensions)).copy()
    for bit in range(int(first + count - 1).bit_length()):
        chosen = (gray >> np.uint64(bit) & np.uint64(1)).astype(bool)
        points[chosen] ^= directions[:, bit]
    return np.asarray((points.astype(np.float64) + 0.5) * 2.0**-BITS)


def _check(count: int, dimensions: int, first: int) -> None:
    if not 1 <= dimensions <= DIMENSIONS:
        wanted = f"1 to {DIMENSIONS}"
        raise OutOfRangeError(Fault("dimensions of a Sobol sequence", wanted=wanted, found=str(dimensions)))
    if count < 1 or first < 0 or first + count > 2**40:
        found = f"{count} from point {first}"
        raise OutOfRangeError(Fault("points of a Sobol sequence", wanted="1 to 2^40 of them", found=found))


def _directions(dimensions: int) -> Bits:
    """The direction numbers as fractions of 2^52, shape (dimensions, 52)."""
    return np.array([_column(*DIRECTIONS[one]) for one in range(dimensions)], dtype=np.uint64)


def _column(degree: int, inner: int, start: tuple[int, ...]) -> list[int]:
    """All 52 direction numbers of a dimension by the recurrence of its polynomial."""
    numbers = list(start) if degree else [1] * BITS
    while len(numbers) < BITS:
        new = numbers[-degree] ^ numbers[-degree] << degree
        for k in range(1, degree):
            if inner >> degree - 1 - k & 1:
                new ^= numbers[-k] << k
        numbers.append(new)
    return [number << BITS - 1 - place for place, number in enumerate(numbers)]


def _scrambled(directions: Bits, seed: int) -> tuple[Bits, Bits]:
    """Each dimension's numbers through its own lower triangular matrix, and its shift."""
    dimensions = len(directions)
    raw = np.random.PCG64(seed).random_raw(dimensions * (BITS + 1)).astype(np.uint64)
    raw = (raw >> np.uint64(64 - BITS)).reshape(dimensions, BITS + 1)
    scrambled = np.zeros_like(directions)
    for row in range(BITS):
        place = np.uint64(BITS - 1 - row)
        above = (raw[:, row] >> place | np.uint64(1)) << place
        parity = np.bitwise_count(directions & above[:, np.newaxis]).astype(np.uint64) & np.uint64(1)
        scrambled |= parity << place
    return scrambled, raw[:, BITS]
