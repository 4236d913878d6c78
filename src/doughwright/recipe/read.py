"""From a text to a recipe: parse, validate, check what the parts say of each other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from doughwright.errors import DocumentError, Fault
from doughwright.recipe.faults import faults
from doughwright.recipe.model import Recipe
from doughwright.recipe.notes import notes
from doughwright.recipe.text import Document, parse, read_file, telling
from doughwright.recipe.types import Reading
from doughwright.recipe.validate import Schema, at, in_order


@dataclass(frozen=True)
class RecipeDocument:
    """A recipe with the text it was read from, and what reads oddly in it."""

    document: Document
    recipe: Recipe
    notes: tuple[Fault, ...]

    @property
    def text(self) -> str:
        """The text as it was read."""
        return self.document.text


@cache
def recipe_schema() -> Schema[Recipe]:
    """The schema of a recipe document."""
    return Schema(Recipe)


def read_recipe(text: str, file: str | None = None) -> RecipeDocument:
    """Read a recipe from its text.

    Raises ``DocumentError`` with every fault, each with line, column, what is wanted, what was found
    and what to write.
    """
    with telling(text):
        document = parse(text, file)
        if is_kitchen(document.data):
            raise DocumentError(_a_kitchen(file))
        if "readings" in document.data and "mix" not in document.data:
            raise DocumentError(_readings(file))
        recipe = recipe_schema().read(document, _context(document.data))
        found = [at(document, where, fault) for where, fault in faults(recipe)]
        if found:
            raise DocumentError(*in_order(found))
    noted = [at(document, where, note) for where, note in notes(recipe)]
    return RecipeDocument(document, recipe, tuple(in_order(noted)))


def load_recipe(path: Path) -> RecipeDocument:
    """Read a recipe from a file; ``InputError`` where there is no such file, else as ``read_recipe``."""
    return read_recipe(read_file(path), str(path))


def is_kitchen(data: dict[str, Any]) -> bool:
    """Whether a parsed text is a kitchen's, not a recipe's."""
    return "kitchen" in data and not {"title", "mix", "readings"} & data.keys()


def _a_kitchen(file: str | None) -> Fault:
    try_ = "Name the recipe, and this one after --kitchen"
    return Fault("this is a kitchen", file=file, line=1, column=1, wanted="a recipe document", try_=try_)


def _readings(file: str | None) -> Fault:
    try_ = "Learn from them with: doughwright calibrate --readings FILE"
    return Fault("these are readings", file=file, line=1, column=1, wanted="a recipe document", try_=try_)


def _context(data: dict[str, Any]) -> Reading:
    cups = data.get("cups")
    return Reading(
        cups=cups if cups in ("US", "metric", "imperial") else "US",
        own=tuple(name.casefold() for name in _names(data.get("ingredient"))),
        mixes=tuple(_names(data.get("mix"))),
    )


def _names(tables: object) -> list[str]:
    if not isinstance(tables, list):
        return []
    names = [table.get("name") for table in tables if isinstance(table, dict)]
    return [" ".join(name.split()) for name in names if isinstance(name, str)]
