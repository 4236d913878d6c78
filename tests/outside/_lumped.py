"""A dough at one temperature throughout, run by the same step as the real thing: for published figures."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from doughwright.science.ferment import Ferment, Medium, ferment_step, medium
from doughwright.science.gas import degas, gas_basis, split_gas
from doughwright.science.parameters import Parameters

P = Parameters()


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
        none = np.zeros(1)
        fresh = none + p.native_sugar + self.sugar
        self.state = Ferment(none + self.yeast, fresh, none, none, none, none, none, none)
        self.time = 0.0

    @property
    def rise(self) -> float:
        return float(self._split().rise[0])

    def _split(self):
        return split_gas(
            gas=self.state.gas,
            temperature=np.array([self.degrees]),
            basis=self.medium.basis,
            parameters=self.parameters,
        )

    def step(self, hours: float, to: float | None = None) -> None:
        after = self.degrees if to is None else to
        self.state = ferment_step(
            state=self.state,
            medium=self.medium,
            before=np.array([self.degrees]),
            after=np.array([after]),
            hours=hours,
            parameters=self.parameters,
        )
        self.degrees, self.time = after, self.time + hours

    def run(self, hours: float, step: float = 0.05) -> Lumped:
        """Keep it at its temperature."""
        count = max(1, round(hours / step))
        for _ in range(count):
            self.step(hours / count)
        return self

    def approach(self, air: float, hours: float, tau: float = 1.3, step: float = 0.05) -> Lumped:
        """Let it near the temperature of the air with one time constant [h]."""
        count = max(1, round(hours / step))
        shrink = float(np.exp(-hours / count / tau))
        for _ in range(count):
            self.step(hours / count, air + (self.degrees - air) * shrink)
        return self

    def ball(self, share: float = 0.9) -> Lumped:
        """Knock it back."""
        gas = degas(gas=self.state.gas, dissolved=self._split().dissolved, share=share)
        self.state = Ferment(*[gas if name == "gas" else getattr(self.state, name) for name in _NAMES])
        return self

    def time_to(self, rise: float, step: float = 0.02, longest: float = 60.0) -> float:
        """Hours until it has this rise, on the line between two steps."""
        return self.until(lambda one: one.rise, rise, step, longest)

    def until(self, what: Callable[[Lumped], float], level: float, step: float, longest: float) -> float:
        before = what(self)
        while self.time < longest:
            self.step(step)
            now = what(self)
            if now >= level:
                return self.time - step * (now - level) / (now - before)
            before = now
        raise AssertionError(f"not within {longest} h")


_NAMES = ("yeast", "sugar", "maltose", "gas", "made", "leaked", "woken", "grown")
