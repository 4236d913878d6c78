"""Setting: starch, yeast and the rule for set dough."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.oven_parameters import OvenParameters
from doughwright.science.setting import (
    gelatinisation_rate_zanoni_1995,
    gelatinised,
    is_set,
    yeast_death_bigelow,
)

P = OvenParameters()


@pytest.mark.property
def test_starch_goes_one_way_whatever_the_step() -> None:
    """Two steps are one of their sum; never past 1, never back, not even in a crust."""
    once = gelatinised(share=0.2, rate=0.01, seconds=60.0)
    twice = gelatinised(share=gelatinised(share=0.2, rate=0.01, seconds=20.0), rate=0.01, seconds=40.0)
    assert once == pytest.approx(twice)
    crust = gelatinisation_rate_zanoni_1995(temperature=230.0, extrapolate=True)
    assert gelatinised(share=0.2, rate=crust, seconds=60.0) == 1.0


def test_the_rate_is_for_doughs_that_bake_unless_told_to_go_on() -> None:
    """Past 110 °C it refuses; extrapolated it is the same formula."""
    with pytest.raises(OutOfRangeError, match="40 to 110 degC"):
        gelatinisation_rate_zanoni_1995(temperature=np.array([80.0, 120.0]))
    both = [gelatinisation_rate_zanoni_1995(temperature=80.0, extrapolate=one) for one in (False, True)]
    assert both[0] == both[1]
    with pytest.raises(OutOfRangeError):
        gelatinised(share=1.2, rate=0.01, seconds=1.0)


def test_dough_sets_by_heat_or_by_its_starch() -> None:
    """80 °C will do, and so will 98 %."""
    found = is_set(
        temperature=np.array([79.9, 80.0, 70.0]), gelatinised=np.array([0.5, 0.5, 0.98]), parameters=P
    )
    assert found.tolist() == [False, True, True]


@pytest.mark.property
def test_yeast_dies_ten_times_faster_five_degrees_hotter() -> None:
    """A tenth left after 18 s at 60 °C; bounded in the hottest crust."""
    found = yeast_death_bigelow(temperature=np.array([60.0, 65.0, 400.0]), parameters=P)
    assert 18.0 * found[:2] == pytest.approx([1.0, 10.0])
    assert np.isfinite(found).all()
    with pytest.raises(OutOfRangeError):
        yeast_death_bigelow(temperature=700.0, parameters=P)
