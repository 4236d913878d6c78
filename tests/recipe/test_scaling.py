"""Scaling is a lossless edit: the amounts change, and nothing else."""

from __future__ import annotations

import difflib
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import InputError
from doughwright.recipe.scaling import Scaled, scale

from .documents import RECIPE, changed
from .kitchens import PLAIN, SHARES, document, dough_of

PER_PIECE = RECIPE.replace('per = "batch"', 'per = "piece"')
EACH = PLAIN + '\n[[step]]\ndo = "divide"\neach = "360 g"\n'
IMPERIAL = """schema = 1
title = "Pound loaf"
cups = "imperial"

[makes]
pieces = 1
diameter = "12 in"

[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "1 lb 4 oz" },
  { item = "water", amount = "12 1/2 fl oz" },
  { item = "salt, fine", amount = "1½ tsp" },
  { item = "fresh yeast", amount = "0,5 oz" },
  { item = "honey", amount = "to taste" },
  { item = "egg", amount = "1 large" },
]
"""

CUPS = PLAIN.replace('"1 kg"', '"7 cups"').replace('"620 g"', '"2 3/4 cups"')


def scaled(text: str = RECIPE, **target: float) -> Scaled:
    return scale(document(text), **target)


def new_lines(text: str, made: Scaled) -> list[str]:
    """The lines that are not as they were."""
    diff = difflib.ndiff(text.splitlines(), made.document.splitlines())
    return [line[2:] for line in diff if line.startswith("+ ")]


def said(made: Scaled) -> dict[str, str]:
    return {one.what: one.how for one in made.moved}


def test_more_pieces_are_more_of_everything() -> None:
    """Five in place of two: everything 2.5 times, a piece as before."""
    made = scaled(pieces=5)
    dough = dough_of(made.document)
    assert made.factor == pytest.approx(2.5)
    assert (dough.pieces, dough.mass.value) == (5, pytest.approx(1872.25))
    assert dough.piece_mass.value == pytest.approx(370.7, abs=0.05)


def test_only_amounts_and_counts_change() -> None:
    """Comments, order, spacing, steps and times keep their characters."""
    made = scaled(pieces=5)
    blank = re.compile(r'(amount = )"[^"]*"|(pieces = )\d+|(portions = )\d+')
    assert blank.sub("", made.document) == blank.sub("", RECIPE)


def test_a_percentage_of_the_dough_stays() -> None:
    """Everything in per cent: only the number of pieces is written anew."""
    made = scaled(SHARES, pieces=6)
    assert new_lines(SHARES, made) == ["pieces = 6"]
    assert dough_of(made.document).mass.value == pytest.approx(1591.84, abs=0.005)


def test_percentages_scale_through_the_mass_of_a_piece() -> None:
    """A piece of 390 g in place of 260 g."""
    made = scaled(SHARES, piece=0.39)
    assert new_lines(SHARES, made) == ['piece_mass = "390 g"']
    assert dough_of(made.document).piece_mass.value == pytest.approx(390.0)


def test_a_wider_round_is_scaled_by_area() -> None:
    """From 30 to 45 cm is 2.25 times, at the same loading; the number of pieces stays."""
    made = scaled(diameter=0.45)
    before, after = dough_of(), dough_of(made.document)
    assert made.factor == pytest.approx(2.25)
    assert after.loading.value == pytest.approx(before.loading.value, rel=1e-5)
    assert after.pieces == 2
    assert 'diameter = "45 cm"' in made.document
    assert "loading" not in said(made)


def test_toppings_follow_pieces_and_area() -> None:
    """180 g of leeks for the batch are 450 g for five pieces, and 405 g for rounds of 45 cm."""
    assert 'item = "leeks", amount = "450 g"' in scaled(pieces=5).document
    assert 'item = "leeks", amount = "405 g"' in scaled(diameter=0.45).document


def test_what_is_for_one_piece_stays_when_pieces_change() -> None:
    """And follows the area when the size does."""
    made = scaled(PER_PIECE, pieces=5)
    assert 'item = "leeks", amount = "180 g"' in made.document
    assert "What is written for one piece stays as it is." in made.notes
    assert 'item = "leeks", amount = "405 g"' in scaled(PER_PIECE, diameter=0.45).document


@pytest.mark.parametrize("shape", ["rectangle", "tin", "ball"])
def test_only_a_round_has_a_diameter(shape: str) -> None:
    """The others are told what to do instead."""
    sides = 'length = "20 cm"\nwidth = "10 cm"\nheight = "9 cm"\n'
    text = PLAIN.replace('shape = "ball"', f'shape = "{shape}"\n{sides if shape != "ball" else ""}')
    with pytest.raises(InputError, match=shape) as caught:
        scaled(text, diameter=0.3)
    assert "--piece" in str(caught.value)


def test_flour_dough_and_piece_come_out_as_asked() -> None:
    """To the digits that are written."""
    assert dough_of(scaled(flour=1.0).document).flour.value == pytest.approx(1000.0, rel=1e-5)
    assert dough_of(scaled(dough=1.5).document).mass.value == pytest.approx(1500.0, rel=1e-5)
    assert dough_of(scaled(piece=0.42).document).piece_mass.value == pytest.approx(420.0, rel=1e-5)


def test_the_tool_says_that_times_are_not_scaled() -> None:
    """And that a heavier piece takes other times."""
    assert scaled(pieces=5).notes[0] == "Times and temperatures are not scaled."
    assert any("other time" in note or "another time" in note for note in scaled(piece=0.8).notes)
    assert not any("another time" in note for note in scaled(pieces=5).notes)


def test_a_piece_of_another_mass_at_the_same_size_says_that_the_loading_moves() -> None:
    """The tool does not change the diameter behind the cook's back."""
    made = scaled(piece=0.7414)
    assert any("loading moves" in note for note in made.notes)
    assert said(made)["loading"] == "0.52 g/cm2 more"


def test_pieces_by_weight_become_more_pieces() -> None:
    """4 of 360 g and 210 g left become 8 of 360 g and nothing left; each keeps its weight."""
    made = scaled(EACH, pieces=8)
    dough = dough_of(made.document)
    assert (dough.pieces, dough.rest.value) == (8, pytest.approx(0.0, abs=0.01))
    assert 'each = "360 g"' in made.document


def test_more_flour_for_pieces_by_weight_is_more_pieces() -> None:
    """Twice the dough: nine of 360 g."""
    made = scaled(EACH, flour=2.0)
    dough = dough_of(made.document)
    assert (dough.pieces, dough.piece_mass.value) == (9, pytest.approx(360.0))
    assert "pieces = 9" in made.document


def test_a_heavier_piece_by_weight_writes_each() -> None:
    """540 g in place of 360 g."""
    assert 'each = "540 g"' in scaled(EACH, piece=0.54).document


def test_the_divide_step_is_kept_up_with_makes() -> None:
    """Both say six."""
    made = scaled(PLAIN + '\n[[step]]\ndo = "divide"\npieces = 4\n', pieces=6)
    assert made.document.count("pieces = 6") == 2


def test_a_recipe_without_makes_gets_one() -> None:
    """At its end, so that nothing above moves."""
    bare = PLAIN.replace('[makes]\npieces = 4\nshape = "ball"\n\n', "")
    made = scaled(bare, pieces=3)
    assert made.document.startswith(bare.replace("1 kg", "3 kg")[:40])
    assert made.document.endswith("[makes]\npieces = 3\n")
    assert dough_of(made.document).mass.value == pytest.approx(4950.0)


def test_amounts_keep_their_units_and_notation() -> None:
    """Pounds and ounces, fractions, a comma, large eggs; what is not measured stays."""
    made = scaled(IMPERIAL, pieces=2)
    for amount in ("2 lb 8 oz", "25 fl oz", "3 tsp", "1 oz", "to taste", "2 large"):
        assert f'amount = "{amount}"' in made.document
    assert 'diameter = "16 in"' in scaled(IMPERIAL, diameter=16 * 0.0254).document


def test_part_of_an_egg_is_said() -> None:
    """One and a half eggs: weigh it."""
    half = scaled(IMPERIAL.replace('"1 large"', '"3 large"'), diameter=12 * 0.0254 * math.sqrt(0.5))
    assert any("no whole number" in note for note in half.notes)


def test_windows_line_ends_stay() -> None:
    """Every line still ends as it did."""
    text = RECIPE.replace("\n", "\r\n")
    made = scaled(text, pieces=5).document
    assert made.count("\r\n") == made.count("\n") == text.count("\n")


def test_what_is_as_it_was_is_not_said_to_have_moved() -> None:
    """Percentages stay, so only masses move; scaling to what it is moves nothing."""
    moved = said(scaled(pieces=5))
    assert moved["water (dough)"] == "300 g more"
    assert moved["pieces"] == "3 more"
    assert not {"hydration", "salt", "fat", "a piece"} & set(moved)
    same = scaled(pieces=2)
    assert (same.document, same.moved) == (RECIPE, ())


def test_portions_follow_and_rounding_is_said() -> None:
    """Four portions from two pieces are ten from five; 1.4 times is rounded."""
    assert "portions = 10" in scaled(pieces=5).document
    assert any("Portions are rounded" in note for note in scaled(diameter=0.355).notes)


@pytest.mark.parametrize(
    "target",
    [
        {}, {"pieces": 0}, {"pieces": -2}, {"pieces": 1001}, {"pieces": True}, {"pieces": 2.5},
        {"pieces": math.nan}, {"diameter": 3000.0}, {"diameter": 0.0}, {"diameter": math.nan},
        {"flour": 0.0}, {"flour": math.inf}, {"flour": -1.0}, {"flour": 1e6}, {"flour": 999.0},
        {"dough": math.nan}, {"piece": 0.0}, {"piece": 1e9}, {"pieces": 3, "flour": 1.0},
    ],
)  # fmt: skip
def test_absurd_targets_are_refused(target: dict[str, float]) -> None:
    """Each with what is wanted and what was found."""
    with pytest.raises(InputError) as caught:
        scaled(**target)
    fault = caught.value.fault
    assert fault.wanted and fault.found and fault.try_


def test_a_recipe_without_dough_cannot_be_scaled_by_flour() -> None:
    """There is none; pieces work."""
    text = 'schema = 1\ntitle = "Sauce"\n[[mix]]\nname = "sauce"\nkind = "sauce"\n'
    text += 'ingredients = [ { item = "butter", amount = "40 g" } ]\n'
    with pytest.raises(InputError, match="no dough"):
        scaled(text, flour=1.0)
    assert 'amount = "80 g"' in scaled(text, pieces=2).document


def test_a_recipe_of_two_doughs_is_asked_whose_piece() -> None:
    """But its flour is the flour of both."""
    second = PLAIN + '\n[[mix]]\nname = "lid"\ningredients = [ { item = "bread flour", amount = "200 g" } ]\n'
    with pytest.raises(InputError, match="which dough"):
        scaled(second, piece=0.4)
    assert scaled(second, flour=2.4).factor == pytest.approx(2.0)


def test_the_pieces_of_two_doughs_keep_their_size() -> None:
    """Four of one and two of the other become six and three; five of one would be two and a half."""
    second = '\n[[mix]]\nname = "lid"\ningredients = [ { item = "bread flour", amount = "200 g" } ]\n'
    divided = '\n[[step]]\ndo = "divide"\nof = "dough"\n[[step]]\ndo = "divide"\nof = "lid"\npieces = 2\n'
    assert "pieces = 4" in PLAIN
    made = scaled(PLAIN + second + divided, pieces=6).document
    assert (made.count("pieces = 6"), made.count("pieces = 3")) == (1, 1)
    with pytest.raises(InputError, match="do not all come out"):
        scaled(PLAIN + second + divided, pieces=5)


def test_percentages_without_a_number_of_pieces_are_kept_right() -> None:
    """A number in the step alone does not scale the dough of a piece_mass: that is refused, not got wrong."""
    text = SHARES.replace("pieces = 3\n", "") + '\n[[step]]\ndo = "divide"\npieces = 2\n'
    with pytest.raises(InputError, match="cannot be scaled"):
        scaled(text, pieces=4)


def assert_near(now: float | None, before: float | None) -> None:
    if before is None:
        assert now is None
    else:
        assert now == pytest.approx(before, rel=2e-6, abs=1e-9)


PERCENTAGES = ("hydration", "hydration_poured", "salt", "sugar", "fat", "yeast_as_fresh")


@pytest.mark.property
@given(st.sampled_from([RECIPE, PLAIN, SHARES, IMPERIAL, PER_PIECE, CUPS]), st.integers(1, 60))
def test_percentages_are_the_same_after_scaling(text: str, pieces: int) -> None:
    """Whatever the number of pieces."""
    before, after = dough_of(text), dough_of(scaled(text, pieces=pieces).document)
    for name in PERCENTAGES:
        assert_near(getattr(after, name).value, getattr(before, name).value)
    assert after.piece_mass.value == pytest.approx(before.piece_mass.value, rel=2e-6)


@pytest.mark.property
@settings(max_examples=25)
@given(
    st.sampled_from([RECIPE, PLAIN, SHARES]),
    st.sampled_from(["flour", "dough", "piece"]),
    st.floats(0.2, 8.0),
)
def test_scaling_there_and_back_is_no_change(text: str, target: str, kilograms: float) -> None:
    """Every mass comes back, to the digits that are written."""
    before = dough_of(text)
    name = {"flour": "flour", "dough": "mass", "piece": "piece_mass"}[target]
    there = scaled(text, **{target: kilograms}).document
    back = scaled(there, **{target: getattr(before, name).value / 1000.0}).document
    masses = [entry.mass.value for entry in dough_of(back).ingredients]
    assert masses == pytest.approx([entry.mass.value for entry in before.ingredients], rel=2e-6)


@pytest.mark.property
@settings(max_examples=15)
@given(st.integers(1, 12), st.integers(1, 12))
def test_pieces_there_and_back_is_the_same_text(first: int, second: int) -> None:
    """The amounts are round again; portions may have been rounded on the way."""
    text = changed("portions = 4", "portions = 1000").replace("pieces = 2", f"pieces = {first}")
    there = scaled(text, pieces=second).document
    back = scaled(there, pieces=first).document
    blank = re.compile(r'amount = "[^"]*"|portions = \d+')
    assert blank.sub("", back) == blank.sub("", text)
    masses = [entry.mass.value for entry in dough_of(back).ingredients]
    assert masses == pytest.approx([entry.mass.value for entry in dough_of(text).ingredients], rel=2e-6)
