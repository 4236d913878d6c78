"""Colour: sRGB, CIE L*a*b* and contrast, against the standards' own values."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.science.colour import (
    coded_iec_61966,
    contrast_wcag,
    difference_cie_1976,
    lab_cie_1976,
    linear_iec_61966,
    srgb_of_lab,
)

CODED = st.floats(0.0, 1.0)


@pytest.mark.outside(source="IEC 61966-2-1:1999, the knee of the transfer curve", how="identity")
def test_the_gamma_has_its_knee_where_the_standard_puts_it() -> None:
    """Both branches give 0.0031308 at 0.04045."""
    assert linear_iec_61966(srgb=(0.04045, 0.04045, 0.04045))[0] == pytest.approx(0.0031308, abs=5e-8)


@pytest.mark.outside(source="CIE 15:2004: the white of the scale; red from memory", how="identity")
@pytest.mark.parametrize(
    ("srgb", "lab"),
    [
        ((1.0, 1.0, 1.0), (100.0, 0.0, 0.0)),
        ((0.0, 0.0, 0.0), (0.0, 0.0, 0.0)),
        ((1.0, 0.0, 0.0), (53.24, 80.09, 67.20)),
    ],
)
def test_known_colours_have_their_lab(srgb: tuple[float, ...], lab: tuple[float, ...]) -> None:
    """White, black, and the red primary as tabulated for D65; tables differ by the matrix's fourth digit."""
    assert lab_cie_1976(srgb=srgb) == pytest.approx(lab, abs=0.03)


@pytest.mark.outside(source="CIE 15:2004: L* 50 is a luminance of 18.42 %", how="identity")
def test_half_lightness_is_a_luminance_of_eighteen_per_cent() -> None:
    """The photographer's grey."""
    grey = coded_iec_61966(linear=(0.184187, 0.184187, 0.184187))
    assert lab_cie_1976(srgb=grey)[0] == pytest.approx(50.0, abs=0.005)


@pytest.mark.outside(
    source="W3C WCAG 2.2: 21 to 1; #767676 is the darkest grey that just passes", how="identity"
)
def test_contrast_is_that_of_the_guidelines() -> None:
    """Black on white is 21; the well-known grey is 4.54."""
    grey = 0x76 / 255.0
    assert contrast_wcag(one=(0.0, 0.0, 0.0), other=(1.0, 1.0, 1.0)) == pytest.approx(21.0)
    assert contrast_wcag(one=(1.0, 1.0, 1.0), other=(grey, grey, grey)) == pytest.approx(4.54, abs=0.005)


@pytest.mark.property
@given(st.tuples(CODED, CODED, CODED))
def test_a_colour_comes_back_from_lab(srgb: tuple[float, float, float]) -> None:
    """There and back within a tenth of what a screen can show."""
    assert srgb_of_lab(lab=lab_cie_1976(srgb=srgb)) == pytest.approx(srgb, abs=4e-4)


@pytest.mark.property
def test_a_colour_beyond_the_screen_is_held_at_its_edge() -> None:
    """A green that no screen has comes out within 0 to 1."""
    assert all(0.0 <= part <= 1.0 for part in srgb_of_lab(lab=(60.0, -128.0, 100.0)))


@pytest.mark.property
def test_the_difference_of_two_colours_is_their_distance() -> None:
    """3, 4 and 12 make 13."""
    assert difference_cie_1976(one=(50.0, 0.0, 0.0), other=(53.0, 4.0, 12.0)) == pytest.approx(13.0)
