"""A kitchen as frozen dataclasses: what a kitchen document of schema 1 means, in SI units.

What a kitchen leaves out is ``None`` here; ``assumed`` fills it from the published population.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field, StrictBool
from pydantic.dataclasses import dataclass

from doughwright.kitchen.learnt import Learnt
from doughwright.kitchen.types import (
    Awake,
    KnownAltitude,
    KnownDifference,
    KnownShare,
    KnownTemperature,
    KnownTime,
    Moment,
    Openings,
)
from doughwright.recipe.model import CONFIG
from doughwright.recipe.types import Length, Mass, Name, Text, Version

Material = Literal[
    "cordierite", "firebrick", "soapstone", "cast iron", "carbon steel", "aluminium", "stainless steel",
    "tray",
]  # fmt: skip


Shelf = Literal["top", "middle", "bottom", "door"]


@dataclass(frozen=True, config=CONFIG)
class Fridge:
    """``[fridge]``: its mean, its swing (plus or minus) and cycle, where the dough stands, what warms it."""

    temperature: KnownTemperature | None = None
    swing: KnownDifference | None = None
    cycle: KnownTime | None = None
    shelf: Shelf | None = None
    openings: Openings | None = None
    fan: StrictBool = False
    warms: KnownDifference | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Room:
    """``[room]``: its mean, its swing over a day (plus or minus), and when it is warmest."""

    temperature: KnownTemperature | None = None
    swing: KnownDifference | None = None
    warmest: Moment | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Tap:
    """``[tap]``: the water that runs cold from the tap."""

    temperature: KnownTemperature | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Flour:
    """``[flour]``: the flour of this kitchen; its protein replaces the recipe's."""

    protein: KnownShare | None = None
    temperature: KnownTemperature | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Oven:
    """``[oven]``: how hot it gets, how wrong its dial is (true minus dial) and whether it has a fan."""

    hottest: KnownTemperature | None = None
    error: KnownDifference | None = None
    fan: StrictBool | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Surface:
    """``[[surface]]``: what the dough is baked on."""

    name: Name
    material: Material | None = None
    thickness: Length | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Place:
    """``[[place]]``: somewhere else for a dough to stand, by name."""

    name: Name
    temperature: KnownTemperature
    swing: KnownDifference | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Mixer:
    """``[mixer]``: what the dough is mixed with; its friction is on the trade's sum of three."""

    kind: Literal["hand", "stand", "spiral", "processor"] | None = None
    friction: KnownDifference | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Scale:
    """``[scale]``: the step of the scale's display."""

    step: Mass | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Kitchen:
    """A kitchen document, read."""

    schema: Version
    kitchen: Text
    altitude: KnownAltitude | None = None
    awake: Awake | None = None
    fridge: Fridge = Field(default_factory=Fridge)
    room: Room = Field(default_factory=Room)
    tap: Tap = Field(default_factory=Tap)
    flour: Flour = Field(default_factory=Flour)
    oven: Oven = Field(default_factory=Oven)
    surfaces: tuple[Surface, ...] = Field(default=(), validation_alias="surface")
    places: tuple[Place, ...] = Field(default=(), validation_alias="place")
    mixer: Mixer = Field(default_factory=Mixer)
    scale: Scale = Field(default_factory=Scale)
    learnt: Learnt | None = None
    notes: Text | None = None
