"""The kernel against SciPy's stiff solver on the same shells, the equations written out a second time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from doughwright.science.kernels import waits
from doughwright.science.kernels.layout import INPUTS, ROWS, Stepping
from doughwright.science.yeast import Array
from tests.science.kernels._doughs import Case, draw

FINE = Stepping(first=1.0, growth=1.1, longest=5.0, slowest=5.0)
NODES = 8
# The names of the formulas' parameters stand in the standard set: these are their values.
SLOPE, TOP = 0.30, 50.0
COLD, BEST, HOT = 2.5, 34.0, 43.0


@dataclass(frozen=True)
class Written:
    """One kitchen's equations in the plainest way: heat, yeast, sugar, maltose, gas, two clocks by shell."""

    v: dict[str, float]
    shape: str

    @property
    def shares(self) -> Array:
        depths = np.linspace(0.0, 1.0, NODES + 1)
        return np.diff(depths if self.shape == "slab" else depths**3)

    def air(self, hours: float) -> float:
        v = self.v
        cycle = v["swing"] * np.sin(2.0 * np.pi * hours / v["period"] + v["phase"])
        return v["mean"] + cycle + v["daily"] * np.sin(2.0 * np.pi * hours / 24.0 + v["daily_phase"])

    def rises(self, gas: Array, degrees: Array) -> Array:
        v, kelvin = self.v, degrees + 273.15
        water = v["hold"] * 1.375 * np.exp(0.28998 - 0.035868 * degrees + 1.9003e-4 * degrees**2)
        air = v["air"] * v["pressure"] * 298.15 / kelvin
        # The share of carbon dioxide in the bubbles: water x^2 - (water + air + gas) x + gas = 0.
        total = water + air + gas
        share = 2.0 * gas / (total + np.sqrt(total**2 - 4.0 * water * gas))
        free = (gas - water * share) * kelvin / 298.15 / v["pressure"]
        return 1.0 + v["retention"] * free / v["volume"]

    def flows(self, degrees: Array, rises: Array, hours: float) -> Array:
        """Heat that flows into each shell [W]."""
        v, rise = self.v, self.shares @ rises
        solid = v["conductivity"] + v["slope"] * (self.shares @ degrees)
        porous, gas = 1.0 - (1.0 - v["air_share"]) / rises, v["gas_conductivity"]
        k = solid * (2.0 * solid + gas - 2.0 * porous * (solid - gas))
        k /= 2.0 * solid + gas + porous * (solid - gas)
        area = v["skin"] * rise ** (2.0 / 3.0) if self.shape == "ball" else v["skin"] + v["side"] * rise
        ways = 1 if self.shape == "slab" else 3
        thick = ways * v["unrisen"] * rise / area / NODES
        faces = area * (np.arange(1, NODES) / NODES) ** (ways - 1)
        between = faces * np.diff(degrees) / (thick / 2.0 / k[1:] + thick / 2.0 / k[:-1])
        way = thick / 2.0 / k[-1] / area + 1.0 / v["film"] / area + v["resistance"]
        return np.append(between, (self.air(hours) - degrees[-1]) / way) - np.append(0.0, between)

    def __call__(self, hours: float, y: Array) -> Array:
        v = self.v
        degrees, yeast, sugar, malt, gas, woken, grown = y.reshape(7, NODES)
        below = np.minimum(degrees - TOP, 0.0)
        rho = np.maximum(degrees - v["gassing_minimum"], 0.0) * (1.0 - np.exp(SLOPE * below))
        rho /= (30.0 - v["gassing_minimum"]) * (1.0 - np.exp(SLOPE * (30.0 - TOP)))
        made = v["gassing"] * rho**2 * (1.0 - np.exp(-woken / v["lag"])) * yeast
        made *= sugar / (sugar + v["sugar_half"])
        pieces = (BEST - COLD) * (
            (BEST - COLD) * (degrees - BEST) - (BEST - HOT) * (BEST + COLD - 2 * degrees)
        )
        mu = v["growth_rate"] * v["growth"] * (degrees - HOT) * (degrees - COLD) ** 2 / pieces
        mu = np.where((degrees > COLD) & (degrees < HOT), mu, 0.0)
        full = np.maximum(1.0 - (yeast - v["at_mixing"]) / v["growth_cap"], 0.0)
        growth = np.where(grown >= v["growth_lag"], mu * yeast * full, 0.0)
        malting = v["maltose_rate"] * 1.85 ** ((degrees - 30.0) / 10.0) * (1.0 - malt / v["maltose_limit"])
        weights = v["mass"] * self.shares
        heat = 3600.0 * (self.flows(degrees, self.rises(gas, degrees), hours) + weights * v["warming"] * made)
        return np.concatenate(
            [heat / weights / v["heat"], growth, malting - made / v["gas_yield"], malting, made, rho**2, mu]
        )


def solved(case: Case, lane: int, times: Array) -> Array:
    """The seven rows of the state at each time [h], shape (7, NODES, times), by SciPy's Radau."""
    written = Written(dict(zip(INPUTS, case.inputs[:, lane], strict=True)), case.shape)
    start = case.state[[0, 1, 2, 3, 4, 7, 8], :, lane].ravel()
    step = min(0.1, 0.1 * written.v["period"]) if written.v["swing"] else 0.25
    found = solve_ivp(written, (0.0, times[-1]), start, "Radau", times, rtol=1e-7, atol=1e-8, max_step=step)
    assert found.success
    return found.y.reshape(7, NODES, len(times))


def mild(seed: int, shape: str, hours: float) -> Case:
    """A case without what has corners: no ceiling in reach, no hot place, one lag for all shells."""
    case = draw(seed, lanes=2, nodes=NODES, hours=hours, shape=shape, stepping=FINE, samples=1)
    rows = {name: case.inputs[i] for i, name in enumerate(INPUTS)}
    rows["hours"][:], rows["ceiling"][:], rows["stop"][:] = hours, 60.0, 0.0
    rows["mean"][:] = np.minimum(rows["mean"], 32.0)
    rows["swing"][0], rows["daily"][0], rows["resistance"][0] = 2.0, 1.5, 0.8
    rows["at_mixing"][:] *= 0.3
    case.state[1] *= 0.3
    case.state[8] = rows["growth_lag"] + 0.1
    return Case(
        case.inputs, case.state, case.tightness, case.shape, FINE, None, np.array([0.0, 0.1, 0.35, 0.7, 1.0])
    )


@pytest.mark.outside(source="SciPy, solve_ivp with Radau, rtol 1e-7", how="identity")
@pytest.mark.parametrize("shape", ["ball", "slab", "tin"])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_with_fine_steps_the_kernel_is_the_stiff_solvers(seed: int, shape: str) -> None:
    """Core, rise, gas, sugar and yeast to 0.1 % (degrees to 0.01) at five times, in two kitchens."""
    case = mild(seed, shape, 6.0)
    after = waits.wait(**case.arguments, snapshots=True)
    for lane in range(2):
        states = solved(case, lane, case.samples * 6.0)
        ours = np.moveaxis(after.snapshots[..., lane], 0, -1)
        assert np.abs(ours[0] - states[0]).max() <= 0.01
        for row, least in ((1, 0.0), (2, 0.1), (3, 0.0), (4, 1.0)):
            assert (np.abs(ours[row] - states[row]) <= 1e-3 * (states[row] + least)).all(), (lane, row)
        written = Written(dict(zip(INPUTS, case.inputs[:, lane], strict=True)), shape)
        rises = [written.shares @ written.rises(states[4, :, k], states[0, :, k]) for k in range(5)]
        assert after.rows[:, ROWS.index("rise"), lane] == pytest.approx(np.array(rises), rel=1e-3)


@pytest.mark.outside(source="SciPy, solve_ivp with Radau, rtol 1e-7", how="identity")
def test_with_the_steps_of_the_days_the_kernel_is_near_the_stiff_solvers() -> None:
    """The steps that the bench takes: rise to 0.4 %, degrees to 0.15 while the air cycles, at five times."""
    case = mild(4, "ball", 12.0)
    usual = Case(case.inputs, case.state, case.tightness, "ball", Stepping(slowest=897.0), None, case.samples)
    after = waits.wait(**usual.arguments, snapshots=True)
    for lane in range(2):
        states = solved(case, lane, case.samples * 12.0)
        written = Written(dict(zip(INPUTS, case.inputs[:, lane], strict=True)), "ball")
        rises = [written.shares @ written.rises(states[4, :, k], states[0, :, k]) for k in range(5)]
        assert after.rows[:, ROWS.index("rise"), lane] == pytest.approx(np.array(rises), rel=4e-3)
        assert np.abs(np.moveaxis(after.snapshots[:, 0, :, lane], 0, -1) - states[0]).max() <= 0.15
