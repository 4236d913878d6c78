"""Recipes for the tests of plans, small and invented."""

from __future__ import annotations

from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe

HEAD = """\
schema = 1
title = "Harbour pie"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
eat = "Saturday 19:00"
"""
POOLISH = """\
[[mix]]
name = "poolish"
kind = "preferment"
ingredients = [
  { item = "bread flour", amount = "90 g" }, { item = "water", amount = "90 g" },
  { item = "instant yeast", amount = "0.1 g" },
]
"""
DOUGH = """\
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "345 g" }, { item = "water", amount = "200 g" },
  { item = "instant yeast", amount = "0.8 g" }, { item = "salt, fine", amount = "9 g", add = "later" },%s
]
"""
LEEKS = """\
[[mix]]
name = "leeks"
kind = "topping"
ingredients = [ { item = "leeks", amount = "180 g" }, { item = "butter, salted", amount = "30 g" } ]
"""


def step(do: str, **keys: str) -> str:
    """One step as a document writes it; ``for_`` stands for ``for``, a value in [] is not quoted."""
    plain = {key: value.startswith("[") or value.isdigit() for key, value in keys.items()}
    lines = [f"{key.rstrip('_')} = " + (value if plain[key] else f'"{value}"') for key, value in keys.items()]
    return "\n".join(["[[step]]", f'do = "{do}"', *lines]) + "\n"


def pie(
    *, bulk: str = "1 h to 3 h", retard: str = "12 h to 40 h", temper: str = "2 h", rest: str = "",
    cook: str = "", oven: bool = True, heat: str = "",
) -> Recipe:  # fmt: skip
    """A pie in the cold; with a poolish where ``rest`` is given, with leeks where ``cook`` is."""
    line = '\n  { mix = "poolish", amount = "all" },' if rest else ""
    text = HEAD + (POOLISH if rest else "") + DOUGH % line + (LEEKS if cook else "")
    if rest:
        text += step("mix", mix="poolish", for_="5 min", hands="10 min") + step(
            "rest", of="poolish", for_=rest, at="room"
        )
    text += step("mix", mix="dough", for_="10 min", hands="20 min") + step("bulk", for_=bulk, at="room")
    text += step("divide", hands="5 min") + step("ball", hands="5 min")
    text += step("retard", for_=retard, at="fridge") + step("temper", for_=temper, at="room")
    if cook:
        text += step("cook", mix="leeks", for_=cook)
    if heat:
        text += step("preheat", at="250 °C", for_=heat)
    text += step("shape", hands="6 min")
    if oven:
        text += step("par-bake", for_="4 min", at="250 °C", on="steel", between="3 min")
        text += step("dress", with_='["leeks"]', hands="3 min") if cook else step("dress", hands="3 min")
        text += step("bake", for_="5 min", at="250 °C", on="steel")
    return read_recipe(text).recipe
