"""Another item for a mix: its line goes behind the last one, and no other character changes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from doughwright.recipe.edit import literal
from doughwright.recipe.text import Document
from doughwright.web._documents import parsed

PREFIX = "new:"
ITEM = "item"


@dataclass(frozen=True, slots=True)
class Blank:
    """The empty row under a table: the field for the item, and one for the amount in each mix."""

    item: str
    amounts: tuple[tuple[str, str], ...]


def blank_row(key: int, mixes: tuple[tuple[int, str], ...]) -> Blank:
    """The fields' names for a table with these mixes (number in the document, name); ``key`` is its own."""
    row = f"{PREFIX}{key}:"
    amounts = tuple((f"{row}{number}", f"amount of another item in the {name}") for number, name in mixes)
    return Blank(f"{row}{ITEM}", amounts)


def with_items(text: str, posted: Mapping[str, str]) -> str:
    """The text with every item that has a name and an amount in a mix of the document."""
    for mix, item, amount in _asked(posted):
        document = parsed(text)
        if document is not None:
            text = _with_item(document, mix, item, amount)
    return text


def _asked(posted: Mapping[str, str]) -> Iterator[tuple[int, str, str]]:
    for name, value in posted.items():
        parts = name.split(":")
        if not name.startswith(PREFIX) or len(parts) != 3 or not parts[2].isdecimal() or len(parts[2]) > 4:
            continue
        item, amount = (
            " ".join(one.split()) for one in (posted.get(f"{PREFIX}{parts[1]}:{ITEM}", ""), value)
        )
        if item and amount:
            yield int(parts[2]), item, amount


def _with_item(document: Document, mix: int, item: str, amount: str) -> str:
    text, where = document.text, ("mix", mix, "ingredients")
    array = document.values.get(where)
    if array is None:
        return text
    line = f"{{ item = {literal(item)}, amount = {literal(amount)} }}"
    spans = [span for path, span in document.values.items() if path[:3] == where and len(path) == 4]
    if not spans:
        return f"{text[: array.start + 1]} {line} {text[array.start + 1 :]}"
    last = max(spans, key=lambda span: span.end)
    rest = text[last.end : array.end]
    comma = last.end + len(rest) - len(rest.lstrip()) + 1 if rest.lstrip().startswith(",") else None
    if comma is None:
        text, comma = f"{text[: last.end]},{text[last.end :]}", last.end + 1
    end_of_line = text.find("\n", comma, array.end + 1)
    start = text.rfind("\n", 0, last.start) + 1
    indent = text[start : last.start]
    if end_of_line < 0 or indent.strip():
        return f"{text[:comma]} {line}{text[comma:]}"
    newline = "\r\n" if text[end_of_line - 1] == "\r" else "\n"
    return f"{text[: end_of_line + 1]}{indent}{line},{newline}{text[end_of_line + 1 :]}"
