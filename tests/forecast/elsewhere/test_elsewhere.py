"""A recipe in many kitchens: shares, quantiles, what explains them, how it fails, what helps readers."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from doughwright.errors import NoAnswerError, UnknownNameError
from doughwright.forecast.elsewhere import Elsewhere, elsewhere
from doughwright.forecast.elsewhere._kitchens import kitchens_of
from doughwright.forecast.elsewhere._sample import sample
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.many import many
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.population import Readers
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.failing import failing_words
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe
from doughwright.science.parameters import Parameters
from tests.recipe.documents import KITCHEN, RECIPE, changed

COUNT = 3000


def recipe(text: str = RECIPE) -> Recipe:
    return read_recipe(text).recipe


def fast() -> Recipe:
    """No preferment, nothing cold: a dough of some hours in the room."""
    return recipe(
        """
schema = 1
title = "Quick flat pie"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "500 g" },
  { item = "water", amount = "310 g" },
  { item = "salt, fine", amount = "10 g" },
  { item = "instant yeast", amount = "4 g" },
]
[[step]]
do = "mix"
mix = "dough"
for = "8 min"
[[step]]
do = "bulk"
for = "2 h"
[[step]]
do = "shape"
"""
    )


@cache
def found() -> Elsewhere:
    return elsewhere(recipe(), kitchens=COUNT, seed=1)


def test_the_three_shares_are_of_all_kitchens() -> None:
    """Young, ripe and past add up to a hundred, each inside its interval."""
    shares = [found().share.young, found().share.ripe, found().share.past]
    assert sum(one.value or 0.0 for one in shares) == pytest.approx(100.0)
    assert all(one.low <= one.value <= one.high for one in shares)
    assert found().kitchens == found().asked == COUNT


def test_the_same_seed_gives_the_same_and_another_nearly_so() -> None:
    """The document's seed decides the kitchens; another draws others of the same population."""
    again, other = (elsewhere(recipe(), kitchens=COUNT, seed=seed) for seed in (1, 2))
    assert again.share == found().share
    assert again.percentiles == found().percentiles
    assert other.share != found().share
    assert other.share.past.value == pytest.approx(found().share.past.value, abs=4.0)


def test_quantiles_rise_in_order_and_end_where_the_percentiles_are() -> None:
    """5 below 25 below 50 below 75 below 95 per cent, at every hour up to the judged one."""
    rows = np.array([found().quantiles[str(level)].values for level in (5, 25, 50, 75, 95)])
    assert np.all(np.diff(rows, axis=0) >= 0.0)
    assert rows.shape[1] == len(found().quantiles["time"].values)
    assert found().quantiles["time"].values[-1] == pytest.approx(found().judged_at.value)
    hundred = np.array(found().percentiles.values)
    assert len(hundred) == len(found().states) == 100
    assert np.all(np.diff(hundred) >= 0.0)
    assert rows[2, -1] == pytest.approx((hundred[49] + hundred[50]) / 2.0, rel=0.02)


def test_states_of_the_hundred_agree_with_the_shares() -> None:
    """The hundred stand for all kitchens, to a few of them."""
    ripe = sum(one == "ripe" for one in found().states)
    assert ripe == pytest.approx(found().share.ripe.value, abs=3.0)


def test_the_middle_of_the_population_lies_in_the_middle() -> None:
    """A run in the population's middle kitchen is inside the middle half of all of them."""
    one = many(recipe(), surroundings(None), Parameters(), count=1, computed=True)
    quarter, rest = (found().quantiles[level].values[-1] for level in ("25", "75"))
    assert quarter < one.judged.rise[0] < rest


def test_what_is_weighed_counts_in_grams() -> None:
    """A batch eight times as large is weighed as well in grams, so that far more kitchens agree."""
    large = RECIPE.replace('"300 g"', '"2400 g"').replace('"45 g"', '"360 g"').replace('"200 g"', '"1600 g"')
    large = large.replace('"90 g"', '"720 g"').replace('"0.8 g"', '"6.4 g"').replace('"0.1 g"', '"0.8 g"')
    wide = found().rise
    narrow = elsewhere(recipe(large.replace("pieces = 2", "pieces = 16")), kitchens=1024, seed=1).rise
    assert narrow.high - narrow.low < 0.9 * (wide.high - wide.low)


def test_a_fridge_explains_a_cold_dough_and_not_a_warm_one() -> None:
    """Of a dough that never sees a fridge the room and the yeast explain the most."""
    cold = {one.input: one.share.value for one in found().explained_by}
    warm = {one.input: one.share.value for one in elsewhere(fast(), kitchens=COUNT, seed=1).explained_by}
    assert cold["fridge"] > 15.0
    assert warm["fridge"] < 1.0
    assert max(warm, key=lambda name: warm[name] or 0.0) in ("room", "yeast")
    assert sum(cold.values()) < 105.0


def test_full_indices_agree_with_the_shares_of_the_run() -> None:
    """First order by either way within their errors (ruling 40: 0.015), totals not below them."""
    wide = elsewhere(fast(), kitchens=4096, full=True, seed=1)
    own = {one.input: one.share for one in wide.explained_by}
    assert wide.full is not None
    assert wide.full.base == 1024
    assert wide.full.runs == 1024 * (2 + len(own))
    for one in wide.full.rise:
        assert one.first.value == pytest.approx(own[one.input].value, abs=6.0)
        assert one.total.high >= one.first.low - 2.0


def test_failing_kitchens_are_told_with_what_they_share() -> None:
    """The young ones are cold, the past ones warm; when each shows is said in hours."""
    young, past = found().failing
    assert (young.state, past.state) == ("young", "past")
    fridge = {one.what: one for one in young.traits}["the fridge"]
    assert fridge.there.value < fridge.all.value
    fridge = {one.what: one for one in past.traits}["the fridge"]
    assert fridge.there.value > fridge.all.value
    assert young.when.value > found().judged_at.value > past.when.value
    words = failing_words(past, found().judged_at.value)
    assert words.startswith(f"In {past.kitchens:,} kitchens it is past: half of those have left the range by")
    assert "the fridge" in words


def test_readers_who_measure_agree_more() -> None:
    """Told to measure their fridge, in a dough made for 5 °C, more are ripe; each advice says its meaning."""
    text = changed('"0.8 g"', '"0.35 g"', RECIPE)
    one = elsewhere(recipe(text), kitchens=2048, seed=1)
    told = {each.what: each for each in one.readers}
    names = ["measure the fridge", "measure the dough", "weigh on a finer scale", "do all of these"]
    assert list(told) == names
    assert told["measure the fridge"].change.low > 0.0
    assert told["do all of these"].change.value > told["measure the dough"].change.value
    assert told["measure the fridge"].means == "where the dough stands it is set to 4.8 °C, right to 0.7 °C"


def test_advice_with_no_part_in_a_recipe_is_left_out() -> None:
    """No fridge, nothing to aim for: only the scale is left, and there is no "all of these"."""
    one = elsewhere(fast(), kitchens=256, seed=1)
    assert [each.what for each in one.readers] == ["weigh on a finer scale"]


def test_aiming_narrows_the_dough_temperature() -> None:
    """Sd 1.5 °C about the wanted one, in place of what room, flour and water make."""
    aimed = elsewhere(recipe(), kitchens=1024, aim=True, seed=1).dough_temperature
    free = found().dough_temperature
    assert aimed.value == pytest.approx(24.0, abs=0.1)
    assert (aimed.low, aimed.high) == pytest.approx((24.0 - 2.47, 24.0 + 2.47), abs=0.15)
    assert free.high - free.low > 1.3 * (aimed.high - aimed.low)


def test_summer_ripens_more_than_the_year() -> None:
    """Rooms are 4 °C warmer."""
    year, summer = (elsewhere(fast(), kitchens=1024, season=one, seed=1) for one in ("year", "summer"))
    assert summer.rise.value > year.rise.value
    assert any("25 ± 2.3" in one for one in summer.said)


def test_a_run_that_is_stopped_keeps_what_it_has() -> None:
    """It says how many kitchens it has, and leaves the rest undone."""
    told: list[tuple[int, int, float]] = []
    one = elsewhere(
        fast(),
        kitchens=10_000,
        seed=1,
        progress=lambda done, total, left: told.append((done, total, left)),
        stop=lambda: len(told) >= 2,
    )
    assert (one.kitchens, one.asked) == (4096, 10_000)
    assert one.readers == ()
    assert told[0][0] == 2048
    assert all(left >= 0.0 for _, _, left in told)


def test_chunks_make_no_difference() -> None:
    """The first kitchens of a long run are those of a short one, to the last digit."""
    one = kitchens_of(fast(), readers=Readers(), dough=None)
    short = sample(one, count=100, seed=3, watch=Watch(100))
    long = sample(one, count=2500, seed=3, watch=Watch(2500))
    assert np.array_equal(short.rise, long.rise[:100])
    assert np.array_equal(short.course, long.course[:, :100])


def test_few_kitchens_say_what_they_cannot_tell() -> None:
    """Forty kitchens have shares, but nothing is known of what explains them."""
    one = elsewhere(fast(), kitchens=40, seed=1)
    assert one.kitchens == 40
    assert one.explained_by[0].share.value is None
    assert one.explained_by[0].share.why == "fewer than 80 kitchens were run"


def test_a_wait_that_ends_by_the_dough_has_a_common_clock() -> None:
    """Each kitchen is judged at its own hour; the fan runs to the last of them."""
    text = RECIPE.replace('do = "temper"\nfor = "2 h"', 'do = "temper"\nfor = "6 h"\nuntil = "core 16 °C"')
    assert text != RECIPE
    one = elsewhere(recipe(text), kitchens=512, seed=1)
    assert one.judged_at.high > one.judged_at.low
    times = one.quantiles["time"].values
    assert times[-1] >= one.judged_at.high


def test_there_is_no_answer_without_a_dough_or_a_target_to_aim_for() -> None:
    """Understood, but nothing to say; a name nobody has is told with the ones there are."""
    with pytest.raises(NoAnswerError, match="no dough temperature to aim for"):
        elsewhere(fast(), kitchens=64, aim=True)
    sauce = replace(fast().mixes[0], kind="sauce")
    without = replace(fast(), mixes=(sauce,), steps=())
    with pytest.raises(NoAnswerError, match="has no dough"):
        elsewhere(without, kitchens=64)
    with pytest.raises(UnknownNameError, match="no such dough"):
        elsewhere(fast(), kitchens=64, dough="pie")


def test_past_counts_from_the_last_time_above_the_range() -> None:
    """A dough that is divided after a long bulk was above it once before; that is not when it went past."""
    text = RECIPE.replace('do = "bulk"\nfor = "1 h"', 'do = "bulk"\nfor = "10 h"')
    one = elsewhere(recipe(text), kitchens=512, seed=1)
    past = one.failing[-1]
    assert past.state == "past"
    assert past.when.value > 10.0


def test_a_place_of_the_recipes_own_kitchen_is_as_it_is_there() -> None:
    """A proofing box is a thing that readers of such a recipe have, and it is said."""
    kitchen = surroundings(read_kitchen(KITCHEN).kitchen)
    text = changed(
        'do = "temper"\nfor = "2 h"\nat = "room"', 'do = "temper"\nfor = "2 h"\nat = "proofing box"'
    )
    one = elsewhere(recipe(text), kitchens=256, seed=1, own=kitchen)
    assert "proofing box as in the recipe's own kitchen" in one.said
    with pytest.raises(UnknownNameError, match="no such place"):
        elsewhere(recipe(text), kitchens=256, seed=1)
