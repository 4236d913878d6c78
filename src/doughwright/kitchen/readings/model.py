"""A readings document as frozen dataclasses: what its schema 1 means, in SI units."""

from __future__ import annotations

from typing import Literal

from pydantic import Field
from pydantic.dataclasses import dataclass

from doughwright.kitchen.readings._types import Difference, Instant, Volumes, Zone
from doughwright.recipe.model import CONFIG
from doughwright.recipe.types import Length, Mass, Name, Somewhere, Temperature, Text, Version


@dataclass(frozen=True, config=CONFIG)
class Height:
    """One reading of a jar: a ``height``, or the ``rise`` that a mark on the jar stands for."""

    when: Instant
    height: Length | None = None
    rise: Volumes | None = None
    crown: Length | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Jar:
    """``[[jar]]``: a small piece of the dough in a straight-sided jar.

    It stands ``at`` a place from when it was ``filled`` (at the end of mixing, where that is left out);
    without ``at`` it goes where the dough goes. ``read`` says where a height is read: where the dough
    meets the glass, or at the top of its crown.
    """

    name: Name
    heights: tuple[Height, ...]
    at: Somewhere | None = None
    mass: Mass | None = None
    diameter: Length | None = None
    filled: Instant | None = None
    start: Length | None = None
    read: Literal["edge", "top"] = "edge"
    crown: Length | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Probe:
    """``[[temperature]]``: a thermometer read once, in the dough or at a place."""

    when: Instant
    temperature: Temperature
    of: Name = "dough"
    spread: Difference | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Log:
    """``[[log]]``: a file that a thermometer wrote, and where it stood."""

    file: Text
    place: Name
    zone: Zone | None = None
    time: Text | None = None
    column: Text | None = None
    unit: Literal["°C", "°F", "K"] | None = None
    order: Literal["day first", "month first"] | None = None
    starts: Instant | None = None
    correction: Difference = 0.0
    spread: Difference | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Readings:
    """A readings document, read; ``mixed`` is the end of the dough's last mix step."""

    schema: Version
    readings: Text
    recipe: Text | None = None
    kitchen: Text | None = None
    dough: Name | None = None
    mixed: Instant | None = None
    zone: Zone | None = None
    jars: tuple[Jar, ...] = Field(default=(), validation_alias="jar")
    temperatures: tuple[Probe, ...] = Field(default=(), validation_alias="temperature")
    logs: tuple[Log, ...] = Field(default=(), validation_alias="log")
    notes: Text | None = None
