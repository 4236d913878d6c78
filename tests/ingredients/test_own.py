"""A cook's own ingredients: other figures, or a row of the document."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import InputError, OutOfRangeError, UnknownNameError
from doughwright.ingredients import Class, find, from_table, household_mass, with_overrides
from doughwright.ingredients._tables import catalogue
from tests.ingredients.test_tables import sum_of_parts

FLOURS = sorted(key for key, one in catalogue().items() if one.class_ is Class.FLOUR)


def test_the_protein_of_a_flour_is_made_up_by_its_carbohydrate() -> None:
    """11.98 % protein and 72.53 % carbohydrate become 12.4 and 72.11."""
    flour = with_overrides(find("bread flour"), protein=12.4, source="the bag")
    assert flour.protein == 12.4
    assert flour.carbohydrate == pytest.approx(72.11)
    assert flour.source == "USDA SR28 NDB 20083; protein from the bag"


def test_other_water_leaves_the_dry_parts_in_proportion() -> None:
    """13.36 % water become 20: every dry part is 80 / 86.64 of what it was, energy too."""
    flour = with_overrides(find("bread flour"), water=20.0)
    assert flour.protein == pytest.approx(11.98 * 80 / 86.64)
    assert flour.iron_mg == pytest.approx(4.41 * 80 / 86.64)
    assert flour.energy_kcal == pytest.approx(361 * 80 / 86.64)
    assert flour.trans is None


@pytest.mark.property
@given(st.sampled_from(FLOURS), st.floats(6, 16), st.floats(5, 18))
def test_a_flour_with_other_figures_still_adds_up(key: str, water: float, protein: float) -> None:
    """Whatever the bag says, water and protein, in the one order or the other."""
    before = catalogue()[key]
    after = with_overrides(before, water=water, protein=protein)
    assert (after.water, after.protein) == (water, protein)
    if (after.carbohydrate or 0) > 0:
        drier = (100 - water) / (100 - (before.water or 0))
        expected = water + drier * (sum_of_parts(before) - (before.water or 0))
        assert sum_of_parts(after) == pytest.approx(expected)


def test_energy_follows_the_tables_own_factors() -> None:
    """Bread flour with 12.4 % protein: 12.4 x 4.05 + 1.66 x 8.37 + 72.11 x 4.12."""
    assert with_overrides(find("bread flour"), protein=12.4).energy_kcal == pytest.approx(361.21, abs=0.01)


def test_energy_that_does_not_follow_is_unknown() -> None:
    """Never the old figure for a new food."""
    assert with_overrides(find("fresh mozzarella"), fat=17.0).energy_kcal is None


def test_salt_is_kept_as_sodium() -> None:
    """2 % salt are 787 mg sodium in 100 g."""
    butter = with_overrides(find("butter"), salt=2.0)
    assert butter.sodium_mg == pytest.approx(787.4, abs=0.1)
    assert butter.salt == pytest.approx(2.0)


def test_a_density_takes_the_place_of_the_spoons() -> None:
    """The cook's own figure is used for every volume, with its source; counts stay."""
    honey = with_overrides(find("honey"), density=1500.0, source="weighed")
    mass = household_mass(honey, volume_m3=1e-5)
    assert (mass.kg, mass.source) == (pytest.approx(0.015), "weighed")
    assert mass.spread_kg == pytest.approx(0.06 * 0.015)
    assert household_mass(honey, measure="packet").kg == pytest.approx(0.014)


@pytest.mark.parametrize("value", [-1.0, 100.1, math.nan, math.inf])
def test_an_impossible_share_is_refused(value: float) -> None:
    """Below nothing, above all, not a number."""
    with pytest.raises(OutOfRangeError):
        with_overrides(find("bread flour"), protein=value)


def test_parts_that_are_more_than_the_whole_are_refused() -> None:
    """90 % water leave no room for 30 % fat."""
    with pytest.raises(OutOfRangeError, match="100 %"):
        with_overrides(find("cream"), water=90.0, fat=30.0)


def test_more_sugars_than_carbohydrate_are_refused() -> None:
    """The whole is named."""
    with pytest.raises(OutOfRangeError, match="carbohydrate"):
        with_overrides(find("honey"), sugars=95.0)


def test_an_unknown_figure_is_answered() -> None:
    """With what was meant."""
    with pytest.raises(UnknownNameError, match='Did you mean "protein"'):
        with_overrides(find("bread flour"), protien=12.0)


def test_an_ingredient_of_the_document_like_one_of_ours() -> None:
    """Takes over what is not said, and says where each comes from."""
    own = from_table(
        "mill rye",
        source="the mill's sheet",
        like=find("rye flour, dark"),
        protein=9.0,
        measures={"cup": 110.0},
    )
    assert (own.key, own.class_, own.protein, own.fibre) == ("own:mill rye", Class.FLOUR, 9.0, 23.8)
    assert own.source == "the mill's sheet, else USDA SR28 NDB 20063"
    mass = household_mass(own, measure="cup")
    assert (mass.kg, mass.source) == (0.110, "the mill's sheet")


def test_a_measure_of_the_document_stands_beside_its_density() -> None:
    """Both are the cook's own figures."""
    own = from_table("syrup", source="weighed", class_="sugar", density=1400.0, measures={"tbsp": 22.0})
    assert own.density == 1400.0
    assert household_mass(own, measure="tbsp").kg == pytest.approx(0.022)


def test_an_ingredient_of_the_document_of_a_class_only() -> None:
    """What it does not say is unknown, the allergens too."""
    own = from_table("pumpkin purée", source="the tin", class_="vegetable", water=90.0)
    assert (own.water, own.fat, own.allergens_us) == (90.0, None, ())
    assert own.check_label == "allergens not said in the document"


def test_allergens_of_the_document_go_to_both_lists() -> None:
    """The cook's word, the lists' members."""
    own = from_table("mix", source="the bag", class_=Class.FLOUR, allergens=["rye", "wheat", "pine nuts"])
    assert own.allergens_us == ("wheat", "tree nuts (pine nut)")
    assert own.allergens_eu == ("cereals containing gluten (rye)", "cereals containing gluten (wheat)")
    assert own.check_label is None


@pytest.mark.parametrize(
    ("what", "error"),
    [
        ({}, InputError),
        ({"class_": "flower"}, UnknownNameError),
        ({"class_": "flour", "allergens": ["wheet"]}, UnknownNameError),
        ({"class_": "flour", "measures": {"cup": 0.0}}, OutOfRangeError),
        ({"class_": "flour", "measures": {"cup": math.nan}}, OutOfRangeError),
        ({"class_": "flour", "protein": 120.0}, OutOfRangeError),
    ],
)
def test_a_faulty_row_is_refused_and_says_what_to_write(
    what: dict[str, object], error: type[InputError]
) -> None:
    """No class, an unknown one, an unknown allergen, a measure of nothing, more than all."""
    with pytest.raises(error) as caught:
        from_table("mix", source="the bag", **what)  # type: ignore[arg-type]
    assert caught.value.fault.message
