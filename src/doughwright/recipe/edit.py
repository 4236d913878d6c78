"""Lossless edits: only the characters of what is changed are changed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from doughwright.errors import Fault, InputError
from doughwright.recipe.text import Document, Span, Where, parse


@dataclass(frozen=True, slots=True)
class Change:
    """One value of a document to be set: its path, and the new value (a text, a number, true or false)."""

    where: Where
    value: str | int | bool


def edit(document: Document, changes: Iterable[Change]) -> str:
    """The document's text with these values set; all else keeps its characters.

    A key that is not there yet is written after the last key of its table. Raises ``InputError`` where a
    path's table does not exist.
    """
    splices = [_splice(document, change) for change in changes]
    text = document.text
    for span, new in sorted(splices, key=lambda one: one[0].start, reverse=True):
        text = text[: span.start] + new + text[span.end :]
    return text


def edit_text(text: str, values: Mapping[Where, str | int | bool]) -> str:
    """As ``edit``, from the text itself."""
    return edit(parse(text), [Change(where, value) for where, value in values.items()])


def literal(value: str | int | bool) -> str:
    """A value as TOML writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    return f'"{"".join(_escaped(character) for character in value)}"'


ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def _escaped(character: str) -> str:
    if character in ESCAPES:
        return ESCAPES[character]
    return f"\\u{ord(character):04x}" if ord(character) < 32 or ord(character) == 127 else character


def _splice(document: Document, change: Change) -> tuple[Span, str]:
    span = document.values.get(change.where)
    if span is None:
        return _insertion(document, change)
    return span, _in_same_quotes(document.text[span.start : span.end], change.value)


def _in_same_quotes(old: str, value: str | int | bool) -> str:
    single = old.startswith("'") and not old.startswith("'''")
    if isinstance(value, str) and single and not set(value) & {"'", "\n", "\r"}:
        return f"'{value}'"
    return literal(value)


def _insertion(document: Document, change: Change) -> tuple[Span, str]:
    table, key = change.where[:-1], change.where[-1]
    inline = document.values.get(table)
    written = f"{key} = {literal(change.value)}"
    if inline is not None and document.text[inline.start] == "{":
        return _into_inline(document.text, inline, written)
    end = _end_of_table(document, table)
    newline = "\r\n" if "\r\n" in document.text else "\n"
    before = "" if end == 0 or document.text[end - 1] == "\n" else newline
    return Span(end, end), f"{before}{written}{newline}"


def _into_inline(text: str, inline: Span, written: str) -> tuple[Span, str]:
    inside = text[inline.start + 1 : inline.end - 1]
    end = inline.start + 1 + len(inside.rstrip())
    comma = "" if not inside.strip() or inside.rstrip().endswith(",") else ","
    return Span(end, end), f"{comma} {written}"


def _end_of_table(document: Document, table: Where) -> int:
    """Where the next key of a table is to be written: the line after its last one, or after its header."""
    own = [span.end for where, span in document.values.items() if where[:-1] == table and table_row(where)]
    header = document.values.get(table) or document.keys.get(table)
    ends = own + ([header.end] if header is not None else [])
    if not ends:
        name = ".".join(str(part) for part in table)
        raise InputError(Fault(f"there is no table {name} to write in", try_=f"Add [{name}] to the document"))
    newline = document.text.find("\n", max(ends))
    return len(document.text) if newline < 0 else newline + 1


def table_row(where: Where) -> bool:
    """Whether a path is a plain key of its table, not an element of a list of tables."""
    return isinstance(where[-1], str)
