"""A recipe document is read, or refused with every fault at its place."""

from __future__ import annotations

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import DocumentError, DoughwrightError
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.model import Interval
from doughwright.recipe.read import read_recipe
from doughwright.units import AmountKind

from .documents import KITCHEN, RECIPE, changed


def faults_of(text: str) -> list[str]:
    """Each fault of a text as the terminal says it."""
    with pytest.raises(DocumentError) as caught:
        read_recipe(text, "pie.toml")
    return [str(fault) for fault in caught.value.faults]


def notes_of(text: str) -> str:
    """All notes of a text."""
    return "\n".join(str(note) for note in read_recipe(text, "pie.toml").notes)


def test_the_design_document_is_read_whole():
    """Every part of the example in the design comes out in SI units."""
    recipe = read_recipe(RECIPE).recipe
    assert recipe.title == "Leek and rye flat pie"
    assert [mix.name for mix in recipe.mixes] == ["poolish", "dough", "leeks", "dusting"]
    assert recipe.makes.diameter == pytest.approx(0.30)
    assert recipe.makes.loss == pytest.approx(0.01)
    assert recipe.mix("dough").ingredients[4].amount.kind is AmountKind.ALL
    assert recipe.mix("dough").ingredients[5].add == "later"
    assert recipe.steps[1].for_ == Interval(43200.0, 43200.0)
    assert recipe.steps[7].degas == pytest.approx(0.9)
    assert recipe.steps[11].at.degrees == 250.0
    assert recipe.target.rise == Interval(1.5, 2.0)
    assert [mix.name for mix in recipe.doughs] == ["dough"]


def test_a_range_of_time_keeps_both_ends():
    """``10 h to 14 h`` is a range; its middle is what the days run."""
    recipe = read_recipe(changed('for = "12 h"', 'for = "10 h to 14 h"')).recipe
    assert recipe.steps[1].for_ == Interval(36000.0, 50400.0)
    assert recipe.steps[1].for_.middle == 43200.0


@pytest.mark.parametrize(
    ("old", "new", "place", "says"),
    [
        ("schema = 1", "schema = 2", "1:10", "needs 1, found 2"),
        ('title = "Leek', 'titel = "Leek', "2:1", 'Did you mean "title"?'),
        ('"300 g"', "300", "26:36", 'found 300. Write for example "420 g"'),
        ('"300 g"', '"300"', "26:36", "needs an amount with its unit"),
        ('"300 g"', '"-300 g"', "26:36", "above zero"),
        ('"300 g"', '"0 g"', "26:36", "above zero"),
        ('"300 g"', '"nan g"', "26:36", "needs an amount"),
        ('"300 g"', '"inf g"', "26:36", "needs an amount"),
        ('"300 g"', '"1,500 g"', "26:36", "1500 g or 1.5 g"),
        ('"9 g"', '"300 %"', "31:35", "300 % of the flour is no dough"),
        ('"salt, fine"', '"slat"', "31:12", 'Did you mean "salt"?'),
        ('{ mix = "poolish"', '{ mix = "polish"', "30:11", 'Did you mean "poolish"?'),
        ('mix = "poolish"\nfor', 'mix = "poolsh"\nfor', "49:7", 'Did you mean "poolish"?'),
        ('for = "24 h"', 'for = "90 days"', "84:7", "at most 60 days"),
        ('for = "24 h"\nat = "fridge"', 'for = "24 h"\nat = "75 °C"', "85:6", "-40 to 60 °C"),
        ('for = "24 h"\nat = "fridge"', 'for = "24 h"\nat = "-41 °C"', "85:6", "-40 to 60 °C"),
        ('for = "24 h"\nat = "fridge"', 'for = "24 h"\nat = "nan °C"', "85:6", "needs a temperature"),
        ('for = "24 h"\nat = "fridge"', 'for = "24 h"\nat = " "', "85:6", "a place or a temperature"),
        ("schema = 1", "schema = true", "1:10", "Write schema = 1"),
        ("schema = 1", "schema = 1.0", "1:10", "Write schema = 1"),
        ("schema = 1", 'schema = "1"', "1:10", "Write schema = 1"),
        ('for = "24 h"', 'fro = "24 h"', "84:1", 'Did you mean "for"?'),
        ('for = "24 h"', 'for = "-5"', "84:7", 'Write for example "90 min"'),
        ('do = "retard"', 'do = "retrad"', "83:6", 'Did you mean "retard"'),
        ("pieces = 2", "pieces = 0", "6:10", "a whole number from 1 to 1000"),
        ("pieces = 2", "pieces = nan", "6:10", "a whole number"),
        ('diameter = "30 cm"', "", "7:9", 'a round needs its "diameter"'),
        ('diameter = "30 cm"', 'diameter = "30 m"', "8:12", "5 mm to 3 m"),
        ('rise = "1.5 to 2.0"', 'rise = "2.0 to 1.5"', "112:8", "lower end first"),
        ('amount = "all"', 'amount = "2 tbsp"', "30:31", '"all" or a mass'),
        ('salted", amount = "30 g"', 'salted", amount = "2 large"', "39:91", "a measure it has"),
        ('salted", amount = "30 g"', 'salted"', "39:55", '"amount" is missing'),
        ('add = "last"\nfor', 'add = "lats"\nfor', "69:7", 'Did you mean "last"'),
        ('with = ["leeks"]', 'with = ["leek"]', "103:9", 'Did you mean "leeks"?'),
        ('dough_temperature = "24 °C"', 'dough_temperature = "240 °C"', "111:21", "0 to 45 °C"),
        ('do = "divide"  ', 'do = "divide"\nheat = "fan"\n', "78:8", 'no "heat"'),
        ("[target]", "[targte]", "110:1", 'Did you mean "target"'),
        ('eat = "Saturday 19:00"', 'eat = "Caturday 25:00"', "10:7", 'for example "Saturday 19:00"'),
    ],
)
def test_a_fault_says_where_and_what_to_write(old, new, place, says):
    """One slip, one fault: file, line, column, what is wanted, what was found, what to write."""
    faults = faults_of(changed(old, new))
    assert any(fault.startswith(f"pie.toml:{place}: ") and says in fault for fault in faults), faults


def test_all_faults_come_at_once_in_the_order_of_the_text():
    """Three slips far apart are told together."""
    text = changed('"300 g"', '"300"')
    text = changed('for = "24 h"', 'for = "soon"', changed('"salt, fine"', '"slat"', text))
    assert [fault.split(":")[1] for fault in faults_of(text)] == ["26", "31", "84"]


def test_a_slip_in_the_only_mix_is_one_fault():
    """A mix with a fault in it still is a mix: nobody is told that there is none."""
    text = 'schema = 1\ntitle = "Plain"\n[[mix]]\nname = "dough"\ningredients = [ { item = "fluor" } ]\n'
    assert [fault.split(":")[1] for fault in faults_of(text)] == ["5"]
    assert "at least one [[mix]]" in faults_of('schema = 1\ntitle = "Plain"\nmix = []\n')[0]


def test_mixes_that_use_each_other_are_told_with_the_way_round():
    """A circle names the mixes it goes through."""
    line = '{ item = "water", amount = "90 g" },'
    faults = faults_of(changed(line, line + ' { mix = "dough", amount = "all" },'))
    assert '"poolish" -> "dough" -> "poolish"' in faults[0]


def test_percentages_need_a_flour_with_a_mass_or_a_piece_mass():
    """A formula in per cent alone says what is missing; with a piece mass it is read."""
    text = """schema = 1
title = "Plain"
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "100 %" },
  { item = "water", amount = "62 %" },
]
"""
    assert "one flour with a mass, or piece_mass" in faults_of(text)[0]
    read_recipe(text + '[makes]\npiece_mass = "250 g"\n')


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('at = "room"                  #', "#", "the room is meant"),
        ('amount = "9 g"', 'amount = "39 g"', "salt of 8.97 % is much"),
        ('amount = "9 g"', 'amount = "1 g"', "salt of 0.235 % is little"),
        ('"0.8 g"', '"12 g"', "yeast, as fresh of"),
        ('{ item = "water", amount = "200 g" }', '{ item = "water", amount = "20 g" }', "hydration of"),
        ('add = "later"\nfor', "for", 'no mix step says add = "later"'),
        ('with = ["leeks"]', "", '"leeks" is used in no mix and no step'),
        ('rise = "1.5 to 2.0"', 'rise = "1.8"', "read as 1.62 to 1.98"),
        ('rise = "1.5 to 2.0"', "", "1.6 to 2.2 is assumed"),
        ('kitchen = "boathouse.toml"', "", "middle of the published population"),
        ('eat = "Saturday 19:00"', "", "Saturday 19:00 is assumed"),
        ('{ item = "water", amount = "200 g" }', '{ item = "water", amount = "7 oz" }', "read as a mass"),
        ('do = "divide"', 'do = "fold"', "no step divides"),
        (
            'do = "retard"\nfor = "24 h"\nat = "fridge"',
            'do = "freeze"\nfor = "24 h"',
            "freezing is out of scope",
        ),
    ],
)
def test_what_reads_oddly_is_noted_and_still_read(old, new, says):
    """A note is no fault: the recipe is read."""
    assert says in notes_of(changed(old, new))


def test_the_design_document_has_nothing_odd():
    """The example in the design gives no note."""
    assert notes_of(RECIPE) == ""


def test_a_sourdough_counts_and_says_that_it_is_not_modelled():
    """Cultures and chemical raising are read, with a note that says what is out of scope."""
    text = changed(
        '{ item = "instant yeast", amount = "0.8 g" },', '{ item = "sourdough starter", amount = "80 g" },'
    )
    assert "not modelled" in notes_of(text)


def test_the_cooks_own_ingredient_is_known_in_its_document():
    """An [[ingredient]] table gives a name; without it the name is a fault."""
    text = changed('item = "leeks"', 'item = "sea beet"')
    assert "an ingredient that is known" in faults_of(text)[0]
    own = '[[ingredient]]\nname = "sea beet"\nlike = "spinach"\nsource = "picked at the creek"\n'
    read_recipe(text + own)


VALUES = [
    *re.findall(r'"[^"\n]*"', RECIPE),
    "1",
    "true",
    "{}",
    "[]",
    '""',
    '"½ cup"',
    "nan",
    "-1",
    "1979-05-27",
]
PIECES = ["", '"', "[", "]", "{", "}", "\n", "=", "#", ",", "\x00", "é", "-", "9", "\r", '"""', "'"]


def mutated(text: str, chance: random.Random) -> str:
    """The text with one to four slips of the pen."""
    for _ in range(chance.randint(1, 4)):
        kind = chance.random()
        if kind < 0.35:
            start = chance.randrange(len(text) + 1)
            text = text[:start] + chance.choice(PIECES) + text[start + chance.choice([0, 1, 2, 5, 30]) :]
        elif kind < 0.8:
            found = list(re.finditer(r'"[^"\n]*"', text)) or [re.match("", text)]
            one = chance.choice(found)
            text = text[: one.start()] + chance.choice(VALUES) + text[one.end() :]
        else:
            lines = text.split("\n")
            lines.insert(chance.randrange(len(lines)), chance.choice(lines))
            text = "\n".join(lines)
    return text


@pytest.mark.property
@settings(max_examples=400, deadline=None)
@given(seed=st.integers(0, 2**32), kitchen=st.booleans())
def test_a_mutated_document_is_read_or_refused_by_our_error(seed, kitchen):
    """Only our own error class may come out, and each fault can be rendered."""
    text = mutated(KITCHEN if kitchen else RECIPE, random.Random(seed))
    try:
        read_kitchen(text, "x.toml") if kitchen else read_recipe(text, "x.toml")
    except DoughwrightError as error:
        for fault in error.faults:
            assert str(fault)
            assert fault.to_json()["message"]


def test_steps_of_more_than_120_days_together_are_refused():
    """Each wait may be 60 days, but three of them are no recipe, and days to work out."""
    wait = '[[step]]\ndo = "retard"\nfor = "50 days"\nat = "fridge"\n'
    assert read_recipe(changed('[[step]]\ndo = "retard"', f'{wait * 2}[[step]]\ndo = "retard"')).recipe
    found = faults_of(changed('[[step]]\ndo = "retard"', f'{wait * 3}[[step]]\ndo = "retard"'))
    assert "at most 120 days for all steps together" in found[0]


def test_more_mixes_than_a_recipe_can_have_are_refused():
    """A chain of hundreds is no recipe; four hundred are taken."""
    mix = '[[mix]]\nname = "m{}"\nkind = "other"\ningredients = [ {{ item = "water", amount = "1 g" }} ]\n'
    head = 'schema = 1\ntitle = "Many"\n'
    assert read_recipe(head + "".join(mix.format(number) for number in range(400))).recipe
    found = faults_of(head + "".join(mix.format(number) for number in range(401)))
    assert "needs at most 400 mixes, found 401" in found[0]


def test_a_wait_before_its_dough_is_mixed_says_what_is_meant_instead():
    """An autolyse that names no mix, before the dough is mixed, would silently lengthen the poolish."""
    slip = '[[step]]\ndo = "autolyse"\nfor = "30 min"\n[[step]]\ndo = "mix"\nmix = "dough"'
    text = changed('[[step]]\ndo = "mix"\nmix = "dough"', slip)
    assert '"autolyse" comes before "dough" is mixed: "poolish" is meant' in notes_of(text)
    assert "is mixed" not in notes_of(changed("schema = 1", "schema = 1"))
