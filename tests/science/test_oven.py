"""The oven's air and walls, radiation, film, and surfaces that warm."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.oven import (
    blown_film,
    effective_emissivity,
    exchange,
    film_at_pressure,
    oven_air,
    plate_seconds,
    preheat_seconds,
    radiation_coefficient,
    recovery_time_constant,
)
from doughwright.science.oven_parameters import OvenParameters

P = OvenParameters()


def test_an_oven_is_short_of_its_dial() -> None:
    """At 250 °C, door long shut: air 241, walls 225.25, below 245.5."""
    found = oven_air(setting=250.0, since_door=np.inf, parameters=P)
    assert (found.air, found.walls, found.below) == pytest.approx((241.0, 225.25, 245.5))


def test_the_door_lets_the_heat_out() -> None:
    """Air 50 and walls 12 K cooler at first, 37 % of that after 90 s; what is below does not notice."""
    found = oven_air(setting=250.0, since_door=np.array([0.0, 90.0]), parameters=P)
    assert 241.0 - found.air == pytest.approx([50.0, 18.394], abs=0.001)
    assert 225.25 - found.walls == pytest.approx([12.0, 4.415], abs=0.001)
    assert found.below == pytest.approx([245.5, 245.5])


@pytest.mark.property
def test_steam_that_leaves_keeps_the_air_off() -> None:
    """No steam, no change; more steam, less heat; continuous where the series takes over."""
    steam = np.array([0.0, 4.7499e-9, 4.7501e-9, 1e-3, 5e-3, 0.05])
    found = blown_film(film=9.5, steam=steam, parameters=P)
    assert found[0] == 9.5
    assert (np.diff(found) <= 0.0).all()
    assert found[1] == pytest.approx(found[2], rel=1e-9)
    flow = 5e-3 * 2000.0 / 9.5
    assert found[4] == pytest.approx(9.5 * flow / np.expm1(flow))


@pytest.mark.property
def test_air_walls_and_broiler_as_one() -> None:
    """The same heat flows to a face as from the three apart."""
    found = exchange(film=9.5, radiation=18.0, air=240.0, walls=225.0, broil=6000.0)
    apart = 9.5 * (240.0 - 95.0) + 18.0 * (225.0 - 95.0) + 6000.0
    assert found.coefficient * (found.temperature - 95.0) == pytest.approx(apart)


@pytest.mark.property
def test_thin_air_carries_less() -> None:
    """(p/p0)^0.6."""
    assert film_at_pressure(film=9.5, pressure=101325.0, parameters=P) == pytest.approx(9.5)
    assert film_at_pressure(film=10.0, pressure=0.5 * 101325.0, parameters=P) == pytest.approx(
        6.5975, abs=1e-4
    )


@pytest.mark.property
def test_a_plate_without_radiation_follows_its_exponential() -> None:
    """t = C/(2h) ln of the differences, warming and cooling, to a thousandth."""
    given = {"ramp": 0.0, "film": 20.0, "emissivity": 0.0, "areal_capacity": 24e3}
    warming = plate_seconds(start=20.0, until=200.0, cold=250.0, hot=250.0, **given)
    cooling = plate_seconds(start=250.0, until=40.0, cold=20.0, hot=20.0, **given)
    assert warming == pytest.approx(600.0 * np.log(230.0 / 50.0), rel=1e-3)
    assert cooling == pytest.approx(600.0 * np.log(230.0 / 20.0), rel=1e-3)


def test_what_is_never_reached_is_not_a_number() -> None:
    """A plate does not get hotter than its oven; the others of the array are answered."""
    found = plate_seconds(
        start=20.0,
        until=np.array([100.0, 260.0, 20.0]),
        cold=250.0,
        hot=250.0,
        ramp=0.0,
        film=10.0,
        emissivity=0.85,
        areal_capacity=24e3,
    )
    assert np.isnan(found).tolist() == [False, True, False]
    assert found[2] == 0.0


@pytest.mark.property
def test_thicker_and_cooler_fanned_surfaces_in_order() -> None:
    """More to heat takes longer, a fan shortens it, and so does the ramp."""
    base = {"setting": 250.0, "start": 20.0, "parameters": P}
    thin = preheat_seconds(film=9.5, areal_capacity=20e3, **base)
    thick = preheat_seconds(film=9.5, areal_capacity=30e3, **base)
    fanned = preheat_seconds(film=20.0, areal_capacity=30e3, **base)
    assert thin < thick
    assert fanned < thick


def test_the_oven_refuses_beyond_its_ranges() -> None:
    """Settings, emissivities, temperatures, films."""
    for call in (
        lambda: oven_air(setting=510.0, since_door=0.0, parameters=P),
        lambda: oven_air(setting=250.0, since_door=-1.0, parameters=P),
        lambda: radiation_coefficient(emissivity=1.1, face=100.0, walls=250.0),
        lambda: radiation_coefficient(emissivity=0.9, face=100.0, walls=900.0),
        lambda: effective_emissivity(food=0.0, walls=0.9, area_ratio=0.1),
        lambda: film_at_pressure(film=0.0, pressure=1e5, parameters=P),
        lambda: blown_film(film=9.5, steam=-1e-3, parameters=P),
        lambda: exchange(film=0.0, radiation=0.0, air=1.0, walls=1.0, broil=0.0),
        lambda: preheat_seconds(setting=40.0, start=20.0, film=9.5, areal_capacity=2e4, parameters=P),
        lambda: recovery_time_constant(areal_capacity=0.0, parameters=P),
    ):
        with pytest.raises(OutOfRangeError):
            call()
