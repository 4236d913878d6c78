"""A redesigned recipe as a lossless edit of its document: values set, and step tables moved whole."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from doughwright.forecast._edits import with_changes
from doughwright.recipe.edit import Change
from doughwright.recipe.text import Document, parse


def edited(document: Document, changes: Sequence[Change], order: Sequence[int] | None) -> str:
    """The text with values set, then its ``[[step]]`` tables in the order given by their numbers."""
    text = with_changes(document, changes)
    return text if order is None else _moved(parse(text, document.file), order)


def _moved(document: Document, order: Sequence[int]) -> str:
    """Each step's table stands, with its comments, where the one it replaces stood."""
    blocks = _blocks(document)
    pieces, last = [], 0
    for place, number in enumerate(order):
        start, end = blocks[place]
        pieces += [document.text[last:start], _ended(document.text[slice(*blocks[number])])]
        last = end
    return "".join([*pieces, document.text[last:]])


def _ended(block: str) -> str:
    return block if block.endswith("\n") else block + "\n"


def _blocks(document: Document) -> Mapping[int, tuple[int, int]]:
    """Where each step's table begins (its header's line) and ends (before the next table's header)."""
    headers = sorted(span.start for where, span in document.values.items() if _is_table(document, where))
    headers += sorted(span.start for where, span in document.keys.items() if len(where) == 1)
    starts = sorted({document.text.rfind("\n", 0, start) + 1 for start in headers if _opens(document, start)})
    found: dict[int, tuple[int, int]] = {}
    number = 0
    while ("step", number) in document.values:
        header = document.values["step", number].start
        begin = document.text.rfind("\n", 0, header) + 1
        end = next((start for start in starts if start > begin), len(document.text))
        found[number] = begin, end
        number += 1
    return found


def _is_table(document: Document, where: tuple[str | int, ...]) -> bool:
    return isinstance(where[-1], int) and _opens(document, document.values[where].start)


def _opens(document: Document, start: int) -> bool:
    return document.text[start] == "["
