"""A changed dough as a lossless edit of its document: hours of steps, yeast, the dough's temperature."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from doughwright.forecast._order import steps_of
from doughwright.ingredients import Class
from doughwright.recipe.edit import Change, edit
from doughwright.recipe.model import Recipe
from doughwright.recipe.text import Document, Where
from doughwright.recipe.weigh import WeighedLine, weigh
from doughwright.units import AmountKind, format_temperature, format_time, rewrite

_CLOSE = 1e-6


def yeast_lines(recipe: Recipe, dough: str) -> tuple[tuple[int, WeighedLine], ...]:
    """The lines of yeast weighed into the dough itself, with their numbers from 0."""
    lines = enumerate(weigh(recipe)[dough].lines)
    return tuple(
        (number, line)
        for number, line in lines
        if line.ingredient is not None and line.ingredient.class_ is Class.YEAST and line.mass
    )


def yeast_edit(recipe: Recipe, dough: str, factor: float) -> Iterator[Change]:
    """Every line of a dough's own yeast times a factor; spoons and counts become grams."""
    if abs(factor - 1.0) < _CLOSE:
        return
    mix = next(number for number, one in enumerate(recipe.mixes) if one.name == dough)
    pieces = recipe.makes.pieces if recipe.mixes[mix].per == "piece" else 1
    for number, line in yeast_lines(recipe, dough):
        where: Where = ("mix", mix, "ingredients", number, "amount")
        amount = line.line.amount
        if amount is None or line.mass is None:
            continue
        if amount.kind in (AmountKind.MASS, AmountKind.PERCENT):
            yield Change(where, rewrite(amount.text, factor, cups=recipe.cups))
        else:
            yield Change(where, f"{line.mass * factor * 1000.0 / pieces:.6g} g")


def hours_edit(recipe: Recipe, hours: Mapping[int, float]) -> Iterator[Change]:
    """The time of steps, by their numbers from 0, where it is another than the document's (its middle)."""
    for number, each in sorted(hours.items()):
        now = recipe.steps[number].lasts
        if now is None or abs(now - 3600.0 * each) > 1.0:
            yield Change(("step", number, "for"), format_time(3600.0 * each))


def temperature_edit(recipe: Recipe, dough: str, degrees: float) -> Iterator[Change]:
    """The dough's temperature [degC]: the one measured at its last mix step, else what is aimed for.

    A measured one comes before what is aimed for, so it is what has to be changed.
    """
    mixing = [(number, step) for number, step in steps_of(recipe, dough) if step.do == "mix"]
    number, step = mixing[-1] if mixing else (0, None)
    text = format_temperature(degrees)
    if step is not None and step.dough_at is not None:
        if abs(step.dough_at - degrees) > _CLOSE:
            yield Change(("step", number, "dough_at"), text)
    elif recipe.target.dough_temperature is None or abs(recipe.target.dough_temperature - degrees) > _CLOSE:
        yield Change(("target", "dough_temperature"), text)


def kitchen_edit(recipe: Recipe, name: str) -> Iterator[Change]:
    """The recipe's own kitchen, by the name of its document."""
    if recipe.kitchen != name:
        yield Change(("kitchen",), name)


def with_changes(document: Document, changes: Iterable[Change]) -> str:
    """The text with the changes, ``[target]`` and ``kitchen`` written where they are not there yet."""
    every = list(changes)
    new = [one for one in every if one.where[0] not in document.data]
    text = edit(document, [one for one in every if one not in new])
    newline = "\r\n" if "\r\n" in text else "\n"
    for one in new:
        if len(one.where) == 1:
            text = _at_the_head(document, text, f'{one.where[0]} = "{one.value}"', newline)
        else:
            gap = "" if text.endswith("\n") else newline
            text += f'{gap}{newline}[{one.where[0]}]{newline}{one.where[1]} = "{one.value}"{newline}'
    return text


def _at_the_head(document: Document, text: str, line: str, newline: str) -> str:
    """A key of the document itself goes after its title, which comes before every table."""
    end = text.find("\n", document.values["title",].end)
    return f"{text[: end + 1]}{line}{newline}{text[end + 1 :]}"
