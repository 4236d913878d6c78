"""Where a minute and a height lie in the section."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.publish.section._model import Cut

PER_MM, NARROW_PER_MM, TALLEST = 10.5, 8.4, 330.0
"""Pixels a millimetre, and how high the body may stand [px]."""
LIFT = 1.0
"""Off the surface the piece is drawn so far above it [mm]."""
HEAD, HEADROOM, KEY = 44.0, 40.0, 74.0
NARROW_BELOW = 420.0
LABELS = 136.0
THIN = 17.0
"""What the piece lies on has its figures below it where it is drawn thinner than this [px]."""


@dataclass(frozen=True, slots=True)
class Place:
    """The frame: ``face`` is the y of the surface's face, ``foot`` of its underside."""

    left: float
    right: float
    roof: float
    face: float
    foot: float
    scale: float
    end: float
    under: float
    narrow: bool

    def x(self, minute: float) -> float:
        """Where a minute lies."""
        return self.left + (self.right - self.left) * minute / self.end

    def y(self, height: float, *, lifted: bool) -> float:
        """Where a height above the surface [mm] lies; off the surface a little higher."""
        return self.face - (height + (LIFT if lifted else 0.0)) * self.scale

    @property
    def height(self) -> float:
        """How high the whole picture is."""
        return self.foot + self.under + KEY

    @property
    def most_ticks(self) -> int:
        """How many figures there is room for under it."""
        return 8 if self.narrow else 20


def place_of(cut: Cut, width: float) -> Place:
    """The frame of a section at a width [px]."""
    narrow = width < NARROW_BELOW
    whole = cut.thickness + cut.tallest + LIFT
    scale = min(NARROW_PER_MM if narrow else PER_MM, TALLEST / whole)
    face = HEAD + HEADROOM + (cut.tallest + LIFT) * scale
    foot = face + cut.thickness * scale
    labels = 10.0 if narrow else LABELS
    under = 16.0 if foot - face < THIN or not cut.bake.surface.hot else 0.0
    return Place(
        left=34.0, right=width - labels, roof=HEAD, face=face, foot=foot,
        scale=scale, end=max(cut.end, 1e-6), under=under, narrow=narrow,
    )  # fmt: skip
