"""Amounts in spoons and cups, through the ingredient's own measure."""

from __future__ import annotations

import pytest

from doughwright.ingredients import find, household_mass
from doughwright.publish.card import in_measures
from doughwright.units import parse_amount


@pytest.mark.outside(
    source="USDA SR28: a cup of water weighs 237 g, a tablespoon of oil 13.6 g", how="identity"
)
@pytest.mark.parametrize(
    ("item", "kilograms", "measure"),
    [
        ("water", 0.237, "1 cup"),
        ("water", 0.474, "2 cups"),
        ("water", 0.0593, "¼ cup"),
        ("olive oil", 0.0135, "1 tbsp"),
    ],
)
def test_a_mass_is_said_in_the_measure_that_fits_it(item: str, kilograms: float, measure: str) -> None:
    """Cups from a quarter cup up, then spoons."""
    said = in_measures(find(item), kilograms)
    assert said is not None
    assert said.replace("\u00a0", " ") == measure


def test_what_has_no_measure_says_nothing() -> None:
    """Bacon is not spooned; a crumb of yeast fits no spoon."""
    assert in_measures(find("bacon"), 0.1) is None
    assert in_measures(find("instant yeast"), 0.0001) is None


@pytest.mark.property
@pytest.mark.parametrize("item", ["bread flour", "water", "salt, fine", "sugar, granulated", "instant yeast"])
@pytest.mark.parametrize("grams", [3.0, 9.0, 45.0, 180.0, 500.0, 1500.0])
def test_the_measure_is_near_the_mass(item: str, grams: float) -> None:
    """Read back it is within a fifth: half-way between ½ and ¾ of a spoon is the worst."""
    said = in_measures(find(item), grams / 1000.0)
    assert said is not None
    amount = parse_amount(said.replace("\u00a0", " "))
    assert amount.volume is not None
    back = household_mass(find(item), volume_m3=amount.volume).kg
    assert back * 1000.0 == pytest.approx(grams, rel=0.2)
