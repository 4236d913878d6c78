"""A TOML text with the place of every value: what is read, and what an edit replaces.

The parser is tomlkit's; a subclass notes where each key and value stands. It leans on private names of
tomlkit, so its version is pinned and ``tests/recipe/test_text.py`` checks them.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tomlkit.exceptions import (
    EmptyKeyError,
    EmptyTableNameError,
    InvalidCharInStringError,
    InvalidControlChar,
    InvalidDateError,
    InvalidNumberError,
    InvalidUnicodeValueError,
    TOMLKitError,
    UnexpectedCharError,
    UnexpectedEofError,
)
from tomlkit.items import AoT, Array, InlineTable, Item, Key, Table
from tomlkit.parser import Parser

from doughwright.errors import DocumentError, Fault, InputError

MOST_BYTES = 1_000_000
Step = str | int
Where = tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """Characters ``start`` to ``end`` of the text, the end left out."""

    start: int
    end: int


@dataclass(frozen=True)
class Document:
    """A parsed text: its plain ``data``, and where each key and value stands (characters)."""

    text: str
    file: str | None
    data: dict[str, Any]
    values: dict[Where, Span]
    keys: dict[Where, Span]
    _starts: list[int] = field(repr=False)

    def place(self, where: Where, *, key: bool = False) -> tuple[int, int]:
        """Line and column, from 1, of a value (or its key); of what holds it where it does not exist."""
        for end in range(len(where), -1, -1):
            part = where[:end]
            span = (self.keys if key and end == len(where) else self.values).get(part) or self.keys.get(part)
            if span is not None:
                return self.line_column(span.start)
        return 1, 1

    def line_column(self, index: int) -> tuple[int, int]:
        """Line and column, from 1, of a character of the text."""
        line = bisect_right(self._starts, index)
        mark = line == 1 and self.text.startswith("\ufeff")
        return line, index - self._starts[line - 1] + 1 - mark

    def line(self, number: int) -> str:
        """One line of the text, without its end."""
        return self.text.split("\n")[number - 1].rstrip("\r")


class _Placing(Parser):
    """tomlkit's parser, noting where keys and values stand."""

    def __init__(self, text: str) -> None:
        super().__init__(text)
        self.found: dict[int, tuple[Item, Span]] = {}
        self.named: dict[int, tuple[Item, Span]] = {}
        self.seen: list[tuple[str, int]] = []

    def _parse_value(self) -> Item:
        start = self._src._idx
        item = super()._parse_value()
        self.found[id(item)] = (item, Span(start, self._src._idx))
        return item

    def _parse_key_value(self, parse_comment: bool = False) -> tuple[Key, Item]:
        start = self._src._idx
        while start < len(self._src) and self._src[start] in " \t":
            start += 1
        key, item = super()._parse_key_value(parse_comment)
        name = key.as_string().strip()
        self.seen.append((name, start))
        self.named[id(item)] = (item, Span(start, start + len(name)))
        return key, item

    def _parse_table(
        self, parent_name: Key | None = None, parent: Table | None = None
    ) -> tuple[Key, Table | AoT]:
        start = self._src._idx
        end = self._src.find("]", start) + 1
        self.seen.append((self._src[start:end].strip("[] \t"), start))
        key, table = super()._parse_table(parent_name, parent)
        first = table[0] if isinstance(table, AoT) else table
        self.named.setdefault(id(first), (first, Span(start, end + self._src.startswith("]", end))))
        return key, table


def parse(text: str, file: str | None = None) -> Document:
    """Parse a TOML text; raise ``DocumentError`` with line and column where it is none.

    A byte order mark, CRLF line ends and tabs are taken as they stand.
    """
    body = text.removeprefix("\ufeff")
    if len(body) > MOST_BYTES:
        raise DocumentError(_too_long(len(body), file))
    if not body.strip():
        raise DocumentError(_nothing(file))
    parser = _Placing(body)
    try:
        tree = parser.parse()
        data = tree.unwrap()
    except (TOMLKitError, RecursionError, ValueError) as error:
        raise DocumentError(_broken(error, parser, file)) from error
    document = Document(text, file, data, {}, {}, _line_starts(text))
    _Walk(document, parser, len(text) - len(body)).container(tree, ())
    return document


@contextmanager
def telling(text: str) -> Iterator[None]:
    """Let a ``DocumentError`` carry the text its places are in."""
    try:
        yield
    except DocumentError as error:
        error.text = text
        raise


def read_file(path: Path) -> str:
    """The text of a file; raise ``InputError`` where it is no UTF-8 text of at most a megabyte."""
    name = str(path)
    try:
        size = path.stat().st_size
        raw = path.read_bytes() if size <= MOST_BYTES else b""
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        fault = Fault(f"cannot read it ({reason})", file=name, wanted="a recipe or kitchen document")
        raise InputError(fault) from error
    if size > MOST_BYTES:
        raise DocumentError(_too_long(size, name))
    return decoded(raw, name)


def decoded(raw: bytes, name: str) -> str:
    """Bytes as text; raise ``DocumentError`` at the first byte that is no UTF-8."""
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8")
        line = before.count("\n") + 1
        column = len(before) - (before.rfind("\n") + 1) + 1
        raise DocumentError(
            Fault(
                "the file is not text in UTF-8", file=name, line=line, column=column,
                wanted="UTF-8", found=f"the byte 0x{raw[error.start]:02x}",
                try_="Save it as UTF-8 in the editor that wrote it",
            )
        ) from error  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Walk:
    """Copies the places that the parser noted into the document, by path."""

    document: Document
    parser: _Placing
    shift: int

    def container(self, container: Any, where: Where) -> None:
        for key, item in container.body:
            if key is not None:
                self.named(key, item, where)

    def named(self, key: Key, item: Item, where: Where) -> None:
        for part in [one.key for one in key]:
            where = (*where, part)
        if id(item) in self.parser.named:
            self.document.keys.setdefault(where, self._span(self.parser.named[id(item)][1]))
        self.item(item, where)

    def item(self, item: Any, where: Where) -> None:
        if id(item) in self.parser.found:
            self.document.values[where] = self._span(self.parser.found[id(item)][1])
        if isinstance(item, AoT):
            for number, table in enumerate(item):
                self.element(table, (*where, number))
        elif isinstance(item, Array):
            values = (one for one in item._iter_items() if id(one) in self.parser.found)
            for number, value in enumerate(values):
                self.item(value, (*where, number))
        elif isinstance(item, Table | InlineTable):
            self.container(item.value, where)

    def element(self, table: Table, where: Where) -> None:
        if id(table) in self.parser.named:
            span = self._span(self.parser.named[id(table)][1])
            self.document.values[where] = span
            self.document.keys.setdefault(where[:-1], span)
        self.container(table.value, where)

    def _span(self, span: Span) -> Span:
        return Span(span.start + self.shift, span.end + self.shift)


def _line_starts(text: str) -> list[int]:
    starts = [0]
    while (end := text.find("\n", starts[-1])) >= 0:
        starts.append(end + 1)
    return starts


def _nothing(file: str | None) -> Fault:
    return Fault(
        "the document is empty", file=file, line=1, column=1,
        try_="Start one with: doughwright new pie.toml",
    )  # fmt: skip


def _too_long(size: int, file: str | None) -> Fault:
    return Fault(
        "the document is too long", file=file,
        wanted=f"at most {MOST_BYTES:,} bytes", found=f"{size:,}",
        try_="Keep photographs and long stories in files of their own",
    )  # fmt: skip


def _broken(error: Exception, parser: _Placing, file: str | None) -> Fault:
    message = str(error).rsplit(" at line ", 1)[0]
    twice = re.search(r'Key "(.+)" already exists', message)
    if twice:
        return _twice(twice[1], parser, file)
    index = min(parser._src._idx, len(parser._src))
    starts = _line_starts(parser._src)
    # The library counts a lone CR as the end of a line, and may name a line that is not there.
    line = min(getattr(error, "line", None) or bisect_right(starts, index), len(starts))
    column = getattr(error, "col", None)
    column = index - starts[line - 1] if column is None else column
    here = parser._src[starts[line - 1] :].split("\n", 1)[0].rstrip("\r")
    wanted, try_ = _advice(error, here) if not LONE_CR.search(parser._src) else _LINE_ENDS
    return Fault(
        "the text cannot be read as TOML", file=file, line=line, column=column + 1,
        wanted=wanted, found=repr(here[:60]) if here else "the end of the line", try_=try_,
    )  # fmt: skip


def _twice(name: str, parser: _Placing, file: str | None) -> Fault:
    starts = _line_starts(parser._src)
    places = [start for key, start in parser.seen if key == name or key.split(".")[0] == name]
    index = places[-1] if places else min(parser._src._idx, len(parser._src))
    line = bisect_right(starts, index)
    return Fault(
        f'"{name}" is written twice', file=file, line=line, column=index - starts[line - 1] + 1,
        wanted="each key once in its table",
        try_="Take one of the two out",
    )  # fmt: skip


def _advice(error: Exception, line: str) -> tuple[str, str]:
    if isinstance(error, UnexpectedCharError | InvalidNumberError) and BARE.search(line):
        return "a text in quotes", 'Put quotes round the quantity: "420 g"'
    for kind, wanted, try_ in ADVICE:
        if isinstance(error, kind):
            return wanted, try_
    return "a document in TOML", "See docs/document.md for how a document is written"


LONE_CR = re.compile(r"\r(?!\n)")
_LINE_ENDS = ("lines that end in LF or CRLF", "Save it with the line ends of Unix or Windows")
BARE = re.compile(r"=\s*[^\s\"'\[{=#]")
ADVICE: tuple[tuple[type[Exception], str, str], ...] = (
    (InvalidControlChar, "a text that ends on its line", "Close the quotes on the same line"),
    (InvalidCharInStringError, "an escape that TOML has", "Write a backslash twice"),
    (InvalidUnicodeValueError, "an escape that TOML has", "Write a backslash twice"),
    (UnexpectedEofError, "the end of a text, list or table", 'Close it with ", ] or }'),
    (EmptyKeyError, "a key and a value", 'Write for example title = "Leek pie"'),
    (EmptyTableNameError, "a name between the brackets", "Write for example [[mix]]"),
    (InvalidDateError, "a text in quotes", 'Put quotes round it: "2026-11-28 19:00"'),
    (UnexpectedCharError, "a key and a value", 'Write for example title = "Leek pie"'),
    (RecursionError, "tables not so deep in one another", "Write it flatter"),
)
