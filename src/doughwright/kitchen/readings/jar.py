"""A straight-sided jar: heights to volumes, with the crown's share and the errors of reading."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, pi

from doughwright.units import convert

READ_WITHIN = 0.001
"""How far off a height is read off a ruler [m], one standard deviation; assumed."""

MARK_WITHIN = 0.05
"""How far off a mark or an estimate by eye is, as a share of the rise; assumed."""

CROWN_SHARE = 0.08
"""How high a risen dough's crown stands over its edge, as a share of the diameter; assumed."""

CROWN_WITHIN = 0.05
"""How far off that share may be, one standard deviation; assumed."""

DIAMETER = 0.07
"""The diameter of a jar that does not say its own [m]: a common half-litre jar; assumed."""

FRESH_DENSITY = 1120.0
"""Density of a dough just mixed [kg/m3]: ruling 4 of the fermentation notes."""

INCH = convert(1.0, "in", "cm")
"""What a height is off by where inches are written as centimetres."""


def cap_share(crown: float, diameter: float) -> float:
    """The mean height [m] of a crown: a spherical cap so high over a jar so wide.

    c / 2 + c^3 / (6 r^2), from the volume of a cap, pi c (3 r^2 + c^2) / 6.
    """
    radius = diameter / 2.0
    return crown / 2.0 + crown**3 / (6.0 * radius**2)


@dataclass(frozen=True, slots=True)
class Crown:
    """A crown's height over the edge [m] and how far off that is; ``measured`` where the cook gave it."""

    height: float
    within: float
    measured: bool


def crown_of(given: float | None, diameter: float | None) -> Crown:
    """The crown that was measured, or the one that is assumed for a jar so wide."""
    if given is not None:
        return Crown(given, READ_WITHIN, True)
    wide = diameter or DIAMETER
    return Crown(CROWN_SHARE * wide, CROWN_WITHIN * wide, False)


def level(height: float, read: str, crown: Crown, diameter: float | None) -> tuple[float, float]:
    """The height [m] of a level dough of the same volume, and its standard deviation.

    An edge stands lower than that by the cap's mean height; a top higher by the rest of the crown.
    """
    wide = diameter or DIAMETER
    share = cap_share(crown.height, wide)
    shift = share if read == "edge" else share - crown.height
    # Half of what the crown is off by goes into the mean, read either way.
    return height + shift, hypot(READ_WITHIN, 0.5 * crown.within)


def start_height(mass: float, diameter: float) -> float:
    """How high so much fresh dough stands in a jar so wide [m]."""
    return mass / (FRESH_DENSITY * 0.25 * pi * diameter**2)


def mass_in(start: float, diameter: float) -> float:
    """How much fresh dough stands so high in a jar so wide [kg]."""
    return start * FRESH_DENSITY * 0.25 * pi * diameter**2


def like_inches(start: float, mass: float, diameter: float) -> str | None:
    """The unit that a start height seems to be in, where its mass and its jar say so: "in" or "cm"."""
    factor = start_height(mass, diameter) / start
    for word, one in (("in", INCH), ("cm", 1.0 / INCH)):
        if 0.8 < factor / one < 1.25:
            return word
    return None
