"""Recipes and kitchens for the tests of the oven: a 250 g round of 65 % hydration, a loaf, a bun."""

from __future__ import annotations

from functools import cache

from doughwright.forecast.bake import bake
from doughwright.forecast.bake.results import Bake
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe

STEEL = '[[surface]]\nname = "steel"\nmaterial = "carbon steel"\nthickness = "6 mm"\n'
STONE = '[[surface]]\nname = "stone"\nmaterial = "cordierite"\nthickness = "16 mm"\n'
TRAY = '[[surface]]\nname = "tray"\nmaterial = "tray"\nthickness = "0.8 mm"\n'

ROUND = 'shape = "round"\ndiameter = "30 cm"'
TIN = 'shape = "tin"\nlength = "20 cm"\nwidth = "10 cm"\nheight = "8 cm"'

FLOUR, WATER = 149.2, 96.95
# 1.2 kg/m2 of each on 30 cm.
TOPPINGS = """
[[mix]]
name = "sauce"
kind = "sauce"
ingredients = [ { item = "tomatoes, canned, crushed", amount = "84.8 g" } ]
[[mix]]
name = "cheese"
kind = "topping"
ingredients = [ { item = "mozzarella", amount = "84.8 g" } ]
"""


def kitchen(
    surface: str = STEEL, *, oven: str = 'error = "0 °C"', room: str = "22 °C", more: str = ""
) -> Surroundings:
    """A kitchen whose dial is right, by default with a steel."""
    text = f"""
schema = 1
kitchen = "Test kitchen"
{more}
[fridge]
temperature = "5 °C"
[room]
temperature = "{room}"
[oven]
{oven}
{surface}
"""
    return surroundings(read_kitchen(text, "kitchen.toml").kitchen)


def recipe(
    steps: str,
    *,
    makes: str = ROUND,
    pieces: int = 1,
    scale: float = 1.0,
    toppings: str = TOPPINGS,
    end: str = "",
    yeast: str = "instant yeast",
    rest: str = "4 h",
) -> Recipe:
    """A round of 250 g, times ``scale`` and times ``pieces``, at room temperature when it is baked."""
    mass = scale * pieces
    text = f"""
schema = 1
title = "Test pie"
[makes]
pieces = {pieces}
{makes}
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "{FLOUR * mass:.4f} g", protein = "12 %" }},
  {{ item = "water", amount = "{WATER * mass:.4f} g" }},
  {{ item = "salt, fine", amount = "{3.73 * mass:.4f} g" }},
  {{ item = "{yeast}", amount = "{0.12 * mass:.4f} g" }},
]
{toppings}
[[step]]
do = "mix"
for = "6 min"
[[step]]
do = "rest"
for = "{rest}"
at = "room"
[[step]]
do = "divide"
[[step]]
do = "shape"
{steps}
{end}
"""
    return read_recipe(text, "pie.toml").recipe


def one_go(minutes: float = 7.0, dial: int = 250, more: str = "", on: str = "steel") -> str:
    """Dressed raw and baked."""
    return f"""
[[step]]
do = "dress"
with = ["sauce", "cheese"]
[[step]]
do = "bake"
for = "{minutes:g} min"
at = "{dial} °C"
on = "{on}"
{more}
"""


def in_two(first: float = 5.0, then: float = 4.0, dial: int = 250, on: str = "steel") -> str:
    """Par-baked bare, dressed in a minute and a half, baked on."""
    return f"""
[[step]]
do = "par-bake"
for = "{first:g} min"
at = "{dial} °C"
on = "{on}"
[[step]]
do = "dress"
with = ["sauce", "cheese"]
hands = "90 s"
[[step]]
do = "bake"
for = "{then:g} min"
at = "{dial} °C"
on = "{on}"
"""


def bare(minutes: float, dial: int, more: str = "") -> str:
    """Baked as it is."""
    return f'[[step]]\ndo = "bake"\nfor = "{minutes:g} min"\nat = "{dial} °C"\n{more}\n'


@cache
def steel_bake() -> Bake:
    """Dressed, 7 min on steel at 250 °C, the middle alone."""
    return bake(recipe(one_go()), kitchen(), draws=0)


def value(figure: object) -> float:
    """The value of a figure that has one."""
    found = getattr(figure, "value", None)
    assert isinstance(found, float)
    return found
