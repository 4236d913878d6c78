"""Which way a bake moves when one thing is changed: signs that have to hold."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from doughwright.science.kernels.bake_column import load_food, part_food
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import atmosphere
from doughwright.science.yeast import Array
from tests.science.kernels._bakes import (
    CORDIERITE,
    ROOM_AROUND,
    STEEL,
    Scene,
    flat_dough,
    lightness,
    pie,
    plate,
    row,
    surface_values,
)

pytestmark = pytest.mark.property
STEPS = np.linspace(0.0, 1.0, 5)


def rises(values: Array, least: float = 0.0) -> bool:
    return bool((np.diff(values) > least).all())


def falls(values: Array) -> bool:
    return rises(-np.asarray(values))


def baked(seconds: Any = 420.0, setting: Any = 250.0, **changes: Any) -> tuple[Scene, Any]:
    """Five pies at once, on steel."""
    scene = pie(setting, STEEL, lanes=5, **{name: changes.pop(name) for name in ("load",) if name in changes})
    return scene.phase(seconds, **changes)


@pytest.mark.parametrize("what", ["setting", "seconds", "contact_dry", "contact_wet"])
def test_a_hotter_longer_closer_bake_darkens_the_base_and_dries_more(what: str) -> None:
    """Dial from 210 to 300 degC, 4 to 10 min, conductances over their ranges: one way all along."""
    ends = {
        "setting": (210.0, 300.0), "seconds": (240.0, 600.0), "contact_dry": (30.0, 120.0),
        "contact_wet": (150.0, 600.0),
    }[what]  # fmt: skip
    scene, _ = baked(**{what: ends[0] + (ends[1] - ends[0]) * STEPS})
    assert falls(lightness(scene))
    assert rises(scene.read("lost"))


def test_a_thinner_dough_darkens_and_loses_a_larger_share() -> None:
    """From 2.5 to 5 kg/m2 under the same toppings."""
    load = 2.5 + 2.5 * STEPS
    scene, _ = baked(load=load)
    assert rises(lightness(scene))
    assert falls(scene.read("lost") / (load + 2.4))
    assert rises(scene.read("set_at"))


def test_height_lowers_the_crumb_and_delays_setting() -> None:
    """From the sea to 3000 m, a loaf-thick pie: it boils at 90 degC up there."""
    height = 3000.0 * STEPS
    pressure = atmosphere(altitude=height)
    _, done = pie(250.0, STEEL, lanes=5, pressure=pressure, load=5.0, dressed=False).phase(420.0)
    assert falls(row(done, "core")[-1])
    assert row(done, "core")[-1, -1] < 91.0
    dressed, _ = pie(250.0, STEEL, lanes=5, pressure=pressure).phase(420.0)
    assert rises(dressed.read("set_at"))


def test_hydration_hardly_matters() -> None:
    """From 58 to 78 %: loss moves by less than half a point, colour by less than 2."""
    scene = pie(250.0, STEEL, lanes=5, hydration=0.58 + 0.2 * STEPS)
    after, _ = scene.phase(420.0)
    assert np.ptp(100.0 * after.read("lost") / 5.94) < 0.5
    assert np.ptp(lightness(after)) < 2.0


def test_second_and_third_pies_come_out_paler_and_lose_little_less() -> None:
    """Three in a row on stone, 3 min between: the stone is colder each time."""
    scene = pie(250.0, CORDIERITE)
    colours, losses, before = [], [], []
    for _ in range(3):
        before.append(float(scene.read("surface")[0]))
        scene, _ = scene.phase(360.0)
        colours.append(float(lightness(scene)[0]))
        losses.append(100.0 * float(scene.read("lost")[0]) / 5.94)
        bare, _ = part_food(column=scene.column)
        waited, _ = Scene(bare, scene.values, stepping=scene.stepping).phase(180.0)
        scene = Scene(
            load_food(surface=waited.column, food=flat_dough()), scene.values, stepping=scene.stepping
        ).dress()
    assert rises(-np.array(before))
    assert rises(np.array(colours))
    assert colours[1] - colours[0] > 4.0
    assert 0.0 < losses[0] - losses[1] < 1.2


def test_steel_browns_more_than_stone_and_a_thin_tray_least() -> None:
    """All preheated to 250 degC: 6 mm of steel, 16 mm of cordierite, 1 mm of aluminium tray."""
    tray = (0.001, 2700.0, 900.0, 167.0, 0.3, 1)
    steel, stone, thin = (lightness(pie(250.0, one).phase(420.0)[0])[0] for one in (STEEL, CORDIERITE, tray))
    assert steel < stone < thin


def test_broiling_dries_the_top_and_hardly_colours_the_base() -> None:
    """From none to 8 kW/m2 through the whole bake."""
    scene, done = baked(240.0, 275.0, broil=8000.0 * STEPS)
    assert rises(scene.read("lost"))
    assert np.ptp(lightness(scene)) < 1.5
    assert rises(row(done, "cheese")[-1])


def test_sugar_darkens_and_changes_nothing_else() -> None:
    """The browning factor acts on colour alone."""
    scene, _ = baked(browning=0.8 + 1.7 * STEPS)
    assert falls(lightness(scene))
    assert np.ptp(scene.read("lost")) == 0.0


def test_a_lifted_base_falls_to_its_wet_backing_in_seconds() -> None:
    """What a thermometer sees a few seconds after lifting is not what the base had in the oven."""
    scene, _ = pie(290.0, STEEL).phase(360.0)
    hot = float(scene.read("base")[0])
    _, done = scene.phase(4.0, lifted=True, samples=(0.25, 0.5, 0.75, 1.0), **ROOM_AROUND)
    base = row(done, "base")[:, 0]
    assert hot > 180.0
    assert falls(base)
    assert base[-1] < hot - 60.0


def test_yeast_dies_before_starch_sets_and_dough_springs_before_both() -> None:
    """In the coldest dough: spring under way at 60 degC, yeast dead, then set."""
    scene = pie(250.0, STEEL)
    scene, done = scene.phase(420.0, samples=np.linspace(0.0, 1.0, 421))
    time, killed = row(done, "time")[:, 0], row(done, "killed")[:, 0]
    dead = float(np.interp(5.0, killed, time))
    assert dead < scene.read("set_at")[0] < 420.0
    assert scene.column.state[3, scene.column.dough].min() > 0.9
    assert (np.diff(killed) >= 0.0).all()


def test_a_finer_grid_and_shorter_steps_hardly_change_a_bake() -> None:
    """Against 60 cells and 0.25 s: loss within 2 % of itself, colour within 1."""
    coarse, _ = pie(275.0, CORDIERITE).phase(360.0)
    fine, _ = pie(275.0, CORDIERITE, cells=60, longest=0.25).phase(360.0)
    assert coarse.read("lost")[0] == pytest.approx(fine.read("lost")[0], rel=0.02)
    assert lightness(coarse)[0] == pytest.approx(lightness(fine)[0], abs=1.0)


def test_a_cold_preheat_and_a_ramp_end_at_the_oven() -> None:
    """A stone alone in a warming oven comes within a few kelvin of its dial in an hour and a half."""
    hot = dict.fromkeys(("over_air", "over_walls", "under_air", "under_walls"), 250.0)
    values = pie(250.0, CORDIERITE).values | surface_values(CORDIERITE) | hot
    scene = Scene(plate(CORDIERITE, 20.0), values | {"door_air": 0.0, "door_walls": 0.0})
    _, done = scene.phase(5400.0, samples=STEPS, begins=20.0, ramp=OvenParameters().preheat_ramp)
    surface = row(done, "surface")[:, 0]
    assert surface[0] == 20.0
    assert rises(surface)
    assert 244.0 < surface[-1] < 250.0
    assert np.isnan(row(done, "core")).all()
