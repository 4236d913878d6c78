"""Short recipes and kitchens for the tests of the days."""

from __future__ import annotations

from doughwright.forecast.days import days
from doughwright.forecast.results import Run
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe

KITCHEN = """
schema = 1
kitchen = "Test kitchen"
altitude = "0 m"
[fridge]
temperature = "5 °C"
[room]
temperature = "21 °C"
[tap]
temperature = "12 °C"
[flour]
temperature = "20 °C"
[mixer]
kind = "stand"
friction = { value = "12 °C", how = "measured" }
[[place]]
name = "proofing box"
temperature = "28 °C"
"""

DOUGH = """
{ item = "bread flour", amount = "500 g", protein = "12 %" },
{ item = "water", amount = "310 g" },
{ item = "salt, fine", amount = "10 g" },
{ item = "instant yeast", amount = "2 g" },
"""

MIXED = [{"do": "mix", "mix": "dough", "for": "6 min"}]


def table(step: dict[str, str]) -> str:
    """A step as TOML."""
    return "\n[[step]]\n" + "".join(f"{key} = {written(key, value)}\n" for key, value in step.items())


def written(key: str, value: str) -> str:
    """A value as TOML writes it."""
    return value if key == "pieces" else f'"{value}"'


def recipe(
    steps: list[dict[str, str]],
    *,
    makes: str = 'shape = "ball"',
    dough: str = DOUGH,
    before: str = "",
    end: str = "",
) -> Recipe:
    """A recipe with one dough: ``before`` is mixes put ahead of it, ``end`` what follows its steps."""
    mixes = before + f'[[mix]]\nname = "dough"\nkind = "dough"\ningredients = [{dough}]\n'
    text = f'schema = 1\ntitle = "Test"\n[makes]\n{makes}\n{mixes}' + "".join(map(table, steps)) + end
    return read_recipe(text).recipe


def kitchen(text: str = KITCHEN) -> Surroundings:
    """The test kitchen."""
    return surroundings(read_kitchen(text).kitchen)


def run(steps: list[dict[str, str]], *, at: Surroundings | None = None, **parts: str) -> Run:
    """The days of such a recipe; its dough is 24 °C unless ``end`` says otherwise."""
    parts.setdefault("end", '\n[target]\ndough_temperature = "24 °C"\n')
    return days(recipe(steps, **parts), at or kitchen()).runs[0]
