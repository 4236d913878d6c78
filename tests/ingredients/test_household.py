"""Spoons, cups and counts: only through the ingredient's own measure, with its source and spread."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright import units
from doughwright.errors import InputError, OutOfRangeError, UnknownNameError
from doughwright.ingredients import find, household_mass
from doughwright.ingredients._labels import volume_of
from doughwright.ingredients._tables import catalogue


@pytest.mark.parametrize(
    ("name", "measure", "count", "grams"),
    [
        ("eggs", "large", 1, 50),
        ("eggs", "large egg", 2, 100),
        ("eggs", "extra large", 1, 56),
        ("eggs", "egg", 3, 150),
        ("egg yolks", "yolk", 2, 34),
        ("garlic", "clove", 2, 6),
        ("garlic", "cloves", 3, 9),
        ("instant yeast", "packet", 1, 7.2),
        ("instant yeast", "sachet", 1, 7.2),
        ("fresh yeast", "cube", 1, 42),
        ("onions", "medium", 1, 110),
        ("onions", "medium onion", 1, 110),
        ("onions", "slice", 1, 14),
        ("mozzarella", "slice", 1, 28),
        ("leeks", "leek", 2, 178),
        ("provolone", "slice", 1, 28),
        ("bacon", "rasher", 2, 56),
        ("anchovies", "anchovy", 5, 20),
        ("butter", "stick", 1, 113),
        ("tomato puree", "tin", 1, 170),
        ("fresh mozzarella", "ball", 2, 250),
        ("basil", "leaf", 10, 5),
        ("ice", "cube", 3, 63.9),
    ],
)
def test_a_count_goes_through_the_measure_of_that_name(
    name: str, measure: str, count: float, grams: float
) -> None:
    """Sizes, pieces, packets and tins, in the words a cook uses."""
    assert household_mass(find(name), measure=measure, count=count).kg == pytest.approx(grams / 1000)


@pytest.mark.parametrize(
    ("name", "volume", "grams"),
    [
        ("water", "1 l", 1000),
        ("milk", "1 cup", 244),
        ("honey", "1 tbsp", 21),
        ("rapeseed oil", "1 tbsp", 14),
        ("salt, table", "1 tsp", 6),
        ("salt, fine", "1 tsp", 5.5),
        ("sugar", "1 cup", 200),
        ("brown sugar", "1 cup", 220),
        ("cream", "1 cup", 238),
        ("sesame seeds", "1 tbsp", 9),
    ],
)
def test_a_volume_goes_through_the_nearest_measure(name: str, volume: str, grams: float) -> None:
    """A spoon through the spoon, a cup through the cup."""
    mass = household_mass(find(name), volume_m3=units.parse_volume(volume))
    assert mass.kg * 1000 == pytest.approx(grams, rel=0.001)


def test_a_teaspoon_of_active_dry_yeast_is_a_packet_shared_out() -> None:
    """Trap T3: 7 g over 2 1/4 teaspoons is 3.1 g; the table's own 4 g is inside two spreads and a half."""
    mass = household_mass(find("active dry yeast"), volume_m3=units.parse_volume("1 tsp"))
    assert mass.kg * 1000 == pytest.approx(3.1)
    assert abs(4.0 - 3.1) < 2.5 * mass.spread_kg * 1000
    assert "packet" in mass.source or "1/4 oz" in mass.source
    assert "weigh" in (find("active dry yeast").caution or "")


@pytest.mark.parametrize(
    ("salt", "low", "high"),
    [("salt, table", 6, 6), ("salt, fine", 5, 6), ("salt, coarse", 4.8, 5), ("salt, flakes", 2.8, 3)],
)
def test_salts_differ_by_the_spoon_but_not_by_weight(salt: str, low: float, high: float) -> None:
    """A spoon of flakes holds half the salt of a spoon of table salt; a gram is a gram."""
    mass = household_mass(find(salt), volume_m3=units.parse_volume("1 tsp"))
    assert low <= round(mass.kg * 1000, 6) <= high
    assert find(salt).sodium_mg == 38758


def test_a_cup_of_flour_is_dipped_unless_it_is_said_to_be_spooned() -> None:
    """Trap T4: 137 g dipped, 120 g spooned; the spread reaches from 120 to 150 g nine times in ten."""
    cup = household_mass(find("bread flour"), measure="cup")
    spooned = household_mass(find("bread flour"), measure="cup, spooned")
    assert (cup.kg, spooned.kg) == pytest.approx((0.137, 0.120))
    assert 2 * 1.645 * cup.spread_kg == pytest.approx(0.030, rel=0.01)


@pytest.mark.parametrize(
    ("name", "measure", "grams"),
    [("potatoes", "small", 92), ("russet potatoes", "small", 92), ("French bread", "slice", 25)],
)
def test_odd_weights_of_the_table_are_put_right_and_said(name: str, measure: str, grams: float) -> None:
    """Trap T4: a small potato of 170 g and a slice of bread of 139 g."""
    mass = household_mass(find(name), measure=measure)
    assert mass.kg * 1000 == pytest.approx(grams)
    assert "the table's" in mass.source
    assert find(name).caution


def test_a_cup_of_mozzarella_is_shredded_and_as_it_was_weighed() -> None:
    """Trap T4: 86 g, weighed 32 times; the table's other figure, 113 g, is the top of the range."""
    cup = household_mass(find("mozzarella"), volume_m3=units.parse_volume("1 cup"))
    assert cup.kg * 1000 == pytest.approx(86)
    assert "113 g" in cup.source
    assert household_mass(find("mozzarella"), measure="cup, diced").kg * 1000 == pytest.approx(132)


@pytest.mark.parametrize(
    ("name", "amount", "grams"),
    [
        ("salt", "1 pinch", 0.35),
        ("salt, table", "1 dash", 0.4),
        ("salt, table", "1/8 tsp", 0.75),
        ("salt, flakes", "1/8 tsp", 0.3625),
        ("tomatoes", "1 cup", 180),
        ("cheddar", "1 cup", 113),
        ("onions", "1 cup", 160),
        ("brown sugar", "2 tbsp", 27.6),
        ("potatoes", "1 cup", 150),
        ("fennel seeds", "1 pinch", 0.125),
        ("butter", "1/2 cup", 113.5),
    ],
)
def test_an_amount_as_it_is_written(name: str, amount: str, grams: float) -> None:
    """The measure's word and its volume together, as the recipe passes them on."""
    read = units.parse_amount(amount)
    mass = household_mass(find(name), volume_m3=read.volume, measure=read.measure)
    assert mass.kg * 1000 == pytest.approx(grams, rel=1e-3)


def test_a_packing_can_be_named() -> None:
    """Sliced onion is lighter by the cup than chopped."""
    onions = find("onions")
    assert (
        household_mass(onions, measure="cup, sliced").kg < household_mass(onions, measure="cup, chopped").kg
    )
    assert household_mass(onions, measure="sliced cup").kg == household_mass(onions, measure="cup, sliced").kg


def test_a_measured_spread_is_the_tables_own() -> None:
    """360 slices of bacon were weighed: 28 g with a standard deviation of 5.235 g."""
    mass = household_mass(find("bacon"), measure="slice", count=4)
    assert mass.spread_kg == pytest.approx(4 * 0.005235)
    assert "n = 360" in mass.how


def test_a_measure_it_has_not_is_refused_with_those_it_has() -> None:
    """No general density is ever used in its place."""
    with pytest.raises(UnknownNameError) as caught:
        household_mass(find("leeks"), measure="packet")
    assert '"leek"' in (caught.value.fault.try_ or "")
    assert "packet" in (caught.value.fault.found or "")


def test_a_volume_of_what_has_no_volume_is_refused() -> None:
    """A gouda has an ounce and a package, but no cup."""
    with pytest.raises(UnknownNameError, match="gouda"):
        household_mass(find("gouda"), volume_m3=1e-4)


def test_neither_a_volume_nor_a_measure_is_refused() -> None:
    """Three of what?"""
    with pytest.raises(InputError):
        household_mass(find("leeks"), count=3)


@pytest.mark.parametrize("volume", [-1e-6, math.nan, math.inf])
def test_an_impossible_volume_is_refused(volume: float) -> None:
    """Below nothing, or not a number."""
    with pytest.raises(OutOfRangeError):
        household_mass(find("water"), volume_m3=volume)


def test_nothing_weighs_nothing() -> None:
    """An empty spoon."""
    assert household_mass(find("water"), volume_m3=0.0).kg == 0.0


def test_every_measure_of_every_ingredient_can_be_asked_for_by_its_name() -> None:
    """And answers with a mass above nothing, a spread, and its source."""
    for one in catalogue().values():
        for measure in one.measures:
            mass = household_mass(one, measure=measure.name)
            assert mass.kg > 0, (one.key, measure.name)
            assert mass.spread_kg > 0, (one.key, measure.name)
            assert mass.source, (one.key, measure.name)


@pytest.mark.property
@given(st.sampled_from(sorted(key for key, one in catalogue().items() if one.density)), st.floats(1e-7, 1e-2))
def test_twice_the_volume_weighs_about_twice(key: str, volume: float) -> None:
    """Spoon and cup of one food differ by packing, never by a whole unit; herbs and slices by the most."""
    one = catalogue()[key]
    ratio = household_mass(one, volume_m3=2 * volume).kg / household_mass(one, volume_m3=volume).kg
    assert 0.9 < ratio < 4.4


def test_what_spoons_and_cups_hold_comes_from_the_units() -> None:
    """The public table writes US customary measures."""
    assert volume_of("cup") == pytest.approx(236.5882365e-6)
    assert volume_of("tsp") == pytest.approx(4.92892159375e-6)
