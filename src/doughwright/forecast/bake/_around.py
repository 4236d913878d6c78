"""What surrounds a piece: the oven at its dial, the room while it is out, the tin it stands in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from doughwright.forecast.bake._draws import Lanes
from doughwright.forecast.bake._oven import Heating
from doughwright.forecast.bake._raw import Raw
from doughwright.forecast.bake._steps import Steps
from doughwright.forecast.bake._toppings import Topping
from doughwright.science.kernels.bake_inputs import food_inputs, oven_inputs
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.yeast import Array

_ROOM_VAPOUR = 1.2e3
_STANDARD = OvenParameters()


@dataclass(frozen=True, slots=True)
class Session:
    """What a stretch at the oven is run with: the piece, its steps, its lanes, the ``room`` [degC], the
    ``pressure`` [Pa], and whether states are kept for a section."""

    raw: Raw
    steps: Steps
    lanes: Lanes
    room: Array
    pressure: Array
    sections: bool = False

    @property
    def toppings(self) -> tuple[Topping, ...]:
        """Everything that is put on a piece."""
        later = (one for action in self.steps.actions for one in action.toppings)
        return (*self.steps.before, *later)

    def true(self, heating: Heating) -> Array:
        """What the oven truly holds at its dial [degC]."""
        return np.asarray(heating.dial + self.lanes.error)

    def preheating(self, hot: Array) -> dict[str, Any]:
        """A cold oven warms to its dial along a ramp, its surface with it."""
        p = self.lanes.parameters
        film = p.preheat_film_fan if self.steps.preheated.fan else p.film_static
        around = dict.fromkeys(("over_air", "over_walls", "under_air", "under_walls"), hot)
        films = dict.fromkeys(("over_film", "under_film"), film)
        return (
            self.values(self.steps.preheated) | around | films | {"begins": self.room, "ramp": p.preheat_ramp}
        )

    def values(self, heating: Heating, *, opened: bool = False) -> dict[str, Any]:
        """An oven at its dial, its door just opened or not."""
        p, material = self.lanes.parameters, self.steps.on.material
        values: dict[str, Any] = food_inputs(
            parameters=p,
            form=self.raw.shape.form,
            pressure=self.pressure,
            fresh_cheese=any(one.fresh for one in self.toppings),
        )
        hot = self.true(heating)
        values |= oven_inputs(
            parameters=p,
            setting=hot,
            fan=heating.fan,
            pressure=self.pressure,
            broil=p.broil if heating.broil else 0.0,
            opened=opened,
        )
        values |= {
            "browning": self.raw.browning,
            "surface_heat": material.heat_capacity,
            "surface_conductivity": material.conductivity
            * (self.lanes.stone if material.kind == "stone" else 1.0),
            "surface_emissivity": material.emissivity,
            "base_air": self.room,
            "base_film": p.lifted_film,
            "base_emissivity": p.lifted_emissivity,
        }
        return values | self._composition() | self._under(hot)

    def out(self, heating: Heating) -> dict[str, Any]:
        """A piece in the room: its surface stays in the oven, its tin comes out with it."""
        p = self.lanes.parameters
        around = {
            "air": self.room, "walls": self.room, "film": p.lifted_film, "emissivity": p.lifted_emissivity,
            "vapour": _ROOM_VAPOUR, "broil": 0.0,
        }  # fmt: skip
        if self.steps.on.hot:
            return self.values(heating, opened=True) | around
        below = {"under_air": self.room, "under_walls": self.room, "under_film": p.lifted_film}
        return self.values(heating) | around | below

    def turned(self, before: Heating, heating: Heating) -> dict[str, Any]:
        """A dial that is turned takes its time: as long as preheating over so many degrees."""
        old, new = self.true(before), self.true(heating)
        if heating.dial == before.dial:
            return {}
        p = self.lanes.parameters
        return {"begins": old, "ramp": p.preheat_ramp * np.abs(new - old) / np.maximum(old - self.room, 1.0)}

    def _under(self, hot: Array) -> dict[str, Any]:
        """A tin or a tray stands on a rack; oil between pan and dough keeps their contact."""
        on, p = self.steps.on, self.lanes.parameters
        values: dict[str, Any] = {}
        if not on.hot:
            values |= {"under_air": hot - 5.0, "under_walls": hot - 10.0}
        if on.oiled and self.raw.shape.form == "flat":
            values |= {"contact_wet": p.contact_oil, "contact_dry": p.contact_oil}
        return values

    def _composition(self) -> dict[str, Any]:
        """Heat of the toppings' solids and what a wet sauce conducts, by composition."""
        p, values = self.lanes.parameters, {}
        for one in self.toppings:
            kind = "cheese" if one.cheese else "sauce"
            doubt = getattr(p, f"{kind}_heat") / getattr(_STANDARD, f"{kind}_heat")
            values[f"{kind}_heat"] = one.solids_heat * doubt
            if not one.cheese:
                doubt = p.sauce_conductivity / _STANDARD.sauce_conductivity
                values["sauce_conductivity"] = one.conductivity * doubt
        return values
