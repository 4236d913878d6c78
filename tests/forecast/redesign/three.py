"""Three recipes, invented, that a redesign is held against: two days in the cold, overnight, the same day."""

from __future__ import annotations

from tests.recipe.documents import RECIPE

LOAF = """\
schema = 1
title = "Boathouse seeded loaf"

[makes]
pieces = 1
shape = "tin"
length = "25 cm"
width = "11 cm"
height = "9 cm"

[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "450 g" },
  { item = "wholemeal flour", amount = "50 g" },
  { item = "water", amount = "340 g" },
  { item = "salt, fine", amount = "9 g" },
  { item = "instant yeast", amount = "3 g" },
]

[[step]]
do = "mix"
mix = "dough"
for = "10 min"
[[step]]
do = "bulk"
for = "1 h 30 min"
at = "room"
in = "lidded tub"
[[step]]
do = "retard"
for = "14 h"
at = "fridge"
[[step]]
do = "shape"
[[step]]
do = "proof"
for = "2 h 30 min"
at = "room"
in = "tin"
[[step]]
do = "bake"
for = "40 min"
at = "210 °C"

[target]
rise = "2.2 to 2.9"
"""

BUNS = """\
schema = 1
title = "Harbour buns"

[makes]
pieces = 9
shape = "ball"

[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "plain flour", amount = "500 g" },
  { item = "milk, whole", amount = "310 g" },
  { item = "butter, unsalted", amount = "40 g" },
  { item = "sugar, granulated", amount = "30 g" },
  { item = "salt, fine", amount = "8 g" },
  { item = "fresh yeast", amount = "15 g" },
]

[[step]]
do = "mix"
mix = "dough"
for = "12 min"
[[step]]
do = "bulk"
for = "1 h 30 min"
at = "room"
in = "covered bowl"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "proof"
for = "1 h"
at = "room"
in = "cloth"
[[step]]
do = "bake"
for = "18 min"
at = "200 °C"

[target]
rise = "1.8 to 2.4"
"""

THREE = {"Leek and rye flat pie": RECIPE, "Boathouse seeded loaf": LOAF, "Harbour buns": BUNS}
"""Each by its name."""
