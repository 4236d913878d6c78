"""Any recipe that reads has days that hold together, or says in words why it has none."""

from __future__ import annotations

import json
import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from doughwright.errors import DocumentError, DoughwrightError, NoAnswerError
from doughwright.forecast.days import days
from doughwright.forecast.results import SERIES_UNITS, Days
from tests.forecast._documents import DOUGH, kitchen, recipe

PLACES = st.sampled_from(["fridge", "room", "28 °C", "-4 °C", "proofing box", "45 °C"])
CONTAINERS = st.sampled_from(
    ["open", "bowl", "covered bowl", "lidded tub", "box", "bag", "tray", "tin", "cloth"]
)
WAITS = st.fixed_dictionaries(
    {
        "do": st.sampled_from(["rest", "bulk", "retard", "temper", "proof", "bench rest", "cool"]),
        "for": st.sampled_from(["20 s", "5 min", "1 h to 3 h", "9 h", "2 days"]),
    },
    optional={"at": PLACES, "in": CONTAINERS},
)
WORK = st.one_of(
    st.fixed_dictionaries(
        {"do": st.sampled_from(["fold", "ball", "shape", "score", "note", "glaze"])},
        optional={"for": st.just("10 min"), "degas": st.sampled_from(["0 %", "50 %", "100 %"])},
    ),
    st.fixed_dictionaries({"do": st.just("divide")}, optional={"pieces": st.sampled_from(["1", "3", "12"])}),
    st.just({"do": "divide", "each": "250 g"}),
)
MIXING = st.sampled_from([{"do": "mix", "mix": "dough", "for": "5 min"}, {"do": "mix", "add": "later"}])
BAKE = [{"do": "par-bake", "for": "4 min", "at": "250 °C"}, {"do": "bake", "for": "5 min", "at": "250 °C"}]
MAKES = st.sampled_from(
    [
        'shape = "ball"\npieces = 3',
        'shape = "round"\ndiameter = "30 cm"\npieces = 2',
        'shape = "rectangle"\nlength = "40 cm"\nwidth = "30 cm"',
        'shape = "tin"\nlength = "25 cm"\nwidth = "11 cm"\nheight = "8 cm"\nloss = "2 %"',
    ]
)
DOUGHS = st.sampled_from(
    [
        DOUGH,
        DOUGH.replace('amount = "10 g"', 'amount = "10 g", add = "later"'),
        DOUGH.replace('amount = "2 g"', 'amount = "2 g", add = "later"'),
        DOUGH.replace('amount = "2 g"', 'amount = "0.01 g"'),
        DOUGH.replace('amount = "2 g"', 'amount = "40 g"'),
        DOUGH.replace('amount = "310 g"', 'amount = "500 g"'),
        DOUGH.replace('"water", amount = "310 g"', '"whole milk", amount = "330 g"')
        + '{ item = "sugar, granulated", amount = "80 g" }, { item = "egg, whole", amount = "1 large" },'
        '{ item = "butter, unsalted", amount = "60 g", add = "later" },',
    ]
)
STEPS = st.lists(st.one_of(WAITS, WAITS, WORK, MIXING), min_size=0, max_size=8)


@pytest.mark.property
@settings(max_examples=80)
@given(steps=STEPS, makes=MAKES, dough=DOUGHS, bakes=st.booleans())
def test_the_days_of_any_recipe_hold_together(
    steps: list[dict[str, str]], makes: str, dough: str, bakes: bool
) -> None:
    """Every series is finite and in order, gas is at least what is dissolved, each state has its why."""
    written = [{"do": "mix", "mix": "dough"}, *steps, *(BAKE if bakes else [])]
    try:
        document = recipe(written, makes=makes, dough=dough)
    except DocumentError:
        assume(False)
    assert_holds_together(days(document, kitchen()))


@pytest.mark.property
@settings(max_examples=40)
@given(steps=STEPS)
def test_what_has_no_days_says_so(steps: list[dict[str, str]]) -> None:
    """Whatever the order of steps, only an error of ours comes out."""
    try:
        document = recipe(steps)
    except DoughwrightError:
        return
    try:
        assert_holds_together(days(document, kitchen()))
    except NoAnswerError as error:
        assert error.fault.message


def assert_holds_together(found: Days) -> None:
    run = found.runs[0]
    series = run.series
    for name in SERIES_UNITS:
        values = getattr(series, name)
        assert len(values) == len(series.time)
        assert all(math.isfinite(value) for value in values)
    assert all(0.0 <= after - before <= 1.0 / 12.0 + 1e-9 for before, after in pairwise(series.time))
    assert min(series.rise) > 0.95
    assert min(series.sugar) >= 0.0
    assert all(gas >= dissolved - 1e-12 for gas, dissolved in zip(series.gas, series.dissolved, strict=True))
    assert max(series.tightness) <= 1.0
    assert series.time[-1] == pytest.approx(run.judged_at + 12.0)
    assert all(event.end >= event.start for event in run.events)
    assert all(later.start >= first.start - 1e-9 for first, later in pairwise(run.events))
    for reading in (run.judged, run.at_bake, run.at_shaping):
        assert reading is None or (reading.state in ("young", "ripe", "past") and reading.state_why)
    assert (run.at_bake is None) == bool(run.at_bake_why)
    assert (run.at_shaping is None) == bool(run.at_shaping_why)
    window = run.ripe_window
    assert window.why or (window.from_ is not None and window.to is not None)
    if window.from_ is not None and window.to is not None:
        assert window.from_ <= window.to
    assert "NaN" not in json.dumps(found.to_json())
