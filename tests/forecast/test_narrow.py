"""Which measurement would narrow the forecast: ranked, never worse than nothing, none that is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from doughwright.errors import NoAnswerError, UnknownNameError
from doughwright.figures import jsonable
from doughwright.forecast.doubt import doubt_of
from doughwright.forecast.narrow import DRAWS, narrow
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import read_kitchen
from tests.forecast.calibrate._cooks import RECIPE

MIDDLE = surroundings(None)
FOUND = narrow(RECIPE, MIDDLE, seed=1)


def kitchen(text: str):
    return surroundings(read_kitchen(f'schema = 1\nkitchen = "k"\n{text}').kitchen)


def test_measurements_are_ranked_by_what_they_buy():
    """What narrows most first; a width after that is the width now less the reduction."""
    gains = [one.reduction.value for one in FOUND.measures]
    assert gains == sorted(gains, reverse=True)
    assert len(gains) == 7
    for one in FOUND.measures:
        assert 0.0 <= one.reduction.value < 100.0
        after = FOUND.width.value * (1.0 - one.reduction.value / 100.0)
        assert one.width.value == pytest.approx(after, rel=0.03)
        assert one.reduction.low <= one.reduction.value <= one.reduction.high
        assert one.minutes.value > 0.0


def test_a_day_in_the_fridge_hangs_on_the_fridge():
    """The fridge or a jar in it comes first, before the room and the scale."""
    first = {one.what for one in FOUND.measures[:2]}
    assert first == {"the fridge at that shelf", "a jar in the fridge overnight"}


def test_the_width_is_that_of_the_days():
    """Its interval is the one that the days carry, sampled more often."""
    doubt = doubt_of(RECIPE, MIDDLE, "dough", seed=1)
    low, high = doubt.judged["rise"]
    assert FOUND.rise.low == pytest.approx(low, abs=0.1)
    assert FOUND.rise.high == pytest.approx(high, abs=0.1)


def test_what_is_measured_already_buys_less():
    """A fridge known to 0.3 °C: measuring it again is worth little, and the jar less than before."""
    known = narrow(
        RECIPE,
        kitchen('[fridge]\ntemperature = { value = "4.8 °C", how = "measured", spread = "0.3 °C" }'),
        seed=1,
    )
    before = {one.what: one.reduction.value for one in FOUND.measures}
    after = {one.what: one.reduction.value for one in known.measures}
    assert after["the fridge at that shelf"] < 0.4 * before["the fridge at that shelf"]
    assert known.width.value < FOUND.width.value


def test_a_fine_scale_and_a_warm_dough_leave_measurements_out_and_say_why():
    """A scale of 0.01 g needs no better one; a dough that never is cold needs no fridge."""
    warm = replace(RECIPE, steps=tuple(one for one in RECIPE.steps if one.do != "retard"))
    found = narrow(warm, kitchen('[scale]\nstep = "0.01 g"'), seed=1)
    why = {one.what: one.why for one in found.not_measured}
    assert why["the yeast on a better scale"] == "the scale is fine enough"
    assert why["the fridge at that shelf"] == "this dough never stands in the fridge"
    assert "the room" in [one.what for one in found.measures]


def test_a_place_of_the_kitchen_can_be_measured():
    """A proving box that the dough stands in, known to 2 °C."""
    box = kitchen(
        '[[place]]\nname = "box"\ntemperature = { value = "28 °C", how = "measured", spread = "2 °C" }'
    )
    steps = tuple(
        replace(one, at=replace(one.at, text="box")) if one.do == "bulk" else one for one in RECIPE.steps
    )
    found = narrow(replace(RECIPE, steps=steps), box, seed=1)
    assert "the box" in [one.what for one in found.measures]


def test_the_same_seed_gives_the_same_answer():
    """To the last digit; another seed nearly the same."""
    assert jsonable(narrow(RECIPE, MIDDLE, seed=1)) == jsonable(FOUND)
    other = {one.what: one.reduction.value for one in narrow(RECIPE, MIDDLE, seed=2).measures}
    for one in FOUND.measures:
        assert other[one.what] == pytest.approx(one.reduction.value, abs=6.0)
    assert FOUND.draws == DRAWS
    assert np.isfinite(FOUND.width.value)


def test_a_dough_without_yeast_has_no_answer():
    """Exit 3, for the reason that the days give; it is not that nothing is in doubt."""
    bare = replace(RECIPE, mixes=tuple(replace(m, ingredients=m.ingredients[:2]) for m in RECIPE.mixes))
    with pytest.raises(NoAnswerError, match="has no yeast"):
        narrow(bare, MIDDLE)


def test_a_dough_that_the_recipe_has_not_is_wrong_input():
    """Exit 2, as in every verb."""
    with pytest.raises(UnknownNameError, match="no such dough"):
        narrow(RECIPE, MIDDLE, dough="poolish")
