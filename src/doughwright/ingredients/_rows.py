"""Reading our tables."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from functools import cache
from pathlib import Path

DATA = Path(__file__).parent / "data"
Row = dict[str, str]


def rows_of(name: str) -> Iterator[Row]:
    """The rows of one of our tables."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        rows = csv.reader(file)
        header = next(rows)
        for row in rows:
            yield dict(zip(header, row, strict=True))


@cache
def keyed(name: str) -> dict[str, Row]:
    """The rows of one of our tables, one an ingredient."""
    return {row["key"]: row for row in rows_of(name)}


@cache
def grouped(name: str) -> dict[str, list[Row]]:
    """The rows of one of our tables by ingredient."""
    groups: dict[str, list[Row]] = {}
    for row in rows_of(name):
        groups.setdefault(row["key"], []).append(row)
    return groups
