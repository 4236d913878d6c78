"""Units and quantities: texts to SI floats and back; the one place that knows a conversion factor."""

from doughwright.units._amount import parse_amount
from doughwright.units._convert import convert
from doughwright.units._format import (
    format_fraction,
    format_length,
    format_mass,
    format_temperature,
    format_time,
    format_volume,
)
from doughwright.units._kinds import Amount, AmountKind, Kind, Quantity, Range
from doughwright.units._parse import (
    parse_density,
    parse_fraction,
    parse_length,
    parse_mass,
    parse_number,
    parse_quantity,
    parse_temperature,
    parse_temperature_difference,
    parse_time,
    parse_volume,
)
from doughwright.units._range import parse_quantity_range, parse_range
from doughwright.units._rewrite import rewrite

__all__ = [
    "Amount",
    "AmountKind",
    "Kind",
    "Quantity",
    "Range",
    "convert",
    "format_fraction",
    "format_length",
    "format_mass",
    "format_temperature",
    "format_time",
    "format_volume",
    "parse_amount",
    "parse_density",
    "parse_fraction",
    "parse_length",
    "parse_mass",
    "parse_number",
    "parse_quantity",
    "parse_quantity_range",
    "parse_range",
    "parse_temperature",
    "parse_temperature_difference",
    "parse_time",
    "parse_volume",
    "rewrite",
]
