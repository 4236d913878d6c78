"""The tables of this package, read once: what each file holds is said in docs/ingredients.md."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from doughwright.ingredients._labels import density_of, measures_of
from doughwright.ingredients._rows import Row, grouped, keyed
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
def compositions() -> dict[str, Row]:
    """The rows of composition by key: the public table's, then our own; nothing is made of them yet."""
    made = {
        key: row | {"source": f"USDA SR28 NDB {row['ndb_no']}"} for key, row in keyed("sr_subset").items()
    }
    for key, row in keyed("own").items():
        said = {column: value for column, value in row.items() if value}
        base = dict(made.get(row["like"], {}))
        if said.keys() & set(COLUMNS.values()):
            base |= dict.fromkeys(_FOLLOWS_COMPOSITION, "")
        made[key] = base | said
    return made


def catalogue() -> Mapping[str, Ingredient]:
    """Every ingredient by its key."""
    return {key: ingredient(key) for key in compositions()}


@cache
def ingredient(key: str) -> Ingredient:
    """The ingredient of a key, made when it is asked for."""
    row, facts = compositions()[key], keyed("facts")[key]
    measures = _measures(key, row.get("measures_from", ""), facts["class"])
    density, density_source = density_of(measures)
    row = row | ({"refuse_pct": facts["refuse_pct"]} if facts["refuse_pct"] else {})
    values: dict[str, Any] = {field: _number(row.get(column, "")) for field, column in COLUMNS.items()}
    return Ingredient(
        key=key,
        description=row["description"],
        source=row["source"],
        measures=measures,
        density=density,
        density_source=density_source,
        caution=_caution(facts["caution"], values),
        **(values | _facts(facts) | _yeast(keyed("yeast").get(key))),
    )


def _caution(said: str, values: dict[str, Any]) -> str | None:
    """What to beware of in a row, the sugars that come out above a carbohydrate by difference included."""
    sugars, carbohydrate = values["sugars"], values["carbohydrate"]
    if sugars is not None and carbohydrate is not None and sugars > carbohydrate:
        more = f"the table gives {sugars:g} g sugars in {carbohydrate:g} g carbohydrate (taken by difference)"
        return f"{said}; {more}" if said else more
    return said or None


def _measures(key: str, like: str, class_: str) -> tuple[Measure, ...]:
    """Its own household measures, after them those of what it is like; one that lacks both has none."""
    ours = grouped("measures")
    own = ours.get(key, []) + (ours.get(like, []) if like else [])
    return measures_of(grouped("sr_weights").get(like or key, []), own, class_)


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
    }


def _yeast(row: Row | None) -> dict[str, Any]:
    if row is None:
        return {}
    return {"per_fresh": float(row["per_fresh"]), "per_fresh_spread": float(row["spread"])}


def _listed(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";") if part.strip())


def _number(text: str) -> float | None:
    return float(text) if text else None
