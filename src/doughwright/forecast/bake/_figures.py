"""Lanes of kitchens as figures: the middle, and the 90 % interval of the others."""

from __future__ import annotations

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast.bake.results import Colour, Lab
from doughwright.forecast.doubt import ENDS
from doughwright.science.browning import colour_word, crust_lab
from doughwright.science.colour import srgb_of_lab
from doughwright.science.yeast import Array

_DIGITS = 5


def ends_of(lanes: Array) -> tuple[float, float] | None:
    """The ends of what the lanes after the first are; ``None`` without them or where one is never."""
    if len(lanes) < 2:
        return None
    values = np.where(np.isnan(lanes[1:]), np.inf, lanes[1:])
    low, high = np.percentile(values, ENDS, method="closest_observation").tolist()
    return (low, high) if np.isfinite(low) and np.isfinite(high) else None


def figure_of(lanes: Array, unit: str, why: str | None = None) -> Figure:
    """The first lane's value between the ends of all others; NaN there is unknown, and ``why``.

    Where it never comes to it in some of the others there is no interval, and it is said in how many.
    """
    middle, ends = float(lanes[0]), ends_of(lanes)
    if np.isnan(middle):
        return Figure(None, unit, why=why)
    if ends is None and len(lanes) > 1:
        never = 100.0 * float(np.mean(np.isnan(lanes[1:])))
        return Figure(round(middle, _DIGITS), unit, why=f"never in {never:.0f} % of kitchens like this one")
    low, high = (None, None) if ends is None else ends
    return Figure(
        round(middle, _DIGITS),
        unit,
        low=None if low is None else round(low, _DIGITS),
        high=None if high is None else round(high, _DIGITS),
    )


def colour_of(lightness: Array) -> Colour:
    """A crust's colour along the path of bread, from its lightness in each lane."""
    middle = float(np.clip(lightness[0], 0.0, 100.0))
    low, high = ends_of(lightness) or (middle, middle)
    middle_lab, low_lab, high_lab = (_lab(one) for one in (middle, low, high))
    return Colour(
        middle_lab,
        low_lab,
        high_lab,
        _hex(middle_lab),
        _hex(low_lab),
        _hex(high_lab),
        colour_word(lightness=middle),
    )


def _lab(lightness: float) -> Lab:
    found = crust_lab(lightness=float(np.clip(lightness, 0.0, 100.0)))
    light, red, yellow = (round(float(one), 2) for one in found)
    return light, red, yellow


def _hex(lab: Lab) -> str:
    return "#" + "".join(f"{round(255 * one):02x}" for one in srgb_of_lab(lab=lab))
