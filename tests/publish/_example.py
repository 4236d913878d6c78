"""The runs that the tests of publish draw, set and describe: made once."""

from __future__ import annotations

from functools import cache
from xml.etree import ElementTree

from doughwright.forecast.days import days
from doughwright.forecast.results import Run
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.band import Band, band_of
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe

PIE = """\
schema = 1
title = "Leek and rye flat pie"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
portions = 4
eat = "Saturday 19:00"
loss = "1 %"
[[mix]]
name = "poolish"
kind = "preferment"
ingredients = [
  { item = "bread flour", amount = "90 g" },
  { item = "water", amount = "90 g" },
  { item = "instant yeast", amount = "0.1 g" },
]
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "300 g", protein = "12.4 %" },
  { item = "rye flour, medium", amount = "45 g" },
  { item = "water", amount = "200 g" },
  { item = "instant yeast", amount = "0.4 g" },
  { mix = "poolish", amount = "all" },
  { item = "salt, fine", amount = "9 g", add = "later" },
  { item = "rapeseed oil", amount = "1 tbsp", add = "last" },
]
[[mix]]
name = "leeks"
kind = "topping"
ingredients = [ { item = "leeks", amount = "180 g" }, { item = "butter, salted", amount = "30 g" } ]
[[step]]
do = "mix"
mix = "poolish"
for = "5 min"
[[step]]
do = "rest"
of = "poolish"
for = "12 h"
at = "room"
[[step]]
do = "mix"
mix = "dough"
for = "3 min"
[[step]]
do = "mix"
add = "later"
for = "2 min"
[[step]]
do = "mix"
add = "last"
for = "6 min"
[[step]]
do = "bulk"
for = "1 h"
at = "room"
[[step]]
do = "divide"
[[step]]
do = "ball"
hands = "6 min"
[[step]]
do = "retard"
for = "24 h"
at = "fridge"
in = "lidded tub"
[[step]]
do = "temper"
for = "2 h"
at = "room"
[[step]]
do = "shape"
[[step]]
do = "par-bake"
for = "4 min"
at = "250 °C"
[[step]]
do = "dress"
with = ["leeks"]
[[step]]
do = "bake"
for = "5 min"
at = "250 °C"
[target]
dough_temperature = "24 °C"
rise = "1.5 to 2.0"
"""
BOATHOUSE = """\
schema = 1
kitchen = "Boathouse"
[fridge]
temperature = "5 °C"
[room]
temperature = "19 °C"
[scale]
step = "1 g"
"""
SVG = "{http://www.w3.org/2000/svg}"


@cache
def recipe(text: str = PIE) -> Recipe:
    return read_recipe(text).recipe


@cache
def kitchen() -> Surroundings:
    return surroundings(read_kitchen(BOATHOUSE).kitchen)


@cache
def run(text: str = PIE) -> Run:
    return days(recipe(text), kitchen()).runs[0]


@cache
def band(text: str = PIE) -> Band:
    return band_of(run(text), recipe(text), kitchen())


def parts(svg: str, tag: str) -> list[ElementTree.Element]:
    """Every element of a name in a picture."""
    return list(ElementTree.fromstring(svg).iter(f"{SVG}{tag}"))


def words(svg: str) -> list[str]:
    """Every text of a picture."""
    return ["".join(one.itertext()) for one in parts(svg, "text")]
