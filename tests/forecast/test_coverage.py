"""The study of the intervals runs, and they hold what they mean to hold."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

SCRIPT = Path(__file__).resolve().parents[2] / "scripts" / "coverage.py"


def study() -> ModuleType:
    """The script as a module."""
    spec = importlib.util.spec_from_file_location("coverage_study", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.mark.tree
def test_nine_in_ten_made_up_cooks_are_held() -> None:
    """200 cooks of the same prior: 87 to 93 % of true rises lie in their own interval."""
    made = study()
    recipe = made.document(*made.RECIPES["two days cold"])
    found = made.held(recipe, made.World(), cooks=200, draws=128, seed=7)
    assert 87.0 <= found["rise"] <= 93.0


@pytest.mark.tree
def test_a_changed_model_is_held_less_often() -> None:
    """Far weaker flour in a dough that would rise past its ceiling: not what the cook's interval is about."""
    made = study()
    weak = next(world for name, world in made.WORLDS.items() if "weaker flour" in name)
    recipe = made.document("12 g", "6 h", "room", "2 h")
    same, changed = (
        made.held(recipe, world, cooks=40, draws=64, seed=3)["rise"] for world in (made.World(), weak)
    )
    assert changed < same
