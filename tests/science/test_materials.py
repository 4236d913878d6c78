"""Surfaces and foods: the table and what follows from it."""

from __future__ import annotations

from typing import get_args

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError, UnknownNameError
from doughwright.kitchen.model import Material as KitchenMaterial
from doughwright.science.materials import (
    MATERIALS,
    areal_capacity,
    dough_water,
    food_choi_okos_1986,
    material,
)


def test_every_material_a_kitchen_may_name_has_its_row() -> None:
    """And each row says how it is known, and from where."""
    names = [one.name for one in MATERIALS]
    assert set(get_args(KitchenMaterial)) <= set(names)
    assert len(set(names)) == len(names)
    for one in MATERIALS:
        assert one.source
        assert one.how in ("measured", "fitted", "assumed", "from memory")
        assert 0.0 < one.emissivity <= 1.0


def test_a_material_nobody_has_is_refused_with_a_near_one() -> None:
    """The names are listed."""
    with pytest.raises(UnknownNameError, match='Did you mean "cordierite"'):
        material(name="cordierit")


@pytest.mark.parametrize(
    ("name", "thickness", "wanted"),
    [
        ("cordierite", 16e-3, 27.0e3),
        ("carbon steel", 6e-3, 24.5e3),
        ("carbon steel", 10e-3, 40.5e3),
        ("aluminium", 8e-3, 19.4e3),
    ],
)
def test_heat_capacity_by_area(name: str, thickness: float, wanted: float) -> None:
    """16 mm of cordierite holds about what 6 mm of steel does."""
    row = material(name=name)
    found = areal_capacity(density=row.density, heat_capacity=row.heat_capacity, thickness=thickness)
    assert found == pytest.approx(wanted, rel=0.03)


def test_the_water_of_a_dough() -> None:
    """46.6 % at a hydration of 0.65; a hydration in per cent is refused."""
    assert dough_water(hydration=np.array([0.65])) == pytest.approx([0.4657], abs=1e-4)
    with pytest.raises(OutOfRangeError):
        dough_water(hydration=65.0)


@pytest.mark.property
def test_a_food_is_its_water_and_its_solids() -> None:
    """Heat capacity is that of the parts by mass, whatever the total; of many foods at once a column each."""
    food = np.array([46.5, 24.3, 20.3, 5.5, 0.0, 3.4])
    water = np.array([1.0, 0.0, 0.0, 0.0, 0.0, 1e-9])
    found = food_choi_okos_1986(composition=food, temperature=20.0)
    of_water = food_choi_okos_1986(composition=water, temperature=20.0).heat
    assert found.heat == pytest.approx(found.water * of_water + (1.0 - found.water) * found.solids_heat)
    twice = food_choi_okos_1986(composition=np.stack([food, 2.0 * food], axis=1), temperature=20.0)
    assert np.asarray(twice.heat) == pytest.approx([found.heat, found.heat])
    with pytest.raises(OutOfRangeError):
        food_choi_okos_1986(composition=np.array([1.0, 0, 0, 0, 0, 0]), temperature=20.0)
    with pytest.raises(OutOfRangeError):
        food_choi_okos_1986(composition=food, temperature=160.0)
