"""A forecast's 90 % interval now, and as wide as it is expected to be after each measurement."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Measure:
    """A measurement: its name, the width that the interval is expected to have after it, and its minutes."""

    name: str
    width: float
    minutes: float | None = None


@dataclass(frozen=True, slots=True)
class Measuring:
    """The rise [ratio] when judged, its interval ``low`` to ``high`` now, and each measurement alone.

    ``measures`` are in order, the most worth measuring first.
    """

    middle: float
    low: float
    high: float
    measures: tuple[Measure, ...]
    judged_word: str = "when shaping begins"

    @property
    def width(self) -> float:
        """How wide the interval is now."""
        return self.high - self.low

    def after(self, measure: Measure) -> tuple[float, float]:
        """The interval after a measurement, round the middle as it lies within it now."""
        share = (self.middle - self.low) / self.width if self.width > 0.0 else 0.5
        return self.middle - share * measure.width, self.middle + (1.0 - share) * measure.width

    def gain(self, measure: Measure) -> float:
        """By what share of its width the interval shrinks; never below nothing."""
        return max(1.0 - measure.width / self.width, 0.0) if self.width > 0.0 else 0.0
