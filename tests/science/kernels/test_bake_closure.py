"""Whatever goes into the oven's column, heat and water balance and nothing leaves its range."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from doughwright.science.kernels.bake_column import load_food, part_food
from doughwright.science.kernels.bake_curves import BakeFormulas
from doughwright.science.kernels.bake_inputs import food_inputs, oven_inputs
from doughwright.science.kernels.bake_layout import BakeStepping, Column
from doughwright.science.kernels.bake_step import boiling_curve, look, recover
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import boiling_point
from doughwright.science.yeast import Array
from tests.science.kernels._bakes import (
    CORDIERITE,
    ROOM,
    ROOM_AROUND,
    SEA,
    STEEL,
    Scene,
    flat_dough,
    pie,
    plate,
    surface_values,
    wedge,
)

MANY = 250
pytestmark = pytest.mark.property


def drawn(seed: int, material: tuple[Any, ...], cells: int, longest: float) -> Scene:
    """Bare rounds about to bake, every input drawn from well beyond its usual range."""
    rng = np.random.default_rng(seed)

    def between(low: float, high: float) -> Array:
        return rng.uniform(low, high, MANY)

    pressure, setting = between(65e3, 104e3), between(150.0, 480.0)
    values = food_inputs(parameters=OvenParameters(), form="flat", pressure=pressure)
    values |= oven_inputs(
        parameters=OvenParameters(), setting=setting, fan=False, pressure=pressure, opened=True
    )
    values |= surface_values(material) | {
        "crust_conductivity": between(0.03, 0.12), "dough_conductivity": between(0.1, 0.4),
        "vapour_share": between(0.0, 0.8), "crust_diffusivity": 10.0 ** between(-7.0, -5.0),
        "skin_dough": between(0.05, 1.0), "skin_sauce": between(0.05, 1.0), "skin_cheese": between(0.02, 1.0),
        "contact_wet": between(100.0, 1500.0), "contact_dry": between(20.0, 150.0),
        "contact_depth": between(1e-4, 1e-3), "browning": between(0.5, 3.0), "film": between(4.0, 40.0),
        "emissivity": between(0.3, 1.0), "vapour": between(1e3, 3e4), "broil": between(0.0, 8e3),
        "boiling": boiling_point(pressure=pressure),
    }  # fmt: skip
    food = flat_dough(
        between(1.5, 7.0), between(0.5, 0.9), lanes=MANY, cells=cells, temperature=between(2.0, 35.0),
        spring=between(0.0, 1.2),
    )  # fmt: skip
    column = load_food(surface=plate(material, between(120.0, 480.0), MANY), food=food)
    return Scene(column, values, stepping=BakeStepping(longest=longest))


def closed(scene: Scene, water: Array) -> tuple[float, float]:
    """The part of the heat, and of the ``water`` [kg/m2] that went in, that the books miss."""
    read = scene.read
    into = read("heat_top") + read("heat_base") + read("heat_contact")
    kept = read("warmed") + read("latent") + read("steam_heat")
    turned = np.abs(read("heat_top")) + np.abs(read("heat_contact")) + 1.0
    surface = read("heat_surface") - read("heat_contact") - read("surface_warmed")
    left = scene.column.state[1].sum(axis=0) + read("lost")
    return (
        float((np.maximum(np.abs(into - kept), np.abs(surface)) / turned).max()),
        float((np.abs(left - water) / water).max()),
    )


def in_range(scene: Scene) -> None:
    """Physical everywhere, in every lane."""
    column = scene.column
    temperature, water, gelatinised, sprung, _ = column.state
    finite = np.delete(column.carried, 8, axis=0)
    assert np.isfinite(column.state).all()
    assert np.isfinite(finite).all()
    assert temperature.min() > 0.0
    assert temperature.max() < 700.0
    assert water.min() >= 0.0
    for share in (gelatinised, sprung):
        assert share.min() >= 0.0
        assert share.max() <= 1.0
    for name in ("base_browning", "top_browning"):
        assert scene.read(name).min() >= 0.0
        assert scene.read(name).max() <= 52.0
    dough = column.dough
    wet = water[dough] / column.solids[dough] > 0.5
    over = np.where(wet, temperature[dough] - scene.values["boiling"], -1.0)
    # Binding alone lifts dough at half its solids in water by 0.13 K.
    assert over.max() < 0.2


@pytest.mark.parametrize(
    ("seed", "material", "cells", "longest"),
    [(1, STEEL, 18, 2.0), (2, CORDIERITE, 14, 4.0), (3, STEEL, 30, 2.0), (4, CORDIERITE, 24, 1.0)],
)
def test_a_thousand_bakes_close_and_stay_in_range(
    seed: int, material: tuple[Any, ...], cells: int, longest: float
) -> None:
    """Each baked bare; half then lifted, left, dressed, baked again and lifted: heat and water add up."""
    scene = drawn(seed, material, cells, longest)
    rng = np.random.default_rng(seed + 100)
    water = scene.column.state[1].sum(axis=0)
    scene, _ = scene.phase(rng.uniform(20.0, 200.0, MANY))
    in_range(scene)
    if seed in (1, 2):
        scene, _ = scene.phase(rng.uniform(1.0, 200.0, MANY), lifted=True, **ROOM_AROUND)
        in_range(scene)
        before = scene.column.state[1].sum(axis=0)
        scene = scene.dress(rng.uniform(0.3, 3.0, MANY), rng.uniform(0.2, 3.0, MANY))
        water = water + scene.column.state[1].sum(axis=0) - before
        scene, _ = scene.phase(rng.uniform(20.0, 240.0, MANY))
        in_range(scene)
        scene, _ = scene.phase(5.0, lifted=True, **ROOM_AROUND)
        in_range(scene)
    heat, mass = closed(scene, water)
    assert heat < 1e-9
    assert mass < 1e-11


@pytest.mark.parametrize("form", ["bun", "loaf"])
def test_wedge_bodies_close(form: str) -> None:
    """A bun and a loaf, cold in cold metal."""
    scene = wedge(form, 210.0, longest=4.0)
    water = scene.column.state[1].sum(axis=0)
    scene, _ = scene.phase(1200.0)
    in_range(scene)
    heat, mass = closed(scene, water)
    assert heat < 1e-9
    assert mass < 1e-11


def test_a_thin_cell_that_dries_in_one_step_stays_in_range() -> None:
    """Newton left to itself jumps past all the water there is; kept in its bracket it cannot."""
    scene = pie(250.0, STEEL, dressed=False, cells=4)
    given = {name: np.broadcast_to(np.asarray(one, dtype=float), (1,)) for name, one in scene.values.items()}
    given |= {"water_heat": np.array(4190.0), "steam_heat": np.array(2000.0), "vapour_limit": np.array(3.0)}
    column, curves = thin_and_boiling(scene.column), BakeFormulas()
    cells = look(column=column, given=given, curves=curves)
    start, held = column.state[0, 2, 0], column.state[1, 2, 0]
    cool, emptied = 2.2566e6 / cells.capacity[2, 0], 0
    for hotter in (5.0, 60.0, 300.0, 2000.0):
        heat = cells.capacity * hotter * (np.arange(len(column.kinds)) == 2)[:, None]
        temperature, boiled = recover(
            heat=heat, cells=cells, column=column, water=column.state[1], given=given, curves=curves
        )
        left = np.array([held - boiled[2, 0]])
        at, _ = boiling_curve(moisture=np.maximum(left / column.solids[2], 1e-6), given=given, curves=curves)
        assert 0.0 < boiled[2, 0] <= held
        assert start < temperature[2, 0] < start + hotter
        assert temperature[2, 0] == pytest.approx(at[0], abs=1e-6) or left[0] == 0.0
        # All the water that the heat could boil, where Newton's first step goes, is more than there is.
        emptied += hotter / cool > held
    assert emptied >= 2


def thin_and_boiling(column: Column) -> Column:
    """Its lowest dough cell is thin, a fifth of its solids in water, at its boiling point."""
    state, solids = column.state.copy(), column.solids.copy()
    solids[2] *= 0.01
    state[1, 2], state[0, 2] = 0.2 * solids[2], 101.28
    return replace(column, state=state, solids=solids)


@pytest.mark.parametrize("cells", [18, 120])
def test_a_step_gives_no_cell_more_heat_than_boils_its_water(cells: int) -> None:
    """Steps of 4 s from the start on steel at 450 degC held close: nothing gets hotter than the steel.

    A cell with the capacity of boiling takes up more heat than its water needs, and would end at thousands of
    degrees; one that cools would end far below its neighbours; a skin that dries out would get the heat meant
    for water that is not there.
    """
    losses, close = [], {"contact_wet": 1500.0, "contact_dry": 1500.0}
    for longest in (4.0, 1.0):
        scene = pie(450.0, STEEL, dressed=False, cells=cells)
        scene = replace(scene, stepping=BakeStepping(first=longest, longest=longest))
        for _ in range(10):
            scene, _ = scene.phase(4.0, **close)
            in_range(scene)
            assert scene.column.state[0].max() < 450.0
            assert scene.column.state[0].min() > 20.0
        losses.append(float(scene.read("lost")[0]))
    assert losses[0] == pytest.approx(losses[1], rel=0.08)


def test_boiling_adds_no_more_capacity_than_the_water_there_is() -> None:
    """All of a cell's water over a quarter of a kelvin, however flat its boiling curve."""
    scene, _ = pie(300.0, STEEL, dressed=False, cells=40).phase(60.0)
    given = {name: np.broadcast_to(np.asarray(one, dtype=float), (1,)) for name, one in scene.values.items()}
    given |= {"water_heat": np.array(4190.0), "vapour_limit": np.array(3.0)}
    cells = look(column=scene.column, given=given, curves=BakeFormulas())
    extra = cells.apparent - cells.capacity
    assert (extra > 0.0).any()
    assert (extra <= 2.26e6 * scene.column.state[1] / 0.25 + 1e-9).all()


def test_the_surface_goes_from_one_piece_to_the_next() -> None:
    """Taken off, its profile stays as it is; the next piece meets it, and it recovers in between."""
    scene, _ = pie(250.0, CORDIERITE, dressed=False).phase(240.0)
    bare, food = part_food(column=scene.column)
    assert np.array_equal(bare.state, scene.column.state[:, : bare.surface])
    assert food.kinds == scene.column.kinds[bare.surface :]
    cooled = float(bare.read("surface")[0])
    alone = Scene(bare, scene.values, stepping=scene.stepping)
    recovered, _ = alone.phase(180.0)
    assert cooled < 215.0
    assert cooled + 10.0 < recovered.read("surface")[0] < 250.0
    second = replace(scene, column=load_food(surface=recovered.column, food=flat_dough()))
    assert second.read("surface") == recovered.read("surface")
    assert second.read("lost")[0] == 0.0
    assert np.isnan(second.read("set_at")[0])
    heat, _ = closed(second.phase(240.0)[0], second.column.state[1].sum(axis=0))
    assert heat < 1e-9


def test_cold_cheese_takes_up_vapour_before_it_gives_any() -> None:
    """Cheese at 8 degC in a moist oven: water condenses on it at first, and leaves it later."""
    scene, _ = pie(250.0, STEEL).phase(0.5)
    assert scene.read("drying")[0] < 0.0
    scene, _ = scene.phase(180.0)
    assert scene.read("drying")[0] > 0.0


def test_lanes_do_not_know_of_each_other() -> None:
    """A kitchen among others bakes as it does alone, also when the others are done before it."""
    setting, seconds = np.array([220.0, 260.0, 300.0]), np.array([100.0, 200.0, 60.0])
    together, _ = pie(setting, STEEL, lanes=3, pressure=np.full(3, SEA)).phase(seconds)
    for lane in range(3):
        alone, _ = pie(setting[lane], STEEL).phase(seconds[lane])
        assert together.column.state[:, :, lane] == pytest.approx(alone.column.state[:, :, 0], rel=1e-12)
    assert together.column.state[0].max() > ROOM
