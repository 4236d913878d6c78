"""An edit changes the characters of what is edited, and no others."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import InputError
from doughwright.recipe.edit import Change, edit, edit_text
from doughwright.recipe.read import read_recipe
from doughwright.recipe.text import parse

from .documents import RECIPE

DOCUMENT = parse(RECIPE)


def test_one_amount_changes_its_characters_only():
    """From 0.8 g to 0.5 g is one character, comments and spacing stay."""
    where = ("mix", 1, "ingredients", 3, "amount")
    text = edit(DOCUMENT, [Change(where, "0.5 g")])
    assert text == RECIPE.replace('"0.8 g"', '"0.5 g"')


def test_several_changes_are_made_together():
    """Lines may grow and shrink: each change goes to its own place."""
    text = edit_text(
        RECIPE, {("title",): "A much longer title", ("makes", "pieces"): 3, ("step", 1, "for"): "9 h"}
    )
    recipe = read_recipe(text).recipe
    assert (recipe.title, recipe.makes.pieces, recipe.steps[1].for_.low) == (
        "A much longer title",
        3,
        32400.0,
    )
    lines = zip(RECIPE.split("\n"), text.split("\n"), strict=True)
    assert sum(before != after for before, after in lines) == 3


def test_a_key_that_is_not_there_is_written_at_the_end_of_its_table():
    """At the end of a table; inside the braces of an inline one; at the top level first of all."""
    text = edit_text(RECIPE, {("makes", "notes"): "two", ("mix", 0, "ingredients", 0, "protein"): "12 %"})
    recipe = read_recipe(text).recipe
    assert recipe.makes.notes == "two"
    assert recipe.mixes[0].ingredients[0].protein == pytest.approx(0.12)
    assert '{ item = "bread flour", amount = "90 g", protein = "12 %" },' in text
    top = read_recipe(edit_text(RECIPE, {("author",): "Saltmarsh Kitchen"})).recipe
    assert top.author == "Saltmarsh Kitchen"


def test_quotes_and_line_ends_are_kept():
    """A literal string stays literal, CRLF stays CRLF, a byte order mark stays first."""
    text = "\ufeffschema = 1\r\ntitle = 'old'\r\n[makes]\r\npieces = 1"
    new = edit_text(text, {("title",): "new", ("makes", "notes"): "n"})
    assert new == "\ufeffschema = 1\r\ntitle = 'new'\r\n[makes]\r\npieces = 1\r\nnotes = \"n\"\r\n"


def test_a_table_that_is_not_there_is_refused():
    """Nothing is written where there is nowhere to write it."""
    with pytest.raises(InputError, match="there is no table"):
        edit_text("schema = 1\n", {("target", "rise"): "2"})


@pytest.mark.property
@settings(max_examples=200, deadline=None)
@given(value=st.text(max_size=30), which=st.integers(0, 10_000))
def test_any_text_comes_back_as_it_was_set(value, which):
    """Whatever is written into a place is read there again, and all else is as before."""
    places = [where for where in DOCUMENT.values if where not in {w[:-1] for w in DOCUMENT.values}]
    where = places[which % len(places)]
    if any(character in value for character in "\ud800"):
        return
    text = edit(DOCUMENT, [Change(where, value)])
    after = parse(text)
    thing = after.data
    for part in where:
        thing = thing[part]
    assert thing == value
    span, old = after.values[where], DOCUMENT.values[where]
    assert text[: span.start] == RECIPE[: old.start]
    assert text[span.end :] == RECIPE[old.end :]
