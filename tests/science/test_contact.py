"""Contact: limits of the resistance, and a base that lifts off."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.contact import (
    contact_flux,
    contact_heat,
    contact_temperature,
    effusivity,
    erfcx,
    opening_conductance,
    resisted_contact,
    thick_for,
)
from doughwright.science.oven_parameters import OvenParameters

P = OvenParameters()
TWO = {"hot": 250.0, "cold": 20.0, "hot_effusivity": 1400.0, "cold_effusivity": 880.0}


@pytest.mark.property
def test_no_resistance_is_perfect_contact() -> None:
    """A huge conductance gives the contact temperature at both faces, and its flux."""
    met = contact_temperature(**TWO)
    found = resisted_contact(**TWO, conductance=1e9, seconds=10.0)
    assert [float(found.hot), float(found.cold)] == pytest.approx([float(met)] * 2, abs=1e-3)
    perfect = contact_flux(cold=20.0, contact=met, cold_effusivity=880.0, seconds=10.0)
    assert found.flux == pytest.approx(perfect, rel=1e-5)


@pytest.mark.property
def test_at_the_first_moment_nothing_has_passed() -> None:
    """Faces as before, flux the conductance times the difference; the drop across it is the flux over it."""
    found = resisted_contact(**TWO, conductance=300.0, seconds=np.array([0.0, 20.0, 200.0]))
    assert (found.hot[0], found.cold[0], found.flux[0]) == pytest.approx((250.0, 20.0, 300.0 * 230.0))
    assert 300.0 * (found.hot - found.cold) == pytest.approx(found.flux, rel=1e-9)


@pytest.mark.property
def test_the_heat_is_the_flux_summed() -> None:
    """From 1 to 100 s."""
    t = np.geomspace(1.0, 100.0, 4001)
    flux = contact_flux(cold=20.0, contact=150.0, cold_effusivity=880.0, seconds=t)
    heat = contact_heat(cold=20.0, contact=150.0, cold_effusivity=880.0, seconds=t)
    summed = float(np.sum(0.5 * (flux[1:] + flux[:-1]) * np.diff(t)))
    assert heat[-1] - heat[0] == pytest.approx(summed, rel=1e-5)


@pytest.mark.property
def test_a_base_lifts_off_as_it_dries() -> None:
    """From the wet conductance to the dry one, falling all the way."""
    found = opening_conductance(dried=np.array([0.0, 0.2e-3, 0.4e-3, 1e-3, 0.1]), parameters=P)
    assert (found[0], found[-1]) == pytest.approx((300.0, 45.0))
    assert (np.diff(found) < 0.0).all()


def test_contact_refuses_what_is_not_above_nothing() -> None:
    """Properties, times and thicknesses."""
    for call in (
        lambda: effusivity(conductivity=0.0, density=1.0, heat_capacity=1.0),
        lambda: contact_temperature(hot=1.0, cold=0.0, hot_effusivity=-1.0, cold_effusivity=1.0),
        lambda: contact_flux(cold=1.0, contact=2.0, cold_effusivity=1.0, seconds=0.0),
        lambda: contact_heat(cold=1.0, contact=2.0, cold_effusivity=1.0, seconds=-1.0),
        lambda: resisted_contact(**TWO, conductance=0.0, seconds=1.0),
        lambda: erfcx(argument=-0.1),
        lambda: opening_conductance(dried=-1e-3, parameters=P),
        lambda: thick_for(depth=0.0, diffusivity=1e-7),
    ):
        with pytest.raises(OutOfRangeError):
            call()
