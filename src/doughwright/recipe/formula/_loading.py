"""How much dough lies on a square centimetre, and how much is customary."""

from __future__ import annotations

import math

from doughwright.figures import Figure
from doughwright.recipe.formula._figures import Customary
from doughwright.recipe.model import Recipe

_USUAL = "customary: common practice, no source"
_FROM_RULE = (
    "customary: from a 250 g ball at most 35 cm across, Regulation (EU) 97/2010; "
    "the upper end is common practice, no source"
)
# Low and high [g/cm2] by shape; of a tin, on its base.
_CUSTOMARY = {
    "round": (0.25, 0.55, _FROM_RULE),
    "rectangle": (0.5, 1.0, _USUAL),
    "tin": (2.5, 4.5, _USUAL),
}


def area(recipe: Recipe) -> float | None:
    """The area [m2] a piece covers before baking, of a tin its base; ``None`` where it has none."""
    makes, shape = recipe.makes, recipe.shape
    if shape == "round" and makes.diameter is not None:
        return math.pi * makes.diameter**2 / 4.0
    if shape in ("rectangle", "tin") and makes.length is not None and makes.width is not None:
        return makes.length * makes.width
    return None


def loading(recipe: Recipe, piece: Figure) -> Figure:
    """Piece mass over area before baking."""
    covered = area(recipe)
    if covered is None:
        reason = "a ball has no area of its own" if recipe.shape == "ball" else "its size is not said"
        return Figure(None, "g/cm2", why=reason)
    if piece.value is None:
        return Figure(None, "g/cm2", why=piece.why)
    square_centimetres = covered * 1e4
    low, high = (None if end is None else end / square_centimetres for end in (piece.low, piece.high))
    return Figure(piece.value / square_centimetres, "g/cm2", low, high)


def customary_loading(shape: str) -> Customary | None:
    """The band that is customary for a shape; ``None`` for a ball."""
    if shape not in _CUSTOMARY:
        return None
    low, high, source = _CUSTOMARY[shape]
    return Customary(Figure(low, "g/cm2"), Figure(high, "g/cm2"), source)
