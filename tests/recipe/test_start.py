"""A new recipe starts from a document that loads, explains itself and comes out ripe."""

from __future__ import annotations

import re

import pytest

from doughwright.forecast.days import days
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.kitchen.start import starting_kitchen
from doughwright.recipe.formula import formula
from doughwright.recipe.read import read_recipe
from doughwright.recipe.start import SHAPES, StartShape, starting_document


@pytest.mark.parametrize("shape", SHAPES)
def test_it_loads_and_only_its_kitchen_is_noted(shape: StartShape) -> None:
    """No fault, and one note: no kitchen is named."""
    document = read_recipe(starting_document(shape), "new.toml")
    assert document.recipe.shape == shape
    assert ["kitchen" in note.message for note in document.notes] == [True]


@pytest.mark.parametrize("shape", SHAPES)
def test_its_figures_are_a_bakers(shape: StartShape) -> None:
    """Common practice, no source: 58 to 70 % water, 1.8 to 2.2 % salt, up to 3 % fresh yeast."""
    (dough,) = formula(read_recipe(starting_document(shape)).recipe, surroundings(None)).doughs
    assert 58.0 < dough.hydration.value < 70.0
    assert 1.8 <= dough.salt.value < 2.2
    assert 0.2 < dough.yeast_as_fresh.value < 3.0


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("known", [False, True], ids=["middle of the population", "starting kitchen"])
def test_it_is_ripe_when_it_is_judged(shape: StartShape, known: bool) -> None:
    """A first run shows a dough that works, in a middling kitchen and in the one to start from."""
    kitchen = surroundings(read_kitchen(starting_kitchen()).kitchen if known else None)
    (run,) = days(read_recipe(starting_document(shape)).recipe, kitchen).runs
    assert run.judged.state == "ripe"


@pytest.mark.parametrize("shape", SHAPES)
def test_its_comments_explain_it_on_a_page(shape: StartShape) -> None:
    """At least a comment to every third key, and no line wider than a page."""
    lines = starting_document(shape).splitlines()
    keys = [line for line in lines if re.match(r"\w+ = ", line)]
    assert len([line for line in lines if "#" in line]) * 3 >= len(keys)
    assert [line for line in lines if len(line) >= 100] == []


@pytest.mark.parametrize("title", ['Ana\'s "thin" pie', "back\\slash", "two\nlines", "Pie 30 °C #1"])
@pytest.mark.parametrize("shape", SHAPES)
def test_a_title_of_any_characters_is_kept(shape: StartShape, title: str) -> None:
    """The title is written so that it is read back, and nothing else changes."""
    text = starting_document(shape, title)
    assert read_recipe(text).recipe.title == title
    old, new = starting_document(shape).splitlines(), text.splitlines()
    assert [one for one in new if one not in old] == [line for line in new if line.startswith("title = ")]


def test_the_starting_kitchen_loads_under_its_name() -> None:
    """Commented like a recipe; what it does not know it says to be assumed."""
    kitchen = read_kitchen(starting_kitchen('The "old" bakehouse')).kitchen
    assert kitchen.kitchen == 'The "old" bakehouse'
    assert kitchen.fridge.temperature is not None
    assert kitchen.fridge.temperature.how == "assumed"
    assert [line for line in starting_kitchen().splitlines() if len(line) >= 100] == []


def test_what_the_starting_kitchen_leaves_out_loads_when_it_is_put_in() -> None:
    """The keys behind a comment sign are keys: with the sign taken away they load."""
    text = re.sub(r"^# (?=\[|\w+ = )", "", starting_kitchen(), flags=re.M)
    kitchen = read_kitchen(text).kitchen
    assert kitchen.places[0].temperature.value == 14.0
    assert kitchen.oven.error is not None
    assert kitchen.oven.error.value == -8.0
