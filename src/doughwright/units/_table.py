"""The one table of units: nothing else knows a conversion factor."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from types import MappingProxyType

from doughwright.units._kinds import Kind


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: ``value x factor + offset`` is the value in the unit used inside, exactly.

    ``measure`` is the household measure's word; ``source`` says where the factor comes from.
    """

    name: str
    kind: Kind
    factor: Fraction
    names: tuple[str, ...] = ()
    measure: str | None = None
    offset: Fraction = Fraction(0)
    source: str = "SI"


def _unit(
    name: str,
    kind: Kind,
    factor: str,
    names: tuple[str, ...] = (),
    measure: str | None = None,
    *,
    offset: str = "0",
    source: str = "SI",
) -> Unit:
    return Unit(name, kind, Fraction(factor), names, measure, Fraction(offset), source)


def _metres(stem: str) -> tuple[str, ...]:
    """Both spellings, one and many: litre, litres, liter, liters."""
    return (f"{stem}re", f"{stem}res", f"{stem}er", f"{stem}ers")


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
    _unit("g", Kind.MASS, "1e-3", ("gram", "grams", "gramme", "grammes", "gm", "gms")),
    _unit(
        "kg", Kind.MASS, "1", ("kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes")
    ),
    _unit("mg", Kind.MASS, "1e-6", ("milligram", "milligrams")),
    _unit("oz", Kind.MASS, "0.028349523125", ("ozs", "ounce", "ounces"), source=_SP),
    _unit("lb", Kind.MASS, "0.45359237", ("lbs", "pound", "pounds"), source=_SP),
    _unit(
        "ml",
        Kind.VOLUME,
        "1e-6",
        ("mls", "cc", "cm3", *_metres("millilit")),
    ),
    _unit("cl", Kind.VOLUME, "1e-5", _metres("centilit")),
    _unit("dl", Kind.VOLUME, "1e-4", _metres("decilit")),
    _unit("l", Kind.VOLUME, "1e-3", _metres("lit")),
    _unit("m3", Kind.VOLUME, "1"),
    _unit("mm", Kind.LENGTH, "1e-3", _metres("millimet")),
    _unit("cm", Kind.LENGTH, "1e-2", _metres("centimet")),
    _unit("m", Kind.LENGTH, "1", _metres("met")),
    _unit("km", Kind.LENGTH, "1000", _metres("kilomet")),
    _unit("in", Kind.LENGTH, "0.0254", ("ins", "inch", "inches", '"', "″"), source=_SP),
    _unit("ft", Kind.LENGTH, "0.3048", ("foot", "feet"), source=_SP),
    _unit("s", Kind.TIME, "1", ("sec", "secs", "second", "seconds")),
    _unit("min", Kind.TIME, "60", ("mins", "minute", "minutes")),
    _unit("h", Kind.TIME, "3600", ("hr", "hrs", "hour", "hours")),
    _unit("d", Kind.TIME, "86400", ("day", "days")),
    _unit("week", Kind.TIME, "604800", ("weeks",)),
    _unit("degC", Kind.TEMPERATURE, "1", ("°c", "c", "deg c", "degrees c", "celsius", "° c")),
    _unit(
        "degF",
        Kind.TEMPERATURE,
        "5/9",
        ("°f", "f", "deg f", "degrees f", "fahrenheit", "° f"),
        offset="-160/9",
        source=_SP,
    ),
    _unit("K", Kind.TEMPERATURE, "1", ("kelvin",), offset="-273.15"),
    _unit("%", Kind.FRACTION, "0.01", ("percent", "per cent")),
    _unit("kg/m3", Kind.DENSITY, "1"),
    _unit("g/l", Kind.DENSITY, "1"),
    _unit("g/ml", Kind.DENSITY, "1000", ("g/cm3", "g/cc")),
    _unit("kg/l", Kind.DENSITY, "1000"),
    _unit("m2", Kind.AREA, "1"),
    _unit("cm2", Kind.AREA, "1e-4"),
    _unit("in2", Kind.AREA, "0.00064516", source=_SP),
    _unit("kg/m2", Kind.LOADING, "1"),
    _unit("g/cm2", Kind.LOADING, "10"),
    _unit("J", Kind.ENERGY, "1"),
    _unit("kJ", Kind.ENERGY, "1000"),
    _unit("kcal", Kind.ENERGY, "4184", source="NIST SP 811: thermochemical"),
    _unit("number", Kind.NUMBER, "1"),
)

_KITCHENS: Mapping[str, tuple[Unit, ...]] = {
    "US": (
        _unit("US cup", Kind.VOLUME, "236.5882365e-6", _CUP, "cup", source=_SP),
        _unit("US tbsp", Kind.VOLUME, "14.78676478125e-6", _TBSP, "tbsp", source=_SP),
        _unit("US tsp", Kind.VOLUME, "4.92892159375e-6", _TSP, "tsp", source=_SP),
        _unit("US fl oz", Kind.VOLUME, "29.5735295625e-6", _FLOZ, "fl oz", source=_SP),
        _unit("US pt", Kind.VOLUME, "473.176473e-6", _PT, "pint", source=_SP),
        _unit("US qt", Kind.VOLUME, "946.352946e-6", _QT, "quart", source=_SP),
        _unit("US gal", Kind.VOLUME, "3785.411784e-6", _GAL, "gallon", source=_SP),
    ),
    "imperial": (
        _unit("imperial cup", Kind.VOLUME, "284.130625e-6", _CUP, "cup", source=f"{_WM}: 10 fl oz"),
        _unit("imperial tbsp", Kind.VOLUME, "15e-6", _TBSP, "tbsp", source=_USUAL),
        _unit("imperial dessertspoon", Kind.VOLUME, "10e-6", _DSP, "dessertspoon", source=_USUAL),
        _unit("imperial tsp", Kind.VOLUME, "5e-6", _TSP, "tsp", source=_USUAL),
        _unit("imperial fl oz", Kind.VOLUME, "28.4130625e-6", _FLOZ, "fl oz", source=_WM),
        _unit("imperial pt", Kind.VOLUME, "568.26125e-6", _PT, "pint", source=_WM),
        _unit("imperial qt", Kind.VOLUME, "1136.5225e-6", _QT, "quart", source=_WM),
        _unit("imperial gal", Kind.VOLUME, "4546.09e-6", _GAL, "gallon", source=_WM),
    ),
    "metric": (
        _unit("metric cup", Kind.VOLUME, "250e-6", _CUP, "cup", source="AS 1325"),
        _unit("metric tbsp", Kind.VOLUME, "15e-6", _TBSP, "tbsp", source=_USUAL),
        _unit("metric dessertspoon", Kind.VOLUME, "10e-6", _DSP, "dessertspoon", source=_USUAL),
        _unit("metric tsp", Kind.VOLUME, "5e-6", _TSP, "tsp", source=_USUAL),
    ),
}
_PREFIXES = {"us": "US", "imperial": "imperial", "uk": "imperial", "metric": "metric"}

# Of a US teaspoon: common practice, no source; assumed wherever it is used.
_US_TSP = Fraction("4.92892159375e-6")
PINCHES: Mapping[str, Fraction] = MappingProxyType({"pinch": _US_TSP / 16, "dash": _US_TSP / 8})

# Values beyond these are taken for slips: lowest, highest [unit used inside], and how that is said.
LIMITS: Mapping[Kind, tuple[float, float, str]] = MappingProxyType(
    {
        Kind.MASS: (1e-9, 1e4, "from 0.000001 g to 10000 kg"),
        Kind.VOLUME: (1e-12, 1e1, "from 0.000001 ml to 10000 l"),
        Kind.LENGTH: (-1e3, 1e4, "of at most 10 km"),
        Kind.TIME: (0.0, 366 * 86400.0, "of at most 366 days"),
        Kind.TEMPERATURE: (-200.0, 1000.0, "from -200 °C to 1000 °C"),
        Kind.TEMPERATURE_DIFFERENCE: (-500.0, 500.0, "of at most 500 °C"),
        Kind.FRACTION: (0.0, 100.0, "of at most 10000 %"),
        Kind.COUNT: (1e-6, 1e6, "from 0.000001 to 1000000"),
        Kind.DENSITY: (1.0, 3e4, "from 1 to 30000 kg/m3"),
        Kind.NUMBER: (-1e9, 1e9, "of at most 1000000000"),
        Kind.AREA: (0.0, 1e6, "of at most 1000000 m2"),
        Kind.LOADING: (0.0, 1e4, "of at most 1000 g/cm2"),
        Kind.ENERGY: (0.0, 1e12, "of at most 1000000000 kJ"),
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
    name: replace(unit, kind=Kind.TEMPERATURE_DIFFERENCE, offset=Fraction(0))
    for name, unit in _BY_KIND[Kind.TEMPERATURE].items()
}


def every_unit() -> tuple[Unit, ...]:
    """All units, each once."""
    return _UNITS + tuple(unit for system in _KITCHENS.values() for unit in system)


def units_of(kind: Kind, cups: str = "US") -> Mapping[str, Unit]:
    """Every name, casefolded, of a unit of this kind; ``cups`` says whose cup, spoon, pint are meant."""
    if kind is Kind.VOLUME:
        return _VOLUMES[cups]
    return _DIFFERENCES if kind is Kind.TEMPERATURE_DIFFERENCE else _BY_KIND[kind]


def unit_name(text: str) -> str:
    """A unit's name as the table is looked up by: casefolded, no stops after it, one space, plain signs."""
    if text.lstrip().startswith("."):
        return text
    name = text.casefold().replace(".", "").replace("³", "3").replace("²", "2")
    return " ".join(name.replace("º", "°").replace("˚", "°").replace("℃", "°c").replace("℉", "°f").split())
