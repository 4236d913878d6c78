"""Reading our tables."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

DATA = Path(__file__).parent / "data"
Row = dict[str, str]


def rows_of(name: str) -> Iterator[Row]:
    """The rows of one of our tables."""
    with open(DATA / f"{name}.csv", encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def grouped(name: str) -> dict[str, list[Row]]:
    """The rows of one of our tables by ingredient."""
    groups: dict[str, list[Row]] = {}
    for row in rows_of(name):
        groups.setdefault(row["key"], []).append(row)
    return groups
