"""Every line of docs/quantities.md is true."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from doughwright import units
from doughwright.errors import QuantityError

pytestmark = pytest.mark.tree
PAGE = Path(__file__).resolve().parents[2] / "docs" / "quantities.md"
PARSERS: dict[str, Callable[[str], float]] = {
    "time": units.parse_time,
    "temperature": units.parse_temperature,
    "temperature difference": units.parse_temperature_difference,
    "length": units.parse_length,
    "percentage": units.parse_fraction,
    "density": units.parse_density,
    "number": units.parse_number,
    "time range": lambda text: units.parse_range(text, units.parse_time)[0],
}


def rows(heading: str) -> list[list[str]]:
    """The rows of the table whose heading line starts so."""
    lines = PAGE.read_text(encoding="utf-8").splitlines() if PAGE.exists() else []
    starts = [number for number, line in enumerate(lines) if line.startswith(heading)]
    found: list[list[str]] = []
    for line in lines[starts[0] + 2 :] if starts else []:
        if not line.startswith("|"):
            break
        found.append([cell.strip() for cell in line.strip("|").split("|")])
    return found


def texts(heading: str) -> list[tuple[str, ...]]:
    return [tuple(cell.strip("`") for cell in row) for row in rows(heading)]


@pytest.mark.parametrize(("text", "kind", "read"), texts("| write | as | read as"))
def test_what_is_read(text: str, kind: str, read: str) -> None:
    """Each text is read as the page says, with the household measure it names."""
    number = re.match(r"-?[0-9.]+", read)
    expected = float(number.group()) if number else None
    if kind == "amount":
        amount = units.parse_amount(text)
        measure = re.search('of "([a-z ]+)"', read)
        assert amount.measure == (measure.group(1) if measure else None)
        assert amount.value == (None if expected is None else pytest.approx(expected, rel=1e-13))
    else:
        assert PARSERS[kind](text) == pytest.approx(expected, rel=1e-13)


@pytest.mark.parametrize(("text", "kind", "low", "high"), texts("| write | as | from"))
def test_ranges(text: str, kind: str, low: str, high: str) -> None:
    """Each range has the two ends the page gives."""
    found = units.parse_range(text, PARSERS[kind])
    assert found == (pytest.approx(float(low)), pytest.approx(float(high)))


@pytest.mark.parametrize(("text", "kind", "because"), texts("| not | as"))
def test_what_is_refused(text: str, kind: str, because: str) -> None:
    """Each of these is an error of ours which says what to write."""
    parse = units.parse_amount if kind == "amount" else PARSERS[kind]
    with pytest.raises(QuantityError) as caught:
        parse(text)
    assert caught.value.fault.try_, because


@pytest.mark.parametrize("row", texts("| | US"), ids=lambda row: row[0])
def test_whose_cup(row: tuple[str, ...]) -> None:
    """Each system's measure is as large as the page says, or the system has none."""
    for system, size in zip(("US", "imperial", "metric"), row[1:], strict=True):
        if size == "none":
            with pytest.raises(QuantityError, match=r"US .* or .*imperial"):
                units.parse_amount(f"1 {row[0]}", cups=system)
        else:
            volume = units.parse_volume(f"1 {row[0]}", cups=system)
            assert volume == pytest.approx(float(size) * 1e-6, rel=1e-14)


@pytest.mark.parametrize(("text", "factor", "becomes"), texts("| amount | times"))
def test_changing_an_amount(text: str, factor: str, becomes: str) -> None:
    """Each amount times its factor is written as the page says."""
    assert units.rewrite(text, float(factor)) == becomes


def test_the_page_was_read() -> None:
    """No table was missed because its heading moved."""
    headings = ("| write | as | read", "| write | as | from", "| not | as", "| | US", "| amount | times")
    assert [len(rows(heading)) > 5 for heading in headings] == [True] * 5
