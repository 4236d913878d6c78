"""Without the compiled kernel the twin takes over, with the same numbers, and says so once."""

from __future__ import annotations

import os
import subprocess
import sys

import numpy as np
import pytest

from doughwright.science.kernels import twin, waits
from tests.science.kernels._doughs import draw

WITHOUT = """\
import sys
sys.modules["doughwright.science.kernels._core"] = None
from doughwright.science.kernels import waits
from tests.science.kernels._doughs import draw
case = draw(21, hours=0.5)
for _ in range(3):
    after = waits.wait(**case.arguments)
print(waits.engine(), after.state.sum().hex())
"""


def run_without(*, setting: str | None = None) -> subprocess.CompletedProcess[str]:
    """A fresh interpreter in which the compiled kernel cannot be imported."""
    environment = {name: value for name, value in os.environ.items() if name != waits.SETTING}
    if setting is not None:
        environment[waits.SETTING] = setting
    words = [sys.executable, "-c", WITHOUT]
    return subprocess.run(words, env=environment, capture_output=True, text=True, check=True, timeout=60)


def test_without_a_compiler_the_twin_takes_over_and_says_so_once() -> None:
    """One sentence on standard error however many waits there are; the numbers are the twin's."""
    case = draw(21, hours=0.5)
    done = run_without()
    assert done.stdout.split() == ["numpy", twin.wait(**case.arguments).state.sum().hex()]
    assert done.stderr.count("\n") == 1
    assert "same results, slower" in done.stderr


def test_who_asks_for_the_twin_is_not_told() -> None:
    """The setting is for comparing the two."""
    assert run_without(setting="numpy").stderr == ""


def test_the_setting_takes_the_twin_where_the_kernel_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    """To the digit."""
    monkeypatch.setenv(waits.SETTING, "numpy")
    case = draw(22, hours=1.0)
    assert waits.engine() == "numpy"
    assert np.array_equal(waits.wait(**case.arguments).state, twin.wait(**case.arguments).state)
