"""What the oven's kernel looks up, by the formulas themselves; the tables have the same methods."""

from __future__ import annotations

from typing import Protocol

import numpy as np

from doughwright.science.yeast import Array, Real

R_VAPOUR = 461.5


class BakeCurves(Protocol):
    """The functions of temperature and of water's binding that a step of the oven needs."""

    def saturation(self, temperature: Real) -> Array:
        """Pressure of saturated steam [Pa] at [degC]."""
        ...

    def latent(self, temperature: Real) -> Array:
        """Latent heat [J/kg] at [degC]."""
        ...

    def carrying(self, temperature: Real) -> Array:
        """Vapour path [W/(m K)] at [degC]: D L drho/dT at 101325 Pa, before pores and pressure."""
        ...

    def above_boiling(self, binding: Array) -> Array:
        """ln(1 + B), what bound water boils above plain water times b [1]."""
        ...

    def browning(self, temperature: Real) -> Array:
        """Rate of browning [1/s] at [degC]."""
        ...

    def gelatinising(self, temperature: Real) -> Array:
        """Rate at which starch sets [1/s] at [degC]."""
        ...


class BakeFormulas:
    """The formulas."""

    def saturation(self, temperature: Real) -> Array:
        """Pressure of saturated steam [Pa]."""
        kelvin = np.asarray(temperature) + 273.15
        th = 1.0 - kelvin / 647.096
        inner = (
            -7.85951783 * th + 1.84408259 * th**1.5 - 11.7866497 * th**3 + 22.6807411 * th**3.5
            - 15.9618719 * th**4 + 1.80122502 * th**7.5
        )  # fmt: skip
        return np.asarray(22.064e6 * np.exp(647.096 / kelvin * inner))

    def latent(self, temperature: Real) -> Array:
        """Latent heat [J/kg], held at the ends of 0 to 150 degC."""
        t = np.clip(temperature, 0.0, 150.0)
        return np.asarray(1e3 * (2500.74 + t * (-2.36700 + t * (5.7084e-4 - t * 1.31918e-5))))

    def carrying(self, temperature: Real) -> Array:
        """Vapour path [W/(m K)] at 101325 Pa."""
        kelvin, latent = np.asarray(temperature) + 273.15, self.latent(temperature)
        diffusivity = 2.6e-5 * (kelvin / 298.15) ** 1.8
        slope = self.saturation(temperature) / (R_VAPOUR * kelvin)
        slope = slope * (latent / (R_VAPOUR * kelvin * kelvin) - 1.0 / kelvin)
        return np.asarray(diffusivity * latent * slope)

    def above_boiling(self, binding: Array) -> Array:
        """ln(1 + B)."""
        return np.asarray(np.log1p(binding))

    def browning(self, temperature: Real) -> Array:
        """Rate of browning [1/s]."""
        return np.asarray(42000.0 * np.exp(-64151.0 / (8.314 * (np.asarray(temperature) + 273.15))))

    def gelatinising(self, temperature: Real) -> Array:
        """Rate at which starch sets [1/s]."""
        return np.asarray(2.8e18 * np.exp(-139000.0 / (8.314 * (np.asarray(temperature) + 273.15))))
