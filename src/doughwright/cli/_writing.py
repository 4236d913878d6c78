"""Verbs for writing a recipe down: ``new``, ``check``, ``find``."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import click

from doughwright.cli._files import write_new
from doughwright.cli._shell import bench_option, emit, json_option, kitchen_option, prints, what_argument
from doughwright.cli._sources import Source, bench_folder, source_of, stored, with_kitchen
from doughwright.errors import DoughwrightError, Fault, InputError, UnknownNameError
from doughwright.ingredients import Ingredient
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.checked import Checked, checked_kitchen, checked_recipe
from doughwright.recipe.read import RecipeDocument, is_kitchen, read_recipe
from doughwright.recipe.text import parse

Shape = Literal["round", "tin", "ball"]


@click.command()
@click.argument("file", type=click.Path())
@click.option("--shape", type=click.Choice(["round", "tin", "ball"]), default="round", help="What it is.")
@click.option("--title", help="The title of the recipe, or the name of the kitchen.")
@click.option("--kitchen", "as_kitchen", is_flag=True, help="Start a kitchen document, not a recipe.")
def new(file: str, shape: Shape, title: str | None, as_kitchen: bool) -> None:
    """Write a commented starting document to FILE; nothing is written over."""
    from doughwright.kitchen.start import starting_kitchen
    from doughwright.recipe.start import starting_document

    text = starting_kitchen(title) if as_kitchen else starting_document(shape, title)
    write_new(Path(file), text)
    click.echo(f"Wrote {file}. Read it back with: doughwright check {file}")


@prints(Checked)
@click.command()
@what_argument
@click.option(
    "--against", metavar="FILE", help="The version to compare with; left out: the last one on the bench."
)
@kitchen_option
@bench_option
@json_option
def check(
    what: str | None, against: str | None, kitchen: str | None, bench: str | None, as_json: bool
) -> None:
    """Read a recipe or a kitchen back: what it says, what reads oddly, what moved."""
    source = source_of(what, bench)
    if _is_kitchen(source.text):
        checked = checked_kitchen(read_kitchen(source.text, source.shown))
    else:
        sources = with_kitchen(source, kitchen, bench)
        before = _before(source, against, bench)
        checked = checked_recipe(sources.document, sources.kitchen, before)
    if as_json:
        emit(checked)
        return
    from doughwright.publish.terminal.check import checked_text

    click.echo(checked_text(checked))


def _is_kitchen(text: str) -> bool:
    try:
        data = parse(text).data
    except DoughwrightError:
        return False
    return is_kitchen(data)


def _before(source: Source, against: str | None, bench: str | None) -> RecipeDocument | None:
    """The version to compare with: the file asked for, else the newest on the bench that can be read."""
    if against is not None:
        own = source_of(against, bench)
        return read_recipe(own.text, own.shown)
    folder = bench_folder(bench)
    if folder is None or source.path is None:
        return None
    found = stored(folder, source.path.name, ("recipe",))
    try:
        return read_recipe(found.text, found.shown) if found else None
    except InputError:
        return None


@prints(Ingredient)
@click.command()
@click.argument("word")
@click.option("--most", type=click.IntRange(1, 100), default=8, help="How many to list.", show_default=True)
@json_option
def find(word: str, most: int, as_json: bool) -> None:
    """Find an ingredient: what is in it, what its spoons and cups weigh, and the source."""
    from doughwright import ingredients
    from doughwright.publish.terminal.ingredient import ingredients_text

    found = ingredients.search(word, most)
    if not found:
        raise UnknownNameError(
            Fault(
                "there is no such ingredient",
                found=f'"{word}"',
                try_="Describe your own in an [[ingredient]] table",
            )
        )
    if as_json:
        emit({"ingredients": found})
    else:
        click.echo(ingredients_text(found, word))
