"""A general-purpose unit library as second opinion, and what it misreads in a recipe."""

from __future__ import annotations

import random
import warnings
from collections.abc import Iterator
from typing import Any

import pint
import pytest

from doughwright import units
from doughwright.errors import QuantityError
from doughwright.units import Kind

LIBRARY = "pint, a general-purpose unit library (0.25)"
# Ours, the library's name for it, and the library's name for the unit used inside.
UNITS: dict[Kind, tuple[str, dict[str, str]]] = {
    Kind.MASS: ("kg", {"g": "gram", "kg": "kilogram", "mg": "milligram", "oz": "ounce", "lb": "pound"}),
    Kind.VOLUME: (
        "meter ** 3",
        {
            "ml": "milliliter",
            "cl": "centiliter",
            "dl": "deciliter",
            "l": "liter",
            "US cup": "cup",
            "US tbsp": "tablespoon",
            "US tsp": "teaspoon",
            "US fl oz": "fluid_ounce",
            "US pt": "pint",
            "US qt": "quart",
            "US gal": "gallon",
            "imperial pint": "imperial_pint",
            "imperial cup": "imperial_cup",
            "imperial fl oz": "imperial_fluid_ounce",
            "imperial qt": "imperial_quart",
            "imperial gal": "imperial_gallon",
        },
    ),
    Kind.LENGTH: (
        "meter",
        {"mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot"},
    ),
    Kind.TIME: ("second", {"s": "second", "min": "minute", "h": "hour", "d": "day", "week": "week"}),
    Kind.TEMPERATURE: ("degC", {"°C": "degC", "°F": "degF", "K": "kelvin"}),
    Kind.TEMPERATURE_DIFFERENCE: ("delta_degC", {"°C": "delta_degC", "°F": "delta_degF"}),
    Kind.FRACTION: ("dimensionless", {"%": "percent"}),
    Kind.DENSITY: ("kg/m**3", {"g/ml": "g/ml", "kg/m3": "kg/m**3", "g/l": "g/l"}),
}
LARGEST = {"K": 900.0, "week": 50.0, "d": 300.0, "US gal": 500.0, "imperial gal": 500.0, "g/ml": 20.0}


@pytest.fixture(scope="module")
def library() -> Iterator[Any]:
    """The library's table of units."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield pint.UnitRegistry()


def thousand_quantities() -> list[tuple[Kind, str, float, str]]:
    """A thousand quantities: kind, text, number, unit; the same ones each time."""
    draw = random.Random(20261128)
    found = []
    for _ in range(1000):
        kind = draw.choice(list(UNITS))
        unit = draw.choice(list(UNITS[kind][1]))
        low, high = (280.0, 900.0) if unit == "K" else (1.0, LARGEST.get(unit, 900.0))
        if kind is Kind.TEMPERATURE_DIFFERENCE:
            high = 400.0
        number = f"{draw.uniform(low, high):.{draw.choice((0, 1, 2, 4))}f}"
        written = number.replace(".", ",") if draw.random() < 0.3 else number
        found.append((kind, f"{written}{draw.choice(('', ' '))}{unit}", float(number), unit))
    return found


@pytest.mark.outside(
    source=LIBRARY, how="identity", note="1,000 generated quantities of 8 kinds and 40 units"
)
def test_a_thousand_quantities_agree_with_the_second_library(library: Any) -> None:
    """Given the number and the unit apart, both find the same SI value."""
    differing = []
    for kind, text, number, unit in thousand_quantities():
        inside, names = UNITS[kind]
        theirs = library.Quantity(number, names[unit]).to(inside).magnitude
        ours = units.parse_quantity(text, kind).value
        if ours != pytest.approx(theirs, rel=1e-12, abs=1e-10):
            differing.append((text, ours, theirs))
    assert differing == []


# What the library makes of a cook's text, in the unit given; None: it stops, with an error of its own.
MISREADINGS: list[tuple[str, str, float | None, float | None]] = [
    # text, unit, the library's value, ours (None: refused as a thing that can be read two ways)
    ("1,5 kg", "kilogram", 15, 1.5),
    ("2,25 kg", "kilogram", 225, 2.25),
    ("1,500 g", "gram", 1500, None),
    ("1 1/2 tsp", "teaspoon", 0.5, 1.5),
    ("1½ tsp", "teaspoon", 1, 1.5),
    ("½ cup", "cup", None, 0.5),
    ("1 500 g", "gram", 500, None),
    ("1 lb 4 oz", "pound * ounce", 4, None),
    ("1 h 30 min", "hour * minute", 30, None),
    ("2 fl oz", "femtoliter * ounce", 2, None),
    ("24 °C", "degC", None, 24),
    ("475 °F", "degC", None, 246.11111111111111),
    ("475 F", "farad", 475, None),
    ("24 C", "coulomb", 24, None),
    ("1 pinch", "picoinch", 1, None),
    ("1 T", "tesla", 1, None),
    ("1 t", "metric_ton", 1, None),
    ("1 c", "speed_of_light", 1, None),
    ("2 large", "dimensionless", None, None),
]


@pytest.mark.outside(
    source=LIBRARY, how="identity", note="its known misreadings of a cook's texts, tried live"
)
@pytest.mark.parametrize(("text", "unit", "theirs", "ours"), MISREADINGS, ids=[row[0] for row in MISREADINGS])
def test_what_the_second_library_misreads(
    library: Any, text: str, unit: str, theirs: float | None, ours: float | None
) -> None:
    """Why it serves as a second opinion on factors only, and not as the reader."""
    if theirs is None:
        with pytest.raises(Exception, match=r"."):
            library.parse_expression(text)
    else:
        assert library.parse_expression(text).to(unit).magnitude == pytest.approx(theirs)
    if ours is not None:
        assert read_by_us(text, unit) == pytest.approx(ours)


def read_by_us(text: str, unit: str) -> float:
    """Our reading, in the same unit."""
    if unit == "degC":
        return units.parse_temperature(text)
    value = units.parse_amount(text).value
    assert value is not None
    return value / {"kilogram": 1, "teaspoon": 4.92892159375e-6, "cup": 236.5882365e-6}[unit]


@pytest.mark.parametrize(
    ("text", "value"),
    [("1 lb 4 oz", 0.5669904625), ("2 fl oz", 59.147059125e-6), ("1 pinch", 1), ("2 large", 2)],
)
def test_we_read_what_the_library_multiplies(text: str, value: float) -> None:
    """Compound amounts, fluid ounces, pinches and counts."""
    assert units.parse_amount(text).value == pytest.approx(value)


@pytest.mark.parametrize("text", ["1,500 g", "1 500 g", "1 T", "1 t", "1 c", "475 F"])
def test_we_refuse_as_an_amount_what_can_be_read_two_ways(text: str) -> None:
    """No guess is made."""
    with pytest.raises(QuantityError):
        units.parse_amount(text)
