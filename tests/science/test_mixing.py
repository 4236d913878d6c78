"""Mixing: the balance and the sum undo themselves, ice has its limit, water may hurt yeast."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import NoAnswerError
from doughwright.science.mixing import (
    Part,
    dough_temperature,
    friction_learnt,
    ice_added,
    ice_mass,
    mixing_rise,
    water_temperature_balance,
    water_temperature_sum,
)
from doughwright.science.parameters import Parameters
from doughwright.science.yeast_limits import YEAST_FORMS, YEAST_LIMITS, yeast_limit_met

P = Parameters()
FLOUR = Part(0.5, 1.9, 20.0)


@pytest.mark.property
@given(desired=st.floats(18.0, 30.0), water=st.floats(0.1, 1.0), rise=st.floats(0.0, 8.0))
def test_the_balance_gives_the_dough_that_was_asked_for(desired: float, water: float, rise: float) -> None:
    """Water at the temperature found makes the dough desired."""
    found = water_temperature_balance(desired=desired, others=[FLOUR], water=water, rise=rise, parameters=P)
    poured = Part(water, P.water_heat, found)
    assert dough_temperature(parts=[FLOUR, poured], rise=rise, parameters=P) == pytest.approx(desired)


@pytest.mark.property
@given(
    desired=st.floats(18.0, 30.0),
    room=st.floats(10.0, 35.0),
    flour=st.floats(5.0, 35.0),
    friction=st.floats(0.0, 30.0),
)
def test_friction_learnt_undoes_the_sum(desired: float, room: float, flour: float, friction: float) -> None:
    """A dough that came out as the sum said teaches the friction it was reckoned with."""
    water = water_temperature_sum(desired=desired, known=(room, flour), friction=friction)
    assert friction_learnt(measured=desired, used=(room, flour, water)) == pytest.approx(friction)


@pytest.mark.property
@given(tap=st.floats(5.0, 30.0), wanted=st.floats(-30.0, 30.0))
def test_ice_does_what_cold_water_would(tap: float, wanted: float) -> None:
    """A dough of tap water and ice is as warm as one of water at the temperature wanted."""
    ice = ice_mass(water=0.3, tap=tap, wanted=wanted, parameters=P)
    iced = dough_temperature(
        parts=[FLOUR, Part(0.3 - ice, P.water_heat, tap)], rise=4.0, parameters=P, ice=ice
    )
    cold = dough_temperature(
        parts=[FLOUR, Part(0.3, P.water_heat, max(wanted, tap) if ice == 0.0 else wanted)],
        rise=4.0,
        parameters=P,
    )
    if ice > 0.0:
        assert iced == pytest.approx(cold)
    else:
        assert wanted >= tap


def test_ice_above_the_water_is_refused() -> None:
    """Water at -100 °C cannot be made of ice."""
    with pytest.raises(NoAnswerError, match="more ice"):
        ice_mass(water=0.3, tap=20.0, wanted=-100.0, parameters=P)


def test_warm_enough_water_needs_no_ice() -> None:
    """Neither in its place nor on top."""
    assert ice_mass(water=1.0, tap=10.0, wanted=12.0, parameters=P) == 0.0
    assert ice_added(water=1.0, start=10.0, wanted=12.0, parameters=P) == 0.0


def test_a_dough_that_pours_no_water_has_no_answer() -> None:
    """Its temperature has nothing to steer by."""
    with pytest.raises(NoAnswerError, match="no water"):
        water_temperature_balance(desired=24.0, others=[FLOUR], water=0.0, rise=4.0, parameters=P)


def test_mechanical_energy_warms_beside_the_wetting() -> None:
    """10 kJ into 1 kg of 2.8 kJ/(kg K) with 0.6 kg flour: (10 + 9) / 2.8 K."""
    parts = [Part(1.0, 2.8, 20.0)]
    assert mixing_rise(parts=parts, flour=0.6, energy=10.0, parameters=P) == pytest.approx(19.0 / 2.8)


@pytest.mark.parametrize("form", YEAST_FORMS)
def test_water_that_kills_is_refused_for_every_form(form: str) -> None:
    """At 55 °C; at 45 °C there is a warning, at 30 °C nothing."""
    hot, warm = yeast_limit_met(form=form, water=55.0), yeast_limit_met(form=form, water=45.0)
    assert hot is not None
    assert hot.refuse
    assert warm is not None
    assert not warm.refuse
    assert yeast_limit_met(form=form, water=30.0) is None


@pytest.mark.parametrize(
    ("form", "refused"),
    [("active dry", True), ("instant", False), ("fresh", None), ("active dry, woken", None)],
)
def test_cold_water_hurts_dry_yeast_by_its_form(form: str, refused: bool | None) -> None:
    """Active dry put in dry is refused at 10 °C, instant warned of, fresh and woken let be."""
    met = yeast_limit_met(form=form, water=10.0)
    assert (met.refuse if met else None) is refused


def test_every_limit_has_a_source_and_says_what_to_do() -> None:
    """Each row explains itself."""
    assert all(row.source and row.why and row.instead for row in YEAST_LIMITS)
