"""The parts of a bake: what it lies on, what goes on it, what is raw in that, and the kitchens drawn."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.forecast.bake import bake
from doughwright.forecast.bake._draws import lanes_of, names_of
from doughwright.forecast.bake._steps import steps_in_oven
from doughwright.forecast.bake._surface import surface_of
from doughwright.forecast.bake._toppings import dressing
from doughwright.recipe.model import Recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.sampling.sobol import sobol
from tests.forecast.bake._pies import STEEL, STONE, TIN, bare, kitchen, one_go, recipe, value

BOTH = STONE + STEEL
PLAIN = '[[surface]]\nname = "old slab"\n'


@pytest.mark.parametrize(
    ("surfaces", "wanted", "material", "millimetres", "said"),
    [
        pytest.param(BOTH, "Steel", "carbon steel", 6.0, None, id="by name"),
        pytest.param(BOTH, "cordierite", "cordierite", 16.0, None, id="by material"),
        pytest.param(BOTH.replace('"steel"', '"plate"'), "steel", "carbon steel", 6.0, None, id="by kind"),
        pytest.param(STONE, "steel", "cordierite", 16.0, 'no "steel" here', id="its first one"),
        pytest.param(STONE, None, "cordierite", 16.0, "no surface is named", id="none named"),
        pytest.param("", "stone", "cordierite", 16.0, "16 mm of cordierite", id="an assumed stone"),
        pytest.param("", "steel", "carbon steel", 6.0, "6 mm of carbon steel", id="an assumed steel"),
        pytest.param("", None, "tray", 0.8, "a cold tray", id="nothing at all"),
        pytest.param(PLAIN, "old slab", "cordierite", 16.0, "says no material", id="no material"),
    ],
)
def test_the_surface_is_the_kitchens_by_name_then_material_then_its_first(
    surfaces, wanted, material, millimetres, said
):
    """As DESIGN 3 has it; whatever is assumed is said."""
    told: list[str] = []
    on = surface_of(wanted, kitchen(surfaces), told)
    assert on.material.name == material
    assert on.thickness == pytest.approx(millimetres / 1e3)
    assert (said is None and not told) or said in " ".join(told)


def laid(toppings: str) -> tuple[object, ...]:
    """What a dress step with all toppings puts on one of two pieces."""
    made = recipe(one_go().replace('with = ["sauce", "cheese"]', ""), toppings=toppings, pieces=2)
    step = next(step for step in made.steps if step.do == "dress")
    return dressing(made, step, weigh(made), kitchen(), 2)


TOP = '[[mix]]\nname = "top"\nkind = "topping"\ningredients = [ {} ]\n'


def test_cheese_is_apart_and_all_else_is_sauce():
    """From one mix of both, by what each ingredient is; half of it for each of two pieces."""
    text = TOP.format(
        '{ item = "mozzarella", amount = "120 g" }, { item = "leeks", amount = "300 g" }, '
        '{ item = "butter, unsalted", amount = "20 g" }'
    )
    sauce, cheese = laid(text)
    assert (sauce.cheese, cheese.cheese) == (False, True)
    assert sauce.mass == pytest.approx(0.160)
    assert cheese.mass == pytest.approx(0.060)
    assert 0.75 < sauce.water < 0.83
    assert 0.40 < cheese.water < 0.50
    assert 1000.0 < cheese.density < 1150.0
    assert 1800.0 < cheese.solids_heat < 2000.0
    assert not cheese.fresh


def test_fresh_mozzarella_weeps():
    """More than half of it is water."""
    (cheese,) = laid(TOP.format('{ item = "mozzarella, fresh", amount = "120 g" }'))
    assert cheese.fresh


def test_oil_alone_still_has_a_little_water_for_the_model():
    """The model's column needs some of either; 2 % is the least."""
    (oil,) = laid(TOP.format('{ item = "olive oil", amount = "30 g" }'))
    assert oil.water == pytest.approx(0.02)


@pytest.mark.parametrize(
    ("item", "least"),
    [
        ("beef mince, 20 % fat", 68.0),
        ("chicken breast", 74.0),
        ("egg", 63.0),
    ],
)
def test_raw_food_of_animal_origin_is_held_against_the_food_code(item, least):
    """FDA Food Code 2022, 3-401.11; after 1 min it is not there, and it is warned of."""
    top = TOP.format(f'{{ item = "{item}", amount = "120 g" }}')
    steps = one_go(1).replace('["sauce", "cheese"]', '["top"]')
    result = bake(recipe(steps, toppings=top), kitchen(), draws=0)
    filling = result.pieces[0].filling
    assert filling is not None
    assert value(filling.least) == least
    assert filling.items == (item,)
    assert filling.reached is False
    assert any("check with a probe" in one for one in result.warnings)


def test_toppings_without_raw_animal_food_have_no_least_temperature():
    """Unknown has a reason."""
    filling = bake(recipe(one_go(1)), kitchen(), draws=0).pieces[0].filling
    assert filling is not None
    assert filling.least.why == "no raw meat, fish or egg lies in the toppings"
    assert filling.reached is None


def test_the_middle_comes_first_and_every_row_with_a_spread_is_drawn():
    """Lane 0 is the table itself; the others differ from it in each drawn row."""
    names = names_of("flat")
    points = sobol(count=64, dimensions=len(names), seed=1)
    lanes = lanes_of(kitchen(oven="fan = true"), "flat", points)
    standard = OvenParameters()
    assert lanes.count == 65
    assert lanes.error[0] == 3.0
    for name in names:
        if hasattr(standard, name) and name not in ("browning", "browning_extra"):
            drawn = np.asarray(getattr(lanes.parameters, name))
            assert drawn[0] == pytest.approx(getattr(standard, name))
            assert np.ptp(drawn) > 0.0
    assert not any(name.endswith(("_bun", "_loaf")) for name in names)
    assert np.std(np.log(lanes.browning[1:])) == pytest.approx(0.3, rel=0.1)


def steps(made: Recipe, surface: str = STEEL) -> tuple[object, list[str]]:
    """The oven's steps of a recipe and what was said."""
    said: list[str] = []
    return steps_in_oven(made, "dough", kitchen(surface), weigh(made), said), said


GREASE = """
[[mix]]
name = "oil"
kind = "other"
use = "greasing"
ingredients = [ { item = "olive oil", amount = "10 g" } ]
"""


def test_a_shallow_tin_is_a_pan_pie_with_oil_under_it():
    """Its base fries: darker than in a dry pan."""
    pan = 'shape = "tin"\nlength = "30 cm"\nwidth = "25 cm"\nheight = "4 cm"'
    made = [recipe(bare(14, 240), makes=pan, scale=2.0, toppings=grease, pieces=1) for grease in (GREASE, "")]
    oiled, dry = (bake(one, kitchen(), draws=0) for one in made)
    assert oiled.form == "flat"
    assert not oiled.surface.hot
    assert value(oiled.pieces[0].base_lightness) < value(dry.pieces[0].base_lightness)


def test_buns_take_their_tray_in_cold_and_bake_on_a_stone_where_one_is_named():
    """What has proofed on a tray cannot wait for it in the oven; a hearth loaf can."""
    heat = '[[step]]\ndo = "preheat"\nfor = "40 min"\nat = "220 °C"\n'
    tray, said = steps(recipe(heat + bare(15, 220, 'on = "tray"'), makes='shape = "ball"', scale=0.32), "")
    stone, _ = steps(recipe(heat + bare(15, 220, 'on = "stone"'), makes='shape = "ball"', scale=1.5), STONE)
    assert not tray.on.hot
    assert any("goes in cold" in one for one in said)
    assert stone.on.hot
    assert stone.on.material.name == "cordierite"


def test_a_tall_loaf_is_seen_by_the_oven_above_its_tin():
    """870 g in a tin of 8 cm: what stands above the rim sees the oven, and it is baked through sooner."""
    tall = recipe(bare(40, 210), makes=TIN, scale=3.5, toppings="")
    deep = recipe(bare(40, 210), makes=TIN.replace("8 cm", "20 cm"), scale=3.5, toppings="")
    peaks = [value(bake(one, kitchen(), draws=0).pieces[0].core_peak) for one in (tall, deep)]
    assert peaks[0] > peaks[1] + 1.0


def test_a_tin_on_a_named_surface_is_said_to_be_run_as_on_a_rack():
    """A hot surface under a tin is not modelled."""
    found, said = steps(recipe(bare(35, 210, more='on = "steel"'), makes=TIN, scale=2.0, toppings=""))
    assert found.on.name == "tin"
    assert any("is run as on a rack" in one for one in said)


def test_pieces_in_tins_bake_together_and_flat_ones_one_after_another():
    """Unless the recipe says how long is between them; more than six are as the sixth."""
    loaves, _ = steps(recipe(bare(35, 210), makes=TIN, scale=2.0, toppings="", pieces=3))
    rounds, said = steps(recipe(bare(5, 250), pieces=8))
    assert (loaves.pieces, rounds.pieces) == (1, 6)
    assert any("come out as that one" in one for one in said)


def test_a_pause_takes_the_time_it_says_else_an_assumed_one():
    """Dressing takes 3 min where nothing is said."""
    assumed = one_go().replace(
        'do = "dress"', 'do = "par-bake"\nfor = "2 min"\nat = "250 °C"\n\n[[step]]\ndo = "dress"'
    )
    found, said = steps(recipe(assumed))
    assert [one.seconds for one in found.actions] == [120.0, 180.0, 420.0]
    assert any("3 min out of the oven to dress" in one for one in said)


def test_a_fan_that_is_not_there_is_said():
    """The same dial, without it."""
    result = bake(
        recipe(bare(1, 250, more='heat = "fan"')), kitchen(oven='error = "0 °C"\nfan = false'), draws=0
    )
    assert not result.oven.fan
    assert any("has no fan" in one for one in result.said)


@pytest.mark.parametrize("key", ["steam", "lid", "turn"])
def test_keys_that_are_not_modelled_are_said(key):
    """Nothing is passed over in silence."""
    _, said = steps(recipe(bare(1, 250, more=f"{key} = true")))
    assert any("not modelled" in one for one in said)


def test_a_dial_that_is_turned_down_takes_effect_slowly():
    """A loaf begun at 240 °C and turned to 180 °C is darker than at 180 °C all through."""
    turned = bare(10, 240) + bare(25, 180)
    tops = [
        value(
            bake(recipe(one, makes=TIN, scale=2.0, toppings=""), kitchen(), draws=0).pieces[0].rim_lightness
        )
        for one in (turned, bare(35, 180))
    ]
    assert tops[0] < tops[1] - 3.0
