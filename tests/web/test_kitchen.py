"""A kitchen's page: its values as they are known, and what a change of them moves."""

from __future__ import annotations

import pytest

from doughwright.store import Bench
from tests.web.conftest import demo_texts
from tests.web.window import TestClient, Window

BOATHOUSE = demo_texts()["boathouse.toml"]


@pytest.fixture
def kitchen(client: TestClient) -> Window:
    """A window on the boathouse."""
    return Window(client, "/kitchen/boathouse.toml", live=True)


def test_values_are_shown_by_how_they_are_known(kitchen: Window) -> None:
    """In words and as a picture each; what is not written is said to be assumed."""
    text = kitchen.text()
    assert "Of 15 values, " in text
    assert "fridge, where the dough stands" in text
    assert 'class="how measured"' in kitchen.page
    assert 'class="how assumed"' in kitchen.page
    assert "measured, on the axis of all kitchens" in kitchen.page
    assert "Leek and rye flat pie" in kitchen.part("recipes")


def test_a_value_is_edited_in_its_characters_only(kitchen: Window, bench: Bench) -> None:
    """Within the small table that says how it is known."""
    kitchen.fill({"f:fridge.temperature": "6 °C"}, do="save")
    assert bench.head("kitchen", "boathouse.toml").text == BOATHOUSE.replace(
        'temperature = { value = "5 °C"', 'temperature = { value = "6 °C"'
    )


def test_how_a_value_is_known_can_be_said(kitchen: Window, bench: Bench) -> None:
    """A plain value becomes a small table; a table gets the word."""
    kitchen.fill({"f:fridge.temperature:how": "known", "f:tap.temperature:how": "measured"}, do="save")
    text = bench.head("kitchen", "boathouse.toml").text
    assert 'how = "known"' in text
    assert 'temperature = { value = "11 °C", how = "measured" }' in text


def test_a_change_says_what_it_moves_in_each_recipe(kitchen: Window) -> None:
    """A warmer fridge: the pie is ripe earlier, or past."""
    kitchen.fill({"f:fridge.temperature": "8 °C"})
    assert "higher" in kitchen.part("recipes") or "past" in kitchen.part("recipes")
    assert "Leek and rye flat pie" in kitchen.text()


def test_a_saved_kitchen_moves_the_recipes_sheet(client: TestClient, kitchen: Window) -> None:
    """The sheet is made anew from the kitchen as saved."""
    before = Window(client, "/recipe/leek-and-rye-flat-pie.toml").part("days")
    kitchen.fill({"f:fridge.temperature": "8 °C"}, do="save")
    assert Window(client, "/recipe/leek-and-rye-flat-pie.toml").part("days") != before


def test_a_kitchens_faults_are_at_their_lines(kitchen: Window) -> None:
    """As in a recipe."""
    kitchen.fill({"f:room.temperature": "99 °C"})
    assert "needs -5 to 50 °C" in kitchen.text()
