"""The water of a dough: which way it is reckoned, ice, what it would do to the yeast, and friction learnt."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import NoAnswerError, OutOfRangeError
from doughwright.figures import jsonable
from doughwright.forecast.friction import kitchen_with_friction
from doughwright.forecast.water import BALANCE, SUM, learn_friction, water
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import read_kitchen
from tests.forecast.waters import DOUGH, KITCHEN, kitchen, recipe, water_of, with_starter

ASSUMED = KITCHEN.replace('friction = { value = "12 °C", how = "measured" }\n', "")


def dough_at(degrees: float, text: str = DOUGH) -> str:
    return text.replace('"24 °C"', f'"{degrees} °C"')


def test_measured_friction_makes_it_the_trades_sum() -> None:
    """3 x 24 - 20 - 20 - 12 is 20 °C; the heat balance stands beside it."""
    made = water_of()
    assert (made.method, made.water_temperature) == (SUM, pytest.approx(20.0))
    assert [one.method for one in made.methods] == [SUM, BALANCE]
    assert "20" in made.methods[0].how


def test_friction_that_is_known_as_it_stands_counts_as_measured() -> None:
    """A bare value is known."""
    bare = KITCHEN.replace('{ value = "12 °C", how = "measured" }', '"12 °C"')
    assert water_of(bench=bare).method == SUM


def test_assumed_friction_makes_it_the_heat_balance() -> None:
    """The mixer's usual friction is a guess, so the physics is trusted first."""
    made = water_of(bench=ASSUMED)
    assert made.method == BALANCE
    assert made.methods[1].gives == pytest.approx(24.0)
    assert any("friction" in one for one in made.said)
    assert made.spread > 0


def test_the_heat_balance_is_as_by_hand() -> None:
    """Capacities in kJ/K: flour 1.9, water .62 x 4.186 = 2.595, and 5 g of yeast about .01; rise 4 K.

    (24 - 4) x 4.505 - 20 x 1.91 = 51.9, over 2.595: 20.0 °C, as all is at 20 °C but what the mixer adds.
    """
    assert water_of().methods[1].water_temperature == pytest.approx(20.0, abs=0.05)


def test_warmer_flour_wants_colder_water_and_the_ways_differ() -> None:
    """5 K of flour are 5 K of water in the sum, but 5 x 1.9 / 2.595 = 3.7 K by heat."""
    made = water_of(bench=KITCHEN.replace('[flour]\ntemperature = "20 °C"', '[flour]\ntemperature = "25 °C"'))
    by_sum, by_heat = (one.water_temperature for one in made.methods)
    assert by_sum == pytest.approx(15.0)
    assert by_heat == pytest.approx(20.0 - 3.66, abs=0.05)
    assert "58 %" in made.why_they_differ


def test_24_degrees_are_meant_where_nothing_is_asked() -> None:
    """And that is said."""
    made = water_of(DOUGH.replace('[target]\ndough_temperature = "24 °C"\n', ""))
    assert made.desired == 24.0
    assert made.said[0] == "no dough temperature is asked for: 24 °C is meant"


def test_a_preferment_is_a_fourth_term_as_warm_as_its_rest_left_it() -> None:
    """4 x 24 - 20 - 20 - 20 - 16: a rise of 4 K is 16 on a sum of four."""
    made = water_of(with_starter())
    assert made.water_temperature == pytest.approx(20.0, abs=0.1)
    assert "preferment" in made.methods[0].how
    assert "carried to four" in made.methods[0].how


def test_a_preferment_from_the_fridge_wants_warmer_water() -> None:
    """It comes in at 5 °C, not 20: the sum wants 15 K more."""
    cold = with_starter().replace('at = "room"', 'at = "5 °C"')
    assert water_of(cold).water_temperature == pytest.approx(35.0, abs=0.5)


def test_no_ice_where_the_tap_is_cold_enough() -> None:
    """Water of 20 °C from a tap of 12 °C wants warming."""
    assert water_of().ice == 0.0


def test_ice_where_the_tap_is_too_warm() -> None:
    """620 g x (25 - 14) / (25 + 79.7) = 65.1 g; that much less from the tap."""
    made = water_of(dough_at(22), KITCHEN.replace('"12 °C"\n[mixer]', '"25 °C"\n[mixer]'))
    assert made.water_temperature == pytest.approx(14.0)
    assert made.ice == pytest.approx(0.0651, abs=0.0001)
    shown = jsonable(made)
    assert shown["water"]["value"] == pytest.approx(554.9, abs=0.1)


def test_more_ice_than_water_is_refused_with_the_coldest_dough_there_is() -> None:
    """A dough of 1 °C in a kitchen of 36 °C."""
    hot = KITCHEN.replace('"20 °C"', '"36 °C"')
    with pytest.raises(NoAnswerError, match="more ice than its 620 g of water") as caught:
        water_of(dough_at(1), hot)
    assert "the coldest it can come to is" in str(caught.value)
    assert caught.value.exit_code == 3


@pytest.mark.parametrize("form", ["instant yeast", "active dry yeast", "fresh yeast"])
def test_water_that_kills_yeast_is_refused_with_the_nearest_dough(form: str) -> None:
    """3 x 36 - 20 - 20 - 12 is 56 °C. With 43 °C the sum comes to 31.7 °C."""
    with pytest.raises(NoAnswerError, match=r"56\.0 °C, and water this hot kills yeast") as caught:
        water_of(dough_at(36, DOUGH.replace("instant yeast", form)))
    assert "31.7 °C" in str(caught.value)
    assert caught.value.fault.try_


def test_water_that_is_only_warmer_than_yeast_likes_is_warned_of() -> None:
    """3 x 32 - 52 is 44 °C."""
    made = water_of(dough_at(32))
    assert any("above what yeast likes" in one for one in made.warnings)


COLD = dough_at(21)  # 3 x 21 - 52 is 11 °C


def test_cold_water_is_refused_for_active_dry_yeast_put_in_dry() -> None:
    """It would lose up to half of its gassing: wake it."""
    with pytest.raises(NoAnswerError, match=r"11\.0 °C, and active dry yeast") as caught:
        water_of(COLD.replace("instant yeast", "active dry yeast"))
    assert "woken = true" in str(caught.value)


def test_cold_water_is_taken_by_woken_and_fresh_yeast() -> None:
    """Woken in warm water it is as hardy as fresh yeast."""
    woken = COLD.replace(
        '"instant yeast", amount = "5 g"', '"active dry yeast", amount = "5 g", woken = true'
    )
    assert water_of(woken).warnings == ()
    assert water_of(COLD.replace("instant yeast", "fresh yeast")).warnings == ()


def test_cold_water_is_warned_of_for_instant_yeast() -> None:
    """Mixed into the flour first it is not hurt."""
    assert any("into the flour" in one for one in water_of(COLD).warnings)


def test_the_yeast_of_a_preferment_can_be_killed_too() -> None:
    """A dough without yeast of its own."""
    text = with_starter().replace('  { item = "instant yeast", amount = "5 g" },\n', "")
    with pytest.raises(NoAnswerError, match="kills yeast"):
        water_of(dough_at(34, text))


def test_a_dough_of_milk_is_steered_by_its_milk() -> None:
    """No ice is put in milk."""
    made = water_of(
        DOUGH.replace('item = "water"', 'item = "milk"'),
        KITCHEN.replace('"12 °C"\n[mixer]', '"30 °C"\n[mixer]'),
    )
    assert (made.liquid, made.ice) == ("milk", 0.0)
    assert made.water_temperature == pytest.approx(20.0)


def test_water_at_a_temperature_of_its_own_is_not_steered() -> None:
    """100 g at 40 °C to wake the yeast leaves 520 g to steer with."""
    split = DOUGH.replace(
        'amount = "620 g" },',
        'amount = "520 g" },\n  { item = "water", amount = "100 g", temperature = "40 °C" },',
    )
    made = water_of(split, ASSUMED)
    assert made.poured == pytest.approx(0.520)
    assert made.water_temperature < water_of(bench=ASSUMED).water_temperature


def test_water_that_is_all_at_a_temperature_of_its_own_is_told_as_it_is() -> None:
    """Nobody is told that a dough with water in it pours none."""
    fixed = DOUGH.replace('amount = "620 g"', 'amount = "620 g", temperature = "18 °C"')
    with pytest.raises(NoAnswerError, match="a temperature of its own in the document"):
        water_of(fixed)


def test_a_dough_that_pours_nothing_has_no_answer() -> None:
    """Exit 3, with what to do."""
    with pytest.raises(NoAnswerError, match="neither water nor milk"):
        water_of(DOUGH.replace('item = "water"', 'item = "egg"'))


def test_a_recipe_without_dough_has_no_answer() -> None:
    """There is nothing to mix."""
    with pytest.raises(NoAnswerError, match="no dough"):
        water_of(DOUGH.replace('name = "dough"', 'name = "dough"\nkind = "sauce"'))


def test_the_json_has_the_names_of_the_contract() -> None:
    """water_temperature, ice, method, methods."""
    made = json.loads(json.dumps(jsonable(water_of())))
    assert made["water_temperature"] == {"value": 20.0, "unit": "degC"}
    assert made["ice"] == {"value": 0.0, "unit": "g"}
    assert len(made["methods"]) == 2


def test_spreads_widen_the_water() -> None:
    """A spread of 1 K of friction on the sum is 1 K of water: plus or minus 1.645."""
    loose = KITCHEN.replace('how = "measured"', 'how = "measured", spread = "1 °C"')
    shown = jsonable(water_of(bench=loose))["water_temperature"]
    assert (shown["low"], shown["high"]) == (pytest.approx(18.355), pytest.approx(21.645))


def test_friction_is_learnt_on_the_sum_of_three() -> None:
    """3 x 26 - 20 - 20 - 15 is 23."""
    learnt = learn_friction(recipe(), kitchen(), measured=26.0, used=15.0)
    assert learnt.friction == pytest.approx(23.0)
    assert learnt.rise == pytest.approx(learnt.by_balance / 3.0)


def test_friction_learnt_without_the_waters_temperature_takes_the_tap_and_says_so() -> None:
    """3 x 24 - 20 - 20 - 12 is 20."""
    learnt = learn_friction(recipe(), kitchen(), measured=24.0)
    assert learnt.friction == pytest.approx(20.0)
    assert "tap" in learnt.said[0]


def test_friction_below_nothing_is_said() -> None:
    """A cold bowl took heat."""
    assert any(
        "cold bowl" in one for one in learn_friction(recipe(), kitchen(), measured=17.0, used=15.0).said
    )


@pytest.mark.parametrize(
    ("measured", "used"),
    [(math.nan, 15.0), (90.0, 15.0), (-3.0, 15.0), (26.0, 140.0), (26.0, math.inf), (50.0, 5.0)],
)
def test_what_no_dough_is_is_refused(measured: float, used: float) -> None:
    """Not a number, boiling, frozen; or a friction no mixer has."""
    with pytest.raises(OutOfRangeError):
        learn_friction(recipe(), kitchen(), measured=measured, used=used)


@pytest.mark.property
@settings(max_examples=30)
@given(st.floats(20.0, 27.0), st.floats(15.0, 35.0), st.booleans())
def test_friction_learnt_from_a_dough_gives_that_doughs_water_back(
    measured: float, used: float, starter: bool
) -> None:
    """Learn, write it in the kitchen, ask for the same dough: the water is the one that was used."""
    text = dough_at(round(measured, 1), with_starter() if starter else DOUGH)
    bench = read_kitchen(KITCHEN)
    try:
        learnt = learn_friction(
            recipe(text), surroundings(bench.kitchen), measured=round(measured, 1), used=used
        )
    except OutOfRangeError:
        return
    written = read_kitchen(kitchen_with_friction(bench, learnt.friction))
    again = water(recipe(text), surroundings(written.kitchen))
    assert again.method == SUM
    assert again.water_temperature == pytest.approx(used, abs=0.1 if not starter else 0.3)


@pytest.mark.property
@settings(max_examples=30)
@given(st.floats(5.0, 30.0), st.floats(5.0, 30.0), st.floats(18.0, 26.0))
def test_what_the_heat_balance_asks_for_gives_the_dough_back(
    room: float, flour: float, desired: float
) -> None:
    """Whatever the kitchen."""
    text = ASSUMED.replace('[room]\ntemperature = "20 °C"', f'[room]\ntemperature = "{room:.1f} °C"')
    text = text.replace('[flour]\ntemperature = "20 °C"', f'[flour]\ntemperature = "{flour:.1f} °C"')
    try:
        made = water_of(dough_at(round(desired, 1), DOUGH.replace("instant", "fresh")), text)
    except NoAnswerError:
        return
    assert made.methods[1].gives == pytest.approx(round(desired, 1))


WRITTEN = 'friction = { value = "13.2 °C", how = "measured" }'


def test_friction_is_written_in_its_place() -> None:
    """The rest of the kitchen's text keeps its characters."""
    text = KITCHEN.replace(
        'friction = { value = "12 °C", how = "measured" }', 'friction = "12 °C"  # by guess'
    )
    assert kitchen_with_friction(read_kitchen(text), 13.2) == text.replace('friction = "12 °C"', WRITTEN)


def test_friction_is_written_where_there_was_none() -> None:
    """Below the mixer's other keys, or in a table of its own at the end."""
    assert WRITTEN in kitchen_with_friction(read_kitchen(ASSUMED), 13.2)
    bare = 'schema = 1\r\nkitchen = "Bench"'
    assert kitchen_with_friction(read_kitchen(bare), 13.2) == f"{bare}\r\n\r\n[mixer]\r\n{WRITTEN}\r\n"
