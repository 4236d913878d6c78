"""Amounts rewritten, numbers written down, units converted."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from doughwright import units
from doughwright.errors import QuantityError


@pytest.mark.parametrize(
    ("text", "factor", "becomes"),
    [
        ("½ cup", 2, "1 cup"),
        ("½ cup", 3, "1½ cups"),
        ("1½ cups", 1 / 3, "½ cup"),
        ("1 1/2 tsp", 2, "3 tsp"),
        ("1/4 tsp", 3, "3/4 tsp"),
        ("1 cup", 0.5, "1/2 cup"),
        ("1 cup", 2, "2 cups"),
        ("2 cups", 0.25, "1/2 cup"),
        ("1 US cup", 3, "3 US cups"),
        ("2 tbsp", 0.7, "1.4 tbsp"),
        ("2 tbsp.", 2, "4 tbsp."),
        ("2 cup", 2, "4 cup"),
        ("1,5 kg", 2, "3 kg"),
        ("1,5 kg", 0.75, "1,1250 kg"),
        ("0,35 g", 0.1, "0,0350 g"),
        ("1,2 g", 0.5, "0,6 g"),
        ("420 g", 4 / 3, "560 g"),
        ("420 g", 1.333, "559.86 g"),
        ("100 g", 1 / 3, "33.33333 g"),
        ("420g", 2, "840g"),
        ("0.8 g", 1.1, "0.88 g"),
        ("0.1 g", 1e-4, "0.00001 g"),
        ("1 lb 4 oz", 2, "2 lb 8 oz"),
        ("1 lb 4 oz", 0.5, "10 oz"),
        ("1 lb 4 oz", 10, "12 lb 8 oz"),
        ("1 lb, 4 oz", 1.05, "1 lb, 5 oz"),
        ("1 lb 15.99999999 oz", 2, "4 lb"),
        ("1 kg 200 g", 1.5, "1 kg 800 g"),
        ("1 lb 100 g", 2, "2 lb 200 g"),
        ("1 cup + 2 tbsp", 2, "2 cups + 4 tbsp"),
        ("62 %", 2, "124 %"),
        ("2 large", 0.5, "1 large"),
        ("2 large", 0.75, "1 1/2 large"),
        ("3 cloves", 1 / 3, "1 clove"),
        ("1 leaf", 2, "2 leaves"),
        ("1 octopus", 2, "2 octopus"),
        ("a pinch", 3, "3 pinches"),
        ("2 pinches", 0.5, "1 pinch"),
        ("to taste", 7, "to taste"),
        ("all", 7, "all"),
        (" 420\u00a0g ", 2, " 840\u00a0g "),
        ("1.50 kg", 1, "1.50 kg"),
    ],
)
def test_an_amount_is_rewritten_in_its_own_notation(text: str, factor: float, becomes: str) -> None:
    """The unit, the decimal sign, fractions, blanks and spelling stay."""
    assert units.rewrite(text, factor) == becomes


@pytest.mark.parametrize("factor", [0, -1, float("nan"), float("inf"), 1e300, 1e-300])
def test_a_factor_that_makes_no_amount_is_refused(factor: float) -> None:
    """Nothing, less than nothing, and what no kitchen has."""
    with pytest.raises(QuantityError):
        units.rewrite("420 g", factor)


@pytest.mark.parametrize(
    ("write", "value", "text"),
    [
        (units.format_mass, 0.42, "420 g"),
        (units.format_mass, 0.00012, "0.12 g"),
        (units.format_mass, 0.0624, "62.4 g"),
        (units.format_mass, 1.5, "1500 g"),
        (units.format_mass, 9.9996, "10 kg"),
        (units.format_mass, 12.346, "12.35 kg"),
        (units.format_mass, 0, "0 g"),
        (units.format_mass, 0.0000035, "0.0035 g"),
        (units.format_mass, 0.00999, "10 g"),
        (units.format_volume, 5e-6, "5 ml"),
        (units.format_volume, 0.00025, "250 ml"),
        (units.format_volume, 0.00125, "1.25 l"),
        (units.format_time, 5400, "1 h 30 min"),
        (units.format_time, 270, "4 min 30 s"),
        (units.format_time, 0, "0 min"),
        (units.format_time, 259200, "72 h"),
        (units.format_time, 5429, "1 h 30 min"),
        (units.format_time, 3599.9, "1 h"),
        (units.format_temperature, 24, "24 °C"),
        (units.format_temperature, 24.54, "24.5 °C"),
        (units.format_temperature, -0.01, "0 °C"),
        (units.format_length, 0.3, "30 cm"),
        (units.format_length, 0.006, "6 mm"),
        (units.format_length, 1800, "1800 m"),
        (units.format_length, -3, "-3 m"),
        (units.format_length, 0, "0 cm"),
        (units.format_fraction, 0.62, "62 %"),
        (units.format_fraction, 0.6244, "62.4 %"),
        (units.format_fraction, 0.0035, "0.35 %"),
        (units.format_fraction, 0, "0 %"),
    ],
)
def test_numbers_are_written_with_the_digits_a_kitchen_can_use(
    write: Callable[[float], str], value: float, text: str
) -> None:
    """Three digits at most, fewer where a scale or a dial has fewer, no zeros at the end."""
    assert write(value) == text


def test_numbers_are_written_for_a_us_kitchen() -> None:
    """Pounds and ounces, degrees Fahrenheit, inches, feet."""
    written = [
        units.format_mass(0.42, "US"),
        units.format_mass(0.5669904625, "US"),
        units.format_mass(0.45359237, "US"),
        units.format_temperature(246.111, "US"),
        units.format_temperature(5, "US", difference=True),
        units.format_length(0.3048, "US"),
        units.format_length(1800, "US"),
    ]
    assert written == ["14.8 oz", "1 lb 4 oz", "1 lb", "475 °F", "9 °F", "12 in", "5906 ft"]


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1.0])
def test_what_is_unknown_or_impossible_is_not_written_down(value: float) -> None:
    """Unknown has a reason, which the caller says."""
    with pytest.raises(QuantityError):
        units.format_mass(value)


def test_an_unknown_system_is_refused() -> None:
    """Metric and US are written; nothing else."""
    with pytest.raises(QuantityError):
        units.format_mass(1.0, "troy")


@pytest.mark.parametrize(
    ("value", "unit", "to", "expected"),
    [
        (1, "g/cm2", "kg/m2", 10),
        (1, "kcal", "kJ", 4.184),
        (2, "h", "min", 120),
        (0, "degC", "K", 273.15),
        (1, "dash", "pinch", 2),
        (100, "in2", "cm2", 645.16),
        (0.62, "%", "%", 0.62),
        (float("inf"), "g", "kg", float("inf")),
    ],
)
def test_units_are_converted(value: float, unit: str, to: str, expected: float) -> None:
    """From one unit to another of its kind."""
    assert units.convert(value, unit, to) == pytest.approx(expected, rel=1e-14)


def test_degrees_as_steps_are_converted_without_their_offset() -> None:
    """A step of 9 °F is one of 5 °C."""
    assert units.convert(9, "degF", "degC", difference=True) == 5


@pytest.mark.parametrize(("unit", "to"), [("g", "ml"), ("g", "degC"), ("grm", "g"), ("", "g")])
def test_units_that_do_not_go_together_are_refused(unit: str, to: str) -> None:
    """Grams become millilitres only through an ingredient."""
    with pytest.raises(QuantityError):
        units.convert(1, unit, to)
