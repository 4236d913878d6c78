"""The tables hold together: every row has a source, a class and a name, and blank stays unknown."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from doughwright.ingredients import Ingredient, _allergens, find
from doughwright.ingredients._rows import DATA, rows_of
from doughwright.ingredients._tables import catalogue
from doughwright.ingredients.model import Class

# The table's own: acids, alkaloids and salts that no column counts, and one cheese that adds up to 101.9.
ODD_SUMS = {
    "baking_soda",
    "vinegar_cider",
    "vinegar_distilled",
    "vinegar_red_wine",
    "vinegar_balsamic",
    "black_pepper",
    "goat_cheese_soft",
}
EVERY = sorted(catalogue())


def plain_rows(name: str) -> list[dict[str, str]]:
    with Path(DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def sum_of_parts(one: Ingredient) -> float:
    parts = (one.water, one.protein, one.fat, one.carbohydrate, one.ash, one.alcohol)
    return sum(part or 0.0 for part in parts)


def test_the_public_table_is_all_there() -> None:
    """221 foods and 621 household measures, as it was drawn from the release."""
    assert (len(plain_rows("sr_subset")), len(plain_rows("sr_weights"))) == (221, 621)


def test_every_row_of_composition_has_facts_and_no_facts_are_left_over() -> None:
    """A new row needs its name, class and allergens in facts.csv."""
    composition = {row["key"] for table in ("sr_subset", "own") for row in rows_of(table)}
    assert {row["key"] for row in rows_of("facts")} == composition


@pytest.mark.parametrize("table", ["sr_subset", "own", "facts", "yeast"])
def test_a_key_stands_once_in_a_table(table: str) -> None:
    """A second row of the same key would silently win."""
    keys = [row["key"] for row in rows_of(table)]
    assert len(keys) == len(set(keys))


def test_every_ingredient_and_every_measure_names_its_source() -> None:
    """The public table's number, or our own reason, or the word "assumed"."""
    silent = [key for key, one in catalogue().items() if not one.source]
    silent += [f"{key}: {m.name}" for key, one in catalogue().items() for m in one.measures if not m.source]
    assert silent == []


@pytest.mark.parametrize("table", ["own", "measures", "spreads", "yeast"])
def test_every_own_row_names_its_source(table: str) -> None:
    """A bare figure of ours is not evidence of anything."""
    assert [row for row in rows_of(table) if not row["source"]] == []


def test_what_is_assumed_or_remembered_says_so() -> None:
    """Our own rows are computed, assumed, from memory, or name the row of the public table."""
    words = ("assumed", "from memory", "computed", "USDA SR28 NDB", "by definition", "published conversion")
    wrong = [row for table in ("own", "measures", "spreads", "yeast") for row in rows_of(table)
             if not any(word in row["source"] for word in words)]  # fmt: skip
    assert wrong == []


@pytest.mark.parametrize("key", EVERY)
def test_the_parts_add_up_to_a_hundred(key: str) -> None:
    """Water, protein, fat, carbohydrate, ash and alcohol are all there is, but for seven known rows."""
    assert abs(sum_of_parts(catalogue()[key]) - 100.0) <= 1.0 or key in ODD_SUMS


def test_the_odd_sums_are_odd() -> None:
    """A row that has come right leaves the list."""
    assert {key for key, one in catalogue().items() if abs(sum_of_parts(one) - 100.0) > 1.0} == ODD_SUMS


def test_a_blank_stays_unknown() -> None:
    """Trap T1: 102 foods of the public table have no trans fat, 14 no sugars, 9 no vitamin D."""
    table = [one for one in catalogue().values() if one.source.startswith("USDA SR28")]
    unknown = [
        sum(getattr(one, part) is None for one in table) for part in ("trans", "sugars", "vitamin_d_ug")
    ]
    assert unknown == [102, 14, 9]


def test_nothing_is_below_zero_or_above_the_whole() -> None:
    """Composition is in per cent."""
    parts = ("water", "protein", "fat", "carbohydrate", "fibre", "sugars", "ash", "refuse_percent")
    wrong = [(key, part) for key, one in catalogue().items() for part in parts
             if (value := getattr(one, part)) is not None and not 0.0 <= value <= 100.0]  # fmt: skip
    assert wrong == []


def test_allergens_are_members_of_the_lists() -> None:
    """Each is one of the American nine, or of the European fourteen, its kind in brackets."""
    for key, one in catalogue().items():
        assert {name.partition(" (")[0] for name in one.allergens_us} <= set(_allergens.US), key
        assert {name.partition(" (")[0] for name in one.allergens_eu} <= set(_allergens.EU), key
    assert (len(_allergens.US), len(_allergens.EU)) == (9, 14)


def test_the_words_for_allergens_are_members_of_the_lists() -> None:
    """What a cook may write in a document leads to the same lists."""
    for row in rows_of("allergens"):
        assert row["us"].partition(" (")[0] in {*_allergens.US, ""}, row
        assert row["eu"].partition(" (")[0] in {*_allergens.EU, ""}, row


def test_an_allergen_of_one_list_is_on_the_other_but_for_the_known_differences() -> None:
    """Rye, barley and oats are European only; the pine nut is American only."""
    only_eu = {key for key, one in catalogue().items() if one.allergens_eu and not one.allergens_us}
    only_us = {key for key, one in catalogue().items() if one.allergens_us and not one.allergens_eu}
    assert only_us == {"pine_nuts"}
    assert only_eu == {
        "flour_rye_dark", "flour_rye_medium", "flour_rye_light", "flour_barley",
        "flour_barley_malt_diastatic_type", "oats", "oats_rolled", "syrup_malt", "beer_regular",
    }  # fmt: skip


def test_gluten_nuts_and_fish_are_named_by_kind() -> None:
    """A label has to name the cereal, the nut and the fish."""
    needs_kind = {"cereals containing gluten", "nuts", "tree nuts", "crustacean shellfish"}
    every = {name for one in catalogue().values() for name in (*one.allergens_us, *one.allergens_eu)}
    assert every & needs_kind == set()


def test_whatever_the_public_table_notes_is_kept() -> None:
    """Where it notes an allergen, ours names one or sends the cook to the label."""
    for row in rows_of("sr_subset"):
        one = catalogue()[row["key"]]
        if row["allergen_us_note"] or row["allergen_eu_note"]:
            assert one.allergens_us or one.allergens_eu or one.check_label, row["key"]
        if row["allergen_eu_note"].startswith("cereals"):
            assert any(name.startswith("cereals containing gluten (") for name in one.allergens_eu), row[
                "key"
            ]


def test_flour_is_everything_of_the_class_flour() -> None:
    """Gluten and malt flour count as flour; grains, bran and starter do not."""
    flour = {key for key, one in catalogue().items() if one.class_ is Class.FLOUR}
    assert {"flour_bread_enriched", "vital_wheat_gluten", "flour_barley_malt_diastatic_type"} <= flour
    assert flour.isdisjoint({"wheat_bran", "oats_rolled", "sourdough_starter", "potato_flakes_dehydrated"})


def test_water_and_milk_only_are_poured() -> None:
    """The hydration most bakers quote counts no egg, cream or beer."""
    poured = {one.name for one in catalogue().values() if one.poured}
    assert poured == {"water", "drinking water", "ice", "milk, whole", "milk, semi-skimmed", "milk, skimmed"}


def test_milk_sugar_is_no_sugar_to_yeast() -> None:
    """Milk, cream, cheese and butter bring lactose only; malt syrup and honey bring sugar."""
    milky = {one.class_ for one in catalogue().values() if one.milk_sugar}
    assert milky == {Class.MILK, Class.DAIRY, Class.CHEESE, Class.FAT}
    assert catalogue()["milk_whole"].sugar_without_lactose == 0.0
    assert catalogue()["honey"].sugar_without_lactose == 82.12


def test_chemical_raising_and_sourdough_are_out_of_scope() -> None:
    """They parse and count, and the models say that they do not know them."""
    out = {key: one.out_of_scope for key, one in catalogue().items() if one.out_of_scope}
    assert out == {
        "flour_self_rising": "chemical raising",
        "baking_powder_sas": "chemical raising",
        "baking_soda": "chemical raising",
        "sourdough_starter": "sourdough culture",
    }


def test_half_a_starter_is_flour() -> None:
    """Its water that counts is the water poured in, not the flour's own."""
    starter = catalogue()["sourdough_starter"]
    assert (starter.flour_fraction, starter.water_not_of_flour) == (0.5, 50.0)
    assert catalogue()["flour_bread_enriched"].water_not_of_flour == 0.0


def test_salt_is_all_of_a_salt_and_sodium_times_254_elsewhere() -> None:
    """Unknown sodium is unknown salt."""
    assert catalogue()["salt_table"].salt == 100.0
    assert catalogue()["butter_salted"].salt == pytest.approx(1.633, abs=0.001)


def test_every_volume_is_a_believable_density() -> None:
    """Nothing in a kitchen is lighter than leaves in a cup or heavier than syrup and salt."""
    wrong = {
        key: one.density for key, one in catalogue().items() if one.density and not 50 < one.density < 1500
    }
    assert wrong == {}


@pytest.mark.parametrize(
    "name", ["sunflower seeds", "pumpkin seeds", "pine nuts", "walnuts", "almonds", "pistachios"]
)
def test_nothing_is_cut_away_from_what_is_bought_shelled(name: str) -> None:
    """The table's refuse is the shell; the ingredient says so."""
    assert find(name).refuse_percent == 0
    assert "shell" in (find(name).caution or "")
