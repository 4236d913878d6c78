"""Any recipe that has days has an answer in many kitchens, and its redesign can be read and run."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from doughwright.errors import DocumentError, NoAnswerError
from doughwright.figures import jsonable
from doughwright.forecast._order import steps_of
from doughwright.forecast._waits import judged_step, waits_of
from doughwright.forecast.days import days
from doughwright.forecast.elsewhere import elsewhere
from doughwright.forecast.redesign import redesign
from doughwright.recipe.read import RecipeDocument, read_recipe
from tests.forecast._documents import kitchen, table
from tests.forecast.test_any_recipe import BAKE, DOUGHS, MAKES, STEPS

SLOW = [HealthCheck.too_slow, HealthCheck.filter_too_much]


def document(steps: list[dict[str, str]], makes: str, dough: str, bakes: bool) -> RecipeDocument:
    mixes = f'[[mix]]\nname = "dough"\nkind = "dough"\ningredients = [{dough}]\n'
    every = [{"do": "mix", "mix": "dough"}, *steps, *(BAKE if bakes else [])]
    text = f'schema = 1\ntitle = "Test"\n[makes]\n{makes}\n{mixes}' + "".join(map(table, every))
    try:
        return read_recipe(text)
    except DocumentError:
        assume(False)
        raise


@pytest.mark.property
@settings(max_examples=25, deadline=None, suppress_health_check=SLOW)
@given(steps=STEPS, makes=MAKES, dough=DOUGHS, bakes=st.booleans())
def test_the_shares_of_any_recipe_hold_together(
    steps: list[dict[str, str]], makes: str, dough: str, bakes: bool
) -> None:
    """A hundred in all, quantiles in order, every figure finite or with its why."""
    one = document(steps, makes, dough, bakes).recipe
    found = elsewhere(one, kitchens=96, seed=1, own=kitchen())
    share = [found.share.young.value, found.share.ripe.value, found.share.past.value]
    assert math.isclose(sum(value or 0.0 for value in share), 100.0)
    rows = [found.quantiles[level].values for level in ("5", "25", "50", "75", "95")]
    assert all(list(column) == sorted(column) for column in zip(*rows, strict=True))
    text = json.dumps(jsonable(found))
    assert "NaN" not in text
    assert "Infinity" not in text


@pytest.mark.property
@settings(max_examples=40, deadline=None, suppress_health_check=SLOW)
@given(steps=STEPS, makes=MAKES, dough=DOUGHS, bakes=st.booleans())
def test_it_is_judged_where_the_days_judge_it(
    steps: list[dict[str, str]], makes: str, dough: str, bakes: bool
) -> None:
    """The waits counted before judging last as long as the days run to it, but for work that takes time."""
    one = document(steps, makes, dough, bakes).recipe
    run = days(one, kitchen()).runs[0]
    own = steps_of(one, "dough")
    mixed = max(at for at, (_, step) in enumerate(own) if step.do == "mix")
    assume(mixed < judged_step(one, "dough"))
    working = sum(
        (step.lasts or 0.0) / 3600.0
        for _, step in own[mixed + 1 : judged_step(one, "dough")]
        if not step.waits and step.do != "mix"
    )
    after = own[mixed][0]
    waiting = sum(wait.hours for wait in waits_of(one, "dough") if wait.number > after)
    assert run.judged_at == pytest.approx(waiting + working, abs=1e-6)


@pytest.mark.property
@settings(max_examples=8, deadline=None, suppress_health_check=SLOW)
@given(steps=STEPS, makes=MAKES, dough=DOUGHS)
def test_any_redesign_can_be_read_and_costs_what_it_says(
    steps: list[dict[str, str]], makes: str, dough: str
) -> None:
    """The changed text is a recipe, judged at the hours that were told."""
    one = document(steps, makes, dough, True)
    try:
        found = redesign(one.recipe, tries=24, each=8, fresh=64, own=kitchen(), document=one)
    except NoAnswerError as error:
        assert error.fault.message == "nothing is left free to search"
        return
    again = read_recipe(found.document or "")
    assert days(again.recipe, kitchen()).runs[0].judged_at == pytest.approx(found.after.hours.value, abs=1e-3)
    assert len(again.recipe.steps) == len(one.recipe.steps)
