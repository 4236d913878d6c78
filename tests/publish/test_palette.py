"""The palette and the temperature scale read without hue, in both schemes and on paper."""

from __future__ import annotations

from itertools import pairwise

import pytest

from doughwright.publish.palette import (
    DARK,
    LIGHT,
    srgb_of,
    temperature_colour,
    temperature_lab,
    word_colour,
)
from doughwright.science.colour import contrast_wcag, difference_cie_1976, lab_cie_1976, linear_iec_61966

# Seen without a cone, as rows on linear sRGB: Vienot, Brettel and Mollon 1999, from memory.
WITHOUT = {
    "red": ((0.11238, 0.88762, 0.0), (0.11238, 0.88762, 0.0), (0.00401, -0.00401, 1.0)),
    "green": ((0.29275, 0.70725, 0.0), (0.29275, 0.70725, 0.0), (-0.02234, 0.02234, 1.0)),
}
LUMINANCE = (0.2126, 0.7152, 0.0722)


def contrast(one: str, other: str) -> float:
    return contrast_wcag(one=srgb_of(one), other=srgb_of(other))


def lightness_without(cone: str, colour: str) -> float:
    linear = linear_iec_61966(srgb=srgb_of(colour))
    seen = [sum(a * b for a, b in zip(row, linear, strict=True)) for row in WITHOUT[cone]]
    y = sum(a * b for a, b in zip(LUMINANCE, seen, strict=True))
    return 116.0 * y ** (1.0 / 3.0) - 16.0


@pytest.mark.property
def test_lightness_falls_at_every_four_degrees() -> None:
    """Hotter is darker, as the screen shows it."""
    shown = [lab_cie_1976(srgb=srgb_of(temperature_colour(float(t))))[0] for t in range(0, 301, 4)]
    assert all(hot < cold for cold, hot in pairwise(shown))


@pytest.mark.outside(
    source="Vienot, Brettel & Mollon 1999, dichromat simulation (from memory)", how="predicted"
)
@pytest.mark.parametrize("cone", ["red", "green"])
def test_lightness_falls_without_a_cone(cone: str) -> None:
    """Who lacks the red or the green cone reads the same scale."""
    shown = [lightness_without(cone, temperature_colour(float(t))) for t in range(0, 301, 4)]
    assert all(hot < cold for cold, hot in pairwise(shown))


@pytest.mark.property
@pytest.mark.parametrize(
    ("degrees", "colour"),
    [(0, "#aee4ff"), (8, "#c4d7dd"), (20, "#d7b99a"), (40, "#cf8051"), (100, "#ac5332"), (250, "#482624")],
)
def test_the_scale_has_its_colours(degrees: int, colour: str) -> None:
    """One temperature, one colour, wherever it is drawn."""
    assert temperature_colour(float(degrees)) == colour


@pytest.mark.property
def test_neighbouring_fridges_and_rooms_can_be_told_apart() -> None:
    """5 and 8 °C differ by about 8 in L*a*b*, 18 and 22 °C by about 10."""
    assert difference_cie_1976(one=temperature_lab(5.0), other=temperature_lab(8.0)) == pytest.approx(
        8, abs=1
    )
    assert difference_cie_1976(one=temperature_lab(18.0), other=temperature_lab(22.0)) == pytest.approx(
        10, abs=1
    )


@pytest.mark.property
def test_beyond_its_ends_the_scale_stays_at_its_end() -> None:
    """Nothing is extrapolated into a colour that means something else."""
    assert temperature_colour(-20.0) == temperature_colour(0.0)
    assert temperature_colour(400.0) == temperature_colour(300.0)


@pytest.mark.outside(source="W3C WCAG 2.2, 1.4.3: 4.5 to 1 for text", how="predicted")
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "fridge", "oven", "wash"])
def test_words_can_be_read_on_every_ground(palette: dict[str, str], ground: str) -> None:
    """Ink and soft text, and what moved, on all grounds."""
    least = min(contrast(palette[word], palette[ground]) for word in ("ink", "soft", "accent"))
    assert least >= 4.5


@pytest.mark.outside(source="W3C WCAG 2.2, 1.4.11: 3 to 1 for what carries meaning", how="predicted")
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "fridge", "oven"])
def test_lines_stand_out_from_every_ground(palette: dict[str, str], ground: str) -> None:
    """Axes, leaders and edges."""
    assert min(contrast(palette[line], palette[ground]) for line in ("line", "ink", "accent")) >= 3.0


@pytest.mark.outside(source="W3C WCAG 2.2, 1.4.3: 4.5 to 1 for text", how="predicted")
def test_words_can_be_read_on_the_dough() -> None:
    """Dark words up to 40 °C, light ones from 95 °C, and none where neither can be read."""
    for degrees in [*range(41), *range(95, 301)]:
        word = word_colour(float(degrees))
        assert word is not None
        assert contrast(word, temperature_colour(float(degrees))) >= 4.5
    assert word_colour(60.0) is None
