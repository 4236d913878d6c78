"""A plain dough and kitchens for the tests of its water."""

from __future__ import annotations

from doughwright.forecast.water import Water, water
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe

DOUGH = """schema = 1
title = "Plain"
[makes]
pieces = 2
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "1 kg" },
  { item = "water", amount = "620 g" },
  { item = "instant yeast", amount = "5 g" },
]
[target]
dough_temperature = "24 °C"
"""

STARTER = """[[mix]]
name = "starter"
kind = "preferment"
ingredients = [ { item = "bread flour", amount = "200 g" }, { item = "water", amount = "200 g" } ]
[[step]]
do = "mix"
mix = "starter"
[[step]]
do = "rest"
of = "starter"
for = "48 h"
at = "room"
[[step]]
do = "mix"
mix = "dough"
"""

KITCHEN = """schema = 1
kitchen = "Bench"
[room]
temperature = "20 °C"
[flour]
temperature = "20 °C"
[tap]
temperature = "12 °C"
[mixer]
kind = "stand"
friction = { value = "12 °C", how = "measured" }
"""


def recipe(text: str = DOUGH) -> Recipe:
    return read_recipe(text, "plain.toml").recipe


def kitchen(text: str = KITCHEN) -> Surroundings:
    return surroundings(read_kitchen(text, "bench.toml").kitchen)


def with_starter(text: str = DOUGH) -> str:
    """The dough with a starter that rests two days in the room."""
    joined = text.replace(
        '{ item = "water", amount = "620 g" },',
        '{ item = "water", amount = "620 g" },\n  { mix = "starter", amount = "all" },',
    )
    head, target = joined.split("[target]")
    return f"{head}{STARTER}[target]{target}"


def water_of(dough: str = DOUGH, bench: str = KITCHEN) -> Water:
    return water(recipe(dough), kitchen(bench))
