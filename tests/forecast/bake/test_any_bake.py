"""Any recipe in any kitchen bakes within what is physical, and nothing is ever unknown without a reason."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.forecast.bake import bake
from doughwright.science.kernels.waits import SETTING
from tests.forecast.bake._pies import STEEL, STONE, TIN, TRAY, in_two, kitchen, one_go, recipe, value

MINUTES = st.floats(0.5, 4.0).map(lambda one: round(one, 2))
SHAPES = st.sampled_from(
    [
        'shape = "round"\ndiameter = "30 cm"',
        'shape = "rectangle"\nlength = "40 cm"\nwidth = "20 cm"',
        'shape = "ball"',
        TIN,
    ]
)
HEATS = st.sampled_from(["top and bottom", "fan", "broil", "bottom"])


@pytest.mark.twin
def test_the_numpy_twin_bakes_the_same(monkeypatch: pytest.MonkeyPatch):
    """A whole session, two pieces with pauses and dressings, in a few kitchens at once."""
    made, where = recipe(in_two(3.0, 2.0), pieces=2), kitchen(STONE)
    compiled = bake(made, where, draws=4, seed=3)
    monkeypatch.setenv(SETTING, "numpy")
    twin = bake(made, where, draws=4, seed=3)
    for one, other in zip(compiled.pieces, twin.pieces, strict=True):
        for name in (
            "base_lightness",
            "rim_lightness",
            "weight_loss",
            "core_peak",
            "surface_after",
            "set_at",
        ):
            here, there = getattr(one, name), getattr(other, name)
            for end in ("value", "low", "high"):
                assert getattr(here, end) == pytest.approx(getattr(there, end), abs=2e-5)


@pytest.mark.property
@settings(max_examples=12, deadline=None)
@given(
    minutes=MINUTES,
    then=MINUTES,
    dial=st.integers(150, 350),
    makes=SHAPES,
    heat=HEATS,
    two=st.booleans(),
    surface=st.sampled_from([STEEL, STONE, TRAY, ""]),
    scale=st.floats(0.6, 2.5),
    height=st.integers(0, 3000),
)
def test_any_bake_stays_within_what_is_physical(
    minutes, then, dial, makes, heat, two, surface, scale, height
):
    """No crumb above boiling, no more water lost than there was, no colour beyond raw and burnt."""
    steps = in_two(minutes, then, dial) if two else one_go(minutes, dial, more=f'heat = "{heat}"')
    made = recipe(steps, makes=makes, scale=scale)
    result = bake(made, kitchen(surface, more=f'altitude = "{height} m"'), draws=2, section=1)
    json.dumps(result.to_json(), allow_nan=False)
    for piece in result.pieces:
        # Steam may condense on a cold piece, so that a short, cool bake gains a little.
        assert -1.0 < value(piece.weight_loss) < 60.0
        assert 10.0 <= value(piece.core_peak) <= 101.0
        assert 38.0 <= value(piece.base_lightness) <= 85.0
        assert 38.0 <= value(piece.rim_lightness) <= 85.0
        assert 15.0 <= value(piece.surface_after) <= dial + 20.0
        for figure in (piece.set_at, piece.yeast_dead_at, piece.through_at):
            assert figure.value is not None or figure.why
