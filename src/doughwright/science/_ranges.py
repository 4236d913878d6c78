"""Refusing numbers beyond the range in which something is known."""

from __future__ import annotations

import numpy as np

from doughwright.errors import Fault, OutOfRangeError
from doughwright.science.yeast import Array, Real


def within(what: str, value: Real, low: float, high: float, unit: str, try_: str | None = None) -> Array:
    """``value`` as an array, or an error naming the first of it that lies outside; NaN lies outside."""
    array = np.asarray(value, dtype=float)
    inside = (array >= low) & (array <= high)
    if not inside.all():
        found = float(array[~inside].flat[0])
        high_text = f"at most {high:g}" if np.isfinite(high) else ""
        low_text = f"at least {low:g}" if np.isfinite(low) else ""
        wanted = f"{low:g} to {high:g}" if low_text and high_text else low_text or high_text
        raise OutOfRangeError(Fault(what, wanted=f"{wanted} {unit}", found=f"{found:g}", try_=try_))
    return array


def above(what: str, value: Real, unit: str) -> Array:
    """``value`` as an array, or an error where it is not above 0."""
    array = np.asarray(value, dtype=float)
    inside = array > 0.0
    if not inside.all():
        found = float(array[~inside].flat[0])
        raise OutOfRangeError(Fault(what, wanted=f"more than 0 {unit}", found=f"{found:g}"))
    return array
