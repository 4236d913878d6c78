"""The oven's parameter table: each row says how it is known; those of the formulas move a result."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from doughwright.science.browning import browning_factor, lightness_of_change
from doughwright.science.contact import opening_conductance
from doughwright.science.drying import evaporation, spring, vapour_conductivity, vapour_film
from doughwright.science.oven import (
    blown_film,
    film_at_pressure,
    oven_air,
    preheat_seconds,
    recovery_time_constant,
)
from doughwright.science.oven_parameters import OvenParameters, oven_parameter_table
from doughwright.science.parameter_rows import varied
from doughwright.science.setting import is_set, yeast_death_bigelow
from doughwright.science.steam import boiling_rise, water_activity

NAMES = [one.name for one in fields(OvenParameters)]
IN_FORMULAS = [
    "contact_wet", "contact_dry", "contact_depth", "spring_from", "spring_span", "sorption_moisture",
    "sorption_power", "boiling_rise", "vapour_share", "vapour_limit", "crust_diffusivity", "vapour_ceiling",
    "lewis", "steam_heat", "film_pressure", "air_shortfall", "wall_shortfall", "floor_shortfall",
    "shortfall_from", "door_air", "door_walls", "door_recovery", "preheat_emissivity", "preheat_ramp",
    "preheat_within", "recovery_film", "browning", "browning_plain", "browning_sugar_all",
    "browning_sugar_none", "browning_young", "browning_milk", "browning_malt", "browning_extra",
    "lightness_raw", "lightness_slope", "set_temperature", "set_share", "yeast_decimal", "yeast_z",
]  # fmt: skip


def outcomes(p: OvenParameters) -> list[float]:
    """What each formula of the oven comes to."""
    air = oven_air(setting=250.0, since_door=30.0, parameters=p)
    transfer = vapour_film(temperature=99.9, film=9.5, pressure=101325.0, skin=0.7, crust=1e-4, parameters=p)
    flow = {"transfer": transfer, "vapour": 13e3, "pressure": 101325.0, "parameters": p}
    doughs = browning_factor(
        sugar_left=np.array([0.6, 0.7, 3.0, 3.0, 3.0]),
        hours=np.array([9.0, 9.0, 3.05, 9.0, 9.0]),
        milk_sugar=np.array([1.0, 0.0, 0.0, 9.0, 0.0]),
        malt=np.array([0.0, 1.0, 0.0, 0.0, 0.0]),
        parameters=p,
    )
    hot = np.linspace(75.0, 85.0, 401)
    starch = np.linspace(0.95, 1.02, 701)
    found = [
        *opening_conductance(dried=np.array([0.0, 0.3e-3]), parameters=p),
        *spring(temperature=np.array([40.0, 60.0]), parameters=p),
        water_activity(moisture=0.1, parameters=p),
        boiling_rise(moisture=0.1, parameters=p),
        *vapour_conductivity(temperature=np.array([60.0, 100.0]), pressure=101325.0, parameters=p),
        *evaporation(temperature=np.array([70.0, 99.9]), activity=1.0, **flow),
        blown_film(film=9.5, steam=1e-3, parameters=p),
        film_at_pressure(film=9.5, pressure=8e4, parameters=p),
        air.air, air.walls, air.below,
        preheat_seconds(setting=250.0, start=20.0, film=9.5, areal_capacity=24e3, parameters=p),
        recovery_time_constant(areal_capacity=24e3, parameters=p),
        *np.asarray(doughs.value), *np.asarray(doughs.spread),
        lightness_of_change(change=20.0, parameters=p),
        yeast_death_bigelow(temperature=58.0, parameters=p),
        is_set(temperature=hot, gelatinised=0.0, parameters=p).sum(),
        is_set(temperature=20.0, gelatinised=starch, parameters=p).sum(),
    ]  # fmt: skip
    return [float(one) for one in found]


BASE = outcomes(OvenParameters())


@pytest.mark.parametrize("name", IN_FORMULAS)
def test_a_parameter_of_the_formulas_changes_a_result(name: str) -> None:
    """Moved by 3 %, each moves a formula; those of the column alone are moved in the column's own tests."""
    value = getattr(OvenParameters(), name)
    assert outcomes(replace(OvenParameters(), **{name: value * 1.03})) != BASE


@pytest.mark.parametrize("name", NAMES)
def test_every_row_of_the_oven_says_how_it_is_known(name: str) -> None:
    """Meaning, unit, source and one of four ways of knowing."""
    row = oven_parameter_table()[name]
    assert row.meaning
    assert row.unit
    assert row.source
    assert row.how in ("measured", "fitted", "assumed", "from memory")
    assert row.spread is None or row.spread > 0.0


def test_what_was_tuned_to_bands_says_so() -> None:
    """About fifteen numbers are fitted, and each names the bands."""
    fitted = [row for row in oven_parameter_table().rows if row.how == "fitted"]
    assert 10 <= len(fitted) <= 18
    assert all("bands" in row.source for row in fitted)


def test_many_kitchens_share_one_set() -> None:
    """A row may hold a value a lane, and the formulas answer lane by lane."""
    many = varied(OvenParameters(), contact_wet=np.array([150.0, 300.0, 600.0]))
    assert opening_conductance(dried=0.0, parameters=many) == pytest.approx([150.0, 300.0, 600.0])
    assert OvenParameters().contact_wet == 300.0
