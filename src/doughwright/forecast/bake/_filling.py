"""Raw food of animal origin under the heat: what the Food Code wants it heated to."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from doughwright.figures import Figure
from doughwright.forecast._contents import lines_within
from doughwright.forecast.bake._figures import figure_of
from doughwright.forecast.bake.results import Filling
from doughwright.ingredients import Class
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import WeighedMix
from doughwright.science.yeast import Array

SOURCE = "FDA Food Code 2022, 3-401.11"
POULTRY, MINCE, WHOLE = 74.0, 68.0, 63.0
"""What the middle of raw poultry, of mince, of whole meat, fish and egg is usually heated to [degC]."""

_RAW = (Class.MEAT, Class.FISH, Class.EGG)
_BIRDS = ("chicken", "turkey", "poultry", "duck")
_MINCED = ("mince", "ground", "sausage")


def filling_of(recipe: Recipe, weighed: dict[str, WeighedMix], toppings: dict[str, Array]) -> Filling | None:
    """The coldest topping at its hottest [degC, by lane] beside what is raw in them; ``None`` without any."""
    if not toppings:
        return None
    coldest = np.min(np.stack(list(toppings.values())), axis=0)
    found = list(_raw_in(recipe, weighed))
    if not found:
        nothing = Figure(None, "degC", why="no raw meat, fish or egg lies in the toppings")
        return Filling(figure_of(coldest, "degC"), nothing, (), None)
    least = max(degrees for _, degrees in found)
    items = tuple(dict.fromkeys(item for item, _ in found))
    return Filling(figure_of(coldest, "degC"), Figure(least, "degC"), items, bool(float(coldest[0]) >= least))


def _raw_in(recipe: Recipe, weighed: dict[str, WeighedMix]) -> Iterator[tuple[str, float]]:
    named = {name for step in recipe.steps if step.do == "dress" for name in step.with_}
    for mix in recipe.mixes:
        if mix.name not in named and not (not named and mix.kind in ("sauce", "topping")):
            continue
        for line in lines_within(weighed, mix.name):
            one = line.ingredient
            text = f"{one.name} {one.description}".casefold() if one is not None else ""
            if one is None or one.class_ not in _RAW or "raw" not in text:
                continue
            bird = any(word in text for word in _BIRDS)
            minced = any(word in text for word in _MINCED)
            yield line.line.item or "", POULTRY if bird else MINCE if minced else WHOLE
