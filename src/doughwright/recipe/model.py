"""A recipe as frozen dataclasses: what a document of schema 1 means, in SI units.

Every field is a key of the document; ``docs/document.md`` says what each is for. Keys that are words
of Python (``for``, ``in``, ``with``, ``class``) have a trailing underscore here.
"""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass

from doughwright.recipe.types import (
    Allergens,
    Amount,
    Count,
    Density,
    Eat,
    Interval,
    Item,
    Length,
    Mass,
    Measures,
    MixName,
    MixNames,
    Name,
    Rise,
    Share,
    Somewhere,
    Switch,
    Temperature,
    Text,
    Texts,
    Time,
    Times,
    Version,
)
from doughwright.recipe.until import Event

# Built when first used: a command that reads no kitchen builds none.
CONFIG = ConfigDict(extra="forbid", populate_by_name=True, defer_build=True)

Shape = Literal["round", "rectangle", "tin", "ball"]
MixKind = Literal["preferment", "dough", "sauce", "topping", "other"]
Verb = Literal[
    "mix", "fold", "divide", "ball", "shape", "score", "dress", "glaze", "flip", "cook", "slice", "note",
    "rest", "autolyse", "bulk", "bench rest", "retard", "temper", "proof", "cool", "freeze", "thaw",
    "preheat", "par-bake", "bake",
]  # fmt: skip
Container = Literal["open", "bowl", "covered bowl", "lidded tub", "box", "bag", "tray", "tin", "cloth"]
Heat = Literal["top and bottom", "fan", "broil", "bottom"]
Rack = Literal["low", "middle", "high"]
Colour = Literal["pale", "golden", "brown", "dark"]

# The rise that is assumed where a recipe asks for none, by shape.
CUSTOMARY: dict[Shape, tuple[float, float]] = {
    "round": (1.6, 2.2),
    "rectangle": (1.6, 2.2),
    "ball": (1.8, 2.5),
    "tin": (2.2, 3.0),
}

WAITS = ("rest", "autolyse", "bulk", "bench rest", "retard", "temper", "proof", "cool", "freeze", "thaw")
OVEN = ("preheat", "par-bake", "bake")
BAKES = ("par-bake", "bake")


@dataclass(frozen=True, config=CONFIG)
class Makes:
    """``[makes]``: how many pieces of what shape and size, for whom and when."""

    pieces: Count = 1
    shape: Shape | None = None
    diameter: Length | None = None
    length: Length | None = None
    width: Length | None = None
    height: Length | None = None
    material: Text | None = None
    portions: Count | None = None
    eat: Eat | None = None
    loss: Share = 0.0
    piece_mass: Mass | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Line:
    """One ingredient of a mix (``item``), or another mix that goes into it (``mix``)."""

    item: Item | None = None
    mix: MixName | None = None
    amount: Amount | None = None
    add: Name | None = None
    protein: Share | None = None
    water: Share | None = None
    fat: Share | None = None
    sugar: Share | None = None
    salt: Share | None = None
    density: Density | None = None
    woken: bool = False
    temperature: Temperature | None = None
    source: Text | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Mix:
    """``[[mix]]``: what is weighed together, a dough, a preferment, a sauce or a topping."""

    name: Name
    kind: MixKind = "dough"
    per: Literal["batch", "piece"] = "batch"
    use: Literal["dusting", "greasing", "tin", "finish"] | None = None
    ingredients: tuple[Line, ...] = ()
    source: Text | None = None
    photo: Text | None = None
    notes: Text | None = None

    @property
    def outside_formula(self) -> bool:
        """Whether it is bought and named, but is no part of the formula (dusting and the like)."""
        return self.use in ("dusting", "greasing", "tin")


@dataclass(frozen=True, config=CONFIG)
class Step:
    """``[[step]]``: one thing to do (``do``), with its time, its place and the keys of its verb."""

    do: Verb
    mix: MixName | None = None
    of: MixName | None = None
    add: Name | None = None
    for_: Times | None = Field(default=None, validation_alias="for")
    until: Event | None = None
    at: Somewhere | None = None
    in_: Container | None = Field(default=None, validation_alias="in")
    pieces: Count | None = None
    each: Mass | None = None
    with_: MixNames = Field(default=(), validation_alias="with")
    hands: Time | None = None
    degas: Share | None = None
    dough_at: Temperature | None = None
    heat: Heat | None = None
    rack: Rack | None = None
    on: Text | None = None
    between: Time | None = None
    steam: Switch | None = None
    lid: Switch | None = None
    turn: Switch | None = None
    text: Text | None = None
    equipment: Texts = ()
    photo: Text | None = None
    notes: Text | None = None

    @property
    def waits(self) -> bool:
        """Whether the step is a wait: the dough stands, nobody works."""
        return self.do in WAITS

    @property
    def lasts(self) -> float | None:
        """How long it takes [s]: the middle of its range; with ``until`` the greater end, as the limit."""
        if self.for_ is None:
            return None
        return self.for_.middle if self.until is None else self.for_.high

    @property
    def in_oven(self) -> bool:
        """Whether the step is done in the oven."""
        return self.do in OVEN


@dataclass(frozen=True, config=CONFIG)
class Own:
    """``[[ingredient]]``: an ingredient of the cook's own, per 100 g, with its source."""

    name: Name
    source: Text
    like: Item | None = None
    class_: Name | None = Field(default=None, validation_alias="class")
    water: Share | None = None
    protein: Share | None = None
    fat: Share | None = None
    carbohydrate: Share | None = None
    sugar: Share | None = None
    fibre: Share | None = None
    salt: Share | None = None
    density: Density | None = None
    refuse: Share | None = None
    measures: Measures = ()
    allergens: Allergens | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Target:
    """``[target]``: the dough and the crust that the cook wants."""

    dough_temperature: Temperature | None = None
    rise: Rise | None = None
    base: Colour | None = None
    rim: Colour | None = None
    notes: Text | None = None


@dataclass(frozen=True, config=CONFIG)
class Recipe:
    """A recipe document, read."""

    schema: Version
    title: Text
    mixes: tuple[Mix, ...] = Field(validation_alias="mix", min_length=1)
    steps: tuple[Step, ...] = Field(default=(), validation_alias="step")
    makes: Makes = Field(default_factory=Makes)
    own: tuple[Own, ...] = Field(default=(), validation_alias="ingredient")
    target: Target = Field(default_factory=Target)
    kitchen: Text | None = None
    cups: Literal["US", "metric", "imperial"] = "US"
    author: Text | None = None
    description: Text | None = None
    source: Text | None = None
    photo: Text | None = None
    video: Text | None = None
    equipment: Texts = ()
    tags: Texts = ()
    notes: Text | None = None

    def mix(self, name: str) -> Mix:
        """The mix of that name; ``KeyError`` where there is none."""
        return {mix.name: mix for mix in self.mixes}[name]

    @property
    def doughs(self) -> tuple[Mix, ...]:
        """The doughs that are baked: of kind dough, in no other mix, and neither dusting nor greasing."""
        used = {line.mix for mix in self.mixes for line in mix.ingredients if line.mix}
        doughs = [mix for mix in self.mixes if mix.kind == "dough" and not mix.outside_formula]
        return tuple(mix for mix in doughs if mix.name not in used)

    @property
    def shape(self) -> Shape:
        """The shape of a piece, as written or as its measures say; a ball where nothing is said."""
        makes = self.makes
        if makes.shape:
            return makes.shape
        if makes.diameter:
            return "round"
        if makes.length and makes.width:
            return "tin" if makes.height else "rectangle"
        return "ball"


__all__ = [
    "BAKES", "CUSTOMARY", "OVEN", "WAITS", "Interval", "Line", "Makes", "Mix", "Own", "Recipe", "Step",
    "Target",
]  # fmt: skip
