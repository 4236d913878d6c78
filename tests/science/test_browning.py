"""Browning: each form in its range, the factor of a dough, colours and words."""

from __future__ import annotations

import numpy as np
import pytest

from doughwright.errors import OutOfRangeError
from doughwright.science.browning import (
    COLOUR_WORDS,
    CRUST_PATH,
    browning_factor,
    browning_rate_purlis_2009,
    browning_rate_zanoni_1995,
    colour_change_zanoni_1995,
    colour_word,
    crust_lab,
    lightness_of_change,
    lightness_purlis_2009,
)
from doughwright.science.oven_parameters import OvenParameters

P = OvenParameters()


@pytest.mark.parametrize("wrong", [139.0, 251.0, np.nan])
def test_zanoni_s_form_keeps_to_its_plate(wrong: float) -> None:
    """140 to 250 °C were measured; further only for who asks."""
    with pytest.raises(OutOfRangeError, match="140 to 250 degC"):
        browning_rate_zanoni_1995(temperature=wrong)


def test_zanoni_s_form_goes_on_where_it_is_told_to() -> None:
    """A face that warms from 90 °C up: the same formula, halved about every 15 K down."""
    inside = browning_rate_zanoni_1995(temperature=200.0)
    assert browning_rate_zanoni_1995(temperature=200.0, extrapolate=True) == inside
    cool = browning_rate_zanoni_1995(temperature=90.0, extrapolate=True)
    assert cool / browning_rate_zanoni_1995(temperature=140.0) < 0.1
    with pytest.raises(OutOfRangeError):
        browning_rate_zanoni_1995(temperature=601.0, extrapolate=True)


@pytest.mark.parametrize(("temperature", "activity"), [(149.0, 0.3), (221.0, 0.06), (215.0, 0.049)])
def test_purlis_s_form_refuses_a_cool_hot_or_bone_dry_face(temperature: float, activity: float) -> None:
    """150 to 220 °C, water activity from 0.05; the message names the other form."""
    with pytest.raises(OutOfRangeError, match="Use Zanoni's form"):
        browning_rate_purlis_2009(temperature=temperature, activity=activity)


@pytest.mark.property
def test_a_crust_never_gets_past_burnt_nor_brighter() -> None:
    """Zanoni's change ends at 52, Purlis's lightness at 0; two steps are one of their sum."""
    assert colour_change_zanoni_1995(change=10.0, rate=1.0, seconds=1e3) == pytest.approx(52.0)
    half = colour_change_zanoni_1995(change=10.0, rate=0.004, seconds=60.0)
    assert colour_change_zanoni_1995(change=half, rate=0.004, seconds=60.0) == pytest.approx(
        colour_change_zanoni_1995(change=10.0, rate=0.004, seconds=120.0)
    )
    assert lightness_purlis_2009(lightness=85.0, rate=0.002, seconds=np.array([0.0, 1e9])) == pytest.approx(
        [85.0, 0.0]
    )


def factor(sugar: float = 0.0, hours: float = 24.0, milk: float = 0.0, malt: float = 0.0) -> float:
    found = browning_factor(sugar_left=sugar, hours=hours, milk_sugar=milk, malt=malt, parameters=P)
    return float(found.value)


def test_a_dough_browns_by_the_sugar_it_has_left() -> None:
    """1.6 from 1 % up, 1.0 at 0.5 % and below, half way between at 0.75; 1.0 under 3 h old."""
    found = [factor(sugar) for sugar in (0.0, 0.5, 0.75, 1.0, 4.0)]
    assert found == pytest.approx([1.0, 1.0, 1.3, 1.6, 1.6])
    assert (factor(4.0, hours=2.9), factor(4.0, hours=3.0)) == pytest.approx((1.0, 1.6))


def test_milk_and_malt_add_a_little_with_a_wide_spread() -> None:
    """0.15 for each per cent, 0.4 at most; half of what they add is one standard deviation of it."""
    assert factor(1.0, milk=1.0) == pytest.approx(1.75)
    assert factor(1.0, milk=5.0, malt=5.0) == pytest.approx(2.0)
    found = browning_factor(sugar_left=0.0, hours=24.0, milk_sugar=2.0, malt=0.0, parameters=P)
    assert (found.value, found.spread) == pytest.approx((1.3, np.hypot(0.3, 0.15)))


def test_the_words_meet_at_their_ends() -> None:
    """Pale above 72, golden to 60, brown to 50, dark to 43.6, burnt below; the rows touch."""
    words = [colour_word(lightness=one) for one in (100, 72.1, 72, 60, 59.9, 50, 49.9, 43.6, 43.5, 0)]
    assert words == [
        "pale", "pale", "golden", "golden", "brown", "brown", "dark", "dark", "burnt", "burnt",
    ]  # fmt: skip
    assert [low for _, low, _ in COLOUR_WORDS[:-1]] == [high for _, _, high in COLOUR_WORDS[1:]]


@pytest.mark.property
def test_burnt_begins_where_the_colour_change_says() -> None:
    """The table's char is the lightness the words call burnt."""
    assert lightness_of_change(change=P.char, parameters=P) == pytest.approx(43.6)


@pytest.mark.property
def test_a_crust_s_colour_runs_through_the_published_ends() -> None:
    """Raw -0.5, 18; a* rises to 10 to 15, b* to about 30 and falls when dark; retail bread at L* 52."""
    light, a, b = crust_lab(lightness=np.array([88.0, 62.0, 52.2, 40.0]))
    assert light.shape == a.shape == b.shape
    assert (a[0], b[0]) == (-0.5, 18.0)
    assert b[1] == pytest.approx(30.0)
    assert 10.0 <= a[2] <= 15.0
    assert b[3] < b[2] < b[1]
    lightnesses = [row[0] for row in CRUST_PATH]
    assert lightnesses == sorted(lightnesses)
