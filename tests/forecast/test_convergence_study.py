"""The study of shells and steps runs, and what its page concludes holds."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from doughwright.forecast._wait import ON_SCREEN
from doughwright.science.kernels.layout import Stepping

SCRIPT = Path(__file__).resolve().parents[2] / "scripts" / "convergence.py"


def study() -> ModuleType:
    """The script as a module."""
    spec = importlib.util.spec_from_file_location("convergence_study", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


@pytest.mark.tree
@pytest.mark.parametrize("piece", ["ball, 200 g", "bulk, 5 kg"])
def test_ten_shells_hold_one_per_cent(piece: str) -> None:
    """1 % of the rise and 0.2 K of core and mean, against 48 shells in steps of 30 s; 16 are better."""
    made = study()
    body = made.BODIES[piece]
    fine = made.course(body, 48, Stepping(first=5.0, growth=1.2, longest=30.0, slowest=30.0))
    ten, sixteen = (made.errors(body, nodes, ON_SCREEN, fine) for nodes in (10, 16))
    assert ten.rise < 1.0
    assert max(ten.core, ten.mean) < 0.2
    assert sixteen.rise < ten.rise < 1.0
