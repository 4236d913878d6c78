"""Bakes at random for the oven's kernel and its twin: what is in the oven, and what is done with it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from doughwright.science.kernels.bake_column import dress_food, load_food, part_food
from doughwright.science.kernels.bake_curves import BakeCurves
from doughwright.science.kernels.bake_inputs import food_inputs, lane_inputs, oven_inputs, rules_of
from doughwright.science.kernels.bake_layout import INPUTS, Baked, BakeStepping, Column
from doughwright.science.kernels.bake_tables import bake_tables
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import boiling_point
from doughwright.science.yeast import Array
from tests.science.kernels._bakes import (
    CORDIERITE,
    ROOM_AROUND,
    STEEL,
    P,
    Scene,
    cheese_of,
    flat_dough,
    pie,
    plate,
    sauce_of,
    surface_values,
    wedge,
)

Bake = Callable[..., Baked]
FORMS = ("bare", "dressed", "par-bake", "bun", "loaf", "fierce", "preheat")


@dataclass(frozen=True)
class Step:
    """One phase: its seconds by lane, whether the food is lifted, what it changes, what is laid on before."""

    seconds: Any
    lifted: bool = False
    changes: dict[str, Any] | None = None
    sauce: Any = None
    cheese: Any = None
    alone: bool = False


def arguments(scene: Scene, step: Step, samples: int = 5, curves: BakeCurves | None = None) -> dict[str, Any]:
    """A phase as either kernel takes it."""
    values = scene.values | (step.changes or {}) | {"seconds": step.seconds}
    return {
        "inputs": lane_inputs(values=values, lanes=scene.lanes),
        "rules": rules_of(parameters=scene.parameters),
        "column": scene.column,
        "curves": bake_tables() if curves is None else curves,
        "lifted": step.lifted,
        "stepping": scene.stepping,
        "samples": np.linspace(0.0, 1.0, samples) if samples > 1 else np.ones(samples),
    }


def run(bake: Bake, scene: Scene, steps: list[Step], **more: Any) -> list[Baked]:
    """All phases one after another."""
    done = []
    for step in steps:
        scene = laid(scene, step)
        one = bake(**arguments(scene, step, more.get("samples", 5), more.get("curves")),
                   snapshots=more.get("snapshots", False))  # fmt: skip
        scene = replace(scene, column=one.column)
        done.append(one)
    return done


def laid(scene: Scene, step: Step) -> Scene:
    """The column as a phase begins: dressed, or taken off its surface."""
    column = scene.column
    for load, made in ((step.sauce, sauce_of), (step.cheese, cheese_of)):
        if load is not None:
            column = dress_food(column=column, topping=made(load, scene.lanes))
    if step.alone:
        column = part_food(column=column)[1]
    return replace(scene, column=column)


def draw(seed: int, form: str, lanes: int) -> tuple[Scene, list[Step]]:
    """A bake of a form with its inputs drawn well beyond their usual range, a kitchen each lane."""
    rng = np.random.default_rng(seed)

    def between(low: float, high: float) -> Array:
        return rng.uniform(low, high, lanes)

    if form in ("bun", "loaf"):
        scene = wedge(form, between(170.0, 250.0), fan=bool(seed % 2), lanes=lanes,
                      cells=int(rng.integers(6, 26)),
                      longest=4.0 if form == "loaf" else 2.0, hydration=between(0.5, 0.85),
                      temperature=between(5.0, 35.0), pressure=between(7e4, 1.03e5))  # fmt: skip
        return scene, [Step(between(60.0, 1200.0)), Step(between(0.0, 60.0), True, ROOM_AROUND)]
    if form == "fierce":
        return fierce(seed, lanes, rng)
    material = (STEEL, CORDIERITE)[seed % 2]
    if form == "preheat":
        return preheat(material, lanes, between)
    scene = pie(
        between(180.0, 320.0), material, fan=bool(seed % 3), dressed=False, lanes=lanes,
        cells=int(rng.integers(5, 21)),
        load=between(1.5, 7.0), hydration=between(0.5, 0.9), temperature=between(2.0, 35.0),
        pressure=between(7e4, 1.03e5), surface=between(150.0, 330.0), spring=between(0.0, 1.2),
    )  # fmt: skip
    toppings = {"sauce": between(0.3, 3.0), "cheese": between(0.2, 3.0)}
    if form == "bare":
        return scene, [Step(between(0.0, 400.0)), Step(between(0.0, 30.0), True, ROOM_AROUND)]
    if form == "dressed":
        return scene, [Step(between(30.0, 400.0), **toppings), Step(5.0, True, ROOM_AROUND)]
    return scene, [
        Step(between(60.0, 300.0)),
        Step(between(1.0, 200.0), True, ROOM_AROUND),
        Step(between(60.0, 300.0), changes={"broil": between(0.0, 6e3)}, **toppings),
        Step(between(1.0, 60.0), changes=ROOM_AROUND, alone=True),
    ]


def preheat(material: tuple[Any, ...], lanes: int, between: Any) -> tuple[Scene, list[Step]]:
    """A surface alone, and an oven that warms along a ramp."""
    values = (
        food_inputs(parameters=P, form="flat", pressure=101325.0)
        | oven_inputs(parameters=P, setting=between(180.0, 300.0), fan=False, pressure=101325.0)
        | surface_values(material)
    )
    scene = Scene(plate(material, 20.0, lanes), values, stepping=BakeStepping(longest=20.0))
    ramp = {"begins": 20.0, "ramp": between(0.0, 1200.0)}
    return scene, [Step(between(0.0, 3000.0), changes=ramp), Step(between(0.0, 60.0))]


def fierce(seed: int, lanes: int, rng: np.random.Generator) -> tuple[Scene, list[Step]]:
    """Every input drawn from well beyond its usual range: the hottest floors, the thinnest cells."""

    def between(low: float, high: float) -> Array:
        return rng.uniform(low, high, lanes)

    pressure, setting = between(65e3, 104e3), between(150.0, 480.0)
    values = food_inputs(parameters=OvenParameters(), form="flat", pressure=pressure)
    values |= oven_inputs(
        parameters=OvenParameters(), setting=setting, fan=False, pressure=pressure, opened=True
    )
    values |= surface_values(STEEL) | {
        "crust_conductivity": between(0.03, 0.12), "dough_conductivity": between(0.1, 0.4),
        "vapour_share": between(0.0, 0.8), "crust_diffusivity": 10.0 ** between(-7.0, -5.0),
        "skin_dough": between(0.05, 1.0), "skin_sauce": between(0.05, 1.0), "skin_cheese": between(0.02, 1.0),
        "contact_wet": between(100.0, 1500.0), "contact_dry": between(20.0, 150.0),
        "contact_depth": between(1e-4, 1e-3), "browning": between(0.5, 3.0), "film": between(4.0, 40.0),
        "emissivity": between(0.3, 1.0), "vapour": between(1e3, 3e4), "broil": between(0.0, 8e3),
        "boiling": boiling_point(pressure=pressure),
    }  # fmt: skip
    food = flat_dough(
        between(1.5, 7.0), between(0.5, 0.9), lanes=lanes, cells=int(rng.integers(3, 31)),
        temperature=between(2.0, 35.0), spring=between(0.0, 1.2),
    )  # fmt: skip
    column = load_food(surface=plate(STEEL, between(120.0, 480.0), lanes), food=food)
    scene = Scene(column, values, stepping=BakeStepping(longest=float(rng.choice([1.0, 2.0, 4.0]))))
    return scene, [
        Step(between(0.0, 150.0), sauce=between(0.3, 3.0) if seed % 2 else None),
        Step(between(1.0, 30.0), True, ROOM_AROUND),
        Step(between(1.0, 100.0), cheese=between(0.2, 3.0)),
    ]


def chosen(scene: Scene, steps: list[Step], lanes: Array) -> tuple[Scene, list[Step]]:
    """Some lanes of a bake, in that order."""

    def pick(value: Any) -> Any:
        return value[lanes] if isinstance(value, np.ndarray) and value.ndim == 1 else value

    def picked(values: dict[str, Any] | None) -> dict[str, Any] | None:
        return None if values is None else {name: pick(one) for name, one in values.items()}

    column = scene.column
    cut = Column(
        column.kinds, column.solids[:, lanes], column.thickness[:, lanes], column.moisture[:, lanes],
        column.spring[:, lanes], column.area[:, lanes], column.state[:, :, lanes], column.carried[:, lanes],
    )  # fmt: skip
    values = {name: pick(one) for name, one in scene.values.items() if name in INPUTS}
    return (
        replace(scene, column=cut, values=values),
        [
            replace(one, seconds=pick(one.seconds), changes=picked(one.changes), sauce=pick(one.sauce),
                    cheese=pick(one.cheese))
            for one in steps
        ],
    )  # fmt: skip
