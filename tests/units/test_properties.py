"""What holds of every quantity and of every text."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from doughwright import units
from doughwright.errors import QuantityError
from doughwright.units import Kind

pytestmark = pytest.mark.property
PARSERS: list[Callable[[str], object]] = [
    units.parse_amount,
    lambda text: units.parse_amount(text, cups="metric"),
    units.parse_mass,
    units.parse_volume,
    units.parse_length,
    units.parse_time,
    units.parse_temperature,
    units.parse_temperature_difference,
    units.parse_fraction,
    units.parse_density,
    units.parse_number,
    lambda text: units.parse_range(text, units.parse_time),
    lambda text: units.parse_range(text, units.parse_temperature),
    lambda text: units.parse_quantity_range(text, Kind.NUMBER),
    lambda text: units.rewrite(text, 0.37),
]
WORDS = (
    "1/2 ½ 1_1/2 , . - – − / + to and x g kg oz lb cup cups tsp fl_oz pint ml % °C °F K gas mark h min days "
    "in cm kg/m3 large cloves pinch a taste all US imperial heaped nan inf e ４ ٤ ² ß İ ⅒ ⁄ ( ) ~ about 🥚"
)
UNSEEN = ["\u00a0", "\u200b", "\x00", "\ud800", "\t"]
PIECES = [*"0123456789", " ", '"', *(word.replace("_", " ") for word in WORDS.split()), *UNSEEN]
NUMBERS = st.one_of(
    st.integers(1, 400).map(str),
    st.decimals("0.001", "400", places=2).map(str),
    st.sampled_from(["½", "1½", "1 1/2", "3/4", "2 ⅔", "0,35", "12,5", "1.25"]),
)
UNITS = st.sampled_from(
    [
        "g",
        "kg",
        "oz",
        "lb",
        "ml",
        "l",
        "cup",
        "cups",
        "tbsp",
        "tsp",
        "fl oz",
        "pint",
        "%",
        "large",
        "cloves",
        "pinch",
    ]
)
COMPOUND = st.tuples(st.integers(1, 40), st.integers(1, 15)).map(lambda two: f"{two[0]} lb {two[1]} oz")
AMOUNTS = st.one_of(st.tuples(NUMBERS, st.sampled_from(["", " ", "\u00a0"]), UNITS).map("".join), COMPOUND)
FACTORS = st.one_of(st.floats(0.05, 20), st.fractions(Fraction(1, 12), 12, max_denominator=12).map(float))


def value_of(text: str) -> float:
    value = units.parse_amount(text).value
    assert value is not None
    return value


def assert_only_our_error(text: str) -> None:
    for parse in PARSERS:
        with contextlib.suppress(QuantityError):
            parse(text)


@settings(max_examples=400)
@given(st.lists(st.sampled_from(PIECES), max_size=12).map("".join))
@example("9" * 99)
@example("1/" + "9" * 90 + " g")
@example("9" * 60 + "/1 g x")
@example("0" * 90 + " x 1")
@example("-")
@example("1--2")
def test_only_our_own_error_comes_out_of_a_near_miss(text: str) -> None:
    """Texts put together from pieces of quantities are read or refused, nothing else."""
    assert_only_our_error(text)


@given(st.text(max_size=120))
def test_only_our_own_error_comes_out_of_any_text(text: str) -> None:
    """Whatever is typed is read or refused, nothing else."""
    assert_only_our_error(text)


@given(
    st.one_of(
        st.none(), st.booleans(), st.integers(), st.floats(), st.binary(), st.lists(st.integers()), st.dates()
    )
)
def test_only_our_own_error_comes_out_of_what_is_no_text(thing: object) -> None:
    """Numbers, lists and dates from a document are refused as what they are."""
    for parse in PARSERS:
        with pytest.raises(QuantityError):
            parse(thing)  # type: ignore[arg-type]


@given(st.text(max_size=60))
def test_an_error_always_says_what_is_wanted_found_and_to_write(text: str) -> None:
    """Each of the three is there, and can be printed anywhere."""
    try:
        units.parse_time(text)
    except QuantityError as error:
        fault = error.fault
        assert fault.wanted
        assert fault.found
        assert fault.try_
        assert fault.found.isprintable()


@settings(max_examples=300)
@given(AMOUNTS, FACTORS)
def test_a_rewritten_amount_is_the_factor_times_it(text: str, factor: float) -> None:
    """To a few parts in ten million."""
    assert value_of(units.rewrite(text, factor)) == pytest.approx(value_of(text) * factor, rel=1e-6)


@settings(max_examples=300)
@given(AMOUNTS, FACTORS)
def test_an_amount_rewritten_there_and_back_is_the_same(text: str, factor: float) -> None:
    """In value and in kind."""
    there = units.rewrite(text, factor)
    back = units.rewrite(there, 1 / factor)
    assert units.parse_amount(back).kind == units.parse_amount(text).kind
    assert units.parse_amount(back).measure == units.parse_amount(text).measure
    assert value_of(back) == pytest.approx(value_of(text), rel=2e-6)


@given(AMOUNTS, st.integers(2, 12))
def test_doubling_and_halving_brings_back_the_value_exactly(text: str, factor: int) -> None:
    """Whole factors leave no tail behind."""
    there = units.rewrite(text, factor)
    assert value_of(there) == pytest.approx(value_of(text) * factor, rel=1e-9)


@given(st.floats(1e-6, 500))
def test_a_mass_written_down_is_read_back(kg: float) -> None:
    """To the digits that were shown: half a gram, half a tenth, or two digits."""
    text = units.format_mass(kg)
    assert units.parse_mass(text) == pytest.approx(kg, rel=0.0501)
    assert units.parse_amount(text).value == units.parse_mass(text)


@given(st.integers(0, 30 * 86400))
def test_a_time_written_down_is_read_back(seconds: int) -> None:
    """To the second below ten minutes, to the minute above."""
    back = units.parse_time(units.format_time(seconds))
    assert back == pytest.approx(seconds, abs=0.5 if seconds < 600 else 30)


@given(st.floats(-30, 500), st.sampled_from(["metric", "US"]))
def test_a_temperature_written_down_is_read_back(celsius: float, system: str) -> None:
    """To a twentieth of a degree Celsius or half a degree Fahrenheit."""
    back = units.parse_temperature(units.format_temperature(celsius, system))
    assert back == pytest.approx(celsius, abs=0.0500001 if system == "metric" else 0.28)


@given(st.floats(0.001, 2000))
def test_a_length_written_down_is_read_back(metres: float) -> None:
    """To a twentieth of the unit shown."""
    assert units.parse_length(units.format_length(metres)) == pytest.approx(metres, rel=0.06)


@given(st.floats(0.0001, 9))
def test_a_percentage_written_down_is_read_back(fraction: float) -> None:
    """To three digits."""
    assert units.parse_fraction(units.format_fraction(fraction)) == pytest.approx(fraction, rel=0.005)


@given(
    st.floats(-1e6, 1e6),
    st.sampled_from([("g", "oz"), ("US cup", "ml"), ("degC", "degF"), ("K", "degF"), ("h", "week")]),
)
def test_a_conversion_there_and_back_is_the_same(value: float, pair: tuple[str, str]) -> None:
    """Whatever the unit, offsets included."""
    there = units.convert(value, pair[0], pair[1])
    assert units.convert(there, pair[1], pair[0]) == pytest.approx(value, rel=1e-12, abs=1e-9)


@given(st.integers(0, 500), st.integers(0, 500))
def test_a_range_is_in_order_or_refused(low: int, high: int) -> None:
    """The lower end is never above the upper."""
    text = f"{low} to {high} min"
    if low > high:
        with pytest.raises(QuantityError):
            units.parse_range(text, units.parse_time)
    else:
        assert units.parse_range(text, units.parse_time) == (60 * low, 60 * high)
