"""Ingredients: facts with a source in every row, and the names cooks call them by."""

from doughwright.ingredients._household import Mass, household_mass
from doughwright.ingredients._names import Resolution, find, resolve, search
from doughwright.ingredients._own import from_table, with_overrides
from doughwright.ingredients.model import Class, Ingredient

__all__ = [
    "Class",
    "Ingredient",
    "Mass",
    "Resolution",
    "find",
    "from_table",
    "household_mass",
    "resolve",
    "search",
    "with_overrides",
]
