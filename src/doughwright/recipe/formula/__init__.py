"""The formula: baker's percentages with preferments resolved, and what the scale can weigh."""

from doughwright.recipe.formula._dilution import Dilution
from doughwright.recipe.formula._figures import Customary
from doughwright.recipe.formula._formula import (
    Dough,
    Entry,
    Formula,
    OtherMix,
    Preferment,
    Scale,
    formula,
)
from doughwright.recipe.formula._odd import odd_figures
from doughwright.recipe.formula._pieces import divide_step
from doughwright.recipe.formula._weighable import Spoon

__all__ = [
    "Customary", "Dilution", "Dough", "Entry", "Formula", "OtherMix", "Preferment", "Scale", "Spoon",
    "divide_step", "formula", "odd_figures",
]  # fmt: skip
