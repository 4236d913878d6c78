"""Documents to start from: one for each shape, commented, of our own invention."""

from __future__ import annotations

from importlib.resources import files
from typing import Literal, get_args

from doughwright.recipe.edit import edit_text

StartShape = Literal["round", "tin", "ball"]
SHAPES: tuple[StartShape, ...] = get_args(StartShape)


def starting_document(shape: StartShape, title: str | None = None) -> str:
    """A recipe that loads as it stands, its keys explained in comments; ``title`` replaces its own."""
    text = (files("doughwright.recipe") / "starting" / f"{shape}.toml").read_text(encoding="utf-8")
    return text if title is None else edit_text(text, {("title",): title})
