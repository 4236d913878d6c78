"""Figures as people read them."""

from __future__ import annotations

import pytest

from doughwright.figures import Figure
from doughwright.publish import render
from doughwright.publish.render import HELD, MINUS


def test_a_value_and_its_unit_are_held_together() -> None:
    """No line breaks between them."""
    assert render.mass(0.42) == f"420{HELD}g"
    assert render.temperature(24.2) == f"24{HELD}°C"
    assert render.duration(1.0 + 40.0 / 60.0) == f"1{HELD}h{HELD}40{HELD}min"


def test_a_minus_is_a_minus() -> None:
    """Not a hyphen, and none before a rounded zero."""
    assert render.number(-8.0) == f"{MINUS}8"
    assert render.number(-0.04, 1) == "0.0"
    assert render.temperature(-3.0) == f"{MINUS}3{HELD}°C"


@pytest.mark.outside(source="NIST SP 811: 32 °F is 0 °C, an ounce 28.349523125 g", how="identity")
def test_the_american_kitchen_gets_its_own_units() -> None:
    """Ounces and Fahrenheit, and both where both are asked for."""
    assert render.temperature(0.0, "US") == f"32{HELD}°F"
    assert render.temperature(24.0, "both") == f"24{HELD}°C (75{HELD}°F)"
    assert render.mass(0.0283495, "US") == f"1{HELD}oz"
    assert render.mass(0.5, "both") == f"500{HELD}g (1{HELD}lb{HELD}1.5{HELD}oz)"


def test_a_figure_shows_its_interval_after_its_unit() -> None:
    """An interval narrower than the digits shown is left out."""
    assert render.figure(Figure(3.2, "percent", 3.0, 3.4)) == f"3.2{HELD}% (3.0 to 3.4)"
    assert render.figure(Figure(0.521, "g/cm2", 0.519, 0.522)) == f"0.52{HELD}g/cm²"


def test_what_is_not_known_says_so() -> None:
    """Never 0."""
    assert render.figure(Figure(None, "g", why="the source leaves it blank")) == "not known"
    assert render.baker_percent(None) == "–"


def test_columns_keep_their_zeros() -> None:
    """The same decimals down a column; two below one."""
    assert [render.baker_percent(value) for value in (100.0, 62.4, 2.0, 0.35)] == [
        "100.0",
        "62.4",
        "2.0",
        "0.35",
    ]
    assert render.rise(1.8) == "1.80"


def test_an_interval_gives_both_ends_the_decimals_either_needs() -> None:
    """1.5 to 2.0; 1.25 to 2.00."""
    assert render.interval(1.5, 2.0) == "1.5 to 2.0"
    assert render.interval(1.25, 2.0) == "1.25 to 2.00"


def test_each_state_has_a_word_a_mark_and_a_rail_of_its_own() -> None:
    """No state is said by colour."""
    assert (
        len(set(render.MARKS.values()))
        == len(set(render.RAILS.values()))
        == len(set(render.SIGNS.values()))
        == 3
    )
    assert set(render.MARKS) == set(render.RAILS) == set(render.SIGNS) == {"young", "ripe", "past"}


def test_words_in_a_row() -> None:
    """Commas, then "and"."""
    assert render.listed(["milk", "egg", "wheat"]) == "milk, egg and wheat"
    assert render.listed([]) == ""
    assert render.counted(2, "tin loaf", "tin loaves") == f"2{HELD}tin loaves"
