"""Drying: evaporation's limits, the vapour path, layers and spring."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.drying import (
    dryness,
    evaporation,
    layer_resistance,
    spring,
    vapour_conductivity,
    vapour_diffusivity,
    vapour_film,
)
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import saturation_pressure_iapws_1992

P = OvenParameters()
SEA = 101325.0


def leaving(temperature: float, activity: float = 1.0, vapour: float = 13e3, crust: float = 0.0) -> float:
    """Evaporation [kg/(m2 s)] in a still oven at the sea."""
    transfer = vapour_film(
        temperature=temperature, film=9.5, pressure=SEA, skin=1.0, crust=crust, parameters=P
    )
    return float(
        evaporation(
            temperature=temperature,
            activity=activity,
            transfer=transfer,
            vapour=vapour,
            pressure=SEA,
            parameters=P,
        )
    )


@pytest.mark.property
def test_evaporation_turns_into_condensation_at_the_dew_point() -> None:
    """None where the vapours are equal, dew on colder food, more from hotter, less from drier."""
    level = float(saturation_pressure_iapws_1992(temperature=50.0))
    assert leaving(50.0, vapour=level) == pytest.approx(0.0, abs=1e-15)
    assert leaving(20.0) < 0.0 < leaving(60.0) < leaving(80.0) < leaving(95.0)
    assert leaving(80.0, activity=0.5) < leaving(80.0)


@pytest.mark.property
def test_a_little_vapour_leaves_as_by_its_difference() -> None:
    """Far under boiling the stream of its own vapour counts for nothing: h_m dp/(R T)."""
    transfer = 0.01
    found = evaporation(
        temperature=20.0, activity=0.05, transfer=transfer, vapour=0.0, pressure=SEA, parameters=P
    )
    plain = transfer * 0.05 * saturation_pressure_iapws_1992(temperature=20.0) / (461.5 * (85.0 + 273.15))
    assert found == pytest.approx(plain, rel=0.001)


@pytest.mark.property
def test_crust_and_skin_hold_water_back() -> None:
    """3 mm of crust takes nearly all; the skin of cheese leaves 15 %."""
    assert leaving(90.0, crust=3e-3) < 0.05 * leaving(90.0)
    of_free = {"temperature": 90.0, "film": 9.5, "pressure": SEA, "crust": 0.0, "parameters": P}
    free, skinned = (vapour_film(skin=skin, **of_free) for skin in (1.0, P.skin_part_skim))
    assert skinned / free == pytest.approx(0.15)


@pytest.mark.property
def test_vapour_carries_heat_up_to_boiling_and_no_more() -> None:
    """Rising to 1.25 at 100 °C, level from there; linear in its share of the pores; more in thin air."""
    t = np.array([25.0, 60.0, 80.0, 90.0, 100.0, 250.0])
    found = vapour_conductivity(temperature=t, pressure=SEA, parameters=P)
    assert found == pytest.approx([0.02, 0.13, 0.42, 0.92, 1.25, 1.25], abs=0.01)
    half = vapour_conductivity(temperature=t, pressure=SEA, parameters=replace(P, vapour_share=0.125))
    assert half == pytest.approx(0.5 * found)
    assert vapour_conductivity(temperature=60.0, pressure=0.8 * SEA, parameters=P) > found[1]


@pytest.mark.property
def test_a_layer_dries_and_insulates() -> None:
    """Dryness from 0 to 1; resistance from the wet to the dry conductivity."""
    found = dryness(moisture=np.array([0.9, 0.87, 0.435, 0.0]), wet=0.87)
    assert found == pytest.approx([0.0, 0.0, 0.5, 1.0])
    layer = layer_resistance(thickness=1e-3, dryness=found, wet=0.2, dry=0.055)
    assert layer == pytest.approx([5e-3, 5e-3, 0.0115909, 0.0181818], abs=1e-6)


@pytest.mark.property
def test_dough_springs_as_it_warms() -> None:
    """Nothing at 25 °C, half at 50, all from 75."""
    t = np.array([5.0, 25.0, 50.0, 75.0, 99.0])
    assert spring(temperature=t, parameters=P) == pytest.approx([0.0, 0.0, 0.5, 1.0, 1.0])


def test_drying_refuses_beyond_its_ranges() -> None:
    """Temperatures, pressures, skins, moistures."""
    film = {"temperature": 60.0, "film": 9.5, "pressure": SEA, "skin": 1.0, "crust": 0.0, "parameters": P}
    flow = {"temperature": 60.0, "activity": 1.0, "transfer": 0.01, "vapour": 1e4, "pressure": SEA}
    for call in (
        lambda: vapour_diffusivity(temperature=351.0, pressure=SEA),
        lambda: vapour_conductivity(temperature=60.0, pressure=10.0, parameters=P),
        lambda: vapour_film(**(film | {"skin": 0.0})),
        lambda: vapour_film(**(film | {"crust": -1.0})),
        lambda: evaporation(**(flow | {"activity": 1.1}), parameters=P),
        lambda: evaporation(**(flow | {"vapour": 2e5}), parameters=P),
        lambda: dryness(moisture=-0.1, wet=0.8),
        lambda: layer_resistance(thickness=1e-3, dryness=1.5, wet=0.2, dry=0.055),
    ):
        with pytest.raises(OutOfRangeError):
            call()
