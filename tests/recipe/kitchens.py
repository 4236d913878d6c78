"""Recipes for the tests of formula and scaling, and kitchens of which only the scale matters."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.recipe.formula import Dough, Formula, formula
from doughwright.recipe.read import RecipeDocument, read_recipe

from .documents import RECIPE


@dataclass(frozen=True)
class Kitchen:
    """A kitchen with a scale of this step [kg]."""

    name: str = "test"
    scale: float = 0.001
    scale_known: bool = True


GRAM = Kitchen()
TENTH = Kitchen(scale=0.0001)

PLAIN = """schema = 1
title = "Flat loaf"

[makes]
pieces = 4
shape = "ball"

[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "1 kg" },
  { item = "water", amount = "620 g" },
  { item = "salt, fine", amount = "20 g" },
  { item = "fresh yeast", amount = "10 g" },
]
"""

SHARES = """schema = 1
title = "Flat loaf in per cent"

[makes]
pieces = 3
piece_mass = "260 g"
loss = "2 %"

[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "100 %" },
  { item = "water", amount = "62 %" },
  { item = "salt, fine", amount = "2 %" },
  { item = "fresh yeast", amount = "1 %" },
]
"""


def document(text: str = RECIPE) -> RecipeDocument:
    return read_recipe(text, "pie.toml")


def formula_of(text: str = RECIPE, kitchen: Kitchen = GRAM) -> Formula:
    return formula(document(text).recipe, kitchen)


def dough_of(text: str = RECIPE, kitchen: Kitchen = GRAM) -> Dough:
    return formula_of(text, kitchen).doughs[0]
