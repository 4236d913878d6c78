"""Steam: ranges, inverses and slopes."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.steam import (
    VAPOUR_GAS,
    ZERO_CELSIUS,
    atmosphere,
    boiling_point,
    boiling_rise,
    boiling_slope,
    latent_heat,
    saturation_pressure_iapws_1992,
    vapour_density_slope,
    water_activity,
)

P = OvenParameters()


@pytest.mark.property
def test_the_boiling_point_undoes_the_saturation_pressure() -> None:
    """From 10 to 195 °C, to 1e-9 K, in any shape."""
    t = np.linspace(10.0, 195.0, 38).reshape(2, 19)
    found = boiling_point(pressure=saturation_pressure_iapws_1992(temperature=t))
    assert found == pytest.approx(t, abs=1e-9)


@pytest.mark.property
def test_the_slope_of_the_boiling_curve_is_its_own() -> None:
    """As a difference of the curve, from nearly dry to wet."""
    x = np.geomspace(1e-3, 2.0, 30)
    step = 1e-6 * x
    fall = boiling_rise(moisture=x - step, parameters=P) - boiling_rise(moisture=x + step, parameters=P)
    assert boiling_slope(moisture=x, parameters=P) == pytest.approx(fall / (2.0 * step), rel=1e-5)


@pytest.mark.property
def test_water_activity_goes_from_nothing_to_one() -> None:
    """0 where bone dry, a half at the moisture of its row, 1 in the limit; as the boiling curve has it."""
    found = water_activity(moisture=np.array([0.0, P.sorption_moisture, 100.0]), parameters=P)
    assert found == pytest.approx([0.0, 0.5, 1.0], abs=1e-7)
    x = np.array([0.02, 0.1, 0.5])
    rise = boiling_rise(moisture=x, parameters=P)
    assert water_activity(moisture=x, parameters=P) == pytest.approx(
        np.exp(-P.boiling_rise * rise), rel=1e-12
    )


@pytest.mark.property
def test_the_slope_of_the_vapour_s_density() -> None:
    """As a difference of p/(R T), to 3 %: the formula takes Clapeyron's vapour as an ideal gas."""
    t = np.linspace(5.0, 110.0, 22)

    def density(at: np.ndarray) -> np.ndarray:
        return saturation_pressure_iapws_1992(temperature=at) / (VAPOUR_GAS * (at + ZERO_CELSIUS))

    assert vapour_density_slope(temperature=t) == pytest.approx(
        (density(t + 0.01) - density(t - 0.01)) / 0.02, rel=0.03
    )


@pytest.mark.parametrize("wrong", [-1.0, 201.0, np.nan, np.inf])
def test_the_latent_heat_refuses_beyond_its_range(wrong: float) -> None:
    """One wrong element of an array is enough, and the message names it and the range."""
    with pytest.raises(OutOfRangeError, match="needs 0 to 200 degC, found"):
        latent_heat(temperature=np.array([100.0, wrong]))


def test_steam_refuses_what_it_does_not_know() -> None:
    """Pressures, heights and moistures outside their ranges."""
    with pytest.raises(OutOfRangeError):
        saturation_pressure_iapws_1992(temperature=374.0)
    with pytest.raises(OutOfRangeError):
        atmosphere(altitude=9500.0)
    with pytest.raises(OutOfRangeError):
        boiling_point(pressure=0.0)
    with pytest.raises(OutOfRangeError):
        water_activity(moisture=-0.1, parameters=P)
    for curve in (boiling_rise, boiling_slope):
        with pytest.raises(OutOfRangeError, match="more than 0"):
            curve(moisture=0.0, parameters=P)
