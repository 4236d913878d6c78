"""A whole bare bake against the same equations written again and solved by SciPy's BDF."""

from __future__ import annotations

from dataclasses import replace

import pytest

from doughwright.science.kernels.bake_layout import BakeStepping
from tests.science.kernels._bake_odes import Bake
from tests.science.kernels._bakes import STEEL, P, Scene, lightness, pie

SECONDS = 300.0


def bare(longest: float = 2.0) -> Scene:
    """Five minutes on steel at 250 degC, no evaporation below boiling and steam that takes up no heat."""
    scene = pie(250.0, STEEL, dressed=False, parameters=replace(P, steam_heat=0.0))
    return replace(
        scene,
        values=scene.values | {"skin_dough": 1e-30},
        stepping=BakeStepping(first=min(0.05, longest), longest=longest),
    )


@pytest.fixture(scope="module")
def stiff() -> dict[str, float]:
    """Boiling as a relaxation at 20 and 60 /s, taken to infinitely fast: the difference goes as 1/rate."""
    scene = bare()
    slow, fast = (Bake(scene.column, scene.values, rate).solve(SECONDS) for rate in (20.0, 60.0))
    return {name: fast[name] + 0.5 * (fast[name] - slow[name]) for name in fast}


@pytest.mark.twin
@pytest.mark.parametrize(
    ("longest", "lost", "cell", "colour"),
    [(0.5, 3e-4, 0.1, 0.1), (2.0, 6e-4, 0.15, 0.15), (4.0, 1.2e-3, 0.3, 0.2)],
)  # fmt: skip
def test_a_whole_bake_is_that_of_a_stiff_solver(
    stiff: dict[str, float], longest: float, lost: float, cell: float, colour: float
) -> None:
    """Loss, base, colours and surface agree, the nearer the shorter the steps."""
    scene, _ = bare(longest).phase(SECONDS)
    n = scene.column.surface
    assert scene.read("lost")[0] == pytest.approx(stiff["lost"], rel=lost)
    assert scene.column.state[0, n, 0] == pytest.approx(stiff["base_cell"], abs=cell)
    assert scene.column.state[0, n - 1, 0] == pytest.approx(stiff["surface"], abs=cell)
    for name in ("base_browning", "top_browning"):
        assert scene.read(name)[0] == pytest.approx(stiff[name], abs=colour)


@pytest.mark.property
def test_what_steps_miss_falls_with_their_length() -> None:
    """First order: half the step, half the error of the base's colour."""
    at = [float(lightness(bare(one).phase(SECONDS)[0])[0]) for one in (4.0, 2.0, 1.0, 0.5)]
    gaps = [abs(one - at[-1]) for one in at[:-1]]
    assert gaps[0] > gaps[1] > gaps[2]
    assert gaps[0] < 0.1
