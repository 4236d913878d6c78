"""What moved, in words, over twenty edits: one of them no change at all."""

from __future__ import annotations

from functools import cache

import pytest

from doughwright.figures import minutes
from doughwright.publish.band import run_clock
from doughwright.publish.edits import edits
from doughwright.publish.moved import Outcome, WhatMoved, what_moved
from doughwright.recipe.formula import formula
from tests.publish._example import PIE, kitchen, recipe, run


@cache
def outcome(text: str = PIE) -> Outcome:
    one = recipe(text)
    return Outcome(one, formula(one, kitchen()), run(text), run_clock(run(text), one))


def after(old: str, new: str) -> WhatMoved:
    text = PIE.replace(old, new)
    assert (text != PIE) == (old != new)
    return what_moved(outcome(), outcome(text))


EDITS = [
    ('"0.4 g"', '"0.3 g"', "ripe", "later"),
    ('"0.4 g"', '"0.6 g"', "ripe", "earlier"),
    ('for = "24 h"', 'for = "30 h"', "ripe", "earlier"),
    ('for = "24 h"', 'for = "20 h"', "ripe", "later"),
    ('for = "2 h"', 'for = "3 h"', "ripe", "earlier"),
    ('dough_temperature = "24 °C"', 'dough_temperature = "27 °C"', "dough out of the mixer", "warmer"),
    ('dough_temperature = "24 °C"', 'dough_temperature = "22 °C"', "dough out of the mixer", "colder"),
    ('water", amount = "200 g"', 'water", amount = "210 g"', "hydration", "up"),
    ('amount = "9 g"', 'amount = "11 g"', "salt", "up"),
    ('amount = "1 tbsp"', 'amount = "2 tbsp"', "fat", "up"),
    ("pieces = 2", "pieces = 3", "a piece", "less"),
    ('diameter = "30 cm"', 'diameter = "32 cm"', "loading", "less"),
    ('for = "12 h"', 'for = "8 h"', "ripe", "later"),
    ('rise = "1.5 to 2.0"', 'rise = "1.9 to 2.4"', "ripe", "later"),
    ("Saturday 19:00", "Saturday 20:00", "ripe", "1\u00a0h later"),
    ('item = "leeks", amount = "180 g"', 'item = "leeks", amount = "220 g"', "leeks (leeks)", "more"),
    ('at = "fridge"', 'at = "3 °C"', "ripe", "later"),
    ('protein = "12.4 %"', 'protein = "14 %"', None, None),
    ('title = "Leek and rye flat pie"', 'title = "Leek pie"', None, None),
    ("", "", None, None),
]


@pytest.mark.parametrize(("old", "new", "what", "how"), EDITS)
def test_an_edit_says_what_it_moved(old: str, new: str, what: str | None, how: str | None) -> None:
    """The row of what it is about is there, and says which way."""
    result = after(old, new)
    if what is None or how is None:
        assert result.strip.endswith(".")
        return
    rows = {one.what: one.how for one in result.moved}
    assert what in rows
    assert how in rows[what]
    assert result.strip.endswith(".")


def test_no_change_is_said_to_be_none() -> None:
    """No rows, nothing that stays, and one sentence."""
    assert what_moved(outcome(), outcome()) == WhatMoved((), (), "Nothing moved.")


def test_a_title_moves_nothing() -> None:
    """The strip says what was edited, and that nothing moved."""
    result = after('title = "Leek and rye flat pie"', 'title = "Leek pie"')
    assert result.moved == ()
    assert result.strip == "Title Leek and rye flat pie to Leek pie: nothing moved."


def test_the_strip_names_the_edit_and_the_first_finding() -> None:
    """ "Instant yeast 0.4 g to 0.2 g: ripe ... later and young, no longer ripe at shaping." """
    strip = after('"0.4 g"', '"0.2 g"').strip
    assert strip.startswith("Instant yeast 0.4 g to 0.2 g: ripe ")
    assert "at shaping" in strip


def test_what_did_not_move_is_said() -> None:
    """A longer wait leaves the formula alone; more leeks leave the days alone."""
    assert after('for = "24 h"', 'for = "30 h"').still_sentence == "The formula stays as it was."
    assert after('"leeks", amount = "180 g"', '"leeks", amount = "220 g"').still_sentence == (
        "The days stay as they were."
    )


def test_a_state_that_changes_says_both() -> None:
    """ "past, no longer ripe"."""
    rows = {one.what: one for one in after('"0.4 g"', '"0.8 g"').moved}
    assert rows["at shaping"].how == "past, no longer ripe"


def test_the_cooks_time_moves_with_the_plan() -> None:
    """Hands-on minutes, where both versions have a plan."""
    one = outcome()
    before = Outcome(one.recipe, one.formula, one.run, one.clock, hands_on=minutes(7200.0))
    now = Outcome(one.recipe, one.formula, one.run, one.clock, hands_on=minutes(7800.0))
    result = what_moved(before, now)
    assert [(row.what, row.how) for row in result.moved] == [("your time", "10 min more")]
    assert result.still == ("the days", "the formula")


def test_edits_are_said_as_a_cook_would() -> None:
    """In the order of the document; a range says what it was."""
    text = PIE.replace('"0.4 g"', '"0.3 g"').replace('rise = "1.5 to 2.0"', 'rise = "1.6 to 2.0"')
    assert edits(recipe(), recipe(text)) == (
        "rise 1.6 to 2.0, was 1.5 to 2.0",
        "instant yeast 0.4 g to 0.3 g",
    )
    assert edits(recipe(), recipe()) == ()
    assert edits(recipe(), recipe(PIE.replace('do = "ball"\nhands = "6 min"', 'do = "fold"'))) == (
        "the steps changed",
    )


def test_a_date_in_place_of_a_weekday_moves_no_hours() -> None:
    """What has a real date and what has an assumed week are compared by the hours of the dough."""
    assert after("Saturday 19:00", "2026-11-28 19:00").moved == ()
