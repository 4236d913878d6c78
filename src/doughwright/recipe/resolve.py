"""Which ingredient a line of a recipe means: the document's own first, then ours."""

from __future__ import annotations

from dataclasses import replace

from doughwright import ingredients
from doughwright.ingredients import Ingredient, Resolution
from doughwright.recipe.model import Line, Own, Recipe

# Keys of a line and the figure of an ingredient each replaces; shares become per cent by mass.
OVERRIDES = {"protein": "protein", "water": "water", "fat": "fat", "sugar": "sugars", "salt": "salt"}
OWN = OVERRIDES | {"carbohydrate": "carbohydrate", "fibre": "fibre", "refuse": "refuse_percent"}


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
    """An ``[[ingredient]]`` table as an ingredient; raises ``InputError`` where it cannot be."""
    values = {ours: getattr(own, key) * 100.0 for key, ours in OWN.items() if getattr(own, key) is not None}
    if own.density is not None:
        values["density"] = own.density
    return ingredients.from_table(
        own.name,
        source=own.source,
        class_=own.class_,
        like=ingredients.find(own.like) if own.like else None,
        measures={word: kilograms * 1000.0 for word, kilograms in own.measures} or None,
        allergens=own.allergens,
        **values,
    )
