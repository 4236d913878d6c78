"""Whatever a document says, the formula and scaling answer or refuse in our own words."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import DoughwrightError
from doughwright.figures import jsonable
from doughwright.recipe.formula import formula
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.recipe.scaling import scale

from .kitchens import Kitchen

ITEMS = [
    "bread flour", "rye flour", "water", "milk", "egg", "salt, fine", "instant yeast", "fresh yeast",
    "butter", "olive oil", "sugar", "honey", "sourdough starter", "rosemary", "leeks", "mozzarella",
    "malt syrup",
]  # fmt: skip
AMOUNTS = [
    "420 g", "0.1 g", "1.5 kg", "1,5 kg", "1 lb 4 oz", "2 tsp", "½ cup", "1 pinch", "2 large", "to taste",
    "62 %", "100 %", "3 fl oz", "1 mg", "2 %",
]  # fmt: skip
MAKES = [
    "", "pieces = 3\n", 'diameter = "30 cm"\n', 'length = "20 cm"\nwidth = "10 cm"\n', 'loss = "50 %"\n',
    'pieces = 1000\npiece_mass = "260 g"\n', 'piece_mass = "1 g"\nportions = 4\n',
]  # fmt: skip
DIVIDES = ["", "pieces = 7\n", 'each = "360 g"\n', 'each = "9 kg"\n']


@st.composite
def documents(draw: st.DrawFn) -> str:
    """A document with up to four mixes, some of which go into others."""
    text = 'schema = 1\ntitle = "Any"\n[makes]\n' + draw(st.sampled_from(MAKES))
    count = draw(st.integers(1, 4))
    for number in range(count):
        kind = draw(st.sampled_from(["dough", "preferment", "topping", "other"]))
        per = draw(st.sampled_from(["batch", "piece"]))
        lines = [
            f'{{ item = "{draw(st.sampled_from(ITEMS))}", amount = "{draw(st.sampled_from(AMOUNTS))}" }}'
            for _ in range(draw(st.integers(1, 5)))
        ]
        lines += [
            f'{{ mix = "m{other}", amount = "{draw(st.sampled_from(["all", "50 g", "30 %"]))}" }}'
            for other in range(number + 1, count)
            if draw(st.booleans())
        ]
        text += f'[[mix]]\nname = "m{number}"\nkind = "{kind}"\nper = "{per}"\n'
        text += f"ingredients = [ {', '.join(lines)} ]\n"
    divide = draw(st.sampled_from(DIVIDES))
    return text + (f'[[step]]\ndo = "divide"\nof = "m0"\n{divide}' if divide else "")


def read(text: str) -> RecipeDocument | None:
    try:
        return read_recipe(text)
    except DoughwrightError:
        return None


@pytest.mark.property
@settings(max_examples=150)
@given(documents(), st.sampled_from([0.00001, 0.001, 0.005]))
def test_any_document_that_is_read_has_a_formula(text: str, step: float) -> None:
    """Every figure is a finite number of zero or more, or says why it is unknown."""
    document = read(text)
    if document is None:
        return
    made = formula(document.recipe, Kitchen(scale=step))
    json.dumps(jsonable(made), allow_nan=False)
    for dough in made.doughs:
        for name in ("flour", "water", "hydration", "salt", "sugar", "fat", "yeast_as_fresh", "mass"):
            figure = getattr(dough, name)
            assert (figure.value is None and figure.why) or (
                math.isfinite(figure.value) and figure.value >= 0
            )
            if figure.low is not None:
                assert figure.low <= figure.value <= figure.high


@pytest.mark.property
@settings(max_examples=100)
@given(
    documents(),
    st.sampled_from(["pieces", "diameter", "flour", "dough", "piece"]),
    st.one_of(st.integers(1, 40), st.floats(0.01, 5.0), st.sampled_from([0, -1, math.nan, 1e12])),
)
def test_any_document_that_is_read_scales_or_is_refused(text: str, target: str, value: float) -> None:
    """What comes out is a document again; what cannot be done is said in our own words."""
    document = read(text)
    if document is None:
        return
    try:
        made = scale(document, **{target: value})
    except DoughwrightError:
        return
    assert read(made.document) is not None
    json.dumps(jsonable(made), allow_nan=False)
