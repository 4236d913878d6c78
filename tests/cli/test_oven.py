"""The verb ``oven``: its text, its JSON, its exit codes."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.forecast.bake._pies import FLOUR, WATER

KITCHEN = """
schema = 1
kitchen = "Home"
[oven]
hottest = "240 °C"
error = { value = "-5 °C", how = "measured" }
fan = true
[[surface]]
name = "plate"
material = "carbon steel"
thickness = "6 mm"
"""

RECIPE = f"""
schema = 1
title = "Supper round"
kitchen = "home.toml"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
[[mix]]
name = "dough"
ingredients = [
  {{ item = "bread flour", amount = "{2 * FLOUR} g" }},
  {{ item = "water", amount = "{2 * WATER} g" }},
  {{ item = "instant yeast", amount = "0.3 g" }},
]
[[mix]]
name = "top"
kind = "topping"
ingredients = [
  {{ item = "tomatoes, canned, crushed", amount = "150 g" }},
  {{ item = "beef mince, 20 % fat", amount = "120 g" }},
]
[[step]]
do = "mix"
for = "8 min"
[[step]]
do = "rest"
for = "4 h"
at = "room"
[[step]]
do = "shape"
[[step]]
do = "dress"
with = ["top"]
[[step]]
do = "bake"
for = "3 min"
at = "250 °C"
heat = "fan"
on = "plate"
[target]
base = "golden"
"""


@pytest.fixture
def pie(tmp_path: Path) -> str:
    """A recipe with its kitchen in the folder the command runs in."""
    (tmp_path / "home.toml").write_text(KITCHEN, encoding="utf-8")
    (tmp_path / "pie.toml").write_text(RECIPE, encoding="utf-8")
    return "pie.toml"


def test_oven_tells_each_piece_in_a_table_and_sentences(run, pie):
    """State, colours with their ends, loss, what the surface does, and what was assumed."""
    done = run("oven", pie)
    assert done.code == 0
    text = " ".join(done.out.split())
    assert "2 pieces on the plate (carbon steel, 6 mm)" in text
    assert "The dial at 240 °C, fan: in truth 235 °C" in text
    assert "this oven goes to 240 °C: its dial stands there, not at 250 °C" in text
    assert "Piece 2: " in text
    assert "the Food Code wants 68 °C for beef mince, 20 % fat, which is not reached" in text
    assert "3 min from one piece to the next" in text
    assert "safe" not in text


def test_oven_json_has_every_piece_with_its_intervals(run, pie):
    """The keys of DESIGN 4, and a section only where it is asked for."""
    result = run("oven", pie, "--json").json
    assert [piece["number"] for piece in result["pieces"]] == [1, 2]
    assert "section" not in result
    base = result["pieces"][0]["base_lightness"]
    assert base["low"] < base["value"] < base["high"]
    assert result["oven"]["true"]["value"] == pytest.approx(235.0)


def test_oven_is_the_same_every_time(run, pie):
    """The seed is the document's."""
    assert run("oven", pie, "--json").out == run("oven", pie, "--json").out


def test_a_section_is_cut_through_the_piece_asked_for(run, pie):
    """``--piece`` asks for it too."""
    cut = run("oven", pie, "--section", "--piece", "2", "--json").json["section"]
    assert cut["piece"] == 2
    assert cut["frames"][0]["temperature"]["unit"] == "degC"
    assert run("oven", pie, "--piece", "3").code == 3
    assert "boiled from base" in run("oven", pie, "--section").out


def test_a_recipe_that_does_not_bake_has_no_answer(run, tmp_path):
    """Exit 3, with what to write."""
    text = RECIPE[: RECIPE.index('[[step]]\ndo = "bake"')]
    (tmp_path / "raw.toml").write_text(text, encoding="utf-8")
    (tmp_path / "home.toml").write_text(KITCHEN, encoding="utf-8")
    done = run("oven", "raw.toml")
    assert done.code == 3
    assert 'no step bakes "dough"' in done.err
