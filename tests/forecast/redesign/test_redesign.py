"""Redesign: better than chance at equal cost, inside the cook's limits, a document that says the same."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from doughwright.errors import NoAnswerError
from doughwright.forecast.elsewhere import elsewhere
from doughwright.forecast.elsewhere._figures import RIPE
from doughwright.forecast.elsewhere._kitchens import Kitchens, kitchens_of
from doughwright.forecast.elsewhere._watch import Watch
from doughwright.forecast.redesign import Limits, Redesign, redesign
from doughwright.forecast.redesign._best import Best, Ordered, best_of, changes_in, trials_of
from doughwright.forecast.redesign._told import fresh_run
from doughwright.kitchen.population import Readers
from doughwright.publish.terminal.elsewhere import redesign_text
from doughwright.recipe.read import read_recipe
from doughwright.science.sampling.sobol import sobol
from tests.forecast.redesign.three import BUNS, LOAF, THREE
from tests.recipe.documents import RECIPE

EACH, TRIES, FRESH = 32, 192, 4096
A_DAY = Limits(total=(0.0, 24.0))


def kitchens(text: str) -> Kitchens:
    return kitchens_of(read_recipe(text).recipe, readers=Readers(), dough=None)


def trials(text: str, limits: Limits, watch: Watch) -> list[Ordered]:
    points = sobol(count=EACH, dimensions=kitchens(text).inputs, seed=1)
    return trials_of(kitchens(text), limits, points, watch)


def ripe(best: Best, watch: Watch) -> float:
    run = replace(best.trial.kitchens, changes=changes_in(best))
    return float(np.mean(fresh_run(run, FRESH, 99, watch).state == RIPE))


def by_chance(found: list[Ordered], watch: Watch) -> float:
    """As many random designs, the one with most ripe kitchens."""
    chance = np.random.Generator(np.random.PCG64(7))
    best: tuple[float, Best] | None = None
    for order, trial in found:
        designs = chance.random((TRIES // len(found), len(trial.levers)))
        share = np.mean((trial.run(designs).state == RIPE).reshape(len(designs), -1), axis=1)
        share[trial.outside(designs) > 0.0] = -1.0
        top = int(np.argmax(share))
        if best is None or share[top] > best[0]:
            values = tuple(float(one.value(designs[[top], at])[0]) for at, one in enumerate(trial.levers))
            best = float(share[top]), Best(trial, order, values, TRIES)
    assert best is not None
    return ripe(best[1], watch)


@pytest.mark.parametrize("name", THREE)
def test_it_does_as_well_as_random_search_at_equal_cost(name: str) -> None:
    """On kitchens that neither has seen; the full comparison of 2,000 designs is a benchmark."""
    watch = Watch(1)
    found = trials(THREE[name], Limits(total=(0.0, 48.0)), watch)
    assert ripe(best_of(found, TRIES, 0), watch) > by_chance(found, watch) - 0.005


@cache
def small() -> Redesign:
    document = read_recipe(RECIPE)
    return redesign(
        document.recipe, limits=A_DAY, tries=TRIES, each=EACH, fresh=2048, document=document, seed=1
    )


def test_the_result_keeps_to_the_cooks_limits_and_says_what_it_costs() -> None:
    """At most a day; hours, cold hours and sugar before and after."""
    assert small().after.hours.value <= 24.0 + 1e-6
    assert small().before.hours.value == pytest.approx(27.0)
    assert small().before.cold_hours.value == pytest.approx(24.0)
    assert small().after.cold_hours.value < 24.0
    assert small().after.sugar.value > 0.0
    assert small().tried == TRIES
    assert small().gain.low > 0.0


def test_the_changed_document_does_what_was_told() -> None:
    """Read and run again in the fresh kitchens it is as ripe; only the hour of the day it begins at moved."""
    document = read_recipe(small().document)
    run = kitchens_of(document.recipe, readers=Readers(), dough=None)
    again = 100.0 * float(np.mean(fresh_run(run, 2048, 3, Watch(1)).state == RIPE))
    assert again == pytest.approx(small().after.share.ripe.value, abs=1.0)


def test_the_edit_is_lossless() -> None:
    """Comments and all other lines stay; moved tables keep theirs."""
    before = {line.strip() for line in RECIPE.splitlines()}
    after = {line.strip() for line in small().document.splitlines()}
    assert {line for line in before if "#" in line and "yeast" not in line} <= after | {""}
    assert len(after - before) <= 2 + len(small().changes)


def test_dividing_moves_to_the_other_side_of_the_cold() -> None:
    """With nothing else free, the order of the steps alone; "as written" leaves it."""
    limits = Limits(room=(1.0, 1.01), cold=(24.0, 24.01), temper=(2.0, 2.01), yeast=(0.8, 0.801))
    orders = [order for order, _ in trials(RECIPE, limits, Watch(1))]
    assert orders[0] is None
    assert orders[1] == (0, 1, 2, 3, 4, 5, 8, 6, 7, 9, 10, 11, 12, 13)
    kept = trials(RECIPE, replace(limits, divide="as written"), Watch(1))
    assert [order for order, _ in kept] == [None]
    verbs = [step.do for step in trials(RECIPE, limits, Watch(1))[1][1].kitchens.recipe.steps]
    assert verbs[5:10] == ["bulk", "retard", "divide", "ball", "temper"]


def test_a_recipe_that_is_as_good_as_can_be_is_left_alone() -> None:
    """What does not gain is not proposed, and the text says so."""
    document = read_recipe(BUNS)
    narrow = Limits(room=(2.5, 2.55), yeast=(14.9, 15.1))
    found = redesign(document.recipe, limits=narrow, tries=64, each=EACH, fresh=512, document=document)
    assert found.changes == ()
    assert found.gain.value == 0.0
    assert found.document == BUNS
    assert "Nothing does better" in redesign_text(found)


def test_the_text_shows_changes_shares_and_costs() -> None:
    """Two tables and a sentence."""
    text = redesign_text(small()).replace("\u00a0", " ")
    for part in ("change", "as written", "ripe", "hours in the fridge", "sugar left", "of 100 kitchens ripe"):
        assert part in text


def test_a_range_of_the_document_is_what_is_free() -> None:
    """ "12 h to 16 h" in the fridge is searched from end to end, and no further."""
    text = LOAF.replace('for = "14 h"', 'for = "12 h to 16 h"')
    (_, trial), *_ = trials(text, Limits(), Watch(1))
    cold = next(one for one in trial.levers if one.name == "cold")
    assert (cold.low, cold.now, cold.high) == (12.0, 14.0, 16.0)


def test_the_dough_temperature_is_free_where_readers_aim() -> None:
    """Else each kitchen makes its own."""
    free = redesign(read_recipe(RECIPE).recipe, aim=True, tries=32, each=16, fresh=256).free
    assert "dough temperature" in free
    assert "dough temperature" not in small().free


def test_a_search_that_is_stopped_gives_the_best_so_far() -> None:
    """After a third of it."""
    told: list[int] = []
    found = redesign(
        read_recipe(LOAF).recipe,
        tries=TRIES,
        each=EACH,
        fresh=512,
        progress=lambda done, total, left: told.append(done),
        stop=lambda: len(told) >= 2,
    )
    assert found.after.share.ripe.value >= 0.0
    assert found.document is None
    assert found.why == "the recipe came without its text"


def test_nothing_free_has_no_answer() -> None:
    """Every limit closed."""
    closed = Limits(total=None, room=(1.5, 1.5), cold=(14.0, 14.0), temper=(2.5, 2.5), yeast=(3.0, 3.0))
    with pytest.raises(NoAnswerError, match="nothing is left free"):
        redesign(read_recipe(LOAF).recipe, limits=closed, tries=32, each=16, fresh=64)


def test_the_same_seed_gives_the_same_redesign_and_shares_agree_with_elsewhere() -> None:
    """Its "before" is what elsewhere says, to the kitchens' chance."""
    document = read_recipe(RECIPE)
    again = redesign(
        document.recipe, limits=A_DAY, tries=TRIES, each=EACH, fresh=2048, document=document, seed=1
    )
    assert replace(again, seconds=small().seconds) == small()
    plain = elsewhere(document.recipe, kitchens=2048, seed=5).share.ripe.value
    assert small().before.share.ripe.value == pytest.approx(plain, abs=4.0)


def test_hours_that_no_design_keeps_to_are_refused():
    """Two minutes in all leave no dough: that is said at once, with what would be possible."""
    with pytest.raises(NoAnswerError, match="no design keeps to the hours in all: needs a limit that leaves"):
        redesign(
            read_recipe(RECIPE).recipe, limits=Limits(total=(1 / 60, 2 / 60)), tries=16, each=8, fresh=64
        )


def test_a_total_narrower_than_a_quarter_of_an_hour_is_kept_to():
    """Hours are told to the quarter, but for a limit that has no quarter in it."""
    found = redesign(
        read_recipe(RECIPE).recipe, limits=Limits(total=(26.0, 26.1)), tries=32, each=8, fresh=64
    )
    assert found.after.hours.value == pytest.approx(26.05, abs=0.051)
