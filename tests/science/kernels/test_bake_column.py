"""How surfaces, doughs and toppings are cut into cells, joined and parted."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.kernels.bake_column import (
    RIM_FOOT,
    RIM_LOAD,
    dough_column,
    dress_food,
    load_food,
    part_food,
)
from doughwright.science.kernels.bake_inputs import food_inputs, lane_inputs, rules_of
from doughwright.science.kernels.bake_layout import CHEESE, DOUGH, INPUTS, RULES, SAUCE, SURFACE, BakeStepping
from doughwright.science.oven_parameters import OvenParameters
from tests.science.kernels._bakes import (
    CORDIERITE,
    ROOM,
    STEEL,
    P,
    cheese_of,
    flat_dough,
    lightness,
    pie,
    plate,
    sauce_of,
    wedge,
)

pytestmark = pytest.mark.property


def test_a_dough_weighs_what_went_in_and_is_finest_at_its_faces() -> None:
    """3.54 kg/m2 at 500 kg/m3 are 7.08 mm; the middle cells are about four times the outer ones."""
    dough = flat_dough()
    assert (dough.solids + dough.state[1]).sum() == pytest.approx(3.54)
    assert dough.thickness.sum() == pytest.approx(7.08e-3)
    assert dough.thickness[9, 0] / dough.thickness[0, 0] == pytest.approx(3.72, abs=0.1)
    assert dough.moisture[0, 0] == pytest.approx(0.78 / 0.895, rel=1e-9)
    assert dough.thickness == pytest.approx(dough.thickness[::-1])


def test_a_stone_is_finest_at_the_food() -> None:
    """Its cells add up to its thickness and its capacity."""
    stone = plate(CORDIERITE, 250.0)
    assert stone.thickness.sum() == pytest.approx(0.016)
    assert stone.solids.sum() == pytest.approx(32.0)
    assert (np.diff(stone.thickness[:, 0]) < 0.0).all()


@pytest.mark.parametrize(("form", "foot", "mass"), [("loaf", 2.8, 0.5 / 0.024), ("bun", 0.48, 5.0)])
def test_a_wedge_body_has_its_faces_and_its_volume(form: str, foot: float, mass: float) -> None:
    """Lower face over upper as given, no area at the core, cells that fill the volume."""
    column = wedge(form, 200.0).column
    area = column.area[1:, 0]
    dough = column.dough
    volume = (column.thickness[dough, 0] * 0.5 * (area[1:] + area[:-1])).sum()
    density = P.density_loaf if form == "loaf" else P.density_bun
    assert area[0] == pytest.approx(foot)
    assert area[-1] == pytest.approx(1.0)
    assert area.min() < 0.35
    assert volume * density == pytest.approx(mass)
    assert column.solids[0, 0] == pytest.approx((0.6e-3 if form == "loaf" else 0.8e-3) * 7832.0 * foot)


def test_a_rim_is_thicker_on_a_smaller_foot_and_browns_on_top() -> None:
    """A bare column of 1.4 times the mean load, foot 0.72 of its top."""
    rim = pie(275.0, STEEL, dressed=False, load=RIM_LOAD * 3.54, foot=RIM_FOOT, stepped=True)
    assert rim.column.area[2, 0] == 0.72
    assert rim.column.area[-1, 0] == 1.0
    middle, _ = pie(275.0, STEEL).phase(360.0)
    after, _ = rim.phase(360.0)
    assert lightness(after, "top")[0] < lightness(middle, "top")[0]
    assert 60.0 < after.read("set_at")[0] < 300.0


def test_joining_and_parting_keep_every_cell() -> None:
    """Surface, dough, sauce, cheese from below; parted, the surface keeps its profile and food its books."""
    stone = plate(STEEL, 250.0)
    dough = flat_dough()
    column = load_food(surface=stone, food=dough)
    column = dress_food(column=column, topping=sauce_of(1.2, 1))
    column = dress_food(column=column, topping=cheese_of(1.2, 1))
    assert column.kinds == (SURFACE,) * 2 + (DOUGH,) * 18 + (SAUCE, CHEESE)
    assert column.state[0, [0, 2, 20, 21], 0] == pytest.approx([250.0, ROOM, 12.0, 8.0])
    assert len(column.area) == len(column.kinds) + 1
    bare, food = part_food(column=column)
    assert bare.kinds == stone.kinds
    assert food.kinds == column.kinds[2:]
    assert len(food.area) == len(food.kinds) + 1
    assert bare.read("surface")[0] == 250.0


def test_dressing_begins_a_new_top_and_keeps_the_base() -> None:
    """What is laid on has not browned; the base's colour and the loss go on."""
    scene, _ = pie(275.0, STEEL, dressed=False).phase(300.0)
    dressed = scene.dress()
    assert scene.read("top_browning")[0] > 1.0
    assert dressed.read("top_browning")[0] == 0.0
    assert dressed.read("top")[0] == 8.0
    for name in ("base_browning", "lost", "set_at", "clock"):
        assert dressed.read(name)[0] == scene.read(name)[0]


def test_a_dough_may_come_with_its_temperatures_by_depth() -> None:
    """A cell each, as the days leave them."""
    warm = np.linspace(18.0, 24.0, 12)[:, None]
    dough = dough_column(
        load=3.5, water=0.46, density=500.0, spring=0.75, temperature=warm, cells=12, finer=4.0, lanes=1
    )
    assert dough.state[0] == pytest.approx(warm)
    assert dough.read("core_peak")[0] == 18.0


def test_inputs_are_named_and_all_there() -> None:
    """A missing or a strange name is an error; a rule that differs by lane is too."""
    values = pie(250.0, STEEL).values | {"seconds": 60.0}
    assert lane_inputs(values=values, lanes=3).shape == (len(INPUTS), 3)
    with pytest.raises(KeyError, match="colour"):
        lane_inputs(values=values | {"colour": 1.0}, lanes=1)
    with pytest.raises(KeyError, match="air"):
        lane_inputs(values={name: one for name, one in values.items() if name != "air"}, lanes=1)
    assert len(rules_of(parameters=P)) == len(RULES)
    with pytest.raises(OutOfRangeError, match="sorption_power"):
        rules_of(parameters=OvenParameters(sorption_power=2.0))


def test_height_changes_where_food_boils() -> None:
    """At 80 kPa 93.5 degC (steam tables)."""
    values = food_inputs(parameters=P, form="flat", pressure=80000.0)
    assert values["boiling"] == pytest.approx(93.49, abs=0.02)


def test_steps_grow_to_the_longest_and_end_on_time() -> None:
    """0.05 s at first, 15 % longer each time; the last two alike."""
    stepping, last, left, taken = BakeStepping(), np.array([0.05 / 1.15]), np.array([30.0]), []
    while left[0] > 0.0:
        last = stepping.next(last=last, left=left)
        left = left - last
        taken.append(float(last[0]))
    assert taken[:2] == pytest.approx([0.05, 0.0575])
    assert max(taken) == 2.0
    assert sum(taken) == pytest.approx(30.0)
    assert taken[-1] == pytest.approx(taken[-2])
