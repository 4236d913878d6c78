"""The oven's column against conduction, contact and boiling with exact answers."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from doughwright.science.kernels.bake_column import (
    dough_column,
    dress_food,
    load_food,
    surface_column,
    topping_column,
)
from doughwright.science.kernels.bake_inputs import food_inputs
from doughwright.science.kernels.bake_layout import BakeStepping, Column
from doughwright.science.oven_parameters import OvenParameters
from tests.science.kernels._bakes import CORDIERITE, SEA, Scene, plate, row, surface_values

DRY = 1e-9
PERFECT = 1e9
CARSLAW = "Carslaw & Jaeger 1959, Conduction of Heat in Solids"

# Dough and fire brick of Varlamov, Glatz & Grasso 2018: k, rho, c.
DOUGH = (0.5, 700.0, 2250.0)
BRICK = (0.86, 2500.0, 880.0)


def values(**changes: Any) -> dict[str, Any]:
    """Nothing dries, nothing radiates, nothing leaks; what a test needs it changes."""
    base = food_inputs(parameters=OvenParameters(), form="flat", pressure=SEA) | {
        "boiling": 2000.0, "vapour_share": 0.0, "topping_dry_moisture": 1e-12, "skin_dough": 1e-30,
        "contact_wet": PERFECT, "contact_dry": PERFECT, "surface_heat": 880.0, "surface_conductivity": 1.0,
        "surface_emissivity": 0.0, "air": 20.0, "walls": 20.0, "film": 1e-9, "emissivity": 0.0, "vapour": 0.0,
        "broil": 0.0, "over_air": 20.0, "over_walls": 20.0, "over_film": 1e-9, "under_air": 20.0,
        "under_walls": 20.0, "under_film": 1e-9, "base_air": 20.0, "base_film": 1e-9, "base_emissivity": 0.0,
        "door_air": 0.0, "door_walls": 0.0, "door_recovery": 90.0, "begins": 20.0, "ramp": 0.0,
    }  # fmt: skip
    return base | changes


def even_surface(thickness: float, material: tuple[float, float, float], cells: int, hot: float) -> Column:
    cut = surface_column(thickness=thickness, density=material[1], temperature=hot, cells=cells, lanes=1)
    each = np.full((cells, 1), thickness / cells)
    return replace(cut, thickness=each, solids=each * material[1])


def even_dough(thickness: float, material: tuple[float, float, float], cells: int, cold: float) -> Column:
    """Cells without water that conduct as the wet dough of the inputs does."""
    return dough_column(
        load=thickness * material[1], water=DRY, density=material[1], spring=0.0, temperature=cold,
        cells=cells, finer=1.0, lanes=1,
    )  # fmt: skip


def stepping(longest: float) -> BakeStepping:
    return BakeStepping(first=min(0.05, longest), longest=longest)


def at_depth(column: Column, depth: float) -> float:
    """Temperature [degC] so far above the base."""
    n = column.surface
    thick = column.thickness[n:, 0]
    middle = np.cumsum(thick) - 0.5 * thick
    return float(np.interp(depth, middle, column.state[0, n:, 0]))


def from_the_brick(scene: Scene) -> float:
    """Flux [W/m2] out of the surface's face."""
    column = scene.column
    n = column.surface
    span = 0.5 * float(column.thickness[n - 1, 0]) / scene.values["surface_conductivity"]
    return float((column.state[0, n - 1, 0] - scene.read("surface")[0]) / span)


def two_bodies(cell: float, longest: float, conductance: float = PERFECT) -> Scene:
    """Dough at 20 degC on brick at 330 degC, 50 mm of each, after 60 s."""
    cells = round(0.05 / cell)
    column = load_food(
        surface=even_surface(0.05, BRICK, cells, 330.0), food=even_dough(0.05, DOUGH, cells, 20.0)
    )
    given = values(
        surface_conductivity=BRICK[0], surface_heat=BRICK[2], dough_conductivity=DOUGH[0],
        dough_heat=DOUGH[2], contact_wet=conductance, contact_dry=conductance,
    )  # fmt: skip
    return Scene(column, given, stepping=stepping(longest)).phase(60.0)[0]


@pytest.mark.outside(source=f"{CARSLAW}, sec. 2.15; Varlamov et al. 2018, arXiv 1806.08790", how="identity")
@pytest.mark.parametrize(
    ("cell", "longest", "inside", "flux"), [(0.2e-3, 0.25, 0.15, 0.003), (1e-3, 1.0, 0.5, 0.01)]
)  # fmt: skip
def test_dough_meets_brick_at_the_temperature_of_two_half_spaces(
    cell: float, longest: float, inside: float, flux: float
) -> None:
    """208.43 degC at both faces, 138.1 degC 3 mm up, 12182 W/m2 after a minute."""
    scene = two_bodies(cell, longest)
    assert scene.read("surface")[0] == pytest.approx(208.43, abs=0.05)
    assert scene.read("base")[0] == pytest.approx(208.43, abs=0.05)
    assert at_depth(scene.column, 3e-3) == pytest.approx(138.1, abs=inside)
    assert from_the_brick(scene) == pytest.approx(12182.0, rel=flux)


@pytest.mark.outside(
    source=f"{CARSLAW}, sec. 2.15: two half-spaces with a resistance between", how="identity"
)
@pytest.mark.parametrize(("longest", "tolerance"), [(0.25, 0.003), (2.0, 0.012)])
def test_a_resistance_between_dough_and_brick_keeps_their_faces_apart(
    longest: float, tolerance: float
) -> None:
    """With 500 W/(m2 K): 12065 W/m2 after a minute, faces at 193.8 and 217.9 degC."""
    scene = two_bodies(0.5e-3, longest, 500.0)
    assert from_the_brick(scene) == pytest.approx(12065.0, rel=tolerance)
    assert scene.read("base")[0] == pytest.approx(193.8, abs=0.25)
    assert scene.read("surface")[0] == pytest.approx(217.9, abs=0.2)


@pytest.mark.outside(source=f"{CARSLAW}, sec. 2.7: a half-space in air", how="identity")
@pytest.mark.parametrize(("longest", "tolerance"), [(1.0, 0.15), (5.0, 0.3)])
def test_a_top_warms_in_air_as_a_half_space_does(longest: float, tolerance: float) -> None:
    """Face at 55.15, 82.39 and 106.96 degC after 30, 120 and 300 s in air at 250 degC."""
    column = even_dough(0.05, (0.5, 1575.0, 1000.0), 100, 20.0)
    given = values(dough_conductivity=0.5, dough_heat=1000.0, film=25.0, air=250.0)
    scene, faces = Scene(column, given, stepping=stepping(longest)), []
    for seconds in (30.0, 90.0, 180.0):
        scene, _ = scene.phase(seconds)
        faces.append(scene.read("top")[0])
    assert faces == pytest.approx([55.15, 82.39, 106.96], abs=tolerance)


@pytest.mark.outside(source=f"{CARSLAW}, sec. 3.3: a slab with both faces stepped", how="identity")
@pytest.mark.parametrize(("cells", "longest"), [(40, 0.2), (20, 1.0)])
def test_a_slab_between_two_hot_faces_warms_by_the_series(cells: int, longest: float) -> None:
    """At Fourier 0.2 the middle has 0.77231 of the step to go, the mean 0.49591."""
    half = 5e-3
    column = even_dough(2.0 * half, (0.5, 1575.0, 1000.0), cells, 0.0)
    given = values(
        dough_conductivity=0.5, dough_heat=1000.0, film=PERFECT, air=100.0, base_film=PERFECT, base_air=100.0
    )
    scene, _ = Scene(column, given, stepping=stepping(longest)).phase(0.2 * half**2 * 1.575e6 / 0.5)
    left = 1.0 - scene.column.state[0, :, 0] / 100.0
    middle = np.polyfit(np.arange(4) - 1.5, left[cells // 2 - 2 : cells // 2 + 2], 2)[2]
    assert middle == pytest.approx(0.77231, abs=0.004)
    assert left.mean() == pytest.approx(0.49591, abs=0.006)


@pytest.mark.outside(source="Incropera & DeWitt, sec. 3.1: resistances in series", how="identity")
def test_heat_goes_through_stone_dough_sauce_and_cheese_in_series() -> None:
    """16 mm of k 1.5, 5 of 0.4, 2 of 0.6, 3 of 0.4 from 280 to 150 degC: 3823.5 W/m2."""
    column = load_food(
        surface=even_surface(0.016, (1.5, 2000.0, 850.0), 6, 200.0),
        food=even_dough(0.005, (0.4, 700.0, 2000.0), 10, 200.0),
    )
    for thick, cheese in ((0.002, False), (0.003, True)):
        topping = topping_column(
            load=thick * 1000.0, water=DRY, density=1000.0, temperature=200.0, cheese=cheese, lanes=1
        )
        column = dress_food(column=column, topping=topping)
    given = values(
        surface_conductivity=1.5, dough_conductivity=0.4, sauce_conductivity=0.6, cheese_conductivity=0.4,
        under_film=PERFECT, under_air=280.0, film=PERFECT, air=150.0,
    )  # fmt: skip
    scene, _ = Scene(column, given, stepping=stepping(100.0)).phase(20000.0)
    cells = scene.column.state[0, :, 0]
    flux = from_the_brick(scene)
    assert flux == pytest.approx(3823.5, rel=1e-4)
    assert scene.read("surface")[0] == pytest.approx(239.2, abs=0.05)
    assert cells[-2] + flux * 0.001 / 0.6 == pytest.approx(191.4, abs=0.05)
    assert cells[-1] + flux * 0.0015 / 0.4 == pytest.approx(178.7, abs=0.05)


def drying(hot: float, cell: float, longest: float, above: bool) -> tuple[float, float, float]:
    """How deep a wet slab at its boiling point has dried at 60 and 300 s [mm], and the water gone [kg/m2].

    Vapour is not heated on its way out, and the half dry cell conducts as the dry one: as in the exact one.
    """
    thickness, solids, water = 0.008, 350.0, 300.0
    column = dough_column(
        load=thickness * (solids + water), water=water / (solids + water), density=solids + water, spring=0.0,
        temperature=100.0, cells=round(thickness / cell), finer=1.0, lanes=1,
    )  # fmt: skip
    side = {"film": PERFECT, "air": hot} if above else {"base_film": PERFECT, "base_air": hot}
    given = values(
        boiling=100.0, sorption_moisture=0.002, dough_heat=1700.0, dough_conductivity=0.10,
        crust_conductivity=0.10, **side,
    )  # fmt: skip
    cold_steam = replace(OvenParameters(), steam_heat=0.0)
    early, _ = Scene(column, given, cold_steam, stepping(longest)).phase(60.0)
    late, _ = early.phase(240.0)
    gone = [float(one.read("lost")[0]) for one in (early, late)]
    return 1e3 * gone[0] / water, 1e3 * gone[1] / water, gone[1]


@pytest.mark.outside(source=f"{CARSLAW}, ch. 11: one-phase Stefan problem, a drying crust", how="identity")
@pytest.mark.parametrize("above", [False, True], ids=["base", "top"])
@pytest.mark.parametrize(
    ("cell", "longest", "early"), [(0.25e-3, 0.5, 0.02), (0.5e-3, 2.0, 0.03), (1e-3, 2.0, 0.09)]
)
def test_a_boiling_front_goes_in_as_stefans_does(
    above: bool, cell: float, longest: float, early: float
) -> None:
    """1.312 mm at 60 s, 2.935 mm and 0.880 kg/m2 at 300 s with the face at 200 degC; base and top alike."""
    first, last, gone = drying(200.0, cell, longest, above)
    assert first == pytest.approx(1.312, abs=early)
    assert last == pytest.approx(2.935, abs=0.02)
    assert gone == pytest.approx(0.880, abs=0.006)


@pytest.mark.outside(source=f"{CARSLAW}, ch. 11: one-phase Stefan problem, a drying crust", how="identity")
@pytest.mark.parametrize(("hot", "depth"), [(150.0, 2.090), (250.0, 3.570)])
def test_a_hotter_face_dries_deeper(hot: float, depth: float) -> None:
    """2.090 mm at 300 s from 150 degC, 3.570 from 250."""
    assert drying(hot, 0.25e-3, 0.5, False)[1] == pytest.approx(depth, abs=0.03)


@pytest.mark.twin
@pytest.mark.parametrize(
    ("material", "minutes"), [(CORDIERITE, 33.0), ((0.010, 7832.0, 500.0, 50.0, 0.85, 2), 43.0)]
)
def test_a_surface_preheats_in_the_minutes_of_the_lumped_formula(
    material: tuple[Any, ...], minutes: float
) -> None:
    """From cold to within 10 K of 250 degC in an oven that takes 15 min itself: stone 33, steel 43."""
    given = values() | surface_values(material)
    hot = dict.fromkeys(("over_air", "over_walls", "under_air", "under_walls"), 250.0)
    scene = Scene(plate(material, 20.0), given | hot, stepping=stepping(20.0))
    fractions = np.linspace(0.0, 1.0, 241)
    _, done = scene.phase(4000.0, samples=fractions, ramp=900.0, over_film=8.0, under_film=8.0)
    reached = np.interp(240.0, row(done, "surface")[:, 0], row(done, "time")[:, 0]) / 60.0
    assert reached == pytest.approx(minutes, abs=1.0)
