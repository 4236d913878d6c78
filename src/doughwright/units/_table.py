"""The one table of units: nothing else knows a conversion factor."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from doughwright.units._kinds import Kind


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: ``value x factor + offset`` is the value in the unit used inside.

    ``measure`` is the household measure's word; ``source`` says where the factor comes from.
    """

    name: str
    kind: Kind
    factor: float
    names: tuple[str, ...] = ()
    measure: str | None = None
    offset: float = 0.0
    source: str = "SI"


_SP = "NIST SP 811, appendix B.8"
_WM = "Weights and Measures Act 1985 (UK)"
_USUAL = "common practice, no source"
_CUP = ("cups",)
_TBSP = ("tbsps", "tbs", "tblsp", "tablespoon", "tablespoons")
_TSP = ("tsps", "teaspoon", "teaspoons")
_DSP = ("dsp", "dessertspoons")
_FLOZ = ("fl ozs", "floz", "fluid ounce", "fluid ounces")
_PT = ("pts", "pint", "pints")
_QT = ("qts", "quart", "quarts")
_GAL = ("gals", "gallon", "gallons")

_UNITS: tuple[Unit, ...] = (
    Unit("g", Kind.MASS, 1e-3, ("gram", "grams", "gramme", "grammes", "gm", "gms")),
    Unit("kg", Kind.MASS, 1.0, ("kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")),
    Unit("mg", Kind.MASS, 1e-6, ("milligram", "milligrams")),
    Unit("oz", Kind.MASS, 0.028349523125, ("ozs", "ounce", "ounces"), source=_SP),
    Unit("lb", Kind.MASS, 0.45359237, ("lbs", "pound", "pounds"), source=_SP),
    Unit("ml", Kind.VOLUME, 1e-6, ("mls", "cc", "cm3", "millilitre", "millilitres", "milliliter", "milliliters")),
    Unit("cl", Kind.VOLUME, 1e-5, ("centilitre", "centilitres", "centiliter", "centiliters")),
    Unit("dl", Kind.VOLUME, 1e-4, ("decilitre", "decilitres", "deciliter", "deciliters")),
    Unit("l", Kind.VOLUME, 1e-3, ("litre", "litres", "liter", "liters")),
    Unit("m3", Kind.VOLUME, 1.0),
    Unit("mm", Kind.LENGTH, 1e-3, ("millimetre", "millimetres", "millimeter", "millimeters")),
    Unit("cm", Kind.LENGTH, 1e-2, ("centimetre", "centimetres", "centimeter", "centimeters")),
    Unit("m", Kind.LENGTH, 1.0, ("metre", "metres", "meter", "meters")),
    Unit("km", Kind.LENGTH, 1000.0, ("kilometre", "kilometres", "kilometer", "kilometers")),
    Unit("in", Kind.LENGTH, 0.0254, ("ins", "inch", "inches", '"', "″"), source=_SP),
    Unit("ft", Kind.LENGTH, 0.3048, ("foot", "feet"), source=_SP),
    Unit("s", Kind.TIME, 1.0, ("sec", "secs", "second", "seconds")),
    Unit("min", Kind.TIME, 60.0, ("mins", "minute", "minutes")),
    Unit("h", Kind.TIME, 3600.0, ("hr", "hrs", "hour", "hours")),
    Unit("d", Kind.TIME, 86400.0, ("day", "days")),
    Unit("week", Kind.TIME, 604800.0, ("weeks",)),
    Unit("degC", Kind.TEMPERATURE, 1.0, ("°c", "c", "deg c", "degrees c", "celsius", "° c")),
    Unit(
        "degF",
        Kind.TEMPERATURE,
        1 / 1.8,
        ("°f", "f", "deg f", "degrees f", "fahrenheit", "° f"),
        offset=-32 / 1.8,
        source=_SP,
    ),
    Unit("K", Kind.TEMPERATURE, 1.0, ("kelvin",), offset=-273.15),
    Unit("%", Kind.FRACTION, 0.01, ("percent", "per cent")),
    Unit("kg/m3", Kind.DENSITY, 1.0),
    Unit("g/l", Kind.DENSITY, 1.0),
    Unit("g/ml", Kind.DENSITY, 1000.0, ("g/cm3", "g/cc")),
    Unit("kg/l", Kind.DENSITY, 1000.0),
    Unit("m2", Kind.AREA, 1.0),
    Unit("cm2", Kind.AREA, 1e-4),
    Unit("in2", Kind.AREA, 0.00064516, source=_SP),
    Unit("kg/m2", Kind.LOADING, 1.0),
    Unit("g/cm2", Kind.LOADING, 10.0),
    Unit("J", Kind.ENERGY, 1.0),
    Unit("kJ", Kind.ENERGY, 1000.0),
    Unit("kcal", Kind.ENERGY, 4184.0, source="NIST SP 811: thermochemical"),
    Unit("number", Kind.NUMBER, 1.0),
)

_KITCHENS: Mapping[str, tuple[Unit, ...]] = {
    "US": (
        Unit("US cup", Kind.VOLUME, 236.5882365e-6, _CUP, "cup", source=_SP),
        Unit("US tbsp", Kind.VOLUME, 14.78676478125e-6, _TBSP, "tbsp", source=_SP),
        Unit("US tsp", Kind.VOLUME, 4.92892159375e-6, _TSP, "tsp", source=_SP),
        Unit("US fl oz", Kind.VOLUME, 29.5735295625e-6, _FLOZ, "fl oz", source=_SP),
        Unit("US pt", Kind.VOLUME, 473.176473e-6, _PT, "pint", source=_SP),
        Unit("US qt", Kind.VOLUME, 946.352946e-6, _QT, "quart", source=_SP),
        Unit("US gal", Kind.VOLUME, 3785.411784e-6, _GAL, "gallon", source=_SP),
    ),
    "imperial": (
        Unit("imperial cup", Kind.VOLUME, 284.130625e-6, _CUP, "cup", source=f"{_WM}: 10 fl oz"),
        Unit("imperial tbsp", Kind.VOLUME, 15e-6, _TBSP, "tbsp", source=_USUAL),
        Unit("imperial dessertspoon", Kind.VOLUME, 10e-6, _DSP, "dessertspoon", source=_USUAL),
        Unit("imperial tsp", Kind.VOLUME, 5e-6, _TSP, "tsp", source=_USUAL),
        Unit("imperial fl oz", Kind.VOLUME, 28.4130625e-6, _FLOZ, "fl oz", source=_WM),
        Unit("imperial pt", Kind.VOLUME, 568.26125e-6, _PT, "pint", source=_WM),
        Unit("imperial qt", Kind.VOLUME, 1136.5225e-6, _QT, "quart", source=_WM),
        Unit("imperial gal", Kind.VOLUME, 4546.09e-6, _GAL, "gallon", source=_WM),
    ),
    "metric": (
        Unit("metric cup", Kind.VOLUME, 250e-6, _CUP, "cup", source="AS 1325"),
        Unit("metric tbsp", Kind.VOLUME, 15e-6, _TBSP, "tbsp", source=_USUAL),
        Unit("metric dessertspoon", Kind.VOLUME, 10e-6, _DSP, "dessertspoon", source=_USUAL),
        Unit("metric tsp", Kind.VOLUME, 5e-6, _TSP, "tsp", source=_USUAL),
    ),
}
_PREFIXES = {"us": "US", "imperial": "imperial", "uk": "imperial", "metric": "metric"}

# Of a US teaspoon: common practice, no source; assumed wherever it is used.
PINCHES: Mapping[str, float] = MappingProxyType({"pinch": 4.92892159375e-6 / 16, "dash": 4.92892159375e-6 / 8})

# Values beyond these are taken for slips: [unit used inside], lowest and highest.
LIMITS: Mapping[Kind, tuple[float, float]] = MappingProxyType(
    {
        Kind.MASS: (1e-12, 1e4),
        Kind.VOLUME: (1e-15, 1e1),
        Kind.LENGTH: (-1e3, 1e4),
        Kind.TIME: (0.0, 366 * 86400.0),
        Kind.TEMPERATURE: (-273.15, 1000.0),
        Kind.TEMPERATURE_DIFFERENCE: (-500.0, 500.0),
        Kind.FRACTION: (0.0, 100.0),
        Kind.COUNT: (1e-6, 1e6),
        Kind.DENSITY: (1e-3, 3e4),
        Kind.NUMBER: (0.0, 1e9),
    }
)


def _named(units: tuple[Unit, ...]) -> Iterator[tuple[str, Unit]]:
    for unit in units:
        for name in (unit.name, *unit.names):
            yield name.casefold(), unit


def _system_named(system: str, prefix: str) -> Iterator[tuple[str, Unit]]:
    for unit in _KITCHENS[system]:
        for name in (unit.name.removeprefix(f"{system} "), *unit.names):
            yield f"{prefix}{name}".casefold(), unit


def _by_kind(kind: Kind) -> dict[str, Unit]:
    return dict(_named(tuple(unit for unit in _UNITS if unit.kind is kind)))


def _volumes(system: str) -> dict[str, Unit]:
    names = _by_kind(Kind.VOLUME) | dict(_system_named(system, ""))
    for prefix, other in _PREFIXES.items():
        names |= dict(_system_named(other, f"{prefix} "))
    return names


KITCHENS: tuple[str, ...] = tuple(_KITCHENS)
_BY_KIND: dict[Kind, dict[str, Unit]] = {kind: _by_kind(kind) for kind in Kind}
_VOLUMES: dict[str, dict[str, Unit]] = {system: _volumes(system) for system in KITCHENS}
_DIFFERENCES: dict[str, Unit] = {
    name: Unit(unit.name, Kind.TEMPERATURE_DIFFERENCE, unit.factor, source=unit.source)
    for name, unit in _BY_KIND[Kind.TEMPERATURE].items()
}


def units_of(kind: Kind, cups: str = "US") -> Mapping[str, Unit]:
    """Every name, casefolded, of a unit of this kind; ``cups`` says whose cup, spoon, pint are meant."""
    if kind is Kind.VOLUME:
        return _VOLUMES[cups]
    return _DIFFERENCES if kind is Kind.TEMPERATURE_DIFFERENCE else _BY_KIND[kind]


def unit_name(text: str) -> str:
    """A unit's name as the table is looked up by: casefolded, no stops, one space, plain signs."""
    name = text.casefold().replace(".", "").replace("³", "3").replace("²", "2")
    return " ".join(name.replace("º", "°").replace("˚", "°").replace("℃", "°c").replace("℉", "°f").split())
