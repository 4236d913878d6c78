"""What a calibration draws: readings of one kind through time, and the bands they are laid over."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Point:
    """A reading: when [h], what, and whether it does not fit the others."""

    time: float
    value: float
    odd: bool = False


@dataclass(frozen=True, slots=True)
class Spread:
    """A forecast through time [h]: its middle, and nine times in ten between ``low`` and ``high``."""

    time: tuple[float, ...]
    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]

    def at(self, time: float) -> tuple[float, float, float]:
        """Low, middle and high at a time, on the line between two points."""
        times = self.time
        after = next((n for n, one in enumerate(times) if one >= time), len(times) - 1)
        before = max(after - 1, 0)
        span = times[after] - times[before]
        share = min(max((time - times[before]) / span, 0.0), 1.0) if span > 0.0 else 1.0
        low, middle, high = (
            row[before] + (row[after] - row[before]) * share for row in (self.low, self.middle, self.high)
        )
        return low, middle, high


@dataclass(frozen=True, slots=True)
class Panel:
    """Readings of one kind: what they are of, in which unit, and the band before and after them.

    ``decimals`` is how the axis is written; ``time_words`` says from when the hours count.
    """

    what: str
    unit: str
    points: tuple[Point, ...]
    before: Spread | None
    after: Spread | None
    decimals: int = 1
    time_words: str = "hours"
