"""Bakes that the tests of the oven's kernel share: what goes in, and the phases one after another."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from doughwright.science.kernels.bake_column import (
    dough_column,
    dress_food,
    load_food,
    surface_column,
    topping_column,
)
from doughwright.science.kernels.bake_curves import BakeFormulas
from doughwright.science.kernels.bake_inputs import food_inputs, lane_inputs, oven_inputs, rules_of
from doughwright.science.kernels.bake_layout import ROWS, Baked, BakeStepping, Column
from doughwright.science.kernels.bake_twin import bake
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.yeast import Array

SEA = 101325.0
ROOM = 22.0
STEPPING = BakeStepping()
P = OvenParameters()
# thickness m, density, c, k, emissivity, cells
CORDIERITE = (0.016, 2000.0, 850.0, 1.5, 0.85, 6)
STEEL = (0.006, 7832.0, 530.0, 50.0, 0.85, 2)


@dataclass(frozen=True)
class Scene:
    """A column with all its inputs, and what it was before it lost water."""

    column: Column
    values: dict[str, Any]
    parameters: OvenParameters = P
    stepping: BakeStepping = STEPPING

    @property
    def lanes(self) -> int:
        return int(self.column.state.shape[2])

    def phase(self, seconds: Any, *, lifted: bool = False, samples: Any = (0.0, 1.0), snapshots: bool = False,
              **changes: Any) -> tuple[Scene, Baked]:  # fmt: skip
        values = self.values | changes | {"seconds": seconds}
        done = bake(
            inputs=lane_inputs(values=values, lanes=self.lanes),
            rules=rules_of(parameters=self.parameters),
            column=self.column,
            curves=BakeFormulas(),
            lifted=lifted,
            stepping=self.stepping,
            samples=np.asarray(samples, dtype=float),
            snapshots=snapshots,
        )
        return replace(self, column=done.column), done

    def dress(self, sauce: Any = 1.2, cheese: Any = 1.2, **kinds: Any) -> Scene:
        column = self.column
        if sauce is not None:
            column = dress_food(column=column, topping=sauce_of(sauce, self.lanes))
        if cheese is not None:
            column = dress_food(column=column, topping=cheese_of(cheese, self.lanes, **kinds))
        return replace(self, column=column)

    def read(self, name: str) -> Array:
        return self.column.read(name)


def sauce_of(load: Any, lanes: int) -> Column:
    return topping_column(load=load, water=0.879, density=1040.0, temperature=12.0, cheese=False, lanes=lanes)


def cheese_of(load: Any, lanes: int, water: float = 0.465, density: float = 1086.0) -> Column:
    return topping_column(load=load, water=water, density=density, temperature=8.0, cheese=True, lanes=lanes)


def share_of_water(hydration: Any) -> Any:
    return (0.13 + np.asarray(hydration)) / (1.025 + np.asarray(hydration))


def flat_dough(load: Any = 3.54, hydration: Any = 0.65, *, lanes: int = 1, cells: int = 18,
               temperature: Any = ROOM, **more: Any) -> Column:  # fmt: skip
    return dough_column(
        load=load, water=share_of_water(hydration), density=P.density_flat,
        spring=more.pop("spring", P.spring_flat), temperature=temperature, cells=cells, finer=4.0,
        lanes=lanes, **more,
    )  # fmt: skip


def plate(material: tuple[Any, ...], temperature: Any, lanes: int = 1, **more: Any) -> Column:
    thickness, density, _, _, _, cells = material
    return surface_column(
        thickness=thickness, density=density, temperature=temperature, cells=more.get("cells", cells),
        area=more.get("area", 1.0), lanes=lanes,
    )  # fmt: skip


def surface_values(material: tuple[Any, ...]) -> dict[str, Any]:
    _, _, heat, conductivity, emissivity, _ = material
    return {
        "surface_heat": heat, "surface_conductivity": conductivity, "surface_emissivity": emissivity,
        "base_air": ROOM, "base_film": P.lifted_film, "base_emissivity": P.lifted_emissivity,
    }  # fmt: skip


def pie(setting: Any, material: tuple[Any, ...], *, fan: bool = False, dressed: bool = True, lanes: int = 1,
        pressure: Any = SEA, longest: float = 2.0, parameters: OvenParameters = P, fresh: bool = False,
        surface: Any = None, **dough: Any) -> Scene:  # fmt: skip
    """A flat pie just put into the oven on a surface at the setting."""
    values = (
        food_inputs(parameters=parameters, form="flat", pressure=pressure, fresh_cheese=fresh)
        | oven_inputs(parameters=parameters, setting=setting, fan=fan, pressure=pressure, opened=True)
        | surface_values(material)
    )
    hot = setting if surface is None else surface
    column = load_food(surface=plate(material, hot, lanes), food=flat_dough(lanes=lanes, **dough))
    scene = Scene(column, values, parameters, BakeStepping(longest=longest))
    return scene.dress() if dressed else scene


ROOM_AROUND: dict[str, Any] = {
    "air": ROOM, "walls": ROOM, "film": P.lifted_film, "emissivity": 0.85, "vapour": 1.2e3, "broil": 0.0,
    "base_air": ROOM, "door_air": 0.0, "door_walls": 0.0,
}  # fmt: skip


def loss(scene: Scene, raw: Any) -> Array:
    """Water lost [%] of a raw mass [kg/m2]."""
    return 100.0 * scene.read("lost") / raw


def lightness(scene: Scene, which: str = "base") -> Array:
    return 85.0 - 0.9 * scene.read(f"{which}_browning")


def row(done: Baked, name: str) -> Array:
    """One of the rows, (samples, lanes)."""
    return np.asarray(done.rows[:, ROWS.index(name)])


def wedge(form: str, setting: Any, *, fan: bool = False, lanes: int = 1, cells: int = 24, pressure: Any = SEA,
          longest: float = 2.0, hydration: Any = 0.65, temperature: Any = ROOM,
          parameters: OvenParameters = P) -> Scene:  # fmt: skip
    """An 80 g bun on a tray, or a 500 g loaf in a tin, just put into the oven; tin and tray are cold."""
    loaf = form == "loaf"
    thick, emissivity = (0.6e-3, 0.6) if loaf else (0.8e-3, 0.5)
    foot = P.loaf_faces if loaf else P.bun_faces
    metal = (thick, 7832.0, 530.0, 50.0, emissivity, 1)
    values = (
        food_inputs(parameters=parameters, form="loaf" if loaf else "bun", pressure=pressure)
        | oven_inputs(parameters=parameters, setting=setting, fan=fan, pressure=pressure, opened=True)
        | surface_values(metal)
        | {"under_air": np.asarray(setting) - 5.0, "under_walls": np.asarray(setting) - 10.0}
    )
    food = dough_column(
        load=0.5 / 0.024 if loaf else 0.080 / 0.0160,
        water=share_of_water(hydration),
        density=P.density_loaf if loaf else P.density_bun,
        spring=P.spring_loaf if loaf else P.spring_bun,
        temperature=temperature,
        cells=cells,
        finer=8.0 if loaf else 5.0,
        foot=foot,
        wedge=P.wedge_power,
        lanes=lanes,
    )
    column = load_food(surface=plate(metal, ROOM, lanes, area=foot), food=food)
    return Scene(column, values, parameters, BakeStepping(longest=longest))
