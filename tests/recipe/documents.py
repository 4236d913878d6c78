"""The two documents of the design, and how to change one value of them."""

from __future__ import annotations

from pathlib import Path

DATA = Path(__file__).parent / "data"
RECIPE = (DATA / "leek_and_rye.toml").read_text(encoding="utf-8")
KITCHEN = (DATA / "boathouse.toml").read_text(encoding="utf-8")


def changed(old: str, new: str, text: str = RECIPE) -> str:
    """The text with the first ``old`` replaced; it must be there."""
    if old not in text:
        raise AssertionError(f"not in the text: {old}")
    return text.replace(old, new, 1)
