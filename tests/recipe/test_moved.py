"""What moved between two formulas, in words."""

from __future__ import annotations

from doughwright.figures import Figure, celsius, hours, percent
from doughwright.recipe.moved import Moved, moved_figure, moved_formula, moved_words

from .documents import RECIPE, changed
from .kitchens import TENTH, formula_of


def how(text: str) -> dict[str, str]:
    return {one.what: one.how for one in moved_formula(formula_of(RECIPE), formula_of(text))}


def test_nothing_moved_is_nothing_said() -> None:
    """A comment is no change."""
    assert moved_formula(formula_of(RECIPE), formula_of(RECIPE + "# later\n")) == ()


def test_more_water_moves_hydration_up_in_points() -> None:
    """8.7 g of 435 g are 2.0 points."""
    moved = how(changed('"200 g"', '"208.7 g"'))
    assert moved["hydration"] == "up 2.0 points"
    assert moved["water (dough)"] == "8.7 g more"
    assert "salt" not in moved


def test_less_salt_moves_salt_down() -> None:
    """4.35 g of 435 g are 1.0 point."""
    moved = how(changed('"9 g"', '"4.65 g"'))
    assert moved["salt"] == "down 1.0 points"
    assert moved["salt, fine (dough) on the scale"] == "was can be weighed, now too little to weigh"


def test_an_ingredient_that_came_or_went_is_named() -> None:
    """New and gone."""
    moved = how(changed('item = "rye flour, medium"', 'item = "wholemeal flour"'))
    assert moved["wholemeal flour (dough)"] == "new"
    assert moved["rye flour, medium (dough)"] == "gone"


def test_another_scale_moves_only_what_it_can_weigh() -> None:
    """0.8 g of yeast on a scale of 0.1 g."""
    moved = moved_formula(formula_of(RECIPE), formula_of(RECIPE, TENTH))
    assert [one.what for one in moved] == ["instant yeast (dough) on the scale"]


def test_times_and_temperatures_have_words_of_their_own() -> None:
    """Later and earlier, warmer and colder."""
    assert moved_figure("ripe", hours(0.0), hours(6000.0), more="later", less="earlier") == Moved(
        "ripe", "1 h 40 min later", hours(6000.0), hours(0.0)
    )
    colder = moved_figure("core", celsius(24.0), celsius(21.5))
    assert colder is not None
    assert colder.how == "2.5 °C colder"


def test_what_is_known_now_is_said() -> None:
    """And what is no longer."""
    unknown = percent(None, "salt to taste")
    assert moved_figure("salt", unknown, percent(0.02)).how == "now known"
    assert moved_figure("salt", percent(0.02), unknown).how == "no longer known"
    assert moved_figure("salt", unknown, unknown) is None


def test_words_that_are_the_same_did_not_move() -> None:
    """The state of a dough, for one."""
    assert moved_words("state", "ripe", "ripe") is None
    assert moved_words("state", "ripe", "past").how == "was ripe, now past"


def test_the_last_written_digit_is_no_move() -> None:
    """Writing 421.5045 g for 421.50453 g is not a change."""
    assert moved_figure("flour", Figure(421.50453, "g"), Figure(421.5045, "g")) is None
