"""Where the figures of an axis stand: round steps, as many as there is room for."""

from __future__ import annotations

import math


def tick_step(low: float, high: float, most: float) -> float:
    """The least of 1, 2, 5 times a power of ten that puts at most so many steps between two values."""
    least = (high - low) / max(most, 1.0)
    if least <= 0.0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(least))
    return next(one * power for one in (1.0, 2.0, 5.0, 10.0) if one * power >= least * (1.0 - 1e-9))


def ticks(low: float, high: float, step: float) -> list[float]:
    """Every multiple of a step between two values."""
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(at * step, 10) for at in range(first, last + 1)]
