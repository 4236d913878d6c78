"""Waits that end by the dough: until its core is at a temperature, or until it has risen so far."""

from __future__ import annotations

import pytest

from doughwright.errors import DocumentError
from doughwright.plan._words import wait_says
from doughwright.publish.edits import edits
from doughwright.publish.explain import step_words, until_words
from doughwright.recipe.edit import edit_text
from doughwright.recipe.model import Step
from doughwright.recipe.read import read_recipe
from doughwright.recipe.types import Interval
from doughwright.recipe.until import Until

from .documents import RECIPE, changed

TEMPER = 'do = "temper"\nfor = "2 h"'


def with_until(until: str, wait: str = TEMPER) -> str:
    """The design's document with the temper ended by the dough."""
    return changed(wait, f"{wait}\nuntil = {until}")


def temper(text: str) -> Step:
    """The temper of a document."""
    return next(step for step in read_recipe(text).recipe.steps if step.do == "temper")


@pytest.mark.parametrize(
    ("written", "kind", "value"),
    [
        ("core 16 °C", "core", 16.0),
        ("core 16 degC", "core", 16.0),
        ("core 16,5 °C", "core", 16.5),
        ("Core  60.8 °F", "core", 16.0),
        ("core -1 °C", "core", -1.0),
        ("rise 1.5", "rise", 1.5),
        ("rise 1,5", "rise", 1.5),
        ("rise 2", "rise", 2.0),
        ("rise 4", "rise", 4.0),
    ],
)
def test_an_event_is_read_with_its_unit(written: str, kind: str, value: float) -> None:
    """Celsius, Fahrenheit and decimal commas, as everywhere."""
    until = temper(with_until(f'"{written}"')).until
    assert until is not None
    assert (until.kind, until.value) == (kind, pytest.approx(value))


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ('"core 16"', 'needs core and a temperature, found "core 16". Write "core 16 °C"'),
        ('"core"', "needs core and a temperature, or rise and a number of volumes"),
        ('"16 °C"', 'Write "core 16 °C"'),
        ('"risen by half"', 'Write "rise 1.5"'),
        ('"doubled"', 'Write "rise 2"'),
        ('"rise"', 'Write "core 16 °C" or "rise 1.5"'),
        ('"rise 50 %"', 'needs rise and a number of volumes, found "rise 50 %". Write "rise 1.5"'),
        ('"rise 1"', "a rise above 1 and at most 4 volumes"),
        ('"rise 0.5"', "a rise above 1 and at most 4 volumes"),
        ('"rise 4.1"', "a rise above 1 and at most 4 volumes"),
        ('"rise nan"', "rise and a number of volumes"),
        ('"core 51 °C"', "a core of -2 to 50 °C"),
        ('"core -3 °C"', "a core of -2 to 50 °C"),
        ('"core nan °C"', "core and a temperature"),
        ('"pretty"', "needs core and a temperature, or rise"),
        ("1.5", "found 1.5. Write"),
        ("true", "found true. Write"),
    ],
)
def test_what_is_no_event_is_refused_at_its_place(written: str, says: str) -> None:
    """Line, column, what is wanted, what was found, what to write."""
    text = with_until(written)
    line = text.splitlines().index(f"until = {written}") + 1
    with pytest.raises(DocumentError) as caught:
        read_recipe(text, "pie.toml")
    assert len(caught.value.faults) == 1
    said = str(caught.value.fault)
    assert said.startswith(f'pie.toml:{line}:9: step 10 "until": needs ')
    assert says in said


def test_work_and_baking_have_no_event() -> None:
    """Only a wait ends by itself."""
    text = changed('do = "ball"', 'do = "ball"\nuntil = "rise 1.5"')
    with pytest.raises(DocumentError, match='"ball" has no "until"'):
        read_recipe(text)


def test_an_event_needs_a_limit() -> None:
    """Without a time no plan could keep any free."""
    text = changed(TEMPER, 'do = "temper"\nuntil = "core 16 °C"')
    with pytest.raises(DocumentError, match='says "until core 16 °C", but not how long at most: needs "for"'):
        read_recipe(text)


def test_of_a_range_the_greater_end_is_the_limit() -> None:
    """Without an event a wait lasts the middle of its range."""
    ranged = TEMPER.replace("2 h", "1 h to 3 h")
    assert temper(changed(TEMPER, ranged)).lasts == 7200.0
    assert temper(changed(TEMPER, f'{ranged}\nuntil = "core 16 °C"')).lasts == 10800.0
    assert Step(do="mix").lasts is None


def test_an_edit_changes_the_event_and_nothing_else() -> None:
    """Comments, order and spacing stay; a new key goes below the step's last one."""
    text = with_until('"core 16 °C"   # or by touch')
    number = next(n for n, step in enumerate(read_recipe(text).recipe.steps) if step.until)
    edited = edit_text(text, {("step", number, "until"): "rise 1.6"})
    assert edited == text.replace('"core 16 °C"   # or by touch', '"rise 1.6"   # or by touch')
    assert temper(edit_text(RECIPE, {("step", number, "until"): "core 15 °C"})).until == Until("core", 15.0)


def test_it_is_said_as_a_cook_would() -> None:
    """In the sentences of check, in the plan and in what was edited."""
    text = with_until('"core 16 °C"')
    recipe = read_recipe(text).recipe
    step = temper(text)
    said = step_words(step).replace("\u00a0", " ")
    assert said == "temper until the core is at 16 °C, for at most 2 h in the room"
    assert (
        wait_says(recipe, step, "dough", "room") == "Temper, at room temperature, until the core is at 16 °C"
    )
    assert until_words(Until("core", 16.0), "US").replace("\u00a0", " ") == "until the core is at 61 °F"
    assert until_words(Until("rise", 1.5)) == "until it is 1.5 times its volume"
    assert edits(recipe, read_recipe(text.replace("core 16 °C", "rise 1.5")).recipe) == (
        "temper until core 16 °C to rise 1.5",
    )
    assert edits(read_recipe(RECIPE).recipe, recipe) == ("temper until core 16 °C",)


def test_code_may_make_one() -> None:
    """In Python a step takes the event itself."""
    step = Step(do="bulk", for_=Interval(3600.0, 3600.0), until=Until("rise", 1.5))
    assert step.until == Until("rise", 1.5)
