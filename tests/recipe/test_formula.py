"""The formula: what counts as flour, water, salt, sugar and fat, and what is said where it is not known."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.figures import jsonable

from .documents import changed
from .kitchens import PLAIN, SHARES, dough_of, formula_of


def test_the_design_recipe_comes_out_as_by_hand() -> None:
    """Flour 90 + 300 + 45 = 435; water 90 + 200, and 0.0508 of 0.9 g yeast and 0.002 of 9 g salt."""
    dough = dough_of()
    assert dough.flour.value == pytest.approx(435.0)
    assert dough.water.value == pytest.approx(290.06, abs=0.005)
    assert dough.hydration.value == pytest.approx(66.68, abs=0.005)
    assert dough.hydration_poured.value == pytest.approx(66.67, abs=0.005)
    assert dough.mass.value == pytest.approx(748.9, abs=0.05)


def test_preferment_yeast_counts_in_the_dough() -> None:
    """0.9 g of instant yeast in all, over 0.35, of 435 g: 0.59 % as fresh; 10 % is one standard deviation."""
    yeast = dough_of().yeast_as_fresh
    assert yeast.value == pytest.approx(0.591, abs=0.0005)
    assert (yeast.low, yeast.high) == (pytest.approx(0.494, abs=0.0005), pytest.approx(0.688, abs=0.0005))


def test_a_piece_leaves_out_what_stays_in_the_bowl() -> None:
    """748.9 g less 1 %, in two; a round of 30 cm is 706.9 cm2."""
    dough = dough_of()
    assert (dough.pieces, dough.piece_mass.value) == (2, pytest.approx(370.7, abs=0.05))
    assert dough.loading.value == pytest.approx(0.5244, abs=0.00005)
    assert dough.loading_customary is not None
    assert "customary" in dough.loading_customary.source


def test_every_line_of_dough_and_preferment_is_listed_where_it_is_weighed() -> None:
    """The lines add up to the dough, and name the mix they are weighed in."""
    dough = dough_of()
    assert [entry.mix for entry in dough.ingredients] == ["dough"] * 4 + ["poolish"] * 3 + ["dough"] * 2
    assert sum(entry.mass.value for entry in dough.ingredients) == pytest.approx(dough.mass.value)
    flours = [entry.percent.value for entry in dough.ingredients if entry.class_ == "flour"]
    assert sum(flours) == pytest.approx(100.0)


def test_a_preferment_has_a_formula_of_its_own() -> None:
    """A poolish is as much water as flour, and holds 90 of 435 g of the flour."""
    poolish = dough_of().preferments[0]
    assert poolish.hydration_poured.value == pytest.approx(100.0)
    assert poolish.share.value == pytest.approx(20.69, abs=0.005)
    assert poolish.yeast_as_fresh.value == pytest.approx(0.317, abs=0.0005)


def test_part_of_a_preferment_counts_in_part_and_is_weighed_whole() -> None:
    """90.05 g of a poolish of 180.1 g brings half of its flour; the rest is said."""
    dough = dough_of(changed('amount = "all"', 'amount = "90.05 g"'))
    assert dough.flour.value == pytest.approx(390.0)
    flour = next(entry for entry in dough.ingredients if entry.mix == "poolish")
    assert (flour.mass.value, flour.weighed.value) == (pytest.approx(45.0), pytest.approx(90.0))
    assert any("leaves some" in note for note in dough.notes)


def test_more_of_a_preferment_than_is_made_is_said() -> None:
    """The dough takes 300 g of a poolish of 180 g."""
    dough = dough_of(changed('amount = "all"', 'amount = "300 g"'))
    assert any("more than is made" in note for note in dough.notes)


def test_dusting_and_toppings_are_outside_the_formula() -> None:
    """They are listed as other mixes, without a percentage."""
    formula = formula_of()
    assert [mix.name for mix in formula.others] == ["leeks", "dusting"]
    semolina = formula.others[1].ingredients[0]
    assert (semolina.percent.value, semolina.percent.why) == (None, "it goes into no dough")


def test_gluten_and_malt_flour_count_as_flour() -> None:
    """20 g of gluten on 1 kg makes 1020 g of flour."""
    text = PLAIN.replace(
        '{ item = "salt, fine"', '{ item = "wheat gluten", amount = "20 g" },\n  { item = "salt, fine"'
    )
    assert dough_of(text).flour.value == pytest.approx(1020.0)


def test_milk_is_poured_whole_but_brings_only_its_water() -> None:
    """A baker counts 620 g of milk as 62 %; its water is 88.13 % of that, and the yeast brings some."""
    dough = dough_of(PLAIN.replace('item = "water"', 'item = "milk"'))
    assert dough.hydration_poured.value == pytest.approx(62.0)
    assert dough.hydration.value == pytest.approx(54.64 + 0.69 + 0.004, abs=0.01)
    assert dough.sugar.value == pytest.approx(0.0, abs=0.01)


def test_salt_to_taste_leaves_salt_unknown() -> None:
    """Nothing is made up: the figure says why, and the others stand."""
    dough = dough_of(PLAIN.replace('amount = "20 g"', 'amount = "to taste"'))
    assert dough.salt.value is None
    assert "salt" in (dough.salt.why or "")
    assert dough.hydration_poured.value == pytest.approx(62.0)
    salt = dough.ingredients[2]
    assert (salt.mass.value, salt.weighable) == (None, "measured")


def test_composition_that_is_not_given_leaves_the_figure_unknown() -> None:
    """An ingredient of the cook's own that says only its class has no known water."""
    own = '\n[[ingredient]]\nname = "mash"\nsource = "my notebook"\nclass = "other"\n'
    text = PLAIN.replace(
        '{ item = "salt, fine"', '{ item = "mash", amount = "100 g" },\n  { item = "salt, fine"'
    )
    dough = dough_of(text + own)
    assert dough.hydration.value is None
    assert "mash" in (dough.hydration.why or "")
    assert dough.hydration_poured.value == pytest.approx(62.0)


def test_a_trace_that_the_source_leaves_blank_widens_the_figure() -> None:
    """The sugar of fennel seed is blank: at 0.5 % of flour it cannot be more than 0.1 %."""
    text = PLAIN.replace(
        '{ item = "salt, fine"', '{ item = "fennel seed", amount = "5 g" },\n  { item = "salt, fine"'
    )
    sugar = dough_of(text).sugar
    assert sugar.value == pytest.approx(0.0, abs=1e-6)
    assert sugar.high == pytest.approx(0.06, abs=0.01)


def test_flour_by_the_cup_gives_an_interval() -> None:
    """A cup of flour is 137 g give or take 8 %; so hydration is not one number."""
    text = PLAIN.replace('amount = "1 kg"', 'amount = "7 cups"')
    dough = dough_of(text)
    assert dough.hydration.low < dough.hydration.value < dough.hydration.high
    assert dough.hydration.high - dough.hydration.low > 10.0
    assert dough.flour.low < dough.flour.value


def test_percentages_alone_are_weighed_through_the_piece() -> None:
    """3 pieces of 260 g and 2 % loss are 795.9 g, of which 100 in 165 are flour."""
    dough = dough_of(SHARES)
    assert dough.mass.value == pytest.approx(795.92, abs=0.005)
    assert dough.flour.value == pytest.approx(482.37, abs=0.005)
    assert dough.piece_mass.value == pytest.approx(260.0)


def test_dividing_by_weight_reports_the_rest() -> None:
    """1650 g in pieces of 360 g are 4, and 210 g are left."""
    dough = dough_of(PLAIN + '\n[[step]]\ndo = "divide"\neach = "360 g"\n')
    assert (dough.pieces, dough.piece_mass.value) == (4, pytest.approx(360.0))
    assert dough.rest.value == pytest.approx(210.0)
    assert any("210 g" in note for note in dough.notes)


def test_a_piece_heavier_than_the_dough_is_unknown() -> None:
    """A dough of 1650 g gives no piece of 2 kg."""
    dough = dough_of(PLAIN + '\n[[step]]\ndo = "divide"\neach = "2 kg"\n')
    assert (dough.pieces, dough.piece_mass.value) == (0, None)
    assert "less than one piece" in (dough.piece_mass.why or "")


def test_a_divide_step_counts_before_makes() -> None:
    """Six pieces by the step, whatever [makes] says."""
    dough = dough_of(PLAIN + '\n[[step]]\ndo = "divide"\npieces = 6\n')
    assert (dough.pieces, dough.piece_mass.value) == (6, pytest.approx(275.0))


def test_a_ball_has_no_loading() -> None:
    """Null, with a reason."""
    assert (dough_of(PLAIN).loading.value, dough_of(PLAIN).loading.why) == (
        None,
        "a ball has no area of its own",
    )


def test_a_tin_is_loaded_on_its_base() -> None:
    """412.5 g on 20 by 10 cm."""
    tin = 'shape = "tin"\nlength = "20 cm"\nwidth = "10 cm"\nheight = "9 cm"'
    assert dough_of(PLAIN.replace('shape = "ball"', tin)).loading.value == pytest.approx(2.0625)


def test_a_dough_without_flour_has_no_percentages() -> None:
    """There is nothing for them to be of."""
    text = PLAIN.replace('  { item = "bread flour", amount = "1 kg" },\n', "").replace("10 g", "1 g")
    text = text.replace('item = "fresh yeast"', 'item = "honey"').replace('"20 g"', '"0.1 g"')
    dough = dough_of(text)
    assert dough.hydration.value is None
    assert dough.hydration.why == "there is no flour in it"


def test_a_piece_mass_that_is_not_what_comes_out_is_said() -> None:
    """412.5 g a piece, but 260 g written."""
    notes = dough_of(PLAIN.replace("pieces = 4", 'pieces = 4\npiece_mass = "260 g"')).notes
    assert any("412.5 g" in note and "260 g" in note for note in notes)


def test_a_culture_is_half_flour_and_half_water() -> None:
    """200 g of starter brings 100 g of each, and no water of its flour's own."""
    text = PLAIN.replace(
        '{ item = "salt, fine"', '{ item = "sourdough starter", amount = "200 g" },\n  { item = "salt, fine"'
    )
    dough = dough_of(text)
    assert dough.flour.value == pytest.approx(1100.0)
    assert dough.hydration_poured.value == pytest.approx(720 / 11)


def test_the_json_has_the_names_of_the_contract() -> None:
    """The names scripts rely on, and quantities with their units."""
    made = json.loads(json.dumps(jsonable(formula_of())))
    dough = made["doughs"][0]
    wanted = {
        "name", "flour", "water", "hydration", "hydration_poured", "salt", "sugar", "fat", "yeast_as_fresh",
        "mass", "piece_mass", "loading", "ingredients",
    }  # fmt: skip
    assert wanted <= set(dough)
    assert {"item", "mass", "percent", "weighable", "why", "instead"} <= set(dough["ingredients"][0])
    assert dough["hydration_poured"] == {"value": 66.6666666667, "unit": "percent"}
    assert {entry["weighable"] if isinstance(entry["weighable"], str) else bool(entry["weighable"])
            for entry in dough["ingredients"]} == {True, False, "measured"}  # fmt: skip


def test_the_formula_loads_no_numpy() -> None:
    """The command has to start in a quarter of a second."""
    code = (
        "import sys; from doughwright.recipe import formula, scaling, moved, read;"
        "print([name for name in ('numpy', 'scipy') if name in sys.modules])"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"


@pytest.mark.property
@given(
    water=st.floats(100.0, 2000.0),
    salt=st.floats(1.0, 100.0),
    yeast=st.floats(0.1, 50.0),
    factor=st.floats(0.1, 20.0),
)
def test_percentages_do_not_depend_on_the_amount(
    water: float, salt: float, yeast: float, factor: float
) -> None:
    """All amounts times a factor leave every percentage as it was."""

    def made(times: float) -> str:
        amounts = {"620 g": water, "20 g": salt, "10 g": yeast, "1 kg": 1000.0}
        text = PLAIN
        for written, grams in amounts.items():
            text = text.replace(f'"{written}"', f'"{grams * times:.6f} g"')
        return text

    before, after = dough_of(made(1.0)), dough_of(made(factor))
    for name in ("hydration", "hydration_poured", "salt", "sugar", "fat", "yeast_as_fresh"):
        assert getattr(after, name).value == pytest.approx(getattr(before, name).value, rel=1e-4, abs=1e-9)
    assert after.mass.value == pytest.approx(before.mass.value * factor, rel=1e-4)


@pytest.mark.property
@given(st.sampled_from(["poolish", "dough"]), st.floats(0.0, 300.0))
def test_moving_water_between_dough_and_preferment_changes_no_hydration(mix: str, grams: float) -> None:
    """Water counts wherever it goes in."""
    text = changed(
        '{ item = "water", amount = "200 g" }', f'{{ item = "water", amount = "{400 - grams:.4f} g" }}'
    )
    text = text.replace(
        '{ item = "water", amount = "90 g" }', f'{{ item = "water", amount = "{90 + grams:.4f} g" }}'
    )
    assert dough_of(text).hydration_poured.value == pytest.approx(490 / 4.35, rel=1e-6)


def test_dusting_is_no_dough_although_its_kind_is_not_said() -> None:
    """A mix is a dough when it says nothing; one that says it dusts is not."""
    formula = formula_of(
        PLAIN + '\n[[mix]]\nname = "dust"\nuse = "dusting"\n'
        'ingredients = [ { item = "semolina", amount = "20 g" } ]\n'
    )
    assert [dough.name for dough in formula.doughs] == ["dough"]
    assert [mix.name for mix in formula.others] == ["dust"]


@pytest.mark.parametrize("twice", [False, True])
def test_mixes_in_mixes_in_mixes_are_each_counted_once(twice: bool) -> None:
    """Eighty deep, each going into the next by halves of 10 g: quick, and every mix is listed once."""
    text = 'schema = 1\ntitle = "Deep"\n'
    for number in range(80):
        amounts = ["5 g", "5 g"] if twice else ["10 g"]
        uses = "".join(f'{{ mix = "m{number + 1}", amount = "{one}" }}, ' for one in amounts)
        kind = "preferment" if number else "dough"
        text += f'[[mix]]\nname = "m{number}"\nkind = "{kind}"\ningredients = [ {uses if number < 79 else ""}'
        text += '{ item = "bread flour", amount = "90 g" } ]\n'
    dough = dough_of(text)
    assert len(dough.ingredients) == 80
    assert len(dough.preferments) == 79
    assert dough.flour.value == pytest.approx(100.0, abs=1e-6)
    assert dough.preferments[0].used.value == pytest.approx(10.0)


def test_a_chain_of_four_hundred_mixes_is_read() -> None:
    """However deep, it is no crash."""
    text = 'schema = 1\ntitle = "Chain"\n'
    for number in range(400):
        use = f'{{ mix = "m{number + 1}", amount = "all" }}, ' if number < 399 else ""
        text += f'[[mix]]\nname = "m{number}"\nkind = "{"preferment" if number else "dough"}"\n'
        text += f'ingredients = [ {use}{{ item = "bread flour", amount = "1 g" }} ]\n'
    assert dough_of(text).flour.value == pytest.approx(400.0)


def test_water_counts_whole_and_what_is_like_water_by_its_own() -> None:
    """The minerals of tap water are not taken off; a whey of 93 % water brings 93 %."""
    assert dough_of(PLAIN).hydration_poured.value == pytest.approx(62.0)
    assert dough_of(PLAIN).water.value == pytest.approx(620 + 6.9 + 0.04, abs=0.05)
    whey = '\n[[ingredient]]\nname = "sour whey"\nsource = "the dairy"\nlike = "water"\nwater = "93 %"\n'
    text = PLAIN.replace('item = "water"', 'item = "sour whey"') + whey
    assert dough_of(text).water.value == pytest.approx(576.6 + 6.9 + 0.04, abs=0.05)
