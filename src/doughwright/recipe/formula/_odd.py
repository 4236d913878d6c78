"""Figures of a dough that read oddly to a baker: 9 % salt, a dough of 30 % water."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from doughwright.figures import Figure
from doughwright.recipe.formula._figures import Batch
from doughwright.recipe.formula._parts import parts_of
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import weigh


@dataclass(frozen=True, slots=True)
class Usual:
    """What is usual of a figure, in per cent of flour (common practice, no source)."""

    figure: str
    low: float
    high: float


USUAL = (Usual("hydration", 45.0, 110.0), Usual("salt", 1.0, 3.5), Usual("yeast, as fresh", 0.0, 6.0))


def odd_figures(recipe: Recipe) -> Iterator[tuple[str, str]]:
    """The mix and a sentence for each figure of a dough that is far from what is usual."""
    weighed = weigh(recipe)
    for mix in recipe.doughs:
        batch = Batch(tuple(parts_of(weighed, mix.name)))
        if batch.flour <= 0.0:
            continue
        found = (batch.hydration(), batch.salt(), batch.yeast_as_fresh())
        for usual, figure in zip(USUAL, found, strict=True):
            said = _said(usual, figure)
            if said is not None:
                yield mix.name, said


def _said(usual: Usual, figure: Figure) -> str | None:
    if figure.value is None or usual.low <= figure.value <= usual.high:
        return None
    side = "little" if figure.value < usual.low else "much"
    band = f"{usual.low:g} to {usual.high:g} %"
    return f"{usual.figure} of {figure.value:.3g} % is {side}: {band} of the flour is usual"
