"""The table's labels ("cup, chopped", "medium (2-1/2 in dia)") as household measures with a spread."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache

from doughwright.ingredients._rows import rows_of
from doughwright.ingredients.model import Measure

# The table writes US customary measures; units knows what they hold.
_VOLUMES = {
    "tsp": "tsp",
    "tbsp": "tbsp",
    "tablespoon": "tbsp",
    "cup": "cup",
    "fl oz": "fl oz",
    "quart": "quart",
    "liter": "litre",
    "pinch": "pinch",
    "dash": "dash",
}
_LABEL = re.compile(rf"({'|'.join(_VOLUMES)})\b[ ,]*(.*)")
_ASIDE = re.compile(r"\s*\([^)]*\)")
# Masses, a label's serving, and a form that one maker sells.
_NOT_KITCHEN = ("oz", "grams", "nlea serving", "tsp brownulated")
_SIGMAS_IN_90_PERCENT = 3.2897

Row = Mapping[str, str]


@cache
def volume_of(unit: str) -> float:
    """What the table's spoon, cup or bottle holds [m3]."""
    from doughwright.units import parse_amount

    volume = parse_amount(f"1 {unit}", cups="US").volume
    if volume is None:
        raise ValueError(f"{unit} is no volume")
    return volume


def measures_of(listed: Iterable[Row], own: Sequence[Row], class_: str) -> tuple[Measure, ...]:
    """An ingredient's measures: our own first, then the table's, without those that ours replace."""
    ours = [_own(row) for row in own]
    replaced = {_plain(row["measure"]) for row in own if row["replaces"]}
    table = [_listed(row, class_) for row in listed if _is_kitchen(row["measure"])]
    return (*ours, *(one for one in table if one.name not in replaced))


def density_of(measures: Iterable[Measure]) -> tuple[float | None, str | None]:
    """The density [kg/m3] that the largest volume measure means, and its source."""
    volumes = default_volumes(measures)
    if not volumes:
        return None, None
    largest = max(volumes, key=lambda one: volume_of(one.unit))
    return largest.grams / 1000.0 / volume_of(
        largest.unit
    ), f"{largest.name} of {largest.grams:g} g ({largest.source})"


def default_volumes(measures: Iterable[Measure]) -> list[Measure]:
    """One measure a spoon or cup: the one with no packing named, else the first listed."""
    best: dict[str, Measure] = {}
    for one in measures:
        if one.volume and (one.unit not in best or (best[one.unit].packing and not one.packing)):
            best[one.unit] = one
    return list(best.values())


def own_measure(label: str, grams: float, class_: str, source: str) -> Measure:
    """A measure that the document gives."""
    name, unit, packing, volume = _parts(label)
    return Measure(
        name,
        unit,
        packing,
        volume,
        grams,
        grams * relative_spread(class_, volume=volume),
        source,
        "spread assumed",
    )


@cache
def _spreads() -> dict[tuple[str, str], float]:
    return {(row["class"], row["kind"]): float(row["relative"]) for row in rows_of("spreads")}


def relative_spread(class_: str, *, volume: bool) -> float:
    """One standard deviation of a measure of this class, as a share of its mass."""
    kind = "volume" if volume else "count"
    return _spreads().get((class_, kind), _spreads()["", kind])


def _plain(label: str) -> str:
    return " ".join(_ASIDE.sub("", label).casefold().split())


def _is_kitchen(label: str) -> bool:
    return not any(
        _plain(label) == one or _plain(label).startswith((f"{one},", f"{one} ")) for one in _NOT_KITCHEN
    )


def _parts(label: str) -> tuple[str, str, str, bool]:
    """Name, unit, packing and whether it is a volume."""
    name = _plain(label)
    match = _LABEL.fullmatch(name)
    return (name, _VOLUMES[match[1]], match[2], True) if match else (name, name, "", False)


def _listed(row: Row, class_: str) -> Measure:
    name, unit, packing, volume = _parts(row["measure"])
    grams = float(row["grams_per_1"])
    if row["std_dev"]:
        spread = float(row["std_dev"]) / float(row["amount"])
        how = f"measured, n = {row['n_points']}"
    else:
        spread = grams * relative_spread(class_, volume=volume)
        how = "spread assumed"
    return Measure(name, unit, packing, volume, grams, spread, f"USDA SR28 NDB {row['ndb_no']}", how)


def _own(row: Row) -> Measure:
    spread = (float(row["high"]) - float(row["low"])) / _SIGMAS_IN_90_PERCENT
    how = f"between {row['low']} and {row['high']} g nine times in ten"
    return Measure(*_parts(row["measure"]), float(row["grams"]), spread, row["source"], how)
