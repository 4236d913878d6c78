"""Which ingredient a line of a recipe means: the document's own first, then ours, with the line's own figures."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from doughwright import ingredients
from doughwright.ingredients import Ingredient, Resolution
from doughwright.recipe.model import Line, Own, Recipe

# Keys of a line and the figure of an ingredient each replaces; shares become per cent by mass.
OVERRIDES = {"protein": "protein", "water": "water", "fat": "fat", "sugar": "sugars", "salt": "salt"}


def resolution(recipe: Recipe, line: Line) -> Resolution:
    """The ingredient of a line, with a note where its name leaves a choice.

    Raises ``UnknownNameError`` where nothing has that name, ``OutOfRangeError`` where its own figures
    cannot be.
    """
    name = line.item or ""
    own = {one.name.casefold(): one for one in recipe.own}.get(name.casefold())
    found = Resolution(own_ingredient(own)) if own is not None else ingredients.resolve(name)
    values = {
        ours: getattr(line, key) * 100.0 for key, ours in OVERRIDES.items() if getattr(line, key) is not None
    }
    if line.density is not None:
        values["density"] = line.density
    if not values:
        return found
    source = line.source or "the recipe"
    return replace(found, ingredient=ingredients.with_overrides(found.ingredient, source=source, **values))


def ingredient_of(recipe: Recipe, line: Line) -> Ingredient:
    """The ingredient of a line."""
    return resolution(recipe, line).ingredient


def own_ingredient(own: Own) -> Ingredient:
    """An ``[[ingredient]]`` table of a document as an ingredient."""
    table: dict[str, Any] = {"name": own.name, "source": own.source}
    table |= {"like": own.like} if own.like else {}
    table |= {"class": own.class_} if own.class_ else {}
    for key in ("water", "protein", "fat", "carbohydrate", "sugar", "fibre", "salt", "refuse"):
        value = getattr(own, key)
        if value is not None:
            table[{"sugar": "sugars", "refuse": "refuse_percent"}.get(key, key)] = value * 100.0
    if own.density is not None:
        table["density"] = own.density
    if own.measures:
        table["measures"] = {word: kilograms * 1000.0 for word, kilograms in own.measures}
    if own.allergens:
        table["allergens"] = list(own.allergens)
    return ingredients.from_table(table)
