"""What a scale can weigh, and the numbers of what to do where it cannot."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.recipe.formula import Entry

from .documents import RECIPE, changed
from .kitchens import GRAM, PLAIN, TENTH, Kitchen, dough_of, formula_of


def entry(item: str, amount: str, kitchen: Kitchen = GRAM) -> Entry:
    """One ingredient put in the place of the salt, judged."""
    text = PLAIN.replace(
        '{ item = "salt, fine", amount = "20 g" }', f'{{ item = "{item}", amount = "{amount}" }}'
    )
    return dough_of(text, kitchen).ingredients[2]


@pytest.mark.parametrize(
    ("item", "amount", "weighable"),
    [
        ("rye flour", "10 g", True),
        ("rye flour", "9.9 g", False),
        ("milk", "10 g", True),
        ("milk", "9.9 g", False),
        ("salt, fine", "5 g", True),
        ("salt, fine", "4.9 g", False),
        ("instant yeast", "5 g", True),
        ("instant yeast", "4.9 g", False),
        ("sugar", "5 g", True),
        ("sugar", "4.9 g", False),
        ("olive oil", "5 g", True),
        ("olive oil", "4.9 g", False),
    ],
)
def test_half_a_step_is_5_percent_of_flours_and_liquids_and_10_of_the_rest(
    item: str, amount: str, weighable: bool
) -> None:
    """On a scale of 1 g: from 10 g up, and from 5 g up."""
    assert entry(item, amount).weighable is weighable


def test_a_finer_scale_weighs_what_a_coarse_one_cannot() -> None:
    """0.8 g of yeast: not in steps of 1 g, but in steps of 0.1 g."""
    assert entry("instant yeast", "0.8 g").weighable is False
    assert entry("instant yeast", "0.8 g", TENTH).weighable is True


def test_the_batch_is_judged_not_the_piece() -> None:
    """Six pieces of 1 g are 6 g on the scale."""
    text = changed('per = "batch"', 'per = "piece"').replace("pieces = 2", "pieces = 6")
    text = text.replace('item = "leeks", amount = "180 g"', 'item = "salt, fine", amount = "1 g"')
    assert formula_of(text).others[0].ingredients[0].weighable is True


@pytest.mark.parametrize("amount", ["1 tbsp", "1 pinch", "to taste"])
def test_spoons_and_pinches_are_measured(amount: str) -> None:
    """They are not weighed, whatever the scale."""
    assert entry("salt, fine", amount).weighable == "measured"


def test_eggs_are_counted() -> None:
    """ "2 large" is measured, and says what it weighs and how far that may be off."""
    egg = entry("egg", "2 large")
    assert egg.weighable == "measured"
    assert "100 g, give or take 6 g" in egg.why


def test_a_spoon_that_could_be_weighed_says_so() -> None:
    """A tablespoon of oil is 14 g."""
    assert entry("rapeseed oil", "1 tbsp").instead == "weigh 14 g: this scale can"


def test_the_reason_gives_the_numbers() -> None:
    """How large half a step is against the amount."""
    why = entry("instant yeast", "0.8 g").why
    assert why == "half a step of a scale that shows 1 g is 62 % of 0.8 g, more than 10 %"


def test_a_dilution_gives_the_dose_and_leaves_water_for_the_dough() -> None:
    """10 g in 140 g, of which 12 g hold 0.8 g of yeast and 11.2 g of the dough's 620 g of water."""
    made = entry("instant yeast", "0.8 g").dilution
    assert made is not None
    assert (made.stir.value, made.into.value, made.take.value) == (10.0, 140.0, 12.0)
    assert made.brings.value == pytest.approx(11.2)
    assert made.water_left.value == pytest.approx(608.8)
    assert "stir 10 g of instant yeast into 140 g of water at 20 to 40 °C and weigh 12 g" in made.text


def test_what_does_not_dissolve_is_not_diluted() -> None:
    """Oil, flour and egg are no brine."""
    assert entry("olive oil", "2 g").dilution is None
    assert entry("rye flour", "2 g").dilution is None


def test_a_dilution_needs_water_in_its_own_mix() -> None:
    """A dough of milk has no water to take it from."""
    text = PLAIN.replace('item = "water"', 'item = "milk"').replace('"10 g"', '"0.8 g"')
    assert dough_of(text).ingredients[3].dilution is None


def test_a_spoon_is_offered_with_its_spread() -> None:
    """A quarter of a teaspoon of instant yeast is 0.78 g; 12 % is one standard deviation."""
    spoon = entry("instant yeast", "0.8 g").spoon
    assert spoon is not None
    assert (spoon.measure, spoon.mass.value) == ("1/4 tsp", pytest.approx(0.775))
    assert spoon.mass.low < 0.65 < 0.9 < spoon.mass.high


def test_no_spoon_is_offered_where_none_is_near() -> None:
    """0.1 g of yeast is a quarter of the smallest spoon."""
    assert entry("instant yeast", "0.1 g").spoon is None


def test_a_larger_batch_is_the_smallest_that_can_be_weighed() -> None:
    """0.8 g must become 5 g: seven times, not six."""
    assert entry("instant yeast", "0.8 g").batches == 7
    assert entry("instant yeast", "4.9 g").batches == 2


def test_a_batch_that_no_kitchen_makes_is_not_offered() -> None:
    """0.1 g would take fifty."""
    yeast = entry("instant yeast", "0.1 g")
    assert yeast.batches is None
    assert "times as much" not in (yeast.instead or "")


def test_a_finer_scale_is_named_as_the_last_way() -> None:
    """The coarsest step that does it."""
    assert (entry("instant yeast", "0.8 g").instead or "").endswith("use a scale that shows 0.1 g")
    assert entry("instant yeast", "0.1 g").scale_needed.value == pytest.approx(0.01)


def test_the_poolish_of_the_design_is_diluted_in_its_own_water() -> None:
    """0.1 g of yeast on a 1 g scale: 10 g of 5 g in 495 g, 80 g of the poolish's 90 g of water left."""
    yeast = [one for one in dough_of(RECIPE).ingredients if one.mix == "poolish"][2]
    assert yeast.dilution is not None
    assert (yeast.dilution.stir.value, yeast.dilution.into.value) == (5.0, 495.0)
    assert yeast.dilution.water_left.value == pytest.approx(80.1)


@pytest.mark.property
@given(
    st.sampled_from(["instant yeast", "fresh yeast", "salt, fine", "sugar"]),
    st.integers(2, 490),
    st.sampled_from([0.0001, 0.0005, 0.001, 0.002, 0.005]),
)
def test_every_dilution_can_be_weighed_and_gives_the_dose(item: str, hundredths: int, step: float) -> None:
    """On the scale it is for, to 1 % of the dose, taking at most half of the water."""
    wanted = hundredths / 100.0
    made = entry(item, f"{wanted} g", Kitchen(scale=step)).dilution
    if made is None:
        return
    half = step * 1000.0 / 2.0
    stir, into, take = made.stir.value, made.into.value, made.take.value
    assert half <= 0.10 * stir * (1 + 1e-9)
    assert half <= 0.05 * min(into, take) * (1 + 1e-9)
    assert take * stir / (stir + into) == pytest.approx(wanted, rel=0.0101)
    assert take <= 310.0 + 1e-9
    for grams in (stir, into, take):
        assert grams / (step * 1000.0) == pytest.approx(round(grams / (step * 1000.0)), abs=1e-6)
    assert made.water_left.value == pytest.approx(620.0 - take * into / (stir + into))


@pytest.mark.property
@given(st.integers(1, 499), st.sampled_from(["salt, fine", "rye flour", "butter", "instant yeast"]))
def test_what_cannot_be_weighed_always_has_a_way(hundredths: int, item: str) -> None:
    """At least a finer scale."""
    made = entry(item, f"{hundredths / 100.0} g")
    assert made.weighable is False
    assert made.instead
