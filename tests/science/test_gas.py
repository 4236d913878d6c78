"""Gas in dough: conservation, limits, altitude, the ceiling and knocking back."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.science.gas import (
    GasBasis,
    air_pressure,
    degas,
    gas_basis,
    most_gas,
    split_gas,
    volume_ceiling,
)
from doughwright.science.parameters import Parameters

P = Parameters()
DEGREES = st.floats(-2.0, 50.0)
GAS = st.floats(0.0, 1500.0)


def basis(altitude: float = 0.0, protein: float = 13.0) -> GasBasis:
    return gas_basis(mass=164.0, water=62.0, protein=protein, altitude=altitude, parameters=P)


def split(gas: float, degrees: float, altitude: float = 0.0):
    return split_gas(
        gas=np.array([gas]), temperature=np.array([degrees]), basis=basis(altitude), parameters=P
    )


@pytest.mark.property
@given(gas=GAS, degrees=DEGREES, altitude=st.floats(0.0, 4000.0))
def test_gas_is_either_dissolved_or_in_bubbles(gas: float, degrees: float, altitude: float) -> None:
    """What is dissolved and the growth of the bubbles add up to all of it."""
    found, pressure = split(gas, degrees, altitude), basis(altitude).pressure
    kelvin = (degrees + 273.15) / 298.15
    free = (found.bubbles[0] - basis(altitude).air) * pressure / kelvin
    assert found.dissolved[0] + free == pytest.approx(gas, abs=1e-9)
    assert 0.0 <= found.dissolved[0] <= gas


@pytest.mark.property
@given(gas=GAS, degrees=DEGREES, altitude=st.floats(0.0, 4000.0))
def test_the_split_obeys_henry_and_dalton(gas: float, degrees: float, altitude: float) -> None:
    """The share of carbon dioxide in the bubbles is 1 - Va/Vg, and the water holds by that share."""
    found, made = split(gas, degrees, altitude), basis(altitude)
    share = 1.0 - made.air / found.bubbles[0]
    full = split(1e7, degrees, altitude).dissolved[0]
    assert found.dissolved[0] == pytest.approx(full * share, rel=2e-4, abs=1e-9)


def test_no_gas_is_the_volume_after_mixing() -> None:
    """With nothing made, V / V0 is 1 exactly, at any temperature."""
    assert split(0.0, 4.0).rise[0] == 1.0
    assert split(0.0, 30.0).rise[0] == 1.0


def test_little_gas_keeps_its_digits_even_in_single_precision() -> None:
    """The root is written so that it does not cancel: a millionth of a mL is split as one mL is."""
    tiny = split_gas(
        gas=np.array([1e-6], dtype=np.float32),
        temperature=np.array([4.0], dtype=np.float32),
        basis=basis(),
        parameters=P,
    )
    small = split(1e-3, 4.0)
    assert tiny.dissolved[0] / 1e-6 == pytest.approx(small.dissolved[0] / 1e-3, rel=1e-4)


@pytest.mark.property
@given(gas=st.floats(1.0, 600.0), low=st.floats(0.0, 20.0), more=st.floats(1.0, 20.0))
def test_warming_a_dough_with_its_yeast_off_raises_it(gas: float, low: float, more: float) -> None:
    """Gas comes out of solution and bubbles grow."""
    assert split(gas, low + more).rise[0] > split(gas, low).rise[0]


def test_a_dough_high_up_rises_visibly_more() -> None:
    """At 1800 m the same gas makes a fresh dough of 1.8 rise to over 2."""
    assert split(200.0, 22.0, 1800.0).rise[0] > split(200.0, 22.0).rise[0] + 0.2


def test_the_standard_atmosphere() -> None:
    """1 at the sea, 0.887 at 1000 m and 0.804 at 1800 m (ISO 2533)."""
    found = [air_pressure(altitude=metres) for metres in (0.0, 1000.0, 1800.0)]
    assert found == pytest.approx([1.0, 0.8870, 0.8042], abs=0.0003)


@pytest.mark.parametrize(
    ("protein", "ceiling"),
    [(8.0, 2.6), (10.0, 2.6), (10.75, 2.8), (11.5, 3.0), (12.25, 3.25), (13.0, 3.5), (15.0, 3.5)],
)
def test_the_ceiling_by_protein(protein: float, ceiling: float) -> None:
    """2.6, 3.0 and 3.5 at 10, 11.5 and 13 %, on lines between and level beyond."""
    assert volume_ceiling(protein=protein, parameters=P) == pytest.approx(ceiling)


@pytest.mark.property
@given(degrees=DEGREES, altitude=st.floats(0.0, 4000.0), protein=st.floats(9.0, 14.0))
def test_the_most_gas_gives_the_ceiling(degrees: float, altitude: float, protein: float) -> None:
    """A dough that holds all it can stands at its ceiling, wherever it is."""
    made = basis(altitude, protein)
    gas = most_gas(temperature=np.array([degrees]), basis=made, parameters=P)
    found = split_gas(gas=gas, temperature=np.array([degrees]), basis=made, parameters=P)
    assert found.rise[0] == pytest.approx(made.ceiling, rel=1e-12)


@pytest.mark.property
@given(cold=st.floats(-5.0, 60.0), warm=st.floats(-5.0, 60.0), altitude=st.floats(0.0, 4000.0))
def test_a_warmer_dough_holds_less_gas(cold: float, warm: float, altitude: float) -> None:
    """So a dough that holds its gas at the hottest it may get holds it everywhere, and need not be asked."""
    most = [
        float(most_gas(temperature=degrees, basis=basis(altitude), parameters=P))
        for degrees in (min(cold, warm), max(cold, warm))
    ]
    assert most[0] >= most[1]


@pytest.mark.property
@given(gas=GAS, degrees=DEGREES, share=st.floats(0.0, 1.0))
def test_knocking_back_leaves_the_dissolved_gas(gas: float, degrees: float, share: float) -> None:
    """A share of the free gas goes; never more than there is of it."""
    before = split(gas, degrees)
    after = degas(gas=np.array([gas]), dissolved=before.dissolved, share=share)[0]
    assert before.dissolved[0] - 1e-9 <= after <= gas + 1e-9


def test_a_ripe_dough_knocked_back_wholly_is_not_at_one() -> None:
    """Its dissolved gas refills the bubbles at once: 1.02 (young) to 1.17 (ripe)."""
    for gas in (60.0, 300.0):
        left = degas(gas=np.array([gas]), dissolved=split(gas, 22.0).dissolved, share=1.0)[0]
        assert 1.02 <= split(float(left), 22.0).rise[0] <= 1.17
