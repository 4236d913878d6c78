"""A kitchen document to start from, commented."""

from __future__ import annotations

from importlib.resources import files

from doughwright.recipe.edit import edit_text


def starting_kitchen(name: str | None = None) -> str:
    """A kitchen that loads as it stands, its keys explained in comments; ``name`` replaces its own."""
    text = (files("doughwright.kitchen") / "starting" / "kitchen.toml").read_text(encoding="utf-8")
    return text if name is None else edit_text(text, {("kitchen",): name})
