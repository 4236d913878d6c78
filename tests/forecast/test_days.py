"""The days of a recipe: clocks, places, work, judging and what is not modelled."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest

from doughwright.errors import InputError, NoAnswerError
from doughwright.forecast.results import SERIES_UNITS
from doughwright.kitchen.assumed import Surroundings
from tests.forecast._documents import DOUGH, KITCHEN, MIXED, kitchen, run

LITTLE = DOUGH.replace('amount = "2 g"', 'amount = "0.8 g"')
BULK = {"do": "bulk", "for": "2 h", "at": "room"}
BALL = {"do": "ball"}
COLD = {"do": "retard", "for": "20 h", "at": "fridge", "in": "lidded tub"}
WARM = {"do": "temper", "for": "2 h", "at": "room"}
BAKE = {"do": "bake", "for": "20 min", "at": "230 °C"}
SHAPE = {"do": "shape"}
ROUND = 'shape = "round"\ndiameter = "30 cm"\npieces = 2'
POOLISH = """
[[mix]]
name = "poolish"
kind = "preferment"
ingredients = [
  { item = "bread flour", amount = "100 g", protein = "12 %" },
  { item = "water", amount = "100 g" },
  { item = "instant yeast", amount = "0.3 g" },
]
"""


def test_time_is_zero_at_the_end_of_the_last_mix_step() -> None:
    """Earlier hours are negative: an autolyse lies before the salt goes in."""
    salted = DOUGH.replace('amount = "10 g"', 'amount = "10 g", add = "later"')
    steps = [*MIXED, {"do": "autolyse", "for": "30 min"}, {"do": "mix", "add": "later", "for": "3 min"}, BULK]
    days = run(steps, dough=salted)
    assert days.series.time[0] == pytest.approx(-0.55)
    assert [event.start for event in days.events] == pytest.approx([-0.65, -0.55, -0.05, 0.0])
    assert days.judged_at == pytest.approx(2.0)


def test_salt_slows_nothing_until_it_is_in() -> None:
    """A dough whose salt goes in an hour later has made more gas."""
    later = DOUGH.replace('amount = "10 g"', 'amount = "10 g", add = "later"')
    wait, again = {"do": "autolyse", "for": "1 h", "at": "room"}, {"do": "mix", "add": "later"}
    plain = run([*MIXED, wait, {"do": "mix", "mix": "dough"}, BULK])
    salted = run([*MIXED, wait, again, BULK], dough=later)
    assert salted.at_bake is None
    assert salted.judged.sugar < plain.judged.sugar


def test_yeast_that_comes_later_starts_its_clock_then() -> None:
    """Before its yeast is in a dough makes no gas, and its lag is still to come."""
    yeasted = DOUGH.replace('amount = "2 g"', 'amount = "2 g", add = "later"')
    steps = [*MIXED, {"do": "autolyse", "for": "1 h", "at": "room"}, {"do": "mix", "add": "later"}, BULK]
    late, early = run(steps, dough=yeasted), run([*MIXED, BULK])
    before = [gas for time, gas in zip(late.series.time, late.series.gas, strict=True) if time < 0.0]
    assert set(before) == {0.0}
    assert late.judged.gas == pytest.approx(early.judged.gas, rel=0.02)


def test_points_are_at_most_five_minutes_apart_and_twice_at_each_action() -> None:
    """Time never runs backward, and an action has a point before and one after it."""
    days = run([*MIXED, BULK, {"do": "divide", "pieces": "2"}, BALL, COLD, WARM, BAKE])
    times = days.series.time
    assert all(0.0 <= later - earlier <= 5.0 / 60.0 + 1e-9 for earlier, later in pairwise(times))
    for hour in (2.0, 22.0, 24.0):
        assert sum(abs(time - hour) < 1e-9 for time in times) >= 2


def test_the_series_run_twelve_hours_past_the_judged_moment() -> None:
    """As if the dough were left where it waited last."""
    days = run([*MIXED, BULK, BALL, COLD, WARM, BAKE])
    assert days.judged_at == pytest.approx(24.0)
    assert days.series.time[-1] == pytest.approx(36.0)
    assert days.series.core[-1] == pytest.approx(21.0, abs=1.5)


def test_a_ball_is_judged_at_the_first_bake() -> None:
    """The reading at the bake is the judged one."""
    days = run([*MIXED, BULK, BALL, WARM, BAKE])
    assert days.at_bake == days.judged
    assert days.at_shaping is None
    assert days.at_shaping_why == "no step shapes this dough"


def test_a_round_is_judged_when_shaping_begins() -> None:
    """Before shaping knocks the gas out; the bake then has little of it."""
    days = run([*MIXED, BULK, {"do": "divide"}, BALL, WARM, SHAPE, BAKE], makes=ROUND)
    assert days.at_shaping == days.judged
    assert days.at_bake is not None
    assert days.at_bake.rise < days.judged.rise - 0.1
    assert days.at_bake.state == days.judged.state


def test_a_round_that_proofs_after_shaping_has_its_true_course_too() -> None:
    """The series go on as if left; what really follows to the bake is kept beside them."""
    proof = {"do": "proof", "for": "1 h", "at": "room", "in": "cloth"}
    days = run([*MIXED, BULK, {"do": "divide"}, BALL, WARM, SHAPE, proof, BAKE], makes=ROUND)
    assert days.judged_at == pytest.approx(4.0)
    assert days.after is not None
    assert days.after.time[-1] == pytest.approx(5.0)
    assert days.at_bake is not None
    assert days.at_bake.rise == pytest.approx(days.after.rise[-1])


def test_without_a_bake_a_dough_is_judged_at_the_end_of_its_last_wait() -> None:
    """The document is complete; the bake's reading says why there is none."""
    days = run([*MIXED, BULK, BALL, WARM])
    assert (days.at_bake, days.at_bake_why) == (None, "no step bakes this dough")
    assert days.judged_at == pytest.approx(4.0)


def test_a_recipe_without_steps_is_judged_as_mixed() -> None:
    """Its days begin at once, and that is said."""
    days = run([])
    assert days.judged_at == 0.0
    assert days.judged.state == "young"
    assert any("no step mixes" in one for one in days.said)


def test_the_middle_of_a_range_is_run() -> None:
    """A bulk of 2 to 4 h is one of 3 h."""
    days = run([*MIXED, {"do": "bulk", "for": "2 h to 4 h", "at": "room"}])
    assert days.judged_at == pytest.approx(3.0)


def test_a_wait_stays_where_the_dough_was_unless_it_was_worked() -> None:
    """With no place named: the fridge goes on being meant, but after balling the room is."""
    on = run([*MIXED, COLD, {"do": "rest", "for": "1 h"}])
    worked = run([*MIXED, COLD, BALL, {"do": "rest", "for": "1 h"}])
    assert [event.place for event in on.events] == ["room", "fridge", "fridge"]
    assert on.events[-1].container == "lidded tub"
    assert [event.place for event in worked.events] == ["room", "fridge", "room", "room"]
    assert worked.events[-1].container == "open"


def test_a_place_of_the_kitchen_and_a_temperature_are_understood() -> None:
    """The proofing box at 28 °C and a wait at 28 °C are the same."""
    place = run([*MIXED, {"do": "bulk", "for": "3 h", "at": "proofing box"}])
    degrees = run([*MIXED, {"do": "bulk", "for": "3 h", "at": "28 °C"}])
    assert place.judged.rise == degrees.judged.rise


def test_an_unknown_place_is_an_error_with_the_places_there_are() -> None:
    """The kitchen says what it has."""
    with pytest.raises(InputError, match="proofing box"):
        run([*MIXED, {"do": "bulk", "for": "3 h", "at": "proving box"}])


def test_a_lid_slows_the_cooling() -> None:
    """After two hours in the fridge a dough in a lidded tub is warmer than one in the open."""
    lid, air = (
        run([*MIXED, {"do": "retard", "for": "2 h", "at": "fridge", "in": one}])
        for one in ("lidded tub", "open")
    )
    assert lid.judged.core > air.judged.core + 1.0


def test_one_body_of_the_whole_mass_before_dividing() -> None:
    """The whole cools more slowly than a third of it."""
    whole = run([*MIXED, COLD | {"for": "2 h"}])
    third = run([*MIXED, {"do": "divide", "pieces": "3"}, COLD | {"for": "2 h"}])
    assert whole.judged.core > third.judged.core + 2.0


def test_divide_takes_a_mass_too() -> None:
    """Pieces of 274 g are a third of 822 g."""
    by_mass = run([*MIXED, {"do": "divide", "each": "274 g"}, BALL, COLD])
    by_count = run([*MIXED, {"do": "divide", "pieces": "3"}, BALL, COLD])
    assert by_mass.judged.core == pytest.approx(by_count.judged.core, abs=1e-6)


def test_loss_leaves_smaller_pieces() -> None:
    """A tenth left in the bowl makes pieces that cool faster."""
    full = run([*MIXED, {"do": "divide"}, COLD | {"for": "2 h"}], makes='shape = "ball"\npieces = 2')
    lost = run(
        [*MIXED, {"do": "divide"}, COLD | {"for": "2 h"}], makes='shape = "ball"\npieces = 2\nloss = "10 %"'
    )
    assert lost.judged.core < full.judged.core - 0.1


def test_balling_knocks_most_of_the_gas_out_and_tightens() -> None:
    """Free gas goes, dissolved gas stays, and the dough is tight again."""
    days = run([*MIXED, BULK, BALL, WARM])
    at = [index for index, time in enumerate(days.series.time) if abs(time - 2.0) < 1e-9]
    before, after = at[0], at[-1]
    free = days.series.gas[before] - days.series.dissolved[before]
    assert days.series.gas[after] == pytest.approx(days.series.gas[before] - 0.9 * free, rel=0.001)
    assert days.series.tightness[before] < 0.1
    assert days.series.tightness[after] == 1.0
    assert days.series.rise[after] > 1.0


def test_a_step_may_say_how_much_gas_it_loses() -> None:
    """degas = 0 % leaves the rise as it was; the table's 90 % does not."""
    gentle = run([*MIXED, BULK, BALL | {"degas": "0 %"}, {"do": "rest", "for": "1 min", "at": "room"}])
    usual = run([*MIXED, BULK, BALL, {"do": "rest", "for": "1 min", "at": "room"}])
    at_two = max(index for index, time in enumerate(gentle.series.time) if time <= 2.0)
    assert gentle.series.gas[at_two] == pytest.approx(gentle.series.gas[at_two - 1], rel=0.001)
    assert usual.judged.rise < gentle.judged.rise


def test_a_fold_loses_less_than_balling() -> None:
    """And leaves the dough as slack as it was."""
    fold, ball = (
        run([*MIXED, BULK, {"do": one}, {"do": "rest", "for": "1 min", "at": "room"}])
        for one in ("fold", "ball")
    )
    assert fold.judged.gas > ball.judged.gas
    assert fold.judged.tightness < 0.1


def test_a_preferment_runs_first_on_its_own_clock() -> None:
    """Its series end where it goes in, and the dough begins with its dissolved gas and its yeast."""
    dough = DOUGH.replace('item = "instant yeast", amount = "2 g"', 'mix = "poolish", amount = "all"')
    steps = [
        {"do": "mix", "mix": "poolish", "for": "5 min"},
        {"do": "rest", "of": "poolish", "for": "12 h", "at": "room", "in": "lidded tub"},
        *MIXED,
        {"do": "bulk", "for": "4 h", "at": "room"},
    ]
    days = run(steps, before=POOLISH, dough=dough)
    poolish = days.preferments[0]
    assert (poolish.name, poolish.series.time[0], poolish.series.time[-1]) == (
        "poolish",
        0.0,
        pytest.approx(12.0),
    )
    share = 100.0 / 600.0
    assert days.series.gas[0] == pytest.approx(poolish.series.dissolved[-1] * share, rel=0.02)
    assert days.judged.rise > 1.1
    assert all(event.mix == "dough" for event in days.events)


def test_old_yeast_has_no_second_lag() -> None:
    """In its first half hour a dough raised by a ripe poolish makes gas that fresh yeast would not."""
    dough = DOUGH.replace('item = "instant yeast", amount = "2 g"', 'mix = "poolish", amount = "all"')
    steps = [
        {"do": "mix", "mix": "poolish"},
        {"do": "rest", "of": "poolish", "for": "12 h", "at": "room"},
        *MIXED,
        {"do": "bulk", "for": "30 min", "at": "room"},
    ]
    old = run(steps, before=POOLISH, dough=dough)
    early = [gas for time, gas in zip(old.series.time, old.series.gas, strict=True) if time <= 0.11]
    slope_first, slope_last = early[-1] - early[0], old.judged.gas - old.series.gas[-1]
    assert slope_first > 0.0
    assert slope_last < 0.0  # the twelve hours that follow make more still
    fresh = run([*MIXED, {"do": "bulk", "for": "30 min", "at": "room"}])
    share = old.series.gas[early.index(early[-1])] - early[0]
    first = [gas for time, gas in zip(fresh.series.time, fresh.series.gas, strict=True) if time <= 0.11]
    assert share / (old.judged.gas - early[0]) > (first[-1] - first[0]) / fresh.judged.gas


def test_yeast_stirred_into_water_of_its_own_is_yeast_of_the_dough() -> None:
    """A mix of yeast and water, half of it used, gives the days of the same dough written in one mix."""
    stirred = (
        '[[mix]]\nname = "cup"\nkind = "other"\ningredients = [{ item = "water", amount = "100 g" },'
        '{ item = "active dry yeast", amount = "4 g", woken = true }]\n'
    )
    apart = DOUGH.replace('item = "instant yeast", amount = "2 g"', 'mix = "cup", amount = "52 g"').replace(
        '"310 g"', '"260 g"'
    )
    one = DOUGH.replace('"instant yeast", amount = "2 g"', '"active dry yeast", amount = "2 g", woken = true')
    for end in ("", '\n[target]\ndough_temperature = "24 °C"\n'):
        together = run([*MIXED, BULK], dough=one, end=end)
        separate = run([{"do": "mix", "mix": "cup"}, *MIXED, BULK], before=stirred, dough=apart, end=end)
        assert together.judged.rise > 1.1
        assert separate.judged.rise == pytest.approx(together.judged.rise, rel=1e-9)
        assert separate.dough_temperature.value == pytest.approx(together.dough_temperature.value, rel=1e-9)


def test_a_dough_mixed_too_hot_is_dead_throughout() -> None:
    """At 53 °C all of its yeast dies, that of the skin too, which the air has cooled within a step."""
    days = run([MIXED[0] | {"dough_at": "53 °C"}, {"do": "rest", "for": "2 h", "at": "2 °C"}, BULK])
    assert max(days.series.gas) == 0.0


def test_active_dry_yeast_put_in_dry_takes_longer_than_woken() -> None:
    """After an hour it has made less gas, at the same weight."""
    dry = DOUGH.replace('"instant yeast"', '"active dry yeast"')
    woken = dry.replace('amount = "2 g"', 'amount = "2 g", woken = true')
    short = [*MIXED, {"do": "bulk", "for": "1 h", "at": "room"}]
    assert run(short, dough=dry).judged.gas < 0.75 * run(short, dough=woken).judged.gas


def test_the_dough_enters_at_the_measured_then_the_wanted_then_the_computed_temperature() -> None:
    """As its last mix step or the target says, else by the kitchen's flour, water and friction."""
    measured = run([MIXED[0] | {"dough_at": "26 °C"}, BULK])
    wanted = run([*MIXED, BULK])
    computed = run([*MIXED, BULK], end="")
    assert [(one.dough_temperature.how, one.series.core[0]) for one in (measured, wanted)] == [
        ("measured", 26.0),
        ("target", 24.0),
    ]
    # By hand: 500 g flour at 20 °C (1.9), 310 g water at 12 (4.186), a little salt at 21; then 4 °C.
    assert computed.dough_temperature.how == "computed"
    assert computed.dough_temperature.value == pytest.approx(15.44 + 4.0, abs=0.1)


def test_states_follow_the_range() -> None:
    """Young below, ripe inside, past above, and each says why."""
    steps = [*MIXED, BULK, BALL, COLD, WARM, BAKE]
    ends = {
        state: f'\n[target]\ndough_temperature = "24 °C"\nrise = "{rise}"\n'
        for state, rise in (("young", "2.6 to 3.0"), ("ripe", "1.2 to 2.5"), ("past", "1.05 to 1.1"))
    }
    for state, end in ends.items():
        judged = run(steps, dough=LITTLE, end=end).judged
        assert judged.state == state
        assert "rise of" in judged.state_why


def test_a_single_rise_means_ten_per_cent_either_way() -> None:
    """2.0 is read as 1.8 to 2.2."""
    days = run([*MIXED, BULK], end='\n[target]\nrise = "2"\n')
    assert (days.target.low, days.target.high) == (pytest.approx(1.8), pytest.approx(2.2))


@pytest.mark.parametrize(
    ("makes", "low", "high"),
    [
        ('shape = "ball"', 1.8, 2.5),
        (ROUND, 1.6, 2.2),
        ('length = "30 cm"\nwidth = "20 cm"\nshape = "rectangle"', 1.6, 2.2),
        ('shape = "tin"\nlength = "25 cm"\nwidth = "11 cm"\nheight = "7 cm"', 2.2, 3.0),
    ],
)
def test_the_customary_range_of_each_shape_is_assumed(makes: str, low: float, high: float) -> None:
    """Where the recipe asks for none, and the result says that it is assumed."""
    target = run([*MIXED, BULK], makes=makes).target
    assert (target.low, target.high, target.assumed) == (low, high, True)


def test_a_dough_at_its_ceiling_leaks_and_is_past() -> None:
    """Much yeast and many hours: the volume stays at the ceiling, and more than 5 % of the gas is gone."""
    much = DOUGH.replace('amount = "2 g"', 'amount = "6 g"')
    days = run(
        [*MIXED, {"do": "bulk", "for": "7 h", "at": "room"}],
        dough=much,
        end='\n[target]\ndough_temperature = "24 °C"\nrise = "2 to 4"\n',
    )
    assert days.judged.rise == pytest.approx(3.1667, abs=1e-3)
    assert days.judged.state == "past"
    assert "leaked" in days.judged.state_why
    assert any("collapse" in one for one in days.warnings)


def test_a_dough_out_of_sugar_is_past() -> None:
    """Where yeast has eaten it all, whatever the rise."""
    much = DOUGH.replace('amount = "2 g"', 'amount = "25 g"')
    bulk = {"do": "bulk", "for": "3 h", "at": "28 °C"}
    days = run([*MIXED, bulk, BALL, {"do": "rest", "for": "3 h", "at": "28 °C"}], dough=much)
    assert days.judged.sugar < 0.5
    assert days.judged.state == "past"


def test_the_ripe_window_is_where_the_rise_crosses_its_range() -> None:
    """Its ends lie on the series, past the start of the last wait."""
    days = run([*MIXED, BULK, BALL, COLD, WARM, BAKE], dough=LITTLE)
    window = days.ripe_window
    assert window.from_ is not None
    assert window.to is not None
    assert days.series.at(window.from_)["rise"] == pytest.approx(1.8, abs=0.01)
    assert days.series.at(window.to)["rise"] == pytest.approx(2.5, abs=0.01)


def test_a_window_that_does_not_close_says_so() -> None:
    """A little yeast in the cold is ripe for longer than is run."""
    days = run(
        [*MIXED, BULK, BULK, {"do": "retard", "for": "8 h", "at": "2 °C"}],
        end='\n[target]\ndough_temperature = "24 °C"\nrise = "1.2 to 3"\n',
    )
    assert days.ripe_window.to is None
    assert "still ripe" in (days.ripe_window.why or "")


def test_a_dough_that_is_never_ripe_says_why() -> None:
    """Still young, or past from the start."""
    young = run([*MIXED, {"do": "retard", "for": "1 h", "at": "1 °C"}])
    assert young.ripe_window.from_ is None
    assert "young" in (young.ripe_window.why or "")


def test_work_after_the_last_wait_counts_in_the_window() -> None:
    """A ball shaped just before its bake has been knocked back, however long it waited."""
    days = run([*MIXED, BULK, BALL, WARM, SHAPE, BAKE])
    assert days.judged.rise < 1.3
    assert days.ripe_window.from_ is None


def test_a_work_step_with_a_time_spends_it_in_the_room() -> None:
    """Balling that takes 30 min puts the next step that much later."""
    days = run([*MIXED, BULK, BALL | {"for": "30 min"}, WARM])
    assert [event.start for event in days.events][-1] == pytest.approx(2.5)


def test_cooking_the_topping_takes_the_dough_no_time() -> None:
    """It is beside the dough's days."""
    topping = (
        '[[mix]]\nname = "leeks"\nkind = "topping"\ningredients = [{ item = "leeks", amount = "100 g" }]\n'
    )
    cook = {"do": "cook", "of": "leeks", "for": "20 min"}
    days = run([*MIXED, BULK, cook, WARM], before=topping)
    assert [event.verb for event in days.events] == ["mix", "bulk", "temper"]
    assert days.judged_at == pytest.approx(4.0)


def test_a_dough_without_yeast_has_no_days() -> None:
    """Exit 3, and the reason."""
    bare = DOUGH.replace('{ item = "instant yeast", amount = "2 g" },', "")
    with pytest.raises(NoAnswerError, match="no yeast"):
        run([*MIXED, BULK], dough=bare)


def test_a_sourdough_says_that_it_is_not_modelled() -> None:
    """A culture is named."""
    culture = DOUGH.replace(
        'item = "instant yeast", amount = "2 g"', 'item = "sourdough starter", amount = "100 g"'
    )
    with pytest.raises(NoAnswerError, match="sourdough starter is not modelled"):
        run([*MIXED, BULK], dough=culture)


def test_chemical_raising_beside_yeast_is_warned_of() -> None:
    """The days are those of the yeast alone."""
    both = DOUGH + '{ item = "baking powder", amount = "5 g" },'
    assert any("not modelled" in one for one in run([*MIXED, BULK], dough=both).warnings)


@pytest.mark.parametrize("verb", ["freeze", "thaw"])
def test_freezing_is_not_modelled(verb: str) -> None:
    """A step that freezes or thaws has no answer."""
    with pytest.raises(NoAnswerError, match="freezing"):
        run([*MIXED, {"do": verb, "for": "10 h"}])


def test_a_place_below_freezing_is_warned_of() -> None:
    """At -5 °C the days go on, but say what they leave out; so where a fridge only swings down there."""
    swinging = kitchen(KITCHEN.replace('"5 °C"', '"-1 °C"\nswing = "2 °C"'))
    for place, at in (("-5 °C", kitchen()), ("fridge", swinging)):
        days = run([*MIXED, {"do": "retard", "for": "10 h", "at": place}], at=at)
        assert any("freezes" in one for one in days.warnings)


def test_yeast_that_has_been_too_hot_is_dead_for_good() -> None:
    """After an hour at 58 °C nothing more happens back in the room."""
    hot = {"do": "proof", "for": "3 h", "at": "58 °C"}
    steps = [*MIXED, {"do": "divide", "pieces": "8"}, hot, {"do": "rest", "for": "1 h", "at": "room"}]
    days = run(steps)
    gas = dict(zip(days.series.time, days.series.gas, strict=True))
    assert gas[days.series.time[-1]] == pytest.approx(days.judged.gas, rel=1e-9)


def test_a_fridge_that_swings_moves_the_edge_and_hardly_the_rise() -> None:
    """± 1 K changes V/V0 by under 0.15 %, as an independent computation found."""
    steady = run([*MIXED, BULK, BALL, COLD])
    swinging = run(
        [*MIXED, BULK, BALL, COLD], at=kitchen(KITCHEN.replace('"5 °C"', '"5 °C"\nswing = "1 °C"'))
    )
    assert swinging.judged.rise == pytest.approx(steady.judged.rise, rel=0.0015)
    edges = [
        edge for time, edge in zip(swinging.series.time, swinging.series.edge, strict=True) if 18 < time < 22
    ]
    assert 0.1 < max(edges) - min(edges) < 1.3


def test_the_kitchens_flour_replaces_the_recipes() -> None:
    """Stronger flour has a higher ceiling."""
    much = DOUGH.replace('amount = "2 g"', 'amount = "8 g"')
    steps = [*MIXED, {"do": "bulk", "for": "8 h", "at": "room"}]
    strong = kitchen(KITCHEN.replace("[flour]", '[flour]\nprotein = "14 %"'))
    assert run(steps, dough=much, at=strong).judged.rise == pytest.approx(3.5, abs=1e-6)


def test_a_tin_dough_shaped_into_its_tin_runs() -> None:
    """It grows upward in it, and is judged at the bake."""
    steps = [*MIXED, BULK, SHAPE, {"do": "proof", "for": "2 h", "at": "room", "in": "tin"}, BAKE]
    days = run(steps, makes='shape = "tin"\nlength = "25 cm"\nwidth = "11 cm"\nheight = "8 cm"')
    assert days.at_bake == days.judged
    assert days.judged.rise > 1.5
    assert days.at_shaping is not None


def test_two_doughs_have_their_days_each() -> None:
    """The JSON is the first one's, with all of them under doughs."""
    from doughwright.forecast.days import days as run_all
    from tests.forecast._documents import recipe

    second = f'[[mix]]\nname = "dark"\nkind = "dough"\ningredients = [{DOUGH}]\n'
    steps = [{"do": "mix", "mix": "dark"}, {"do": "bulk", "of": "dark", "for": "1 h", "at": "room"}]
    both = run_all(
        recipe([*steps, *MIXED, {"do": "bulk", "of": "dough", "for": "2 h"}], before=second), kitchen()
    )
    assert [(one.dough, one.judged_at) for one in both.runs] == [("dark", 1.0), ("dough", 2.0)]
    assert len(both.to_json()["doughs"]) == 2


def test_the_json_has_what_the_contract_names() -> None:
    """Every series with its unit, readings as figures, events with verb, start, end and place."""
    days = run([*MIXED, BULK, BALL, COLD, WARM, BAKE])
    out = json.loads(json.dumps(days.to_json()))
    assert {name: one["unit"] for name, one in out["series"].items()} == SERIES_UNITS
    assert len({len(one["values"]) for one in out["series"].values()}) == 1
    assert out["judged_at"] == {"value": 24.0, "unit": "h"}
    assert out["at_bake"]["state"] in ("young", "ripe", "past")
    assert out["at_bake"]["rise"]["unit"] == "ratio"
    assert (out["at_shaping"], out["at_shaping_why"]) == (None, "no step shapes this dough")
    assert set(out["ripe_window"]) == {"from", "to", "why"}
    assert out["events"][0]["step"] == "mix"
    assert out["events"][0]["place"] == "room"
    assert out["preferments"] == []


def test_everything_assumed_of_the_kitchen_that_bears_on_it_is_said() -> None:
    """With no kitchen: a fridge at 4.8 °C, a room at 21 °C, sea level; not the scale."""
    from doughwright.kitchen.assumed import surroundings

    said = run([*MIXED, BULK, COLD], at=surroundings(None)).said
    assert {"a fridge at 4.8 °C", "a room at 21 °C", "sea level"} <= set(said)
    assert not any("scale" in one for one in said)


def test_a_chain_of_mixes_used_twice_each_runs_each_of_them_once() -> None:
    """Forty poolishes, each in the next by two lines: two to the forty courses would never end."""
    flour = '{ item = "bread flour", amount = "10 g" }, { item = "water", amount = "10 g" }'
    own = flour + ', { item = "instant yeast", amount = "0.01 g" }'
    chain = ""
    for number in range(40):
        half = f', {{ mix = "p{number - 1}", amount = "45 %" }}'
        lines = own + (half * 2 if number else "")
        chain += f'\n[[mix]]\nname = "p{number}"\nkind = "preferment"\ningredients = [ {lines} ]\n'
    found = run([*MIXED, BULK], dough='{ mix = "p39", amount = "all" },' + DOUGH, before=chain.lstrip())
    assert [one.name for one in found.preferments] == [f"p{number}" for number in range(40)]


def test_a_chain_too_deep_to_run_is_refused_not_crashed() -> None:
    """Two hundred mixes in one another have a formula, but no days."""
    flour = '{ item = "bread flour", amount = "10 g" }, { item = "instant yeast", amount = "0.01 g" }'
    chain = ""
    for number in range(200):
        within = f', {{ mix = "p{number - 1}", amount = "all" }}' if number else ""
        chain += f'[[mix]]\nname = "p{number}"\nkind = "preferment"\ningredients = [ {flour}{within} ]\n'
    with pytest.raises(NoAnswerError, match="made of 201 mixes"):
        run([*MIXED, BULK], dough='{ mix = "p199", amount = "all" },' + DOUGH, before=chain)


def test_a_fan_cools_bare_dough_faster_and_a_lidded_one_as_before() -> None:
    """A ball in the moving air of a fridge, an hour after it went in."""
    fan = kitchen(KITCHEN.replace("[fridge]", "[fridge]\nfan = true"))

    def core(container: str, there: Surroundings) -> float:
        steps = [*MIXED, {"do": "ball"}, {"do": "retard", "for": "2 h", "at": "fridge", "in": container}]
        return run(steps, at=there).judged.core

    assert core("open", fan) < core("open", kitchen()) - 1.0
    assert core("lidded tub", fan) == core("lidded tub", kitchen())
