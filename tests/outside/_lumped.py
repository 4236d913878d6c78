"""A dough at one temperature throughout, waiting in the kernel of the real thing: for published figures."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from doughwright.science.ferment import Ferment, Medium, medium
from doughwright.science.gas import GasSplit, degas, gas_basis, split_gas
from doughwright.science.kernels.layout import INPUTS, ROWS, STATE, Stepping, Waited
from doughwright.science.kernels.tables import tables
from doughwright.science.kernels.waits import wait
from doughwright.science.parameters import Parameters

P = Parameters()
NODES = 2
# So good a conductor of so little mass that it is as warm as the air, at once.
CONDUCTIVITY, AT_ONCE = 100.0, 1.0e5


@dataclass
class Lumped:
    """Per 100 g flour: yeast as fresh [g], salt, water and sugar [g], protein [%], at ``degrees`` [degC]."""

    yeast: float
    degrees: float
    salt: float = 2.0
    water: float = 62.0
    sugar: float = 0.0
    protein: float = 13.0
    altitude: float = 0.0
    parameters: Parameters = P

    def __post_init__(self) -> None:
        p = self.parameters
        basis = gas_basis(
            mass=100.0 + self.water + self.salt + self.sugar + self.yeast,
            water=self.water,
            protein=self.protein,
            altitude=self.altitude,
            parameters=p,
        )
        self.medium: Medium = medium(
            salt=self.salt,
            water=self.water,
            sugar=self.sugar,
            lag=p.gassing_lag,
            at_mixing=self.yeast,
            basis=basis,
            parameters=p,
        )
        none = np.zeros(NODES)
        fresh = none + p.native_sugar + self.sugar
        self.state = Ferment(none + self.yeast, fresh, none, none, none, none, none, none)
        self.time = 0.0

    @property
    def rise(self) -> float:
        return float(self._split().rise[0])

    def _split(self) -> GasSplit:
        return split_gas(
            gas=self.state.gas,
            temperature=np.full(NODES, self.degrees),
            basis=self.medium.basis,
            parameters=self.parameters,
        )

    def step(self, hours: float) -> None:
        """Keep it at its temperature in one step."""
        self._wait(hours, step=hours)

    def run(self, hours: float, step: float = 0.05) -> Lumped:
        """Keep it at its temperature."""
        self._wait(hours, step=step)
        return self

    def approach(self, air: float, hours: float, tau: float = 1.3, step: float = 0.05) -> Lumped:
        """Let it near the temperature of the air with one time constant [h]."""
        self._wait(hours, step=step, air=air, film=1000.0 / (tau * 3600.0))
        return self

    def ball(self, share: float = 0.9) -> Lumped:
        """Knock it back."""
        gas = degas(gas=self.state.gas, dissolved=self._split().dissolved, share=share)
        self.state = replace(self.state, gas=gas)
        return self

    def time_to(self, rise: float, step: float = 0.02, longest: float = 60.0) -> float:
        """Hours until it has this rise, on the line between two steps."""
        waited = self._wait(longest, step=step, rise=rise)
        if float(waited.took[0]) >= longest:
            raise AssertionError(f"not within {longest} h")
        return self.time

    def _wait(
        self,
        hours: float,
        *,
        step: float,
        air: float | None = None,
        film: float = AT_ONCE,
        rise: float | None = None,
    ) -> Waited:
        seconds = 3600.0 * step
        waited = wait(
            inputs=self._inputs(hours, self.degrees if air is None else air, film, rise),
            state=np.stack([np.full(NODES, self.degrees), *self._columns()])[:, :, None],
            tightness=np.ones(1),
            curves=tables(self.parameters),
            shape="slab",
            stepping=Stepping(first=seconds, growth=1.01, longest=seconds, slowest=seconds),
            stop=None if rise is None else "rise",
            samples=np.ones(1),
        )
        self.state = Ferment(*waited.state[1:, :, 0])
        self.degrees = float(waited.rows[-1, ROWS.index("mean"), 0])
        self.time += float(waited.took[0])
        return waited

    def _columns(self) -> list[np.ndarray]:
        return [getattr(self.state, name) for name in STATE[1:]]

    def _inputs(self, hours: float, air: float, film: float, rise: float | None) -> np.ndarray:
        p, basis = self.parameters, self.medium.basis
        given = {
            "gassing": self.medium.gassing,
            "growth": self.medium.growth,
            "lag": self.medium.lag,
            "at_mixing": self.medium.at_mixing,
            "hold": basis.water * p.dissolving * basis.pressure,
            "air": basis.air,
            "volume": basis.volume,
            "pressure": basis.pressure,
            "ceiling": basis.ceiling,
            "retention": p.retention,
            "gassing_minimum": p.gassing_minimum,
            "gassing_norm": tables(p).norm(p),
            "growth_rate": p.growth_optimum_rate,
            "growth_lag": p.growth_lag,
            "growth_cap": p.growth_cap,
            "maltose_rate": p.maltose_rate,
            "maltose_limit": p.maltose_limit,
            "sugar_half": p.sugar_half,
            "gas_yield": p.gas_yield,
            "warming": 0.0,
            "slack_25": 60.0 / p.tightness_25,
            "death": p.death_temperature,
            # One kilogram with one square metre of skin and 1 kJ/(kg K): the time constant is 1000 s / film.
            "mass": 1.0,
            "unrisen": 1.0e-3,
            "skin": 1.0,
            "side": 0.0,
            "heat": 1000.0,
            "conductivity": CONDUCTIVITY,
            "slope": 0.0,
            "gas_conductivity": 1.0,
            "air_share": p.air,
            "film": film,
            "resistance": 0.0,
            "hours": hours,
            "mean": air,
            "swing": 0.0,
            "period": 1.0,
            "phase": 0.0,
            "daily": 0.0,
            "daily_phase": 0.0,
            "stop": 0.0 if rise is None else rise,
        }
        return np.array([[float(given[name])] for name in INPUTS])
