"""Text in columns."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

WIDTH = 88


def columns(rows: Iterable[Sequence[str]], right: Sequence[bool] = (), gap: int = 2) -> list[str]:
    """Rows with their cells under one another; ``right`` says which columns stand at the right."""
    every = [list(row) for row in rows]
    count = max((len(row) for row in every), default=0)
    widths = [max((len(row[i]) for row in every if i < len(row)), default=0) for i in range(count)]
    sides = [*right, *[False] * (count - len(right))]
    lines = []
    for row in every:
        cells = [cell.rjust(widths[i]) if sides[i] else cell.ljust(widths[i]) for i, cell in enumerate(row)]
        lines.append((" " * gap).join(cells).rstrip())
    return lines


def wrapped(text: str, indent: str = "") -> list[str]:
    """A sentence on as many lines as it takes, those after the first indented too."""
    return textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent) or [indent.rstrip()]


def indented(lines: Iterable[str], by: str = "  ") -> list[str]:
    """Lines moved to the right."""
    return [f"{by}{line}" if line else line for line in lines]
