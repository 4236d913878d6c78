"""The functions of temperature in the days model, as a set: so that tables may stand in for the formulas."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from doughwright.science.gas import solubility_crc
from doughwright.science.gluten import slackening
from doughwright.science.parameters import Parameters
from doughwright.science.sugar import maltose_rate
from doughwright.science.yeast import Array, Real, growth_rate_rosso_1993, relative_gassing_slator_1906


class Curves(Protocol):
    """What a step of the days needs of a temperature [degC], any shape; the result has that shape."""

    def gassing(self, temperature: Array, parameters: Parameters) -> Array:
        """Gassing over that at 30 degC [1]."""

    def growth(self, temperature: Array, parameters: Parameters) -> Array:
        """Growth rate of yeast without salt [1/h]."""

    def maltose(self, temperature: Array, parameters: Parameters) -> Array:
        """Rate at which maltose begins to form [% of flour/h]."""

    def solubility(self, temperature: Real) -> Array:
        """Carbon dioxide in water [mL/mL]."""

    def slackening(self, temperature: Real, parameters: Parameters) -> Array:
        """Rate at which a worked dough slackens [1/h]."""


@dataclass(frozen=True, slots=True)
class Formulas:
    """The curves as their sources write them."""

    def gassing(self, temperature: Array, parameters: Parameters) -> Array:
        """Slator's ratios in Ratkowsky's form [1]."""
        return relative_gassing_slator_1906(temperature=temperature, parameters=parameters)

    def growth(self, temperature: Array, parameters: Parameters) -> Array:
        """The cardinal-temperature model [1/h]."""
        return growth_rate_rosso_1993(temperature=temperature, parameters=parameters)

    def maltose(self, temperature: Array, parameters: Parameters) -> Array:
        """A temperature coefficient [% of flour/h]."""
        return maltose_rate(temperature=temperature, parameters=parameters)

    def solubility(self, temperature: Real) -> Array:
        """The CRC rows [mL/mL]."""
        return solubility_crc(temperature=temperature)

    def slackening(self, temperature: Real, parameters: Parameters) -> Array:
        """A temperature coefficient [1/h]."""
        return slackening(temperature=temperature, parameters=parameters)


FORMULAS = Formulas()
"""The curves as their sources write them."""
