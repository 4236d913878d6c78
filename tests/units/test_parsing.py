"""Times, temperatures, lengths and the rest, and ranges of them."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from doughwright import units
from doughwright.errors import QuantityError
from doughwright.units import Kind, Quantity


def fault_of(parse: Callable[[str], object], text: str) -> tuple[str | None, str | None, str | None]:
    """What is wanted, found and advised."""
    with pytest.raises(QuantityError) as caught:
        parse(text)
    return caught.value.fault.wanted, caught.value.fault.found, caught.value.fault.try_


def range_of_times(text: str) -> tuple[float, float]:
    return units.parse_range(text, units.parse_time)


def test_a_quantity_knows_its_unit_and_its_text() -> None:
    """The unit as the table names it, the text as written, the household measure where it is one."""
    assert units.parse_quantity("12 inches", Kind.LENGTH) == Quantity(
        0.3048, Kind.LENGTH, "in", "12 inches", None
    )
    assert units.parse_quantity("1 Cup", Kind.VOLUME, cups="metric") == Quantity(
        250e-6, Kind.VOLUME, "metric cup", "1 Cup", "cup"
    )


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("90 min", 5400),
        ("1 h 30 min", 5400),
        ("1h30min", 5400),
        ("1.5 h", 5400),
        ("1 1/2 hours", 5400),
        ("1½ h", 5400),
        ("1,5 h", 5400),
        ("1 hr 30 mins", 5400),
        ("1 h 90 min", 9000),
        ("2 days", 172800),
        ("1 day 12 h", 129600),
        ("1 week", 604800),
        ("45 s", 45),
        ("4 min 30 s", 270),
        ("0 min", 0),
    ],
)
def test_times(text: str, seconds: float) -> None:
    """A time in every usual spelling."""
    assert units.parse_time(text) == seconds


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("24 degC", 24),
        ("24 °C", 24),
        ("24°C", 24),
        ("24 C", 24),
        ("24 ºC", 24),
        ("24 ℃", 24),
        ("24 deg C", 24),
        ("24 degrees C", 24),
        ("−18 °C", -18),
        ("–18 °C", -18),
        ("+24 °C", 24),
        ("24,5 °C", 24.5),
        ("212 °F", 100),
        ("212 F", 100),
        ("212 ℉", 100),
        ("-40 °F", -40),
        ("297.15 K", 24),
        ("gas 6", 1840 / 9),
        ("Gas Mark 6", 1840 / 9),
        ("0 °C", 0),
    ],
)
def test_temperatures(text: str, celsius: float) -> None:
    """A temperature in every usual spelling."""
    assert units.parse_temperature(text) == pytest.approx(celsius, rel=1e-14)


@pytest.mark.parametrize(
    ("text", "kelvin"), [("12 °C", 12), ("-8 °C", -8), ("9 °F", 5), ("-9 °F", -5), ("3 K", 3), ("0 °F", 0)]
)
def test_a_temperature_difference_has_no_offset(text: str, kelvin: float) -> None:
    """A step of 9 °F is one of 5 K: the 32 belongs to temperatures alone."""
    assert units.parse_temperature_difference(text) == kelvin


@pytest.mark.parametrize(
    ("parse", "text", "value"),
    [
        (units.parse_length, "30 cm", 0.3),
        (units.parse_length, '12"', 0.3048),
        (units.parse_length, "1 ft 2 in", 0.3556),
        (units.parse_length, "6 mm", 0.006),
        (units.parse_length, "1800 m", 1800),
        (units.parse_length, "0 m", 0),
        (units.parse_fraction, "62 %", 0.62),
        (units.parse_fraction, "62%", 0.62),
        (units.parse_fraction, "62.4 per cent", 0.624),
        (units.parse_fraction, "0 %", 0),
        (units.parse_density, "1.03 g/ml", 1030),
        (units.parse_density, "1.03 g/cm³", 1030),
        (units.parse_density, "920 kg/m³", 920),
        (units.parse_mass, "14 oz", 0.39689332375),
        (units.parse_volume, "2 dl", 2e-4),
        (units.parse_number, "1.5", 1.5),
        (units.parse_number, "1,5", 1.5),
        (units.parse_number, "1 1/2", 1.5),
        (units.parse_number, "0", 0),
    ],
)
def test_the_other_kinds(parse: Callable[[str], float], text: str, value: float) -> None:
    """Lengths, percentages, densities, masses, volumes and plain numbers."""
    assert parse(text) == value


def test_below_the_sea_is_a_height_where_asked_for() -> None:
    """A height may be below zero, a length may not."""
    assert units.parse_length("-3 m", signed=True) == -3
    assert fault_of(units.parse_length, "-3 m")[0] == "a length above zero"


@pytest.mark.parametrize(
    ("parse", "text", "wanted", "advice"),
    [
        (units.parse_time, "-5", "a time", 'Write for example "90 min"'),
        (units.parse_time, "-5 min", "a time above zero", 'Write for example "90 min"'),
        (units.parse_time, "5", "a time with its unit", 'Write for example "90 min"'),
        (
            units.parse_time,
            "30 min 1 h",
            "a time, the largest unit first and each unit once",
            'Write for example "90 min"',
        ),
        (units.parse_time, "1 h 30", "a time with its unit", 'Write for example "90 min"'),
        (units.parse_time, "400 days", "a time of at most 366 days", 'Write for example "90 min"'),
        (units.parse_time, "5 minuts", "a time", 'Did you mean "5 minutes"'),
        (units.parse_time, "5 g", "a time", 'Write for example "90 min"'),
        (units.parse_temperature, "24", "a temperature with its unit", 'Write for example "24 °C"'),
        (
            units.parse_temperature,
            "-300 °C",
            "a temperature from -200 °C to 1000 °C",
            'Write for example "24 °C"',
        ),
        (units.parse_temperature, "gas 0", "a gas mark: ¼, ½, or 1 to 10", 'Write for example "gas 8"'),
        (units.parse_temperature, "gas high", "a gas mark: ¼, ½, or 1 to 10", 'Write for example "gas 8"'),
        (units.parse_temperature, "1 °C 2 °F", "a temperature, one alone", 'Write for example "24 °C"'),
        (units.parse_temperature_difference, "gas 2", "a temperature difference", 'Write for example "4 °C"'),
        (units.parse_mass, "0 g", "a mass above zero", 'Write for example "420 g"'),
        (units.parse_mass, "1 cup", "a mass", 'Write for example "420 g"'),
        (units.parse_length, "20 km", "a length of at most 10 km", 'Write for example "30 cm"'),
        (units.parse_fraction, "0.62", "a percentage with its unit", 'Write for example "62 %"'),
        (units.parse_number, "1.5 g", "a plain number", 'Write for example "1.5"'),
    ],
)
def test_what_is_refused(parse: Callable[[str], float], text: str, wanted: str, advice: str) -> None:
    """The error names what is wanted, what was found and what to write."""
    assert fault_of(parse, text) == (wanted, f'"{text}"', advice)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("10 h to 14 h", 36000, 50400),
        ("10 to 14 h", 36000, 50400),
        ("10-14 h", 36000, 50400),
        ("10–14 h", 36000, 50400),
        ("10 h – 14 h", 36000, 50400),
        ("10\u00a0TO\u00a014 h", 36000, 50400),
        ("45 min to 1 h", 2700, 3600),
        ("1 h 30 min to 2 h", 5400, 7200),
        ("1 1/2-2 h", 5400, 7200),
        ("½ to ¾ h", 1800, 2700),
        ("12 h", 43200, 43200),
    ],
)
def test_ranges_of_times(text: str, low: float, high: float) -> None:
    """The lower end may borrow the unit of the upper; a single value is both ends."""
    assert range_of_times(text) == (low, high)


def test_ranges_below_zero_and_of_gas_marks() -> None:
    """A minus is no dash, and the word gas goes for both ends."""
    assert units.parse_range("-18 to -12 °C", units.parse_temperature) == (-18, -12)
    assert units.parse_range("-18--12 °C", units.parse_temperature) == (-18, -12)
    assert units.parse_range("-18 °C", units.parse_temperature) == (-18, -18)
    assert units.parse_range("gas 4-6", units.parse_temperature) == (
        units.parse_temperature("gas 4"),
        units.parse_temperature("gas 6"),
    )


def test_a_range_of_quantities_has_a_middle() -> None:
    """The two ends as quantities, and halfway between them."""
    found = units.parse_quantity_range("7 to 9 min", Kind.TIME)
    assert (found.low.value, found.high.value, found.middle, found.high.text) == (420, 540, 480, "9 min")
    single = units.parse_quantity_range("8 min", Kind.TIME)
    assert (single.low, single.middle) == (single.high, 480)


@pytest.mark.parametrize(
    ("text", "wanted", "advice"),
    [
        ("14 to 10 h", "a range with the lower end first", 'Write "10 h to 14 h"'),
        ("1-1/2 h", "a range with the lower end first", 'If it is one number, write "1 1/2 h"'),
        ("1 to x", "a time with its unit, or a range of two", 'Write for example "90 min"'),
        ("1 to 1 h 30 min", "a time with its unit, or a range of two", 'Write for example "90 min"'),
        ("1 h to 2 h to 3 h", "one value or one range", 'Write for example "10 h to 14 h"'),
    ],
)
def test_a_range_that_cannot_be_read(text: str, wanted: str, advice: str) -> None:
    """The whole range is quoted, not the half that failed."""
    assert fault_of(range_of_times, text) == (wanted, f'"{text}"', advice)
