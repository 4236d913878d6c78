"""What the oven's kernel must not see is refused before it, with the kitchen that it is in."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.kernels import bake_twin, waits
from doughwright.science.kernels.bake import bake
from doughwright.science.kernels.bake_bounds import INPUT_BOUNDS, RULE_BOUNDS
from doughwright.science.kernels.bake_curves import BakeFormulas
from doughwright.science.kernels.bake_layout import COLUMN, INPUTS, RULES, STATE, BakeStepping
from tests.science.kernels._bake_draws import Step, arguments
from tests.science.kernels._bakes import CORDIERITE, pie

Given = dict[str, Any]


def given(seconds: float = 2.0) -> Given:
    """Three kitchens that are well."""
    made = arguments(pie(np.array([250.0, 260.0, 275.0]), CORDIERITE, lanes=3), Step(seconds))
    return made | {"inputs": made["inputs"].copy(), "rules": made["rules"].copy()}


def with_column(made: Given, **parts: Any) -> Given:
    return made | {"column": replace(made["column"], **parts)}


def refused(made: Given, *words: str) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        bake(**made)
    for word in words:
        assert word in str(caught.value)


@pytest.mark.parametrize("name", INPUTS)
@pytest.mark.parametrize("end", [0, 1])
def test_an_input_past_its_bounds_is_named_with_its_kitchen(name: str, end: int) -> None:
    """Each of them, at either end."""
    made, bounds = given(), INPUT_BOUNDS[name]
    made["inputs"][INPUTS.index(name), 1] = bounds[end] + (1.0 if end else -1.0) * (abs(bounds[end]) + 1.0)
    refused(made, name, "kitchen 2 of 3")


@pytest.mark.parametrize("name", INPUTS)
def test_what_is_no_number_is_refused(name: str) -> None:
    """NaN and infinity, in any row."""
    for wrong in (np.nan, np.inf):
        made = given()
        made["inputs"][INPUTS.index(name), 2] = wrong
        refused(made, name, "kitchen 3 of 3")


@pytest.mark.parametrize("name", RULES)
def test_a_rule_past_its_bounds_is_refused(name: str) -> None:
    """What all kitchens share."""
    made = given()
    made["rules"][RULES.index(name)] = RULE_BOUNDS[name][1] + 1.0 + abs(RULE_BOUNDS[name][1])
    refused(made, name)


@pytest.mark.parametrize("name", STATE)
def test_a_state_past_its_bounds_is_refused(name: str) -> None:
    """In any cell of any kitchen."""
    for wrong in (np.nan, -100.0, 1e5):
        made = given()
        state = made["column"].state.copy()
        state[STATE.index(name), 4, 1] = wrong
        refused(with_column(made, state=state), name, "kitchen 2 of 3")


@pytest.mark.parametrize("name", COLUMN)
def test_what_a_column_carries_is_a_number(name: str) -> None:
    """All but when it set, which it may not have."""
    made = given()
    carried = made["column"].carried.copy()
    carried[COLUMN.index(name), 0] = np.nan
    if name == "set_at":
        assert np.isfinite(bake(**with_column(made, carried=carried)).column.state).all()
    else:
        refused(with_column(made, carried=carried), name)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda made: made | {"stepping": BakeStepping(growth=1.0)}, ("stepping growth",)),
        (lambda made: made | {"stepping": BakeStepping(longest=0.0)}, ("stepping longest",)),
        (lambda made: made | {"samples": np.array([0.5, 0.2])}, ("samples", "rising")),
        (lambda made: made | {"samples": np.array([0.5, 1.2])}, ("samples",)),
        (lambda made: made | {"samples": np.array([np.nan])}, ("samples",)),
        (lambda made: made | {"inputs": made["inputs"][:, :2]}, ("inputs", "shape")),
        (lambda made: made | {"inputs": made["inputs"].astype(np.float32)}, ("inputs", "doubles")),
        (lambda made: made | {"rules": made["rules"][1:]}, ("rules", "shape")),
        (lambda made: with_column(made, area=made["column"].area[1:]), ("area", "shape")),
        (lambda made: with_column(made, solids=0.0 * made["column"].solids), ("solids",)),
        (lambda made: with_column(made, kinds=made["column"].kinds[::-1]), ("cells", "surface, then dough")),
        (lambda made: with_column(made, kinds=(0,) * 24 + (2, 3)), ("cells", "dough under the toppings")),
        (lambda made: with_column(made, kinds=(*made["column"].kinds[:-1], 4)), ("cells",)),
        (lambda made: with_column(made, state=made["column"].state[:4]), ("state", "shape")),
    ],
)
def test_what_does_not_fit_is_refused(change: Callable[[Given], Given], words: tuple[str, ...]) -> None:
    """Shapes, kinds of number, the order of the cells, samples and steps."""
    refused(change(given()), *words)


def test_steam_in_the_oven_stays_under_the_pressure() -> None:
    """An oven full of steam has no air to carry any away."""
    made = given()
    made["inputs"][INPUTS.index("vapour"), 1] = 1e5
    refused(made, "vapour over the pressure", "kitchen 2 of 3")


def test_a_bake_that_leaves_what_formulas_cover_is_refused() -> None:
    """A broiler of 100 kW/m2 takes a face past 600 degC: said, not told as a result."""
    made = given(900.0)
    made["inputs"][INPUTS.index("broil")] = 1e5
    refused(made, "from -50 to 600")


def test_any_curves_but_tables_take_the_twin() -> None:
    """The formulas themselves, to the digit."""
    made = given() | {"curves": BakeFormulas()}
    assert np.array_equal(bake(**made).column.state, bake_twin.bake(**made).column.state)


def test_arrays_that_are_cut_out_of_others_bake_as_well() -> None:
    """A column taken out of many, its memory not in a row."""
    made = given()
    loose = np.asfortranarray(made["column"].state)
    one, other = bake(**made), bake(**with_column(made, state=loose))
    assert np.array_equal(one.column.state, other.column.state)


def test_the_setting_takes_the_twin(monkeypatch: pytest.MonkeyPatch) -> None:
    """To the digit, with the same tables."""
    monkeypatch.setenv(waits.SETTING, "numpy")
    made = given()
    assert np.array_equal(bake(**made).column.state, bake_twin.bake(**made).column.state)


def test_without_a_compiler_the_twin_takes_over() -> None:
    """It is said once, whatever bakes."""
    code = (
        "import sys\n"
        'sys.modules["doughwright.science.kernels._core"] = None\n'
        "from tests.science.kernels.test_bake_bounds import given\n"
        "from doughwright.science.kernels.bake import bake\n"
        "print([bake(**given()).column.state.sum().hex() for _ in range(2)][1])\n"
    )
    environment = {name: value for name, value in os.environ.items() if name != waits.SETTING}
    ran = subprocess.run(
        [sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=True, timeout=60
    )
    assert ran.stdout.strip() == bake_twin.bake(**given()).column.state.sum().hex()
    assert ran.stderr.count("\n") == 1
