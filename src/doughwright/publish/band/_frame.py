"""One row of the band as a frame: which hours it shows, and where an hour and a volume lie in it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Frame:
    """Hours ``start`` to ``end`` from ``left`` to ``right`` [px]; foot at ``base``, ``unit`` px a volume."""

    start: float
    end: float
    left: float
    right: float
    base: float
    unit: float
    top: float

    def x(self, hours: float) -> float:
        """Where an hour lies."""
        return self.left + (hours - self.start) * (self.right - self.left) / (self.end - self.start)

    def y(self, volume: float) -> float:
        """Where a volume reaches: the foot is flat, like dough in a straight jar."""
        return self.base - volume * self.unit

    def held(self, hours: float) -> float:
        """The hour, held within the row."""
        return min(max(hours, self.start), self.end)

    def shows(self, hours: float) -> bool:
        """Whether an hour lies in the row."""
        return self.start - 1e-6 <= hours <= self.end + 1e-6

    @property
    def roof(self) -> float:
        """The y of the row's upper edge."""
        return self.y(self.top)

    @property
    def hours_per_pixel(self) -> float:
        """How many hours a pixel is."""
        return (self.end - self.start) / (self.right - self.left)
