"""What the oven's kernel looks up, by the formulas themselves; the tables have the same methods."""

from __future__ import annotations

from typing import Protocol

import numpy as np

from doughwright.science.browning import browning_rate_zanoni_1995
from doughwright.science.drying import vapour_diffusivity
from doughwright.science.setting import gelatinisation_rate_zanoni_1995
from doughwright.science.steam import (
    SEA_LEVEL,
    latent_heat,
    saturation_pressure_iapws_1992,
    vapour_density_slope,
)
from doughwright.science.yeast import Array, Real

WATER_COLDEST, WATER_HOTTEST = 0.0, 200.0
"""Where the formulas of water hold [degC]; an end holds beyond itself."""
FACE_COLDEST, FACE_HOTTEST = 20.0, 600.0
"""The same for browning and starch, past what was measured: a face goes from raw to very hot."""


class BakeCurves(Protocol):
    """The functions of temperature and of water's binding that a step of the oven needs."""

    def saturation(self, temperature: Real) -> Array:
        """Pressure of saturated steam [Pa] at [degC]."""
        ...

    def latent(self, temperature: Real) -> Array:
        """Latent heat [J/kg] at [degC]."""
        ...

    def carrying(self, temperature: Real) -> Array:
        """What steam carries in air at 101325 Pa, D L drho/dT [W/(m K)], at [degC]."""
        ...

    def above_boiling(self, binding: Array) -> Array:
        """ln(1 + B) of how strongly water is bound: what it boils above plain water, times b [1]."""
        ...

    def browning(self, temperature: Real) -> Array:
        """Rate of browning of a plain dough [1/s] at [degC]."""
        ...

    def gelatinising(self, temperature: Real) -> Array:
        """Rate at which starch sets [1/s] at [degC]."""
        ...


class BakeFormulas:
    """The functions of science, held at the ends of their ranges."""

    def saturation(self, temperature: Real) -> Array:
        """Pressure of saturated steam [Pa] at [degC]."""
        return saturation_pressure_iapws_1992(temperature=_water(temperature))

    def latent(self, temperature: Real) -> Array:
        """Latent heat [J/kg] at [degC]."""
        return latent_heat(temperature=_water(temperature))

    def carrying(self, temperature: Real) -> Array:
        """What steam carries in air at 101325 Pa, D L drho/dT [W/(m K)], at [degC]."""
        t = _water(temperature)
        spread = vapour_diffusivity(temperature=t, pressure=SEA_LEVEL)
        return np.asarray(spread * latent_heat(temperature=t) * vapour_density_slope(temperature=t))

    def above_boiling(self, binding: Array) -> Array:
        """ln(1 + B) of how strongly water is bound [1]."""
        return np.asarray(np.log1p(binding))

    def browning(self, temperature: Real) -> Array:
        """Rate of browning of a plain dough [1/s] at [degC]."""
        return browning_rate_zanoni_1995(temperature=_face(temperature), extrapolate=True)

    def gelatinising(self, temperature: Real) -> Array:
        """Rate at which starch sets [1/s] at [degC]."""
        return gelatinisation_rate_zanoni_1995(temperature=_face(temperature), extrapolate=True)


def _water(temperature: Real) -> Array:
    return np.asarray(np.clip(temperature, WATER_COLDEST, WATER_HOTTEST))


def _face(temperature: Real) -> Array:
    return np.asarray(np.clip(temperature, FACE_COLDEST, FACE_HOTTEST))
