"""What no dough can weigh: measures an ingredient has not, percentages of nothing, 300 % salt."""

from __future__ import annotations

from collections.abc import Iterator

from doughwright.errors import Fault, InputError
from doughwright.ingredients import Class
from doughwright.recipe.model import Line, Recipe
from doughwright.recipe.resolve import ingredient_of
from doughwright.recipe.text import Where
from doughwright.recipe.weigh import WeighedLine, Weighing, by_measure
from doughwright.units import AmountKind

# The most of a class that a dough can hold, as a share of its flour: beyond it is a slip of the pen.
MOST = {Class.SALT: 0.25, Class.YEAST: 0.25, Class.SUGAR: 2.0, Class.FAT: 3.0, Class.LIQUID: 6.0}


def masses(recipe: Recipe) -> Iterator[tuple[Where, Fault]]:
    """Every fault of the amounts, each at its line."""
    broken = list(_lines(recipe))
    yield from broken
    if broken:
        return
    weighing = Weighing(recipe)
    for number, mix in enumerate(recipe.mixes):
        try:
            weighed = weighing.mix(mix.name)
        except InputError as error:
            yield ("mix", number), error.fault
            return
        for index, one in enumerate(weighed.lines):
            fault = _absurd(one, weighed.flour) if mix.kind in ("dough", "preferment") else None
            if fault is not None:
                yield ("mix", number, "ingredients", index, "amount"), fault


def _lines(recipe: Recipe) -> Iterator[tuple[Where, Fault]]:
    for number, mix in enumerate(recipe.mixes):
        for index, line in enumerate(mix.ingredients):
            fault = _line(recipe, line) if line.item is not None else None
            if fault is not None:
                yield ("mix", number, "ingredients", index, "amount"), fault


def _line(recipe: Recipe, line: Line) -> Fault | None:
    try:
        ingredient = ingredient_of(recipe, line)
        if line.amount is not None and line.amount.kind in (
            AmountKind.VOLUME,
            AmountKind.COUNT,
            AmountKind.PINCH,
        ):
            by_measure(line, ingredient)
    except InputError as error:
        return error.fault
    return None


def _absurd(one: WeighedLine, flour: float) -> Fault | None:
    most = MOST.get(one.ingredient.class_) if one.ingredient is not None else None
    if most is None or flour <= 0 or one.mass is None or one.mass <= most * flour:
        return None
    return Fault(
        f"{one.line.item} at {one.mass / flour * 100:.0f} % of the flour is no dough",
        wanted=f"at most {most * 100:g} % of the flour, {most * flour * 1000:.4g} g here",
        found=f'"{one.line.amount.text}"' if one.line.amount else None,
        try_="Check the unit and the decimal sign",
    )  # fmt: skip
