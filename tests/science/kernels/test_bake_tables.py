"""The oven's tables lie close to its formulas, and a bake by either comes to the same."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.science.kernels import bake_twin
from doughwright.science.kernels.bake_curves import BakeFormulas
from doughwright.science.kernels.bake_tables import BakeTables, bake_tables
from tests.science.kernels._bake_draws import Step, run
from tests.science.kernels._bakes import CORDIERITE, ROOM_AROUND, STEEL, Scene, pie, wedge

EXACT, TABLES = BakeFormulas(), bake_tables()
T = np.linspace(-20.0, 650.0, 40_001)


@pytest.mark.parametrize(
    ("name", "low", "within"),
    [
        ("saturation", 0.0, 1.6e-4),
        ("carrying", 0.0, 1.5e-4),
        ("browning", 20.0, 3e-4),
        ("gelatinising", 40.0, 1e-3),
    ],
)
def test_lines_between_rows_lie_close_to_the_formula(name: str, low: float, within: float) -> None:
    """As a share of it, over the whole range and past its ends."""
    t = T[low <= T]
    exact, found = getattr(EXACT, name)(t), getattr(TABLES, name)(t)
    assert np.abs(found / exact - 1.0).max() < within


def test_rows_are_the_formula_and_ends_hold_beyond_themselves() -> None:
    """At every half degree; below 0 and past 600 degC the last row."""
    rows = 0.5 * np.arange(1201)
    assert np.allclose(TABLES.saturation(rows), EXACT.saturation(rows), rtol=1e-14)
    assert np.array_equal(TABLES.browning(np.array([600.0, 900.0])), EXACT.browning(np.array([600.0, 900.0])))
    assert np.array_equal(TABLES.saturation(np.array([-40.0])), EXACT.saturation(np.array([0.0])))


def test_latent_heat_and_binding_are_no_tables() -> None:
    """A cubic and a logarithm cost no more than looking up: they are the formulas, to the digit."""
    bound = 10.0 ** np.linspace(-4.0, 11.0, 200)
    assert np.array_equal(TABLES.latent(T), EXACT.latent(T))
    assert np.array_equal(TABLES.above_boiling(bound), EXACT.above_boiling(bound))


def test_the_tables_are_made_once_and_cannot_be_written() -> None:
    """Every bake shares them."""
    assert bake_tables() is bake_tables()
    assert isinstance(TABLES, BakeTables)
    with pytest.raises(ValueError, match="read-only"):
        TABLES.rows[0, 0] = 1.0


def three(name: str) -> tuple[Scene, list[Step], float]:
    """A pie dressed at once, one that is par-baked, and a bun; with the raw mass [kg/m2]."""
    if name == "bun":
        return wedge("bun", 200.0, fan=True, cells=14), [Step(840.0)], 5.0
    if name == "par-bake":
        steps = [
            Step(300.0), Step(60.0, lifted=True, changes=ROOM_AROUND), Step(240.0, sauce=1.2, cheese=1.2),
        ]  # fmt: skip
        return pie(250.0, STEEL, dressed=False), steps, 5.94
    return pie(275.0, CORDIERITE, dressed=False), [Step(360.0, sauce=1.2, cheese=1.2)], 5.94


@pytest.mark.twin
@pytest.mark.parametrize("name", ["dressed", "par-bake", "bun"])
def test_tables_change_a_bake_by_less_than_can_be_weighed_or_seen(name: str) -> None:
    """Against the formulas themselves: 0.05 points of loss, 0.1 L*, 0.05 degC, 0.5 s of setting."""
    scene, steps, raw = three(name)
    by_table, by_formula = (
        run(bake_twin.bake, scene, steps, curves=curves)[-1].column for curves in (TABLES, EXACT)
    )

    def gap(of: str) -> float:
        return float(np.abs(by_table.read(of) - by_formula.read(of))[0])

    assert 100.0 * gap("lost") / raw < 0.05
    assert 0.9 * gap("base_browning") < 0.1
    assert 0.9 * gap("top_browning") < 0.1
    assert gap("set_at") < 0.5
    assert np.abs(by_table.state[0] - by_formula.state[0]).max() < 0.05
