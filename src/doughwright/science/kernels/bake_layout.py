"""What the kernel of the oven takes and gives: the order of its rows, and how its time is cut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from doughwright.science.yeast import Array, Mask

SURFACE, DOUGH, SAUCE, CHEESE = range(4)
"""What a cell is made of; any topping that is not cheese counts as sauce."""

INPUTS = (
    "pressure", "boiling", "sorption_moisture", "boiling_rise",
    "dough_heat", "dough_conductivity", "crust_conductivity", "vapour_share", "crust_diffusivity",
    "sauce_heat", "sauce_conductivity", "cheese_heat", "cheese_conductivity",
    "topping_dry_conductivity", "topping_dry_moisture", "skin_dough", "skin_sauce", "skin_cheese",
    "contact_wet", "contact_dry", "contact_depth", "browning", "yeast_decimal", "yeast_z",
    "surface_heat", "surface_conductivity", "surface_emissivity",
    "seconds", "air", "walls", "film", "emissivity", "vapour", "broil",
    "over_air", "over_walls", "over_film", "under_air", "under_walls", "under_film",
    "base_air", "base_film", "base_emissivity",
    "door_air", "door_walls", "door_recovery", "begins", "ramp",
)  # fmt: skip
"""What differs from lane to lane, a row each; a name shared with ``OvenParameters`` means the same.

``pressure`` [Pa] and what plain water boils at there [degC]; the food's rows; the surface's properties [SI].
Then the phase: its ``seconds``; what the food's top meets (``air``, ``walls`` [degC], ``film`` [W/(m2 K)],
``emissivity`` [1], ``vapour`` [Pa], ``broil`` [W/m2]), a bare surface's top (``over_``), the surface's
underside (``under_``) and the base of a lifted piece (``base_``). An opened door takes ``door_air`` and
``door_walls`` [K] off what the column's oven side meets, fading over ``door_recovery`` [s]; a ramp of so many
seconds takes the oven from ``begins`` [degC] to its values.
"""

RULES = (
    "contact_dried", "contact_noticed", "vapour_limit", "front_dough", "front_topping", "vapour_ceiling",
    "lewis", "water_heat", "steam_heat", "spring_from", "spring_span", "spring_stop", "browning_from",
    "set_temperature", "set_share",
)  # fmt: skip
"""Rows of ``OvenParameters`` that are the same in every lane."""

STATE = ("temperature", "water", "gelatinised", "sprung", "boiled")
"""The state of a cell: degC, kg/m2 of reference area, share, share of its spring, kg/(m2 s) just boiled."""

COLUMN = (
    "clock", "base", "top", "surface", "base_browning", "top_browning", "lost", "drying", "set_at",
    "core_peak", "killed", "heat_top", "heat_base", "heat_contact", "heat_surface", "warmed",
    "surface_warmed", "latent", "steam_heat",
)  # fmt: skip
"""What a column carries from phase to phase.

Seconds since it was loaded; face temperatures [degC] of base, top and surface; colour difference of base and
top; water lost [kg/m2], and at what pace below boiling in the last step [kg/(m2 s)]; when it set [s, NaN
before]; the highest its coldest dough cell has been [degC]; decimal reductions of its yeast there; then its
books [J/m2]: heat in at the top, at a lifted base, from the surface, into the surface from the oven; heat
kept by food and by surface, taken by steam as it formed and as it crossed the crust.
"""

ROWS = (
    "time", "base", "top", "core", "surface", "lost", "base_browning", "top_browning", "set", "killed",
    "sauce", "cheese", "moisture",
)  # fmt: skip
"""What is written down at a sample: s of the phase, degC, kg/m2, colour difference, share gelatinised of the
least set dough, decimal reductions, degC of the toppings (NaN without), water share of the coldest dough.
"""


@dataclass(frozen=True, slots=True)
class BakeStepping:
    """How time is cut [s]: a step of ``first`` after each change, then each ``growth`` times the last, up to
    ``longest`` (2 for flat pieces and buns, 1 in a wood oven, 4 for a loaf)."""

    first: float = 0.05
    growth: float = 1.15
    longest: float = 2.0

    def next(self, *, last: Array, left: Array) -> Array:
        """The step after ``last``, two like ones at the end rather than one and a sliver."""
        length = np.minimum(last * self.growth, self.longest)
        return np.asarray(np.where(left <= length, left, np.minimum(length, 0.5 * left)))


@dataclass(frozen=True, slots=True)
class Column:
    """Cells from the surface up, a lane each in the last axis; a part may be without surface or without food.

    ``kinds`` (cells,); dry ``solids`` [kg/m2 of reference area], ``thickness`` [m] and ``moisture`` [water
    over solids] at the start, ``spring`` [1] at its fullest, all (cells, lanes); ``area`` (cells + 1, lanes)
    of the faces over the reference area; ``state`` (5, cells, lanes); ``carried`` (19, lanes).
    """

    kinds: tuple[int, ...]
    solids: Array
    thickness: Array
    moisture: Array
    spring: Array
    area: Array
    state: Array
    carried: Array

    @property
    def surface(self) -> int:
        """How many cells are surface."""
        return self.kinds.count(SURFACE)

    @property
    def dough(self) -> slice:
        """Where the dough is."""
        return slice(self.surface, self.surface + self.kinds.count(DOUGH))

    def is_kind(self, kind: int) -> Mask:
        """Which cells are of a kind, (cells, 1)."""
        return np.array([one == kind for one in self.kinds], dtype=bool)[:, None]

    def read(self, name: str) -> Array:
        """What is carried under a name, a value each lane."""
        return np.asarray(self.carried[COLUMN.index(name)])


@dataclass(frozen=True, slots=True)
class Baked:
    """What came of a phase: the column after it, ``rows`` (samples, 13, lanes), and where asked the states at
    the samples (samples, 5, cells, lanes)."""

    column: Column
    rows: Array
    snapshots: Array | None = None
