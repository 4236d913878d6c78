"""Yeast and sugar: limits of the curves, closed forms, and what is left of sugar."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.science.gluten import ph_heuristic, slackening
from doughwright.science.parameters import Parameters
from doughwright.science.sugar import formed_maltose, maltose_rate, sugar_left
from doughwright.science.yeast import (
    brine_molarity,
    grown_yeast,
    growth_rate_rosso_1993,
    mean_wakefulness,
    relative_gassing_slator_1906,
    salt_on_gassing,
    salt_on_growth,
    sugar_on_gassing,
)

P = Parameters()


@pytest.mark.parametrize("degrees", [-40.0, -1.8, 50.0, 90.0])
def test_gassing_ends_at_both_ends(degrees: float) -> None:
    """Below -1.8 and above 50 °C there is none."""
    assert float(relative_gassing_slator_1906(temperature=degrees, parameters=P)) == 0.0


@pytest.mark.parametrize("degrees", [-40.0, 2.5, 43.0, 90.0])
def test_growth_ends_at_both_ends(degrees: float) -> None:
    """Below 2.5 and above 43 °C there is none."""
    assert float(growth_rate_rosso_1993(temperature=degrees, parameters=P)) == pytest.approx(0.0, abs=1e-15)


@pytest.mark.property
@given(low=st.floats(-1.0, 38.0), more=st.floats(0.1, 5.0))
def test_warmer_is_faster_below_forty_degrees(low: float, more: float) -> None:
    """Gassing rises with temperature up to its peak."""
    high = min(low + more, 40.0)
    slow, fast = (float(relative_gassing_slator_1906(temperature=one, parameters=P)) for one in (low, high))
    assert fast > slow


def test_growth_is_fastest_at_its_best_temperature() -> None:
    """0.335 per hour at 34 °C."""
    assert float(growth_rate_rosso_1993(temperature=34.0, parameters=P)) == pytest.approx(0.335)


def test_very_salty_stiff_dough_does_not_go_backward() -> None:
    """10 % salt in 40 % water stops gassing and growth, and no more than that."""
    molarity = brine_molarity(salt=10.0, water=40.0, parameters=P)
    assert float(salt_on_gassing(molarity=molarity, parameters=P)) == 0.0
    assert float(salt_on_growth(molarity=molarity, parameters=P)) == 0.0


def test_two_per_cent_salt_at_62_per_cent_water_is_the_reference() -> None:
    """There the salt factor is 1."""
    molarity = brine_molarity(salt=2.0, water=62.0, parameters=P)
    assert float(salt_on_gassing(molarity=molarity, parameters=P)) == pytest.approx(1.0, abs=5e-4)


@pytest.mark.parametrize(("sugar", "factor"), [(0.0, 1.0), (5.0, 1.0), (10.0, 0.799), (20.0, 0.509)])
def test_sugar_slows_past_five_per_cent(sugar: float, factor: float) -> None:
    """Up to 5 % it does not, 10 % costs a fifth and 20 % half."""
    assert float(sugar_on_gassing(sugar=sugar, parameters=P)) == pytest.approx(factor, abs=5e-4)


@pytest.mark.property
@given(start=st.floats(0.0, 3.0), length=st.floats(0.0, 3.0), lag=st.floats(0.1, 1.0))
def test_wakefulness_over_a_step_is_the_mean_of_the_curve(start: float, length: float, lag: float) -> None:
    """The closed form against a fine sum."""
    middles = start + length * (np.arange(2000) + 0.5) / 2000.0
    fine = float(np.mean(1.0 - np.exp(-middles / lag)))
    assert float(mean_wakefulness(before=start, after=start + length, lag=lag)) == pytest.approx(
        fine, abs=1e-5
    )


@pytest.mark.property
@given(yeast=st.floats(0.01, 4.0), first=st.floats(0.0, 3.0), second=st.floats(0.0, 3.0))
def test_growth_in_two_stretches_is_growth_in_one(yeast: float, first: float, second: float) -> None:
    """The closed form composes, never shrinks and never passes its cap."""
    once = float(grown_yeast(yeast=yeast, at_mixing=yeast, growth=first + second, parameters=P))
    half = float(grown_yeast(yeast=yeast, at_mixing=yeast, growth=first, parameters=P))
    twice = float(grown_yeast(yeast=half, at_mixing=yeast, growth=second, parameters=P))
    assert twice == pytest.approx(once, rel=1e-9)
    assert yeast * (1.0 - 1e-12) <= once <= yeast + 0.65 + 1e-9


def test_no_yeast_grows_none() -> None:
    """Zero stays zero."""
    assert float(grown_yeast(yeast=0.0, at_mixing=0.0, growth=2.0, parameters=P)) == 0.0


@pytest.mark.property
@given(available=st.floats(0.0, 30.0), wanted=st.floats(0.0, 30.0))
def test_sugar_used_is_what_is_wanted_as_far_as_there_is_any(available: float, wanted: float) -> None:
    """The root solves its equation, stays at or above 0, and never asks for more than is wanted."""
    left = float(sugar_left(available=available, wanted=wanted, parameters=P))
    assert 0.0 <= left <= available + 1e-9
    assert left + wanted * left / (left + 0.10) == pytest.approx(available, abs=1e-9)


@pytest.mark.property
@given(formed=st.floats(0.0, 5.5), degrees=st.floats(0.0, 45.0), hours=st.floats(0.0, 100.0))
def test_maltose_only_grows_up_to_its_limit(formed: float, degrees: float, hours: float) -> None:
    """However warm and long."""
    rate = maltose_rate(temperature=degrees, parameters=P)
    later = float(formed_maltose(formed=formed, rate=rate, hours=hours, parameters=P))
    assert formed - 1e-12 <= later <= 5.5


def test_slackening_by_temperature() -> None:
    """25 min at 25 °C, and 1.9 times as fast ten degrees warmer."""
    at_25, at_35 = (float(slackening(temperature=one, parameters=P)) for one in (25.0, 35.0))
    assert at_25 == pytest.approx(60.0 / 25.0)
    assert at_35 / at_25 == pytest.approx(1.9)


@pytest.mark.parametrize(("made", "ph"), [(0.0, 5.95), (300.0, 5.65), (2000.0, 5.0)])
def test_the_ph_heuristic_has_a_floor(made: float, ph: float) -> None:
    """5.95 falls by 0.1 for each 100 mL, not below 5."""
    assert float(ph_heuristic(made=made, parameters=P)) == pytest.approx(ph)
