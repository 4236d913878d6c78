"""The table in a log's file: its encoding, the sign between its columns, its header and its rows."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.errors import DocumentError, Fault
from doughwright.kitchen.readings._names import is_temperature, is_time
from doughwright.kitchen.readings._stamps import looks_like_time

MOST_BEFORE = 200
"""How many lines may stand before the table."""

MARKS = {";": "semicolons", "\t": "tabs", ",": "commas", "|": "upright strokes"}
BOMS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
HINT = "Export it as CSV: a line of headings, then a time and a temperature on each line"


@dataclass(frozen=True)
class Table:
    """A table: ``header`` (empty where there is none) and ``rows`` of cells, each with its line."""

    file: str | None
    mark: str
    before: tuple[str, ...]
    header: tuple[str, ...]
    header_line: int
    rows: tuple[tuple[str, ...], ...]
    lines: tuple[int, ...]
    starts: tuple[tuple[int, ...], ...] = ()

    def line(self, index: int) -> int:
        """The line of a row in the file."""
        return self.lines[index] if self.lines else self.header_line

    def cell(self, index: int, column: int) -> str:
        """A cell; empty where the row is too short."""
        row = self.rows[index]
        return row[column].strip() if column < len(row) else ""

    def cells(self, index: int, columns: Sequence[int]) -> str:
        """The cells of a row joined by a space."""
        return " ".join(self.cell(index, one) for one in columns)

    def name(self, column: int) -> str:
        """What a column is called: its heading, or its number."""
        named = self.header[column].strip() if column < len(self.header) else ""
        return named or f"column {column + 1}"

    def refuse(self, index: int, column: int, wanted: str, found: str, try_: str) -> DocumentError:
        """An error at a cell."""
        before = self.rows[index][:column] if self.rows else ()
        place = sum(len(one) + 1 for one in before) + 1
        name = f'"{self.name(column)}"'
        shown = f'"{found[:60]}"' if found else "nothing"
        return DocumentError(
            Fault(name, file=self.file, line=self.line(index), column=place, wanted=wanted, found=shown,
                  try_=try_)
        )  # fmt: skip

    def refuse_header(self, wanted: str, found: str, try_: str) -> DocumentError:
        """An error at the line of headings."""
        line = self.header_line
        return DocumentError(
            Fault("the log", file=self.file, line=line, column=1, wanted=wanted, found=found, try_=try_)
        )


def text_of(raw: bytes, file: str | None) -> str:
    """The text of a log: by its byte order mark, else UTF-8, else as old Windows programs write."""
    for mark, encoding in BOMS:
        if raw.startswith(mark):
            return _decoded(raw, encoding, file)
    if b"\x00" in raw[:4096]:
        raise DocumentError(_no_text(file, "bytes of 0"))
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        return _decoded(raw, "cp1252", file)


def _decoded(raw: bytes, encoding: str, file: str | None) -> str:
    try:
        return raw.decode(encoding)
    except UnicodeDecodeError as error:
        raise DocumentError(_no_text(file, f"the byte 0x{raw[error.start]:02x}")) from error


def _no_text(file: str | None, found: str) -> Fault:
    return Fault("the log is not text", file=file, line=1, column=1, wanted="a table as text", found=found,
                 try_=HINT)  # fmt: skip


def find_table(text: str, file: str | None, asked: tuple[str, ...] = ()) -> Table:
    """The table in a text, by whichever sign between columns gives the most rows that have a time."""
    if not text.strip():
        fault = Fault("the log is empty", file=file, line=1, column=1, wanted="a table", try_=HINT)
        raise DocumentError(fault)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    found = [one for mark in MARKS if (one := _by(mark, lines, file, asked)) is not None]
    if not found:
        raise DocumentError(_no_table(lines, file))
    return max(found, key=lambda one: (bool(one.header), len(one.rows)))


def _no_table(lines: Sequence[str], file: str | None) -> Fault:
    number = next(index for index, one in enumerate(lines) if one.strip())
    return Fault(
        "no table with a time and a temperature", file=file, line=number + 1, column=1,
        wanted="columns between semicolons, commas or tabs", found=f'"{lines[number].strip()[:60]}"',
        try_=HINT,
    )  # fmt: skip


def _by(mark: str, lines: Sequence[str], file: str | None, asked: tuple[str, ...]) -> Table | None:
    """The table that this sign makes of the lines; ``None`` where it makes none."""
    if not any(mark in one for one in lines):
        return None
    rows = [(number + 1, _split(one, mark)) for number, one in enumerate(lines) if one.strip(f" {mark}")]
    head = next((i for i, (_, row) in enumerate(rows[:MOST_BEFORE]) if _is_header(row, asked)), None)
    head = _above(rows) if head is None else head
    first = head + 1 if head is not None else _first_row(rows)
    if first is None:
        return None
    header = rows[head][1] if head is not None else ()
    body = [(line, row) for line, row in rows[first:] if len(row) > 1]
    if not body and head is None:
        return None
    return Table(
        file=file,
        mark=mark,
        before=tuple(" ".join(row) for _, row in rows[: head if head is not None else first]),
        header=header,
        header_line=rows[head][0] if head is not None else rows[first][0],
        rows=tuple(row for _, row in body),
        lines=tuple(line for line, _ in body),
    )


def _split(line: str, mark: str) -> tuple[str, ...]:
    try:
        return tuple(next(csv.reader([line], delimiter=mark, skipinitialspace=True)))
    except (csv.Error, StopIteration):
        return (line,)


def _is_header(row: Sequence[str], asked: tuple[str, ...]) -> bool:
    """Whether a row names a time and a temperature, or all that was asked for by name."""
    if len(row) < 2:
        return False
    names = {one.strip().casefold() for one in row}
    if asked and all(one.strip().casefold() in names for one in asked) and len(asked) > 1:
        return True
    times = any(is_time(one) for one in row)
    warm = any(is_temperature(one) or one.strip().casefold() in asked_names(asked) for one in row)
    return times and warm and not any(looks_like_time(one) for one in row)


def _above(rows: Sequence[tuple[int, tuple[str, ...]]]) -> int | None:
    """A row of names just above the first row that has a time: headings without a temperature among them."""
    first = _first_row(rows)
    if not first:
        return None
    names = rows[first - 1][1]
    return first - 1 if len(names) == len(rows[first][1]) and any(is_time(one) for one in names) else None


def asked_names(asked: tuple[str, ...]) -> set[str]:
    """Names as they are compared."""
    return {one.strip().casefold() for one in asked}


def _first_row(rows: Sequence[tuple[int, tuple[str, ...]]]) -> int | None:
    """Where a table without a header begins: the first row that has a time, if most later ones do."""
    timed = [index for index, (_, row) in enumerate(rows) if len(row) > 1 and any(map(looks_like_time, row))]
    if not timed or len(timed) < 0.5 * (len(rows) - timed[0]):
        return None
    widths = Counter(len(rows[index][1]) for index in timed)
    return timed[0] if widths.most_common(1)[0][0] > 1 else None
