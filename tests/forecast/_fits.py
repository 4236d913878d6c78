"""Recipes and kitchens for the tests of fit: five doughs, and kitchens by fridge, room, scale and height."""

from __future__ import annotations

from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.read import RecipeDocument, read_recipe

KITCHEN = """
schema = 1
kitchen = "{name}"
altitude = "{altitude} m"
awake = "{awake}"
[fridge]
temperature = "{fridge} °C"
[room]
temperature = "{room} °C"
[tap]
temperature = "{tap} °C"
[scale]
step = "{scale} g"
"""

ROUND = """
schema = 1
title = "Round with a night in the cold"   # a remark at the title
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
{eat}
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "400 g" }},
  {{ item = "water", amount = "64 %" }},
  {{ item = "instant yeast", amount = "0.8 g" }},   # little
  {{ item = "salt, fine", amount = "2 %" }},
]
[[step]]
do = "mix"
mix = "dough"
for = "9 min"
[[step]]
do = "bulk"
for   =   "1 h"     # spaced as a cook would
at = "room"
in = "covered bowl"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "retard"
for = "24 h"
at = "fridge"
in = "lidded tub"
[[step]]
do = "temper"
for = "2 h 30 min"
at = "room"
in = "lidded tub"
[[step]]
do = "shape"
[[step]]
do = "bake"
for = "8 min"
at = "250 °C"
[target]
dough_temperature = "24 °C"
rise = "1.6 to 2.2"
"""

BUNS = """
schema = 1
title = "Buns of one day"
[makes]
pieces = 8
shape = "ball"
{eat}
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "500 g" }},
  {{ item = "water", amount = "60 %" }},
  {{ item = "fresh yeast", amount = "12 g" }},
  {{ item = "salt, fine", amount = "9 g" }},
  {{ item = "sugar, granulated", amount = "25 g" }},
  {{ item = "butter, unsalted", amount = "40 g" }},
]
[[step]]
do = "mix"
mix = "dough"
for = "10 min"
[[step]]
do = "bulk"
for = "75 min"
at = "room"
in = "covered bowl"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "proof"
for = "65 min"
at = "room"
in = "tray"
[[step]]
do = "bake"
for = "16 min"
at = "200 °C"
[target]
dough_temperature = "26 °C"
rise = "1.7 to 2.5"
"""

TIN = """
schema = 1
title = "Tin loaf with a poolish"
[makes]
pieces = 1
shape = "tin"
length = "22 cm"
width = "11 cm"
height = "10 cm"
{eat}
[[mix]]
name = "poolish"
kind = "preferment"
ingredients = [
  {{ item = "bread flour", amount = "150 g" }},
  {{ item = "water", amount = "150 g" }},
  {{ item = "instant yeast", amount = "0.2 g" }},
]
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "350 g" }},
  {{ item = "water", amount = "180 g" }},
  {{ item = "instant yeast", amount = "2 g" }},
  {{ mix = "poolish", amount = "all" }},
  {{ item = "salt, fine", amount = "10 g" }},
]
[[step]]
do = "mix"
mix = "poolish"
for = "3 min"
[[step]]
do = "rest"
of = "poolish"
for = "12 h"
at = "room"
in = "lidded tub"
[[step]]
do = "mix"
mix = "dough"
for = "10 min"
[[step]]
do = "bulk"
for = "90 min"
at = "room"
in = "covered bowl"
[[step]]
do = "shape"
[[step]]
do = "proof"
for = "2 h"
at = "room"
in = "tin"
[[step]]
do = "bake"
for = "35 min"
at = "220 °C"
[target]
dough_temperature = "25 °C"
rise = "2.1 to 3.0"
"""

BULK_COLD = """
schema = 1
title = "Slab kept cold as one piece"
[makes]
pieces = 1
shape = "rectangle"
length = "40 cm"
width = "30 cm"
{eat}
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "600 g" }},
  {{ item = "water", amount = "420 g" }},
  {{ item = "active dry yeast", amount = "0.3 %" }},
  {{ item = "salt, fine", amount = "12 g" }},
  {{ item = "olive oil", amount = "15 g" }},
]
[[step]]
do = "mix"
mix = "dough"
for = "8 min"
[[step]]
do = "bulk"
for = "45 min to 75 min"
at = "room"
in = "lidded tub"
[[step]]
do = "retard"
for = "16 h to 20 h"
at = "fridge"
[[step]]
do = "temper"
for = "3 h to 4 h"
at = "room"
[[step]]
do = "shape"
[[step]]
do = "bake"
for = "20 min"
at = "230 °C"
[target]
rise = "1.5 to 2.3"
"""

LONG_ROOM = """
schema = 1
title = "Flat bread left out overnight"
[makes]
pieces = 4
shape = "round"
diameter = "22 cm"
{eat}
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "500 g" }},
  {{ item = "water", amount = "330 g" }},
  {{ item = "instant yeast", amount = "0.5 g" }},
  {{ item = "salt, fine", amount = "13 g" }},
]
[[step]]
do = "mix"
mix = "dough"
for = "6 min"
[[step]]
do = "bulk"
for = "10 h"
at = "room"
in = "lidded tub"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "proof"
for = "3 h"
at = "room"
in = "box"
[[step]]
do = "shape"
[[step]]
do = "bake"
for = "7 min"
at = "250 °C"
[target]
dough_temperature = "22 °C"
rise = "1.6 to 2.4"
"""

RECIPES = {"round": ROUND, "buns": BUNS, "tin": TIN, "slab": BULK_COLD, "overnight": LONG_ROOM}


def document(name: str, eat: str | None = None) -> RecipeDocument:
    """One of the recipes; without a meal nobody looks at the hours awake."""
    return read_recipe(RECIPES[name].format(eat="" if eat is None else f'eat = "{eat}"'), f"{name}.toml")


def kitchen(
    name: str = "elsewhere",
    *,
    fridge: float = 5.0,
    room: float = 21.0,
    scale: str = "0.01",
    altitude: int = 0,
    awake: str = "07:00 to 23:00",
    more: str = "",
) -> Surroundings:
    """A kitchen in which all that matters to the days is known; ``more`` is written at its end."""
    text = KITCHEN.format(
        name=name, fridge=fridge, room=room, tap=12, scale=scale, altitude=altitude, awake=awake
    )
    return surroundings(read_kitchen(text + more, f"{name}.toml").kitchen)
