"""The trade's worked examples and a published ice table, through a recipe and a kitchen document."""

from __future__ import annotations

import pytest

from doughwright.forecast.water import Water, water
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.read import read_recipe

DOUGH = """schema = 1
title = "Plain"
[[mix]]
name = "dough"
ingredients = [
  {{ item = "bread flour", amount = "1 kg" }},
  {{ item = "water", amount = "1 lb" }},{more}
]
{rest}[target]
dough_temperature = "{desired} °F"
"""
STARTER = """[[mix]]
name = "starter"
kind = "preferment"
ingredients = [ { item = "bread flour", amount = "100 g" }, { item = "water", amount = "100 g" } ]
[[step]]
do = "mix"
mix = "starter"
[[step]]
do = "rest"
of = "starter"
for = "5 days"
at = "room"
[[step]]
do = "mix"
mix = "dough"
"""


def kitchen(room: float, flour: float, friction: float, tap: float = 60.0) -> str:
    return f"""schema = 1
kitchen = "Example"
[room]
temperature = "{room} °F"
[flour]
temperature = "{flour} °F"
[tap]
temperature = "{tap} °F"
[mixer]
friction = {{ value = "{friction} °F", how = "measured" }}
"""


def water_of(desired: float, bench: str, *, starter: bool = False) -> Water:
    more = '\n  { mix = "starter", amount = "all" },' if starter else ""
    text = DOUGH.format(desired=desired, more=more, rest=STARTER if starter else "")
    return water(read_recipe(text).recipe, surroundings(read_kitchen(bench).kitchen))


def fahrenheit(made: Water) -> float:
    return made.water_temperature * 9.0 / 5.0 + 32.0


@pytest.mark.outside(
    source="trade magazine column 6/2018; baking course notes; home site (rows 22)", how="identity"
)
@pytest.mark.parametrize(
    ("desired", "room", "flour", "friction", "answer"),
    [(80, 65, 75, 35, 65), (75, 65, 65, 8, 87), (78, 60, 70, 16, 88)],
)
def test_worked_examples_of_the_trades_sum(
    desired: float, room: float, flour: float, friction: float, answer: float
) -> None:
    """3 x 80 - 65 - 75 - 35 is 65 °F, and two more, as printed."""
    assert fahrenheit(water_of(desired, kitchen(room, flour, friction))) == pytest.approx(answer, abs=1e-6)


@pytest.mark.outside(
    source="a cookery magazine: 4 x 75 - 3 x 71 - 20 is 67 °F with a starter (row 22)", how="identity"
)
def test_a_worked_example_with_a_starter() -> None:
    """Its friction of 20 °F is on a sum of four: 15 °F on the kitchen's sum of three."""
    made = water_of(75, kitchen(71, 71, 15), starter=True)
    assert fahrenheit(made) == pytest.approx(67.0, abs=0.1)


@pytest.mark.outside(source="a distributor's ice table, lb of ice to lb of water (row 23)", how="predicted")
@pytest.mark.parametrize(
    ("tap", "wanted", "ice"),
    [(70, 50, 0.109), (80, 40, 0.206), (60, 30, 0.172), (32, 0, 0.222), (70, 40, 0.163), (80, 60, 0.103)],
)
def test_the_ice_table(tap: float, wanted: float, ice: float) -> None:
    """One pound of water, ice taking the place of some of it; to 0.003 lb."""
    made = water_of(75, kitchen(75, 75, 75 - wanted, tap))
    assert fahrenheit(made) == pytest.approx(wanted, abs=1e-6)
    assert made.ice / 0.45359237 == pytest.approx(ice, abs=0.003)


@pytest.mark.outside(
    source="heat capacities by a textbook: flour .44 and water .56 of the heat of a dough at 62 %",
    how="predicted",
)
def test_flour_and_water_do_not_weigh_a_third_each() -> None:
    """5 °C of flour take about 5 x .44 / .56 = 3.9 K off the water, not 5."""
    text = DOUGH.format(desired=75, more="", rest="").replace("1 lb", "620 g")
    cool, warm = (
        water(read_recipe(text).recipe, surroundings(read_kitchen(kitchen(68, flour, 20)).kitchen)).methods
        for flour in (68, 77)
    )
    assert cool[1].water_temperature - warm[1].water_temperature == pytest.approx(3.9, abs=0.4)
    assert cool[0].water_temperature - warm[0].water_temperature == pytest.approx(5.0, abs=1e-6)
