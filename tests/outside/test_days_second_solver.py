"""The days against SciPy's stiff solver on the same equations and shells, written out a second time."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from doughwright.forecast._course import Setting, course_of
from doughwright.forecast._dough import Contents, Dough, Frame, Yeast, mix, worked
from doughwright.forecast._wait import ON_SCREEN, Air, rows_of, wait
from doughwright.forecast.days import run_of
from doughwright.kitchen.assumed import surroundings
from doughwright.recipe.read import read_recipe
from doughwright.recipe.weigh import weigh
from doughwright.science.heat import Body, ball, slab
from doughwright.science.kernels.layout import Stepping
from doughwright.science.parameters import Parameters
from doughwright.science.properties import flour_composition

NODES = 8
FINE = Stepping(first=2.0, growth=1.1, longest=20.0)
P = Parameters()


def contents(*, water: float = 62.0, salt: float = 2.0, sugar: float = 0.0) -> Contents:
    """1 kg of flour of 12 % protein, with water, salt and sugar in per cent of it."""
    parts = flour_composition(protein=12.0) * 10.0
    parts += np.array([10.0 * water, 0.0, 0.0, 10.0 * sugar, 0.0, 10.0 * salt])
    mass = 1000.0 + 10.0 * (water + salt + sugar)
    return Contents(1000.0, mass, 10.0 * water, 10.0 * salt, 10.0 * sugar, 0.0, 120.0, *parts)


def fresh(yeast: float, body: Body, *, altitude: float = 0.0, sugar: float = 0.0) -> Dough:
    """A 24 °C dough with so much fresh yeast [% of flour], cut into its body."""
    frame = Frame(altitude=altitude, nodes=NODES)
    dough = mix([], contents(sugar=sugar), [Yeast(10.0 * yeast, P.gassing_lag)], 24.0, frame, P)
    return worked(dough, degassed=0.0, tightened=False, body=body)


class Written:
    """The equations once more, in the plainest way, for a solver that chooses its own steps."""

    def __init__(self, dough: Dough, air: float, film: float) -> None:
        c = dough.contents
        self.air, self.film = air, film
        self.solids, self.ball = dough.solids, dough.body.shape == "ball"
        water, salt, sugar = (c.percent(name) for name in ("water", "salt", "sugar"))
        molar = salt / 58.44 / ((water + 12.0) / 1000.0)
        self.gassing = 120.0 * max(0.0, 1.0 - molar / 2.6) / (1.0 - 0.462 / 2.6)
        self.gassing *= np.exp(-0.045 * max(0.0, sugar - 5.0))
        self.growing = max(0.0, 1.0 - molar / 2.2)
        self.mass100 = c.percent("mass")
        self.v0 = self.mass100 / 1.12
        self.va, self.hold = 0.08 * self.v0, 0.85 * (water + 13.0)
        self.pressure = dough.medium.basis.pressure
        self.x0 = dough.medium.at_mixing
        self.nodes = dough.body.nodes
        edges = np.linspace(0.0, 1.0, self.nodes + 1)
        self.shares = np.diff(edges**3) if self.ball else np.diff(edges)
        self.edges, self.mass = edges, dough.body.mass
        self.volume, self.skin = dough.body.volume, dough.body.skin

    def rises(self, gas: np.ndarray, degrees: np.ndarray) -> np.ndarray:
        k = (degrees + 273.15) / 298.15
        a = self.hold * self.pressure
        a = a * 1.375 * np.exp(0.28998 - 0.035868 * degrees + 1.9003e-4 * degrees**2)
        b = a + self.va * self.pressure / k + gas
        share = 2.0 * gas / (b + np.sqrt(b * b - 4.0 * a * gas))
        return 1.0 + 0.95 * k * (gas - a * share) / self.pressure / self.v0

    def heat(self, degrees: np.ndarray, rises: np.ndarray) -> np.ndarray:
        """Heat that flows into each shell [W]."""
        rise = self.shares @ rises
        solid = self.solids.conductivity + self.solids.slope * (self.shares @ degrees)
        hollow = 1.0 - 0.92 / rises
        over = hollow * (solid - 0.025)
        k = solid * (2 * solid + 0.025 - 2 * over) / (2 * solid + 0.025 + over)
        if self.ball:
            radius = (3.0 * self.volume * rise / (4.0 * pi)) ** (1.0 / 3.0)
            areas, step = 4.0 * pi * (radius * self.edges) ** 2, radius / self.nodes
        else:
            areas = np.full(self.nodes + 1, self.skin)
            step = self.volume * rise / self.skin / self.nodes
        flows = 2.0 * k[1:] * k[:-1] / (k[1:] + k[:-1]) * areas[1:-1] * np.diff(degrees) / step
        half = k[-1] / (0.5 * step)
        outer = areas[-1] * (self.air - degrees[-1]) / (1.0 / half + 1.0 / self.film)
        return np.append(flows, outer) - np.append(0.0, flows)

    def __call__(self, _hours: float, y: np.ndarray) -> np.ndarray:
        degrees, x, s, m, gas, q, lag = y.reshape(7, self.nodes)
        rho = ratkowsky(degrees) / ratkowsky(np.array(30.0))
        mu = cardinal(degrees) * self.growing
        made = self.gassing * rho * -np.expm1(-q / 0.25) * x * s / (s + 0.10)
        maltose = 0.45 * 1.85 ** ((degrees - 30.0) / 10.0) * np.maximum(0.0, 1.0 - m / 5.5)
        growth = np.where(lag >= 0.45, mu * x * np.maximum(0.0, 1.0 - (x - self.x0) / 0.65), 0.0)
        warmth = 550.0 * made / 255.0 / self.mass100 * 1000.0 * self.mass * self.shares
        stored = self.mass * self.shares * self.solids.heat
        flow = self.heat(degrees, self.rises(gas, degrees)) * 3600.0
        return np.concatenate(
            [(flow + warmth) / stored, growth, maltose - made / 255.0, maltose, made, rho, mu]
        )


def ratkowsky(degrees: np.ndarray) -> np.ndarray:
    inside = (degrees > -1.8) & (degrees < 50.0)
    root = (degrees + 1.8) * (1.0 - np.exp(0.30 * (degrees - 50.0)))
    return np.where(inside, root, 0.0) ** 2


def cardinal(degrees: np.ndarray) -> np.ndarray:
    low, best, high = 2.5, 34.0, 43.0
    below = (best - low) * ((best - low) * (degrees - best) - (best - high) * (best + low - 2.0 * degrees))
    rate = 0.335 * (degrees - high) * (degrees - low) ** 2 / below
    return np.where((degrees > low) & (degrees < high), rate, 0.0)


def solved(dough: Dough, legs: list[tuple[float, float, float]]) -> tuple[np.ndarray, Written]:
    """The state after legs of (air, film, hours), by LSODA."""
    none = np.zeros(NODES)
    known = [one[:, 0] for one in (dough.temperature, dough.state.yeast, dough.state.sugar)]
    state = np.concatenate([*known, none, none, none, none])
    system = Written(dough, 0.0, 0.0)
    for air, film, hours in legs:
        system.air, system.film = air, film
        found = solve_ivp(system, (0.0, hours), state, method="LSODA", rtol=1e-8, atol=1e-10, max_step=0.25)
        state = found.y[:, -1]
    return state.reshape(7, NODES), system


RECIPE = """
schema = 1
title = "Second opinion"
[makes]
shape = "ball"
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "1000 g", protein = "13 %" },
  { item = "water", amount = "620 g" },
  { item = "salt, fine", amount = "20 g" },
  { item = "fresh yeast", amount = "5 g" },
]
[[step]]
do = "mix"
mix = "dough"
[[step]]
do = "bulk"
for = "3 h"
at = "24 °C"
[[step]]
do = "divide"
each = "250 g"
[[step]]
do = "ball"
[[step]]
do = "retard"
for = "20 h"
at = "5 °C"
in = "lidded tub"
[[step]]
do = "temper"
for = "3 h"
at = "22 °C"
in = "open"
[target]
dough_temperature = "25 °C"
"""


def by_hand(dough: Dough) -> tuple[float, float, float, float]:
    """The recipe above with the work written out: rise, gas, core and sugar before balling and at the end."""
    nodes = dough.body.nodes
    none = np.zeros(nodes)
    yeast, sugar = dough.state.yeast[0, 0], dough.state.sugar[0, 0]
    state = [none + 25.0, none + yeast, none + sugar, none, none, none, none]
    system = Written(dough, 24.0, 7.5 * 1.2)
    y = leg(system, np.concatenate(state), 3.0)
    bulk = float(system.shares @ system.rises(y[4], y[0]))
    for share in (0.5, 0.9):
        y = np.repeat((y @ system.shares)[:, None], nodes, axis=1)
        free = (system.rises(y[4], y[0]) - 1.0) * system.v0 / 0.95 / ((y[0] + 273.15) / 298.15)
        y[4] -= share * free * system.pressure
    system.mass, system.volume = 0.25, 0.25 / 1120.0
    for air, film, hours in ((5.0, 4.0 * 1.2, 20.0), (22.0, 7.5 * 1.2, 3.0)):
        system.air, system.film = air, film
        y = leg(system, y.ravel(), hours)
    shares = system.shares
    return bulk, float(shares @ system.rises(y[4], y[0])), float(y[0][0]), float(shares @ y[2])


def leg(system: Written, state: np.ndarray, hours: float) -> np.ndarray:
    found = solve_ivp(system, (0.0, hours), state, method="LSODA", rtol=1e-7, atol=1e-9, max_step=0.25)
    return found.y[:, -1].reshape(7, system.nodes)


@pytest.mark.outside(
    source="SciPy solve_ivp (LSODA) on the same equations, the steps of a recipe written out by hand",
    how="identity",
    note="steps as on screen: to 0.3 % and 0.05 K",
)
def test_a_whole_recipe_agrees_with_a_stiff_solver() -> None:
    """Bulk as one body, divided, balled, a night in the cold under a lid and three hours in the room."""
    recipe = read_recipe(RECIPE).recipe
    setting = Setting(recipe, surroundings(None), weigh(recipe))
    run = run_of(setting, "dough")
    mixed = next(mark.dough for mark in course_of(setting, "dough").marks if mark.number == 1)
    bulk, rise, core, sugar = by_hand(mixed)
    before_dividing = next(index for index, time in enumerate(run.series.time) if time >= 3.0)
    assert run.series.rise[before_dividing] == pytest.approx(bulk, rel=0.003)
    assert run.judged.rise == pytest.approx(rise, rel=0.003)
    assert run.judged.core == pytest.approx(core, abs=0.05)
    assert run.judged.sugar == pytest.approx(sugar, rel=0.003)


CASES = {
    "a ball through the fridge": (0.4, ball(mass=0.25, density=1120.0, nodes=NODES), 0.0, 0.0),
    "a large ball high up": (0.2, ball(mass=1.6, density=1120.0, nodes=NODES), 1800.0, 0.0),
    "a sweet slab": (1.0, slab(mass=0.4, density=1120.0, area=0.03, nodes=NODES), 0.0, 12.0),
}


@pytest.mark.outside(
    source="SciPy solve_ivp (LSODA, rtol 1e-8) on the same equations and shells",
    how="identity",
    note="to 0.1 %",
)
@pytest.mark.parametrize("case", CASES)
def test_the_days_agree_with_a_stiff_solver(case: str) -> None:
    """Rise, gas, sugar, yeast and temperatures after 20 h in the cold and 2 h in the warm, to 0.1 %."""
    yeast, body, altitude, sugar = CASES[case]
    dough = fresh(yeast, body, altitude=altitude, sugar=sugar)
    area = P.slump_area if body.shape == "ball" else 1.0
    cold = wait(dough, start=0.0, hours=20.0, air=Air(5.0, 4.0), stepping=FINE)
    warm = wait(cold.dough, start=20.0, hours=2.0, air=Air(21.0, 7.5), stepping=FINE)
    ours, rows = warm.dough, rows_of(warm.rows)
    (degrees, x, s, _, gas, _, _), system = solved(dough, [(5.0, 4.0 * area, 20.0), (21.0, 7.5 * area, 2.0)])
    shares = body.shares
    assert rows[-1].rise == pytest.approx(shares @ system.rises(gas, degrees), rel=0.001)
    assert rows[-1].gas == pytest.approx(shares @ gas, rel=0.001)
    assert rows[-1].sugar == pytest.approx(shares @ s, rel=0.001)
    assert shares @ ours.state.yeast[:, 0] == pytest.approx(shares @ x, rel=0.001)
    assert ours.temperature[:, 0].tolist() == pytest.approx(degrees.tolist(), rel=0.001)


@pytest.mark.outside(
    source="SciPy solve_ivp (LSODA, rtol 1e-8) on the same equations and shells",
    how="identity",
    note="the steps on screen: to 0.3 % and 0.05 K",
)
def test_the_steps_on_screen_are_fine_enough() -> None:
    """With steps up to 15 min the same dough differs by under 0.3 % in rise and 0.05 K at the core."""
    yeast, body, _, _ = CASES["a ball through the fridge"]
    cold = wait(fresh(yeast, body), start=0.0, hours=20.0, air=Air(5.0, 4.0), stepping=ON_SCREEN)
    warm = wait(cold.dough, start=20.0, hours=2.0, air=Air(21.0, 7.5), stepping=ON_SCREEN)
    rows, dough = rows_of(warm.rows), fresh(yeast, body)
    (degrees, _, _, _, gas, _, _), system = solved(dough, [(5.0, 4.8, 20.0), (21.0, 9.0, 2.0)])
    assert rows[-1].rise == pytest.approx(body.shares @ system.rises(gas, degrees), rel=0.003)
    assert rows[-1].core == pytest.approx(degrees[0], abs=0.05)
