"""Units held against the standards that define them."""

from __future__ import annotations

import pytest

from doughwright import units

SP811 = "NIST SP 811, appendix B.8 (from memory, sure)"
US_VOLUMES = "NIST SP 811, appendix B.8, and NIST Handbook 44, appendix C (a secondary copy was read)"
UK_VOLUMES = "Weights and Measures Act 1985 (UK), and NIST SP 811 (from memory, sure)"
GAS = "UK gas mark table (a secondary copy was read)"


@pytest.mark.outside(source=SP811, how="identity", note="exact by definition")
@pytest.mark.parametrize(("unit", "grams"), [("lb", 453.59237), ("oz", 28.349523125)])
def test_pound_and_ounce(unit: str, grams: float) -> None:
    """The avoirdupois pound and ounce to their last digit."""
    assert units.convert(1, unit, "g") == pytest.approx(grams, rel=1e-15)
    assert units.parse_mass(f"1 {unit}") == pytest.approx(grams / 1000, rel=1e-15)


@pytest.mark.outside(source=US_VOLUMES, how="identity", note="exact: the gallon is 231 cubic inches")
@pytest.mark.parametrize(
    ("unit", "millilitres"),
    [
        ("gallon", 3785.411784),
        ("quart", 946.352946),
        ("pint", 473.176473),
        ("cup", 236.5882365),
        ("fl oz", 29.5735295625),
        ("tbsp", 14.78676478125),
        ("tsp", 4.92892159375),
    ],
)
def test_us_volumes(unit: str, millilitres: float) -> None:
    """Each US kitchen measure to its last digit."""
    assert units.convert(1, f"US {unit}", "ml") == pytest.approx(millilitres, rel=1e-15)
    assert units.parse_volume(f"1 {unit}", cups="US") == pytest.approx(millilitres * 1e-6, rel=1e-15)


@pytest.mark.outside(source=UK_VOLUMES, how="identity", note="exact; the cup is 10 fl oz")
@pytest.mark.parametrize(
    ("unit", "millilitres"),
    [
        ("gallon", 4546.09),
        ("quart", 1136.5225),
        ("pint", 568.26125),
        ("fl oz", 28.4130625),
        ("cup", 284.130625),
    ],
)
def test_imperial_volumes(unit: str, millilitres: float) -> None:
    """Each imperial measure to its last digit."""
    assert units.convert(1, f"imperial {unit}", "ml") == pytest.approx(millilitres, rel=1e-15)
    assert units.parse_volume(f"1 {unit}", cups="imperial") == pytest.approx(millilitres * 1e-6, rel=1e-15)


@pytest.mark.outside(source="AS 1325 (from memory, sure); the 15 ml spoon is common practice", how="identity")
@pytest.mark.parametrize(("unit", "millilitres"), [("cup", 250), ("tbsp", 15), ("tsp", 5)])
def test_metric_kitchen_measures(unit: str, millilitres: float) -> None:
    """The metric cup and spoons."""
    assert units.parse_volume(f"1 {unit}", cups="metric") == pytest.approx(millilitres * 1e-6, rel=1e-15)


@pytest.mark.outside(source=SP811, how="identity", note="exact by definition")
def test_an_inch_is_2_54_cm() -> None:
    """And so a 12 in stone is 30.48 cm across, a foot the same."""
    assert units.parse_length("1 in") == 0.0254
    assert (units.parse_length("12 in"), units.parse_length("1 ft")) == (0.3048, 0.3048)


@pytest.mark.outside(source=SP811, how="identity", note="degC = (degF - 32)/1.8")
@pytest.mark.parametrize(
    ("text", "celsius", "half_a_digit"),
    [
        ("475 °F", 246.1, 0.05),
        ("41 °F", 5.0, 0.05),
        ("165 °F", 73.9, 0.05),
        ("32 °F", 0, 1e-12),
        ("212 °F", 100, 1e-12),
    ],
)
def test_fahrenheit(text: str, celsius: float, half_a_digit: float) -> None:
    """Temperatures that recipes and food codes use, to the last printed digit."""
    assert units.parse_temperature(text) == pytest.approx(celsius, abs=half_a_digit)


@pytest.mark.outside(source=SP811, how="identity", note="degF = 1.8 degC + 32")
def test_250_celsius_is_482_fahrenheit() -> None:
    """The hottest many home ovens get."""
    assert units.convert(250, "degC", "degF") == pytest.approx(482, abs=1e-12)
    assert units.format_temperature(250, "US") == "482 °F"


@pytest.mark.outside(source=SP811, how="identity", note="a temperature difference has no 32 offset")
def test_a_difference_of_18_fahrenheit_is_10_kelvin() -> None:
    """As a temperature the same text is below freezing."""
    assert units.parse_temperature_difference("18 °F") == 10
    assert units.parse_temperature("18 °F") == pytest.approx(-7.8, abs=0.05)


@pytest.mark.outside(source="NIST SP 811: the thermochemical calorie; USDA uses the same", how="identity")
def test_a_kilocalorie_is_4_184_kilojoules() -> None:
    """The kilocalorie of food tables."""
    assert units.convert(1, "kcal", "kJ") == pytest.approx(4.184, rel=1e-15)


@pytest.mark.outside(source=GAS, how="identity", note="degC rounded to whole degrees")
@pytest.mark.parametrize(
    ("mark", "fahrenheit", "celsius"),
    [
        ("¼", 225, 107),
        ("½", 250, 121),
        ("1", 275, 135),
        ("2", 300, 149),
        ("3", 325, 163),
        ("4", 350, 177),
        ("5", 375, 191),
        ("6", 400, 204),
        ("7", 425, 218),
        ("8", 450, 232),
        ("9", 475, 246),
        ("10", 500, 260),
    ],
)
def test_gas_marks(mark: str, fahrenheit: float, celsius: float) -> None:
    """Each mark of the table, in both degrees."""
    found = units.parse_temperature(f"gas {mark}")
    assert units.convert(found, "degC", "degF") == pytest.approx(fahrenheit, abs=1e-9)
    assert found == pytest.approx(celsius, abs=0.5)
    assert units.parse_temperature(f"gas mark {mark}") == found
