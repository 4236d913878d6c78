"""docs/elsewhere.md says what the code does: its numbers are the code's, its table shows what it claims."""

from __future__ import annotations

import re
from pathlib import Path

from doughwright.cli._elsewhere import WITHIN, read_limits
from doughwright.forecast import elsewhere, redesign
from doughwright.forecast.elsewhere import _failing, _sample
from doughwright.forecast.redesign import _best, _trial
from doughwright.kitchen.inputs import AIMED, FINE_STEP, SET, SUMMER

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "elsewhere.md").read_text(encoding="utf-8")
WORDS = " ".join(PAGE.split())


def test_its_numbers_are_those_of_the_code() -> None:
    """Kitchens, chunks, spreads and designs, as the sentences say them."""
    for said in (
        f"in {elsewhere.KITCHENS:,} kitchens",
        f"on a base of {elsewhere.BASE:,}",
        f"{_sample.CHUNK:,} kitchens are run at a time",
        f"of the first {_sample.KEPT:,} the whole course",
        f"miss it by {AIMED.spread:g} °C",
        f"rooms {SUMMER.middle:g} °C warmer",
        f"right to {SET.spread:g} °C",
        f"weigh to {FINE_STEP:g} g",
        f"up to {_failing.LONGER:g} h longer",
        f"the same {redesign.EACH} kitchens",
        f"softened by {100 * _trial.SOFT:g} %",
        f"meet in {_best.WIDER * redesign.EACH:,} other kitchens",
        f"judged in {redesign.FRESH:,} fresh kitchens",
    ):
        assert said in WORDS, said


def test_its_limits_can_be_written() -> None:
    """Each example of ``--within`` is read."""
    examples = re.findall(r'--within "([^"]+)"', PAGE)
    assert len(examples) == 3
    assert read_limits(tuple(examples)).divide == "as written"
    assert {one.split()[0] for one in examples} <= {*WITHIN, "divide"}


def test_its_table_shows_what_it_claims() -> None:
    """On three recipes at least as many ripe kitchens as by random search, and as written."""
    rows = re.findall(r"^\| ([A-Z][\w ]+) \| ([\d.]+) \| ([\d.]+) \| ([\d.]+) \| ([\d.]+) \|", PAGE, re.M)
    assert [name for name, *_ in rows] == ["Leek and rye flat pie", "Boathouse seeded loaf", "Harbour buns"]
    for _, written, chance, ours, usual in rows:
        assert float(ours) >= max(float(chance), float(written))
        assert float(usual) >= float(chance)
