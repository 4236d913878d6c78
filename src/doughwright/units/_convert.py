"""Numbers from one unit to another, for callers that have no text."""

from __future__ import annotations

import math
from fractions import Fraction
from functools import lru_cache

from doughwright.units._faults import near_miss, refuse
from doughwright.units._kinds import Kind
from doughwright.units._parse import as_float, check_cups
from doughwright.units._table import PINCHES, Unit, every_unit, unit_name, units_of


def convert(value: float, unit: str, to: str, *, cups: str = "US", difference: bool = False) -> float:
    """The value in another unit of its kind; with ``difference``, degrees are steps, without their offset.

    Infinity and NaN stay what they are.
    """
    source, target = _unit(unit, check_cups(cups)), _unit(to, cups)
    if source.kind is not target.kind:
        raise refuse(to, f"a unit of {source.kind.value}", f'Write for example "{_example(source.kind)}"', to)
    if not math.isfinite(value):
        return value
    offset = Fraction(0) if difference else source.offset - target.offset
    return as_float((Fraction(value) * source.factor + offset) / target.factor)


def _unit(name: str, cups: str) -> Unit:
    found = _named(cups).get(unit_name(name))
    if found is None:
        near = near_miss(unit_name(name), _named(cups))
        raise refuse(
            name, "a unit", f'Did you mean "{near}"' if near else 'Write for example "g"', "the unit"
        )
    return found


def _example(kind: Kind) -> str:
    return next(unit.name for unit in every_unit() if unit.kind is kind)


@lru_cache(maxsize=3)
def _named(cups: str) -> dict[str, Unit]:
    pinches = {name: Unit(name, Kind.VOLUME, factor) for name, factor in PINCHES.items()}
    degrees = Kind.TEMPERATURE_DIFFERENCE
    named = {
        name: unit for kind in Kind if kind is not degrees for name, unit in units_of(kind, cups).items()
    }
    return named | pinches
