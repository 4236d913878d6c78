"""What the oven says of a dough: frozen results, printed by ``oven --json`` as they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from doughwright.figures import Figure, jsonable

State = Literal["raw", "pale", "right", "dark", "burnt"]
Lab = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class BakeColumn:
    """One series: a unit and its values to three decimals, ``None`` where there is nothing to read."""

    unit: str
    values: tuple[float | None, ...]

    def to_json(self) -> dict[str, object]:
        """The column as it is."""
        return {"unit": self.unit, "values": list(self.values)}


@dataclass(frozen=True, slots=True)
class BakeSeries:
    """All pieces in one clock, ``time`` in min, 0 when the first piece goes in; columns of one length.

    ``piece`` says whose row it is. ``base``, ``top`` and ``surface`` are faces, ``core`` the coldest dough,
    ``sauce`` and ``cheese`` the toppings; ``loss`` in per cent of raw dough and toppings.
    """

    time: BakeColumn
    piece: tuple[int, ...]
    base: BakeColumn
    top: BakeColumn
    core: BakeColumn
    surface: BakeColumn
    sauce: BakeColumn
    cheese: BakeColumn
    loss: BakeColumn
    base_lightness: BakeColumn
    rim_lightness: BakeColumn


@dataclass(frozen=True, slots=True)
class BakeEvent:
    """What was done with a ``piece`` from ``start`` to ``end``, and whether that was ``in_oven``."""

    do: str
    piece: int
    start: Figure
    end: Figure
    in_oven: bool


@dataclass(frozen=True, slots=True)
class Colour:
    """A crust as L*a*b* with its dark end (``low``) and its light end (``high``), as sRGB, and in a word."""

    lab: Lab
    low: Lab
    high: Lab
    srgb: str
    srgb_low: str
    srgb_high: str
    word: str


@dataclass(frozen=True, slots=True)
class Share:
    """Of kitchens like this one, so many per cent have the piece raw, pale, right, dark or burnt."""

    raw: Figure
    pale: Figure
    right: Figure
    dark: Figure
    burnt: Figure


@dataclass(frozen=True, slots=True)
class Filling:
    """The toppings at their hottest: ``coldest`` of them; ``least`` by the Food Code where raw food of
    animal origin lies in them, for ``items``, and whether it is ``reached``."""

    coldest: Figure
    least: Figure
    items: tuple[str, ...]
    reached: bool | None


@dataclass(frozen=True, slots=True)
class PieceBaked:
    """One piece at its last lifting.

    ``core_peak`` is the highest that its coldest dough has been; ``surface_before`` the face of what it lies
    on as it is first loaded, ``surface_after`` as it is last lifted; ``set_at``, ``yeast_dead_at`` and
    ``through_at`` count from its first loading; ``moisture`` is the water in its coldest dough; ``recover``
    how long the surface then takes to within 10 degC of what it was. Its ``rim`` is the top in a bun or loaf.
    """

    number: int
    base_lightness: Figure
    rim_lightness: Figure
    weight_loss: Figure
    core_peak: Figure
    surface_before: Figure
    surface_after: Figure
    set_at: Figure
    yeast_dead_at: Figure
    through_at: Figure
    base: Colour
    rim: Colour
    state: State
    state_why: str
    share: Share | None
    sauce: Figure | None
    cheese: Figure | None
    filling: Filling | None
    moisture: Figure
    recover: Figure


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer of a section and its ``thickness``."""

    name: str
    thickness: Figure


@dataclass(frozen=True, slots=True)
class Frame:
    """A piece at one moment, cut through: ``depth`` of each cell above the surface it lies on (below it
    negative) and its temperature; layers from below; how far boiling has come ``from_base`` and ``from_top``.
    """

    time: Figure
    do: str
    depth: BakeColumn
    temperature: BakeColumn
    layers: tuple[Layer, ...]
    from_base: Figure
    from_top: Figure


@dataclass(frozen=True, slots=True)
class Section:
    """A piece by depth and time, in the middle of what is known."""

    piece: int
    frames: tuple[Frame, ...]


@dataclass(frozen=True, slots=True)
class Surfaced:
    """What the pieces lie on; ``hot`` where it waits in the oven for them."""

    name: str
    material: str
    thickness: Figure
    hot: bool


@dataclass(frozen=True, slots=True)
class OvenSet:
    """The oven as it is set for the first piece: its ``dial`` and what that is in truth; ``preheat`` is how
    long a cold oven takes to bring the surface to within 10 degC, ``given`` what the recipe gives it."""

    dial: Figure
    true: Figure
    fan: bool
    broil: bool
    preheat: Figure
    given: Figure


@dataclass(frozen=True, slots=True)
class GoesIn:
    """One piece as it goes into the oven: its ``mass`` and that of its ``toppings``, its ``loading``, the
    share of ``water`` in it, its ``core`` and ``edge``, the ``sugar`` left (of flour), and how many times
    faster than a plain lean dough it browns."""

    mass: Figure
    toppings: Figure
    loading: Figure
    water: Figure
    core: Figure
    edge: Figure
    sugar: Figure
    browning: Figure


@dataclass(frozen=True, slots=True)
class Wanted:
    """The base that is right, L* ``low`` to ``high``, and whether that is ``assumed``."""

    word: str
    low: Figure
    high: Figure
    assumed: bool


@dataclass(frozen=True, slots=True)
class Bake:
    """The oven's part of one dough in one kitchen; ``draws`` kitchens like it give the intervals.

    ``form`` is what the piece is run as: flat, bun or loaf.
    """

    dough: str
    kitchen: str
    form: str
    oven: OvenSet
    surface: Surfaced
    goes_in: GoesIn
    wanted: Wanted
    series: BakeSeries
    events: tuple[BakeEvent, ...]
    pieces: tuple[PieceBaked, ...]
    section: Section | None
    draws: int
    said: tuple[str, ...]
    warnings: tuple[str, ...]
    doughs: tuple[Bake, ...] = field(default=())

    def to_json(self) -> object:
        """Its JSON; other doughs that are baked stand under ``doughs``, this one first."""
        names = [name for name in self.__slots__ if name not in ("doughs", "section")]
        out: dict[str, object] = {name: jsonable(getattr(self, name)) for name in names}
        if self.section is not None:
            out["section"] = jsonable(self.section)
        if self.doughs:
            out["doughs"] = [one.to_json() for one in self.doughs]
        return out


def column(unit: str, values: Sequence[float]) -> BakeColumn:
    """A column from numbers; NaN is nothing to read."""
    return BakeColumn(unit, tuple(None if one != one else round(float(one), 3) for one in values))
