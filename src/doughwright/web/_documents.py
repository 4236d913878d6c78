"""Texts as TOML documents, each parsed once: a page asks for the same text several times."""

from __future__ import annotations

from functools import lru_cache

from doughwright.errors import DoughwrightError
from doughwright.recipe.text import Document, parse


@lru_cache(maxsize=128)
def document_of(text: str) -> Document:
    """The document of a text; raises ``DocumentError`` where it cannot be read as TOML."""
    return parse(text)


def parsed(text: str) -> Document | None:
    """The document of a text; ``None`` where it cannot be read as TOML."""
    try:
        return document_of(text)
    except DoughwrightError:
        return None
