"""What a quantity is: its kind, a quantity as written, a range, and a cook's amount."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What a quantity measures; the unit in brackets is the one used inside."""

    MASS = "mass"  # [kg]
    VOLUME = "volume"  # [m3]
    LENGTH = "length"  # [m]
    TIME = "time"  # [s]
    TEMPERATURE = "temperature"  # [degC]
    TEMPERATURE_DIFFERENCE = "temperature difference"  # [K]
    FRACTION = "fraction"  # [1]: "62 %" is 0.62
    COUNT = "count"  # [1]
    DENSITY = "density"  # [kg/m3]
    NUMBER = "number"  # [1]: "1.5"
    AREA = "area"  # [m2]
    LOADING = "loading"  # [kg/m2]
    ENERGY = "energy"  # [J]


class AmountKind(StrEnum):
    """How a cook says how much."""

    MASS = "mass"
    VOLUME = "volume"
    PERCENT = "percent"
    COUNT = "count"
    PINCH = "pinch"
    TASTE = "to taste"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity: its value in the unit used inside, and how it was written.

    ``unit`` is the table's name of the (first) unit; ``measure`` the household measure's word, if it is one.
    """

    value: float
    kind: Kind
    unit: str
    text: str
    measure: str | None = None


@dataclass(frozen=True, slots=True)
class Range:
    """Two quantities of one kind, the lower first; a single value is a range of no width."""

    low: Quantity
    high: Quantity

    @property
    def middle(self) -> float:
        """Halfway between the two, in the unit used inside."""
        return (self.low.value + self.high.value) / 2


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of an ingredient.

    ``value`` is in kg (mass), m3 (volume), a fraction (percent), or a number (count, pinch); ``None`` for
    "to taste" and "all". ``measure`` is the household measure in the singular ("cup", "tsp", "large",
    "clove", "pinch"), by which an ingredient's own weight of it is looked up. ``volume`` is in m3 where
    the amount has one; that of a pinch or a dash is assumed.
    """

    kind: AmountKind
    value: float | None
    measure: str | None
    text: str
    volume: float | None = None
