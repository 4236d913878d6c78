"""The formula and scaling against hand calculations, geometry and the trade's own arithmetic."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from doughwright.recipe.formula import Dough, formula
from doughwright.recipe.read import read_recipe
from doughwright.recipe.scaling import scale


@dataclass(frozen=True)
class Kitchen:
    name: str = "test"
    scale: float = 0.001
    scale_known: bool = True


BUN = """schema = 1
title = "Milk and egg bun"
[makes]
pieces = 12
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "500 g" },
  { item = "milk, whole", amount = "200 g" },
  { item = "egg, whole", amount = "100 g" },
  { item = "butter, unsalted", amount = "60 g" },
  { item = "sugar, granulated", amount = "50 g" },
  { item = "salt, fine", amount = "9 g" },
  { item = "instant yeast", amount = "7 g" },
]
"""
ROUND = """schema = 1
title = "Round"
[makes]
pieces = 1
diameter = "12 in"
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "200 g" },
  { item = "water", amount = "126 g" },
  { item = "salt, fine", amount = "4 g" },
  { item = "instant yeast", amount = "1 g" },
]
"""


def dough_of(text: str) -> Dough:
    return formula(read_recipe(text).recipe, Kitchen()).doughs[0]


@pytest.mark.outside(
    source="USDA SR28 (NDB 01077, 01123, 01145, 19335, 18375, 02047), by hand", how="identity"
)
def test_a_milk_and_egg_bun_agrees_with_a_hand_calculation() -> None:
    """Per 500 g of flour, grams in 100 g from the table.

    Water: milk 200 x .8813 = 176.26; egg 100 x .7615 = 76.15; butter 60 x .1794 = 10.764;
    sugar 50 x .0002 = .01; salt 9 x .002 = .018; yeast 7 x .0508 = .3556: 263.56 g, 52.71 %.
    Poured: milk 200 g, 40.00 %.
    Sodium: milk 86.0, egg 142.0, butter 6.6, sugar .5, yeast 3.57 mg: 238.67 mg x 2.54 = .6062 g of salt, and
    9 g: 1.921 %.
    Sugar without lactose: sugar 49.90, egg .37: 50.27 g, 10.05 %.
    Fat: milk 6.50, egg 9.51, butter 48.666, yeast .5327: 65.21 g, 13.04 %.
    Yeast: 7 / .35 = 20 g as fresh, 4.00 %. Mass 926 g, a twelfth 77.17 g.
    """
    dough = dough_of(BUN)
    assert dough.water.value == pytest.approx(263.56, abs=0.005)
    assert dough.hydration.value == pytest.approx(52.71, abs=0.005)
    assert dough.hydration_poured.value == pytest.approx(40.00, abs=0.005)
    assert dough.salt.value == pytest.approx(1.921, abs=0.0005)
    assert dough.sugar.value == pytest.approx(10.05, abs=0.005)
    assert dough.fat.value == pytest.approx(13.04, abs=0.005)
    assert dough.yeast_as_fresh.value == pytest.approx(4.00, abs=0.005)
    assert dough.mass.value == pytest.approx(926.0)
    assert dough.piece_mass.value == pytest.approx(77.17, abs=0.005)


@pytest.mark.outside(source="geometry, pi d2/4; 12 to 14 in 1.3611, 12 to 16 in 1.7778", how="identity")
@pytest.mark.parametrize(("inches", "factor"), [(14, 1.3611), (16, 1.7778)])
def test_a_wider_pan_takes_the_dough_of_its_area(inches: int, factor: float) -> None:
    """Half the last printed digit; the loading stays."""
    made = scale(read_recipe(ROUND), diameter=inches * 0.0254)
    assert made.factor == pytest.approx(factor, abs=0.00005)
    after = dough_of(made.document)
    assert after.flour.value == pytest.approx(200.0 * factor, abs=0.01)
    assert after.loading.value == pytest.approx(dough_of(ROUND).loading.value, rel=1e-6)
    assert f'diameter = "{inches} in"' in made.document


@pytest.mark.outside(source="geometry: a round of 12 in is 113.10 square inches", how="identity")
def test_loading_is_over_the_area_of_the_round() -> None:
    """331 g over 113.10 x 6.4516 cm2 = 729.7 cm2: 0.4536 g/cm2."""
    assert dough_of(ROUND).loading.value == pytest.approx(0.4536, abs=0.00005)


@pytest.mark.outside(source="the trade's definition of baker's percentage", how="identity")
def test_bakers_percentages_are_mass_over_all_flour() -> None:
    """Flour 100, water 63, salt 2, yeast .5: they add to the formula's total of 165.5."""
    entries = dough_of(ROUND).ingredients
    assert [round(entry.percent.value, 9) for entry in entries] == [100.0, 63.0, 2.0, 0.5]
    whole = sum(entry.percent.value for entry in entries)
    assert whole == pytest.approx(165.5)
    assert dough_of(ROUND).mass.value * 100.0 / whole == pytest.approx(200.0)


@pytest.mark.outside(
    source="EU Reg. 97/2010 and makers' rules: 1.8 kg flour, 1 L water, 50 g salt, 3 g yeast", how="identity"
)
def test_a_published_formula_comes_out_at_its_published_percentages() -> None:
    """Yeast 0.17 %; water 55.6 % and salt 2.8 % by division."""
    text = ROUND.replace('"200 g"', '"1.8 kg"').replace('"126 g"', '"1 l"').replace('"4 g"', '"50 g"')
    text = text.replace('item = "instant yeast", amount = "1 g"', 'item = "fresh yeast", amount = "3 g"')
    dough = dough_of(text)
    assert dough.yeast_as_fresh.value == pytest.approx(0.17, abs=0.005)
    assert dough.hydration_poured.value == pytest.approx(55.6, abs=0.2)
    assert dough.salt.value == pytest.approx(2.8, abs=0.05)


@pytest.mark.outside(
    source="Gisslen 1 : 0.50 : 0.35; another bread text 1 : 0.40 : 0.33; a packet rule 0.375 to 0.41",
    how="tuned",
)
@pytest.mark.parametrize(
    ("form", "low", "high"), [("active dry yeast", 0.375, 0.50), ("instant yeast", 0.33, 0.35)]
)
def test_dry_yeasts_stand_for_as_much_fresh_yeast_as_published_tables_say(
    form: str, low: float, high: float
) -> None:
    """The interval holds the whole span of the tables."""
    text = ROUND.replace('item = "instant yeast", amount = "1 g"', f'item = "{form}", amount = "1 g"')
    yeast = dough_of(text).yeast_as_fresh
    assert yeast.low <= 0.5 / high * 1.02
    assert yeast.high >= 0.5 / low
