"""A kitchen document, and what is assumed where it says nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from doughwright.errors import DocumentError, UnknownNameError
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.kitchen.types import Hours, Known

KITCHEN = (Path(__file__).parents[1] / "recipe" / "data" / "boathouse.toml").read_text(encoding="utf-8")


def test_the_design_kitchen_is_read_whole():
    """Every value with how it is known and its spread."""
    kitchen = read_kitchen(KITCHEN).kitchen
    assert kitchen.kitchen == "Boathouse"
    assert kitchen.awake == Hours(7 * 3600.0, 23 * 3600.0)
    assert kitchen.fridge.temperature == Known(5.0, "measured", 0.5)
    assert kitchen.oven.error == Known(-8.0, "measured", None)
    assert kitchen.surfaces[0].thickness == pytest.approx(0.006)
    assert kitchen.places[0].temperature.value == 28.0
    assert kitchen.mixer.friction.value == 12.0
    assert kitchen.scale.step == pytest.approx(0.001)
    assert kitchen.flour.protein.value == pytest.approx(0.124)


@pytest.mark.parametrize(
    ("old", "new", "place", "says"),
    [
        ('how = "measured", spread', 'how = "guessed", spread', "7:15", "known, measured or assumed"),
        ('value = "5 °C"', 'value = "50 °C"', "7:15", "-5 to 20 °C"),
        ('altitude = "5 m"', 'altitude = "5"', "3:12", "its unit"),
        ("[fridge]", "[frigde]", "6:1", 'Did you mean "fridge"?'),
        ('"carbon steel"', '"carbon"', "19:12", '"carbon steel"'),
        ('"07:00 to 23:00"', '"7 to 11"', "4:9", '"07:00 to 23:00"'),
        ('step = "1 g"', 'step = "1 °C"', "28:8", "a mass"),
        ('kitchen = "Boathouse"', "", "1:1", '"kitchen" is missing'),
        ('name = "proofing box"', 'name = "fridge"', "22:8", "a name of its own"),
    ],
)
def test_a_fault_says_where_and_what_to_write(old, new, place, says):
    """As for a recipe: file, line, column, what is wanted, what was found, what to write."""
    assert old in KITCHEN
    with pytest.raises(DocumentError) as caught:
        read_kitchen(KITCHEN.replace(old, new, 1), "k.toml")
    faults = [str(fault) for fault in caught.value.faults]
    assert any(fault.startswith(f"k.toml:{place}: ") and says in fault for fault in faults), faults


def test_what_a_kitchen_leaves_out_is_assumed_and_said():
    """No kitchen at all is the middle of the published population, each value marked assumed."""
    middle = surroundings(None)
    assert middle.fridge == Known(4.8, "assumed", 2.3)
    assert middle.room == Known(21.0, "assumed", 2.3)
    assert middle.tap.value == middle.room.value
    assert "a fridge at 4.8 °C" in middle.assumed
    own = surroundings(read_kitchen(KITCHEN).kitchen)
    assert own.fridge == Known(5.0, "measured", 0.5)
    assert own.assumed == ("flour as warm as the room",)


def test_water_and_flour_follow_the_room_where_they_are_not_given():
    """A cold room has cold flour and cold water."""
    kitchen = read_kitchen('schema = 1\nkitchen = "Cold"\n[room]\ntemperature = "14 °C"\n').kitchen
    assert surroundings(kitchen).tap.value == 14.0
    assert surroundings(kitchen).flour_temperature.value == 14.0


def test_a_place_is_found_by_name_or_refused_with_a_hint():
    """Fridge, room and the kitchen's own places."""
    own = surroundings(read_kitchen(KITCHEN).kitchen)
    assert own.place("Proofing box").value == 28.0
    with pytest.raises(UnknownNameError, match=r'Did you mean "proofing box"\?'):
        own.place("proofing bx")
