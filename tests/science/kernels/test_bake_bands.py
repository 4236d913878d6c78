"""The model's own bands, which its parameters were fitted to: pins, no evidence. And weak measurements."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.science.kernels._bakes import (
    CORDIERITE,
    ROOM_AROUND,
    STEEL,
    P,
    Scene,
    lightness,
    pie,
    row,
    wedge,
)

RAW = 3.54 + 1.2 + 1.2
WOOD = (0.030, 1750.0, 870.0, 0.6, 0.1, 8)
WOOD_OVEN: dict[str, Any] = {
    "air": 400.0, "walls": 470.0, "film": 12.0, "vapour": 8e3, "over_air": 400.0, "over_walls": 470.0,
    "over_film": 12.0, "under_air": 445.0, "under_walls": 445.0, "under_film": 0.5, "door_air": 0.0,
    "door_walls": 0.0,
}  # fmt: skip


def percent(scene: Scene, raw: float = RAW) -> float:
    return 100.0 * float(scene.read("lost")[0]) / raw


@pytest.mark.pin
@pytest.mark.parametrize(
    ("setting", "surface", "fan", "minutes", "lost", "colour"),
    [
        (275.0, CORDIERITE, False, 6.0, 11.34, 65.0),
        (250.0, CORDIERITE, False, 8.0, 13.33, 68.1),
        (250.0, CORDIERITE, True, 6.0, 11.04, 72.3),
        (275.0, STEEL, False, 6.0, 11.69, 59.2),
        (250.0, STEEL, False, 7.0, 11.64, 65.9),
        (250.0, STEEL, True, 6.0, 11.43, 68.0),
        (290.0, STEEL, False, 6.0, 13.07, 53.0),
        (290.0, STEEL, False, 8.0, 18.35, 46.7),
        (290.0, STEEL, False, 10.0, 23.51, 42.5),
    ],
)
def test_dressed_pies_in_one_go(
    setting: float, surface: tuple[Any, ...], fan: bool, minutes: float, lost: float, colour: float
) -> None:
    """Fitted: 8 to 14 % lost, a base of L* 50 to 70, where a cook would stop."""
    scene, _ = pie(setting, surface, fan=fan).phase(60.0 * minutes)
    assert percent(scene) == pytest.approx(lost, abs=0.05)
    assert lightness(scene)[0] == pytest.approx(colour, abs=0.15)


@pytest.mark.pin
def test_where_the_heat_of_a_pie_goes() -> None:
    """Cordierite at 275 degC, 6 min: 3.04 MJ/m2 in, 1.49 warm the food and 1.52 boil water away."""
    scene, _ = pie(275.0, CORDIERITE).phase(360.0)
    into = scene.read("heat_top") + scene.read("heat_contact")
    assert into[0] / 1e6 == pytest.approx(3.04, abs=0.01)
    assert scene.read("warmed")[0] / 1e6 == pytest.approx(1.49, abs=0.01)
    assert scene.read("latent")[0] / 1e6 == pytest.approx(1.52, abs=0.01)


@pytest.mark.pin
@pytest.mark.parametrize(
    ("setting", "surface", "fan", "first", "then", "lost", "colour"),
    [
        (250.0, STEEL, False, 5.0, 4.0, 12.87, 58.4),
        (260.0, CORDIERITE, False, 5.0, 4.0, 13.47, 59.0),
        (250.0, STEEL, True, 5.0, 4.0, 14.66, 57.5),
        (275.0, STEEL, False, 5.0, 4.0, 15.48, 47.3),
        (275.0, STEEL, False, 4.0, 3.0, 11.62, 53.1),
    ],
)
def test_pies_baked_bare_then_dressed(
    setting: float, surface: tuple[Any, ...], fan: bool, first: float, then: float, lost: float, colour: float
) -> None:
    """Fitted: the same bands; 5 and 4 min at 275 degC on steel is too long, as a cook would say."""
    scene, _ = pie(setting, surface, fan=fan, dressed=False).phase(60.0 * first)
    scene, _ = scene.phase(180.0, lifted=True, **ROOM_AROUND)
    scene, _ = scene.dress().phase(60.0 * then)
    assert percent(scene) == pytest.approx(lost, abs=0.05)
    assert lightness(scene)[0] == pytest.approx(colour, abs=0.15)


@pytest.mark.pin
@pytest.mark.parametrize(
    ("form", "setting", "fan", "minutes", "lost", "colour", "core"),
    [
        ("loaf", 220.0, False, 30.0, 9.70, 46.8, 96.4),
        ("loaf", 200.0, False, 40.0, 10.83, 48.7, 97.2),
        ("bun", 200.0, True, 14.0, 8.81, 74.4, 93.5),
        ("bun", 200.0, True, 16.0, 10.24, 70.9, 94.6),
        ("bun", 200.0, False, 16.0, 8.79, 75.5, 93.9),
    ],
)
def test_loaves_and_buns(
    form: str, setting: float, fan: bool, minutes: float, lost: float, colour: float, core: float
) -> None:
    """Fitted: 9 to 13 % lost, cores of 93 to 98 degC; a still oven at 200 degC wants 16 min for buns."""
    loaf = form == "loaf"
    scene = wedge(form, setting, fan=fan, cells=32 if loaf else 24, longest=4.0 if loaf else 2.0)
    scene, done = scene.phase(60.0 * minutes)
    assert percent(scene, 0.5 / 0.024 if loaf else 5.0) == pytest.approx(lost, abs=0.05)
    assert lightness(scene, "top")[0] == pytest.approx(colour, abs=0.2)
    assert row(done, "core")[-1, 0] == pytest.approx(core, abs=0.3)


SPREADS = {
    "film": (1.20, 0.86, -0.1), "crust_conductivity": (1.25, 0.54, 3.8), "spring": (1.30, -0.53, -1.2),
    "wall_shortfall": (1.40, -0.52, 0.0), "skin_cheese": (1.50, 0.43, 0.2), "contact_dry": (1.35, 0.40, -3.7),
    "emissivity": (1.08, 0.38, 0.0), "vapour_share": (1.40, 0.37, 0.9), "contact_depth": (1.40, 0.27, -3.6),
    "contact_wet": (1.35, 0.11, -2.0), "browning": (1.30, 0.0, -4.3), "dough_conductivity": (1.20, 0.10, 0.2),
}  # fmt: skip
"""One spread more of each, and what the model's first prototype made of it: loss in points, base in L*."""


@pytest.mark.pin
def test_each_unknown_moves_a_bake_as_in_the_prototype() -> None:
    """Steel at 250 degC, 7 min, dressed; the prototype was written apart, from the same equations."""
    lanes = len(SPREADS) + 1
    factor = {name: np.ones(lanes) for name in SPREADS}
    for lane, (name, (times, _, _)) in enumerate(SPREADS.items(), start=1):
        factor[name][lane] = times
    parameters = replace(P, wall_shortfall=P.wall_shortfall * factor.pop("wall_shortfall"))
    scene = pie(250.0, STEEL, lanes=lanes, parameters=parameters, spring=P.spring_flat * factor.pop("spring"))
    changes = {name: scene.values[name] * times for name, times in factor.items()}
    scene, _ = scene.phase(420.0, **changes)
    lost, colour = 100.0 * scene.read("lost") / RAW, lightness(scene)
    said = np.array([one[1:] for one in SPREADS.values()])
    assert lost[1:] - lost[0] == pytest.approx(said[:, 0], abs=0.13)
    assert colour[1:] - colour[0] == pytest.approx(said[:, 1], abs=0.7)


def from_the_wood_oven(dressing: str, seconds: float) -> Scene:
    """White, tomato or Margherita on a soft clay floor at 445 degC."""
    scene = pie(445.0, WOOD, dressed=False, longest=1.0, cells=24, fresh=True)
    if dressing == "Margherita":
        scene = scene.dress(1.2, 1.2, water=0.58, density=1038.0)
    if dressing == "tomato":
        scene = scene.dress(1.2, None)
    scene, _ = scene.phase(seconds, **WOOD_OVEN)
    return scene


def after_lifting(scene: Scene, name: str, seconds: float) -> float:
    _, done = scene.phase(seconds, lifted=True, **ROOM_AROUND)
    return float(row(done, name)[-1, 0])


@pytest.mark.pin
@pytest.mark.parametrize(("seconds", "lost"), [(60.0, 5.09), (75.0, 6.59), (90.0, 8.39)])
def test_a_wood_oven_takes_its_band_of_weight(seconds: float, lost: float) -> None:
    """Fitted: 5 to 10 % from a Margherita in 60 to 90 s."""
    assert percent(from_the_wood_oven("Margherita", seconds)) == pytest.approx(lost, abs=0.05)


LIFTED = "Falciano, Moresi & Masi 2023, Foods 12:890; the delays are not published, and were chosen here"


@pytest.mark.outside(source=LIFTED, how="predicted", note="weak: read 2 s after lifting")
@pytest.mark.parametrize(("dressing", "read", "within"), [("Margherita", 67.0, 5.0), ("white", 182.0, 16.0)])
def test_tops_by_infrared_two_seconds_after_the_oven(dressing: str, read: float, within: float) -> None:
    """Margherita at most 67 degC, a white pizza 182: cheese stays wet, bare dough grows a thin hot crust."""
    top = after_lifting(from_the_wood_oven(dressing, 75.0), "top", 2.0)
    assert top == pytest.approx(read, abs=within)


@pytest.mark.outside(source=LIFTED, how="tuned", note="weak: read 3 s after lifting")
def test_bases_by_infrared_three_seconds_after_lifting() -> None:
    """100 +- 9 degC, though the base was at 230 in the oven."""
    scene = from_the_wood_oven("Margherita", 75.0)
    assert scene.read("base")[0] > 200.0
    assert after_lifting(scene, "base", 3.0) == pytest.approx(100.0, abs=9.0)


@pytest.mark.outside(source="common practice, no source", how="predicted", note="a band of practice")
def test_a_large_round_on_stone_bare_then_dressed_is_done() -> None:
    """38 cm of 0.37 g/cm2 on thick stone at 260 degC, 5 min bare, thin sauce and 113 g of cheese, 4.5 min."""
    area = np.pi * 0.19**2
    stone = (0.019, *CORDIERITE[1:])
    scene, _ = pie(260.0, stone, dressed=False, load=3.7).phase(300.0)
    scene, _ = scene.phase(120.0, lifted=True, **ROOM_AROUND)
    scene, done = scene.dress(0.085 / area, 0.113 / area).phase(270.0)
    rim, _ = pie(260.0, stone, dressed=False, load=1.4 * 3.7, foot=0.72, stepped=True).phase(570.0)
    assert 43.6 < lightness(scene)[0] < 66.0
    assert 43.6 < lightness(rim, "top")[0] < 72.0
    assert row(done, "cheese")[-1, 0] > 65.0
    assert scene.read("set_at")[0] < 300.0
