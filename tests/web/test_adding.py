"""Another item is a line behind the last one; no other character of the text changes."""

from __future__ import annotations

import pytest

from doughwright.store import Bench
from doughwright.web._adding import with_items
from tests.web.conftest import demo_texts
from tests.web.window import Window

TEXT = demo_texts()["leek-and-rye-flat-pie.toml"]
OIL = '  { item = "rapeseed oil", amount = "1 tbsp", add = "last" },\n'
MALT = '  { item = "malt syrup", amount = "5 g" },\n'
ONE = 'schema = 1\ntitle = "T"\n[[mix]]\nname = "dough"\ningredients = '
NEW = '{ item = "salt, fine", amount = "2 g" }'


def test_an_item_goes_behind_the_last_one(pie: Window, bench: Bench) -> None:
    """In the mix whose amount was filled in; the sheet counts it."""
    pie.fill({"new:1:item": "malt syrup", "new:1:1": " 5  g"})
    assert "malt syrup" in pie.part("goes")
    pie.fill(do="save")
    assert bench.head("recipe", "leek-and-rye-flat-pie.toml").text == TEXT.replace(OIL, OIL + MALT)


def test_an_item_waits_for_its_amount(pie: Window) -> None:
    """Half of it changes nothing."""
    pie.fill({"new:1:item": "malt syrup"})
    assert "What moved" not in pie.text()
    pie.fill({"new:1:1": "5 g"})
    assert "What moved" not in pie.text()


def test_an_unknown_item_is_a_fault_that_can_be_put_back(pie: Window) -> None:
    """With the nearest name."""
    pie.fill({"new:1:item": "ryye flour", "new:1:1": "5 g"})
    assert "Did you mean" in pie.text()
    pie.fill(do="put-back")
    assert "fault" not in pie.part("faults")


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("[]\n", f"[ {NEW} ]\n"),
        (
            '[ { item = "water", amount = "9 g" } ]\n',
            f'[ {{ item = "water", amount = "9 g" }}, {NEW} ]\n',
        ),
        (
            '[ { item = "water", amount = "9 g" }, ]\n',
            f'[ {{ item = "water", amount = "9 g" }}, {NEW} ]\n',
        ),
        (
            '[\n\t{ item = "water", amount = "9 g" } # cold\n]\n',
            f'[\n\t{{ item = "water", amount = "9 g" }}, # cold\n\t{NEW},\n]\n',
        ),
        (
            '[\r\n  { item = "water", amount = "9 g" },\r\n]\r\n',
            f'[\r\n  {{ item = "water", amount = "9 g" }},\r\n  {NEW},\r\n]\r\n',
        ),
    ],
)
def test_every_way_of_writing_a_list_takes_one_more(before: str, after: str) -> None:
    """On one line or many, with a comma at the end or none, with a comment, with either line end."""
    assert with_items(ONE + before, {"new:0:item": "salt, fine", "new:0:0": "2 g"}) == ONE + after


def test_a_mix_that_is_not_there_gets_nothing() -> None:
    """Nor does a field of another name."""
    posted = {"new:0:item": "salt", "new:0:7": "2 g", "new:x": "1", "new:0:-1": "3 g"}
    assert with_items(TEXT, posted) == TEXT
