"""The tables of this package, read once: what each file holds is said in docs/ingredients.md."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from doughwright.ingredients._csv import Row, grouped, rows_of
from doughwright.ingredients._labels import density_of, measures_of
from doughwright.ingredients.model import Class, Ingredient, Measure

# Our field and the public table's column.
COLUMNS = {
    "water": "water_g",
    "protein": "protein_g",
    "fat": "fat_g",
    "saturates": "sat_fat_g",
    "trans": "trans_fat_g",
    "monounsaturates": "mufa_g",
    "polyunsaturates": "pufa_g",
    "carbohydrate": "carbohydrate_g",
    "fibre": "fiber_g",
    "sugars": "total_sugars_g",
    "starch": "starch_g",
    "ash": "ash_g",
    "alcohol": "alcohol_g",
    "cholesterol_mg": "cholesterol_mg",
    "sodium_mg": "sodium_mg",
    "potassium_mg": "potassium_mg",
    "calcium_mg": "calcium_mg",
    "iron_mg": "iron_mg",
    "vitamin_d_ug": "vitamin_d_ug",
    "energy_kcal": "energy_kcal",
    "energy_kj": "energy_kj",
    "nitrogen_factor": "n_factor",
    "kcal_per_g_protein": "kcal_per_g_protein",
    "kcal_per_g_fat": "kcal_per_g_fat",
    "kcal_per_g_carbohydrate": "kcal_per_g_carb",
    "refuse_percent": "refuse_pct",
}
# What an own row that says otherwise about these leaves unknown, rather than as the row it is like.
_FOLLOWS_COMPOSITION = {"energy_kj", "energy_kcal"}


@cache
def catalogue() -> Mapping[str, Ingredient]:
    """Every ingredient by its key: the public table's, then our own."""
    facts = {row["key"]: row for row in rows_of("facts")}
    yeasts = {row["key"]: row for row in rows_of("yeast")}
    measures = _Measures()
    made: dict[str, Ingredient] = {}
    for row in _compositions():
        key = row["key"]
        own = measures.of(key, row.get("measures_from", ""), facts[key]["class"])
        density, density_source = density_of(own)
        values: dict[str, Any] = {field: _number(row.get(column, "")) for field, column in COLUMNS.items()}
        values |= _facts(facts[key]) | _yeast(yeasts.get(key))
        made[key] = Ingredient(
            key=key,
            description=row["description"],
            source=row["source"],
            measures=own,
            density=density,
            density_source=density_source,
            **values,
        )
    return made


class _Measures:
    """The household measures of both tables."""

    def __init__(self) -> None:
        self._listed, self._own = grouped("sr_weights"), grouped("measures")

    def of(self, key: str, like: str, class_: str) -> tuple[Measure, ...]:
        """Those of ``key``, after it those of what it is like."""
        own = self._own.get(key, []) + (self._own.get(like, []) if like else [])
        return measures_of(self._listed.get(like or key, []), own, class_)


def _compositions() -> Iterator[Row]:
    table: dict[str, Row] = {}
    for row in rows_of("sr_subset"):
        table[row["key"]] = row
        yield row | {"source": f"USDA SR28 NDB {row['ndb_no']}"}
    for row in rows_of("own"):
        changed = {column: value for column, value in row.items() if value and column not in ("key", "like")}
        base = dict(table.get(row["like"], {}))
        if changed.keys() & set(COLUMNS.values()):
            base |= dict.fromkeys(_FOLLOWS_COMPOSITION, "")
        yield base | changed | {"key": row["key"]}


def _facts(row: Row) -> dict[str, Any]:
    return {
        "name": row["name"],
        "class_": Class(row["class"]),
        "poured": row["poured"] == "yes",
        "milk_sugar": row["milk_sugar"] == "yes",
        "allergens_us": _listed(row["allergens_us"]),
        "allergens_eu": _listed(row["allergens_eu"]),
        "check_label": row["check_label"] or None,
        "out_of_scope": row["out_of_scope"] or None,
        "caution": row["caution"] or None,
    }


def _yeast(row: Row | None) -> dict[str, Any]:
    if row is None:
        return {}
    return {"per_fresh": float(row["per_fresh"]), "per_fresh_spread": float(row["spread"])}


def _listed(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";") if part.strip())


def _number(text: str) -> float | None:
    return float(text) if text else None
