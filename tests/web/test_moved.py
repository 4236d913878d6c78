"""A change anywhere recomputes all and says in words what moved: twenty edits, one of them no change."""

from __future__ import annotations

import re

import pytest

from tests.web.conftest import PIE, demo_texts
from tests.web.window import TestClient, Window

TEXT = demo_texts()["leek-and-rye-flat-pie.toml"]
LINE = "f:mix.{}.ingredients.{}.amount"

# The field, its new value, and what the sheet says to have moved by it.
EDITS: list[tuple[str, str, str]] = [
    (LINE.format(1, 3), "0.6 g", "ripe"),
    (LINE.format(1, 3), "0.3 g", "later"),
    (LINE.format(0, 2), "0.4 g", "earlier"),
    (LINE.format(1, 2), "200 g", "hydration"),
    (LINE.format(1, 2), "178.0 g", "Nothing moved"),
    (LINE.format(1, 5), "12 g", "salt"),
    (LINE.format(1, 6), "2 tbsp", "fat"),
    (LINE.format(1, 0), "300 g", "flour"),
    (LINE.format(2, 0), "500 g", "leeks"),
    (LINE.format(1, 4), "100 g", "Poolish all to 100 g"),
    ("f:makes.pieces", "3", "piece"),
    ("f:makes.diameter", "28 cm", "loading"),
    ("f:makes.eat", "Sunday 13:00", "dough mixed"),
    ("f:target.dough_temperature", "27 °C", "dough out of the mixer"),
    ("f:target.rise", "1.9 to 2.4", "ripe"),
    ("f:step.5.for", "2 h", "shaping"),
    ("f:step.5.at", "28 °C", "shaping"),
    ("f:step.8.for", "40 h", "dough mixed"),
    ("f:step.11.for", "1 h", "young"),
    ("f:kitchen", "warm-flat.toml", "past"),
]


@pytest.mark.parametrize(("field", "value", "moved"), EDITS, ids=[f"{one[0]}={one[1]}" for one in EDITS])
def test_each_edit_is_said_in_words(client: TestClient, field: str, value: str, moved: str) -> None:
    """What the cook did, what moved, in the part at the top and in the line at the foot."""
    window = Window(client, PIE, live=True)
    window.fill({field: value})
    said = window.text()
    assert "What moved" in said
    assert moved in said[said.index("What moved") : said.index("What goes in", said.index("What moved"))]
    assert len(window.part("said")) > 10


def test_an_edit_that_leaves_no_plan_is_compared_on_the_same_days(pie: Window) -> None:
    """What is planned and what is not have the same meal: hours move, not years."""
    pie.fill({"f:makes.eat": "Saturday 05:00"})
    assert "There is no plan for this meal" in pie.text()
    moved = pie.part("moved")
    assert "dough mixed" in moved and "earlier" in moved
    hours = [int(one) for one in re.findall(r"(\d+) h\b", moved)]
    assert hours and max(hours) < 200
