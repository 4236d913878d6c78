"""docs/ingredients.md says what the code does."""

from __future__ import annotations

import doctest
from pathlib import Path

import pytest

from doughwright.ingredients import Class
from doughwright.ingredients._rows import DATA

PAGE = Path(__file__).parents[2] / "docs" / "ingredients.md"

pytestmark = pytest.mark.tree


def test_the_examples_of_the_page_run_as_printed() -> None:
    """Every line after >>>."""
    failed, tried = doctest.testfile(
        str(PAGE), module_relative=False, optionflags=doctest.IGNORE_EXCEPTION_DETAIL
    )
    assert (failed, tried > 10) == (0, True)


def test_the_page_names_every_class() -> None:
    """A new class is explained."""
    table = PAGE.read_text(encoding="utf-8").partition("## Classes")[2].partition("\n## ")[0]
    named = {
        name.strip()
        for row in table.splitlines()
        if row.startswith("|")
        for name in row.split("|")[1].split(",")
    }
    assert {one.value for one in Class} <= named


def test_the_page_names_every_table() -> None:
    """And every trap."""
    text = PAGE.read_text(encoding="utf-8")
    assert [file.name for file in DATA.glob("*.csv") if f"`{file.name}`" not in text] == []
    assert [f"T{number}" for number in range(1, 8) if f"| T{number} |" not in text] == []
