"""Fit: the same dough in another kitchen, by the fewest levers, as a lossless edit."""

from __future__ import annotations

import difflib

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from doughwright.errors import DoughwrightError, NoAnswerError, UnknownNameError
from doughwright.forecast.days import days
from doughwright.forecast.fit import Fit, Limits, NoFitError, fit
from doughwright.forecast.fit._measure import hours_at
from doughwright.forecast.fit._round import yeast_near, yeast_step
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.parameters import Parameters
from tests.forecast._documents import kitchen as standard
from tests.forecast._documents import table
from tests.forecast._fits import RECIPES, document, kitchen
from tests.forecast.test_any_recipe import DOUGHS, MAKES, STEPS

OWN = kitchen("own")
WARM = kitchen("warm", fridge=8, room=24)


def changed(found: Fit) -> dict[tuple[str, int | None], float | str]:
    """What was changed to what, by what and the step's number."""
    return {(one.what, one.step): getattr(one.to, "value", one.to) for one in found.changes}


def yeast(one: RecipeDocument) -> float:
    """Grams of yeast weighed into the dough itself."""
    lines = weigh(one.recipe)["dough"].lines
    return sum(1000.0 * (line.mass or 0.0) for line in lines if line.ingredient and line.ingredient.to_fresh)


def waits(one: RecipeDocument) -> list[float]:
    """Minutes of each wait, the middle of a range."""
    return [(step.lasts or 0.0) / 60.0 for step in one.recipe.steps if step.waits]


def assert_the_same_dough(found: Fit) -> None:
    """Ripe, every measure near what is wanted, and so by the days of the new text read afresh."""
    here = {"warm": WARM, "own": OWN}.get(found.kitchen)
    assert (found.reached, found.after.state) == (True, "ripe")
    assert [one.what for one in found.measures if not one.same] == []
    if here is not None:
        run = days(read_recipe(found.document).recipe, here).runs[0]
        assert run.judged.state == "ripe"
        assert run.judged.rise == pytest.approx(found.after.rise.value, abs=1e-5)


@pytest.mark.property
@pytest.mark.parametrize("name", RECIPES)
def test_fitting_to_the_recipes_own_kitchen_changes_nothing(name: str) -> None:
    """There the dough is the same already: no lever, no change, the same characters."""
    one = document(name)
    found = fit(one, OWN, OWN)
    assert (found.changes, found.levers, found.document) == ((), (), one.text)
    assert found.reached


@pytest.mark.property
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    name=st.sampled_from(sorted(RECIPES)),
    fridge=st.floats(2.0, 8.0),
    room=st.floats(17.0, 27.0),
    altitude=st.sampled_from([0, 1800]),
    scale=st.sampled_from(["1", "0.1", "0.01"]),
)
def test_a_fit_lands_in_the_target(name: str, fridge: float, room: float, altitude: int, scale: str) -> None:
    """Whatever the kitchen: the new text, run there, is ripe; or it is said that there is no fit."""
    here = kitchen("there", fridge=round(fridge, 1), room=round(room, 1), altitude=altitude, scale=scale)
    try:
        found = fit(document(name), OWN, here)
    except NoFitError as error:
        assert not error.nearest.reached
        return
    run = days(read_recipe(found.document).recipe, here).runs[0]
    assert run.judged.state == "ripe"
    for one in found.measures:
        assert abs(one.after.value - one.wanted.value) <= 1.06 * one.tolerance.value


KITCHENS = [
    kitchen("there", fridge=fridge, room=room, altitude=altitude, scale=scale)
    for fridge, room, altitude, scale in [
        (2, 17, 0, "0.01"),
        (8, 27, 0, "1"),
        (3, 18, 0, "0.01"),
        (7, 24, 0, "0.01"),
        (4, 19, 1800, "1"),
        (6, 22, 0, "0.01"),
        (8, 21, 0, "1"),
        (2, 21, 0, "0.01"),
        (5, 17, 0, "1"),
        (5, 25, 0, "0.01"),
        (4, 23, 900, "1"),
    ]
]
UNSURE = "a fit back to its own kitchen may take other levers"


@pytest.mark.property
@pytest.mark.parametrize("name", RECIPES)
def test_there_and_back_is_the_recipe_again(name: str) -> None:
    """Within 5 % of the yeast, or half a step of the scale, and 15 min of each wait; where not, it is said.

    All of these come back on the machine that measured them; one of each recipe may hang on a last digit.
    """
    one = document(name)
    astray = 0
    for there in KITCHENS:
        own = kitchen("own", scale=f"{1000.0 * there.scale:g}")
        away = fit(one, own, there)
        back = fit(away.fitted, there, own)
        grams = yeast(one)
        near = max(0.05 * grams, 0.5 * yeast_step(grams, 1000.0 * own.scale))
        again = yeast(back.fitted) == pytest.approx(grams, abs=near)
        again = again and waits(back.fitted) == pytest.approx(waits(one), abs=15.0)
        if not again:
            astray += 1
            assert any(UNSURE in said for said in away.said)
    assert astray <= 1


def test_a_way_back_that_is_not_found_is_said() -> None:
    """A loaf whose sugar is nearly gone at home has no usual fit in a cold kitchen, so none to come back."""
    found = fit(document("tin"), kitchen("own", fridge=7, room=24), kitchen("there", fridge=2, room=17))
    assert found.after.state == "ripe"
    assert any(UNSURE in said for said in found.said)


@pytest.mark.parametrize("name", ["round", "buns", "tin", "overnight"])
def test_a_warm_kitchen_gets_the_same_dough(name: str) -> None:
    """Room at 24 °C for 21, fridge at 8 °C for 5: past as written, the same dough as fitted."""
    assert_the_same_dough(fit(document(name), OWN, WARM))


def test_a_warmer_kitchen_takes_less_of_what_it_takes() -> None:
    """Less yeast, or shorter waits: nothing is made more of in a kitchen that is warmer all over."""
    found = fit(document("round"), OWN, WARM)
    assert found.before.state == "past"
    assert len(found.changes) >= 2
    for one in found.changes:
        assert one.to.value < one.from_.value, one.what


def test_the_best_single_change_is_told_with_what_it_leaves_wrong() -> None:
    """With several levers in the fit, no one of them could do it alone."""
    found = fit(document("round"), OWN, WARM)
    assert len(found.levers) > 1
    assert found.single is not None
    assert len(found.single.wrong) >= 1
    assert {one.what for one in found.single.measures if not one.same} == set(found.single.wrong)


def test_a_lever_that_is_enough_is_taken_alone() -> None:
    """A kitchen that only lies high wants less yeast and nothing else."""
    found = fit(document("round"), kitchen("low"), kitchen("high", altitude=1500))
    assert found.levers == ("yeast",)
    assert found.single is None
    assert list(changed(found)) == [("instant yeast", None)]


def test_what_each_lever_does_has_the_signs_a_baker_knows() -> None:
    """More yeast raises more and eats more sugar; an hour in the cold is about an hour of cold."""
    does = {one.lever: {effect.what: effect.change.value for effect in one.effects} for one in fit(
        document("round"), OWN, WARM).does}  # fmt: skip
    assert does["yeast"]["rise"] > 0.0 > does["yeast"]["sugar left"]
    assert does["retard"]["hours cold"] == pytest.approx(1.29, abs=0.05)
    assert does["temper"]["rise"] > 0.0
    assert does["dough temperature"]["hours warm"] > 0.0


def test_only_the_changed_values_change_in_the_text() -> None:
    """Comments, order and spacing stay: every changed line differs in its value alone."""
    one = document("round")
    found = fit(one, OWN, WARM, name="warm.toml")
    diff = [
        line for line in difflib.ndiff(one.text.splitlines(), found.document.splitlines()) if line[0] in "+-"
    ]
    assert 'for   =   "' in found.document
    assert found.document.count("#") == one.text.count("#")
    assert 'kitchen = "warm.toml"' in found.document
    steps = [change for change in found.changes if change.step is not None]
    assert len(diff) <= 1 + 2 * (len(steps) + 1)


def test_times_are_told_to_five_minutes_and_yeast_to_the_scale() -> None:
    """On a scale of 0.1 g the yeast is a whole number of tenths, where it can be weighed at all."""
    found = fit(document("tin"), OWN, kitchen("warm", fridge=8, room=24, scale="0.1"))
    for (_, step), value in changed(found).items():
        unit = 1.0 / 12.0 if step is not None else 0.1
        assert value / unit == pytest.approx(round(value / unit), abs=1e-6)
    assert [one.weighable for one in found.weighing] == [True]


def test_yeast_that_a_scale_cannot_weigh_says_what_to_do_instead() -> None:
    """0.8 g on a scale of 1 g: half a step is more than a tenth, so it is stirred into water."""
    found = fit(document("round"), OWN, kitchen("warm", fridge=8, room=24, scale="1"))
    assert [one.weighable for one in found.weighing] == [False]
    assert "water" in (found.weighing[0].instead or "")


@pytest.mark.parametrize(
    ("grams", "scale", "step"), [(5.0, 1.0, 1.0), (4.9, 1.0, 0.1), (0.5, 0.1, 0.1), (0.45, 0.1, 0.01)]
)
def test_the_step_of_yeast_is_the_scales_where_half_of_it_is_a_tenth(
    grams: float, scale: float, step: float
) -> None:
    """DESIGN 3: half a step of at most 10 % for yeast; below that it is told to about a fortieth."""
    assert yeast_step(grams, scale) == pytest.approx(step)


def test_yeast_is_told_below_and_above() -> None:
    """A factor of 0.87 on 0.8 g is 0.696 g: 0.6 or 0.7 g on a scale of 0.1 g."""
    assert yeast_near(0.87, 0.8, 0.1) == pytest.approx((0.75, 0.875))


def test_what_is_kept_stays_as_it_is() -> None:
    """A cook who does not want to touch yeast or fridge is given a fit without them, or none."""
    keep = ("yeast", "fridge")
    try:
        found = fit(document("round"), OWN, kitchen("mild", fridge=6, room=22), limits=Limits(keep=keep))
    except NoFitError as error:
        found = error.nearest
    assert not {"yeast", "retard"} & set(found.levers)
    assert not {("instant yeast", None), ("retard", 5)} & changed(found).keys()


def test_no_wait_is_longer_than_the_longest() -> None:
    """With 20 h at most, the 24 h in the cold come down, and it is the same dough or said that it is not."""
    try:
        found = fit(document("round"), OWN, WARM, limits=Limits(longest_wait=20.0))
    except NoFitError as error:
        found = error.nearest
    assert max(waits(found.fitted)) <= 20.0 * 60.0 + 1e-6


def test_too_little_time_is_said_with_what_comes_nearest() -> None:
    """In ten hours no dough of a day and more is made: exit 3, and the nearest is told."""
    with pytest.raises(NoFitError) as raised:
        fit(document("round"), OWN, WARM, limits=Limits(available=10.0))
    assert isinstance(raised.value, NoAnswerError)
    assert raised.value.exit_code == 3
    assert not raised.value.nearest.reached
    assert "nearest" in str(raised.value)


def test_nobody_works_at_night() -> None:
    """With a meal named, every step of the fitted recipe begins in the hours awake, or none is found."""
    try:
        found = fit(document("round", eat="Saturday 19:00"), OWN, WARM)
    except NoFitError as error:
        assert "Eat at" in str(error) or "night" in str(error) or "limits" in str(error)
        return
    steps = found.fitted.recipe.steps
    before = np.cumsum([(step.lasts or step.hands or 0.0) / 3600.0 for step in reversed(steps)])
    clock = (19.0 - before) % 24.0
    assert np.all((clock >= 7.0) & (clock <= 23.0))


def test_a_recipe_that_is_not_ripe_at_home_is_fitted_to_the_middle_of_its_target() -> None:
    """DESIGN 3: same dough is the reading if it is ripe there, else the middle of the target, and said."""
    cold = kitchen("cold", fridge=2, room=17)
    found = fit(document("round"), cold, OWN)
    assert found.wanted.state == "young"
    assert found.measures[0].wanted.value == pytest.approx(1.9)
    assert "sugar left" not in [one.what for one in found.measures]
    assert any("middle of its target" in one for one in found.said)


def test_hours_are_counted_at_4_and_at_20_degrees() -> None:
    """A day at 4 °C is 24 h cold, 2 h at 20 °C 2 h warm; an hour at 14 °C is 1.85^-0.6 (by hand 0.691)."""
    time = np.array([[0.0, 0.0, 0.0], [24.0, 2.0, 1.0]])
    mean = np.array([[4.0, 20.0, 14.0]] * 2)
    cold, warm = hours_at(time, mean, Parameters())
    assert cold == pytest.approx([24.0, 0.0, 0.0])
    assert warm == pytest.approx([0.0, 2.0, 0.691], abs=1e-3)


def test_a_place_that_this_kitchen_has_not_is_its_room() -> None:
    """A proof in the own kitchen's box goes to the room elsewhere, and that is a change like the others."""
    text = (
        RECIPES["buns"]
        .format(eat="")
        .replace('for = "65 min"\nat = "room"', 'for = "65 min"\nat = "Warm shelf"')
    )
    shelf = kitchen("own", more='[[place]]\nname = "Warm shelf"\ntemperature = "26 °C"\n')
    found = fit(read_recipe(text), shelf, OWN)
    assert changed(found)["proof at", 5] == "room"
    assert any("Warm shelf" in one for one in found.said)


@pytest.mark.property
@settings(max_examples=25)
@given(steps=STEPS, makes=MAKES, dough=DOUGHS)
def test_any_recipe_is_fitted_or_it_is_said_why_not(
    steps: list[dict[str, str]], makes: str, dough: str
) -> None:
    """Whatever the steps: a fit whose text is ripe there, or an error of ours with what is wrong."""
    mix = f'[[mix]]\nname = "dough"\nkind = "dough"\ningredients = [{dough}]\n'
    text = f'schema = 1\ntitle = "Test"\n[makes]\n{makes}\n{mix}'
    try:
        one = read_recipe(text + "".join(map(table, [{"do": "mix", "mix": "dough"}, *steps])))
        found = fit(one, standard(), kitchen("there", fridge=7, room=24))
    except DoughwrightError as error:
        assert error.fault.message
        return
    assert found.after.state == "ripe"
    assert read_recipe(found.document).recipe == found.fitted.recipe


def test_a_dough_that_is_not_there_is_refused() -> None:
    """With the names there are."""
    with pytest.raises(UnknownNameError, match="dough"):
        fit(document("round"), OWN, WARM, dough="dogh")


BUNS = """
schema = 1
title = "Buns that stand at their ceiling"
[makes]
pieces = 9
shape = "ball"
[[mix]]
name = "dough"
ingredients = [
  { item = "plain flour", amount = "440 g" },
  { item = "milk, whole", amount = "245 g" },
  { item = "active dry yeast", amount = "6 g", woken = true },
  { item = "sugar, granulated", amount = "50 g" },
  { item = "butter, unsalted", amount = "55 g" },
  { item = "salt, table", amount = "6 g" },
]
[[step]]
do = "mix"
for = "10 min"
[[step]]
do = "bulk"
for = "1 h 45 min"
at = "room"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "retard"
for = "12 h"
at = "fridge"
[[step]]
do = "proof"
for = "1 h 45 min"
at = "28 °C"
[[step]]
do = "bake"
for = "18 min"
at = "190 °C"
"""


def test_a_dough_at_its_ceiling_is_fitted_too() -> None:
    """There more yeast and less give the same rise, so that slopes say nothing: less yeast is found."""
    found = fit(read_recipe(BUNS), standard(), standard())
    assert found.before.state == "past"
    assert found.after.state == "ripe"
    assert changed(found)["active dry yeast", None] < 4.0


def test_the_other_doughs_are_said_to_stay_as_written() -> None:
    """A recipe of two doughs is fitted one at a time, and nobody is left to think that both are."""
    text = document("round").text
    first = text.index("[[mix]]")
    mix = text[first : text.index("[[step]]")].replace('"dough"', '"other"', 1)
    two = text.replace("[[step]]", mix + "[[step]]", 1)
    steps = two.index("[[step]]")
    named = two[:steps] + two[steps:].replace("do =", 'of = "dough"\ndo =').replace(
        'of = "dough"\ndo = "mix"', 'do = "mix"'
    )
    found = fit(read_recipe(named), OWN, OWN)
    assert 'only "dough" is fitted: other stays as written until it is named' in found.said


def test_what_nobody_could_change_cannot_be_kept() -> None:
    """A slip in what is kept would else be a lever that moves."""
    with pytest.raises(UnknownNameError, match=r'what is kept.* Did you mean "temper"'):
        fit(document("round"), OWN, WARM, limits=Limits(keep=("tempr",)))
