"""docs/calibrate.md names every key of a readings document, and its example is read."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from doughwright.kitchen.readings.jar import CROWN_SHARE, CROWN_WITHIN, DIAMETER, READ_WITHIN
from doughwright.kitchen.readings.read import read_readings, readings_schema
from doughwright.kitchen.readings.taken import MARK_WITHIN, SMALL_SAMPLE, THERMOMETER

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "calibrate.md").read_text(encoding="utf-8")


def test_the_example_is_read():
    """As it stands."""
    (example,) = re.findall(r"```toml\n(.*?)```", PAGE, re.S)
    readings = read_readings(example).readings
    assert (len(readings.jars), len(readings.temperatures), len(readings.logs)) == (1, 1, 1)


ROWS = {
    "": "| top", "jar": "| `[[jar]]`", "jar.heights": "| in `heights`",
    "temperature": "| `[[temperature]]`", "log": "| `[[log]]`",
}  # fmt: skip


@pytest.mark.parametrize("table", ROWS)
def test_every_key_is_named(table: str):
    """In the rows of its table; notes may stand anywhere, and a table is named by its own rows."""
    rows = [line for line in PAGE.splitlines() if line.startswith(ROWS[table])]
    named = {key for row in rows for key in re.findall(r"`(\w+)`", row.split("|")[2])}
    tables = {"jar", "temperature", "log"} if table == "" else set()
    assert set(readings_schema().keys[table]) - {"notes"} - tables <= named


def test_what_is_assumed_is_as_the_page_says():
    """A ruler, a mark, a crown, a jar, a thermometer."""
    assert (READ_WITHIN, MARK_WITHIN, CROWN_SHARE, CROWN_WITHIN) == (0.001, 0.05, 0.08, 0.05)
    assert (DIAMETER, SMALL_SAMPLE, THERMOMETER) == (0.07, 0.04, 0.5)
