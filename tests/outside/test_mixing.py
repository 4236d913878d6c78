"""Dough temperature and ice against worked examples of the trade and a textbook."""

from __future__ import annotations

from statistics import NormalDist

import pytest

from doughwright.science.mixing import (
    Part,
    ice_added,
    ice_mass,
    mixing_rise,
    water_temperature_balance,
    water_temperature_sum,
)
from doughwright.science.parameters import Parameters

P = Parameters()


@pytest.mark.outside(
    source="Pizza Today 6/2018; San Francisco Baking Institute notes; Cook's Illustrated; a pizza forum",
    how="identity",
)
@pytest.mark.parametrize(
    ("desired", "known", "friction", "water"),
    [
        (80.0, (65.0, 75.0), 35.0, 65.0),
        (75.0, (65.0, 65.0), 8.0, 87.0),
        (75.0, (71.0, 71.0, 71.0), 20.0, 67.0),
        (78.0, (60.0, 70.0), 16.0, 88.0),
    ],
)
def test_the_trades_sum(desired: float, known: tuple[float, ...], friction: float, water: float) -> None:
    """Four published examples in °F come out exactly."""
    assert water_temperature_sum(desired=desired, known=known, friction=friction) == water


@pytest.mark.outside(source="a distributor's ice table, lb of ice to a lb of water", how="predicted")
@pytest.mark.parametrize(
    ("tap", "wanted", "ice"),
    [
        (70.0, 50.0, 0.109),
        (80.0, 40.0, 0.206),
        (60.0, 30.0, 0.172),
        (32.0, 0.0, 0.222),
        (70.0, 40.0, 0.163),
        (80.0, 60.0, 0.103),
    ],
)
def test_the_ice_table(tap: float, wanted: float, ice: float) -> None:
    """Six entries of the table in °F to 0.003."""
    celsius = [(value - 32.0) / 1.8 for value in (tap, wanted)]
    assert ice_mass(water=1.0, tap=celsius[0], wanted=celsius[1], parameters=P) == pytest.approx(
        ice, abs=0.003
    )


@pytest.mark.outside(
    source="a trade post: 40 kg from 20 to 10 °C; it prints the ice added, 4.4 to 4.45 kg", how="predicted"
)
def test_ice_that_replaces_and_ice_that_is_added() -> None:
    """40 kg of water from 20 to 10 °C: 4.01 kg in its place, 4.4 to 4.5 kg on top."""
    assert ice_mass(water=40.0, tap=20.0, wanted=10.0, parameters=P) == pytest.approx(4.01, abs=0.01)
    assert ice_added(water=40.0, start=20.0, wanted=10.0, parameters=P) == pytest.approx(4.45, abs=0.05)


@pytest.mark.outside(
    source="bakers' rule on a Spanish page, corrected for the warming of the melt: 1.535 kg", how="predicted"
)
def test_ice_for_thirty_litres() -> None:
    """30 kg from 18 to 13 °C: 1.535 kg."""
    assert ice_mass(water=30.0, tap=18.0, wanted=13.0, parameters=P) == pytest.approx(1.535, abs=0.002)


@pytest.mark.outside(source="a physics forum's worked example: 1.383 kg", how="predicted")
def test_ice_from_the_freezer() -> None:
    """Ice at -18 °C added to 30 kg of water, from 25 to 20 °C: 1.383 kg."""
    found = ice_added(water=30.0, start=25.0, wanted=20.0, parameters=P, ice_temperature=-18.0)
    assert found == pytest.approx(1.383, abs=0.003)


@pytest.mark.outside(
    source="Cengel & Boles ch. 5: 2 kg flour, 1 kg water, 15 kJ/kg of dough", how="predicted"
)
def test_water_that_takes_up_the_heat_of_wetting() -> None:
    """Flour and dough at 15 °C: the water has to be at 4.2 ± 0.1 °C (answer computed)."""
    flour, unwarmed = Part(2.0, 0.0, 15.0), Part(1.0, 4.18, 15.0)
    rise = mixing_rise(parts=[flour, unwarmed], flour=2.0, energy=0.0, parameters=P, hydration=22.5)
    water = water_temperature_balance(desired=15.0, others=[flour], water=1.0, rise=rise, parameters=P)
    assert water == pytest.approx(4.2, abs=0.1)


@pytest.mark.outside(
    source="Gilbert et al. 2007, fridges of New Zealand: 55 % above 5, 34 % above 6 °C",
    how="predicted",
    note="of the survey's shape; no code of ours",
)
@pytest.mark.parametrize(("degrees", "share"), [(5.0, 55.0), (6.0, 34.0)])
def test_fridges_are_about_normal(degrees: float, share: float) -> None:
    """A normal of mean 5.2 and sd 2.5 °C gives the surveyed shares to 5 points."""
    assert 100.0 * (1.0 - NormalDist(5.2, 2.5).cdf(degrees)) == pytest.approx(share, abs=5.0)
