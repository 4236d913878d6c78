"""A cook's own ingredients: one of ours with other figures, or one described in the document."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from doughwright.errors import Fault, InputError, OutOfRangeError, UnknownNameError, did_you_mean
from doughwright.ingredients._allergens import both_lists
from doughwright.ingredients._labels import density_of, own_measure
from doughwright.ingredients._tables import COLUMNS
from doughwright.ingredients.model import SALT_PER_SODIUM, Class, Ingredient

_SUM = ("water", "protein", "fat", "carbohydrate", "ash", "alcohol")
_WITHIN = {"saturates": "fat", "trans": "fat", "sugars": "carbohydrate", "fibre": "carbohydrate"}
OVERRIDES = (*_SUM, *_WITHIN, "salt", "density", "refuse_percent")
# Per 100 g, so they rise when water leaves; the rest of the columns are factors.
_FACTORS = (
    "water",
    "nitrogen_factor",
    "kcal_per_g_protein",
    "kcal_per_g_fat",
    "kcal_per_g_carbohydrate",
    "refuse_percent",
)
_CONTENTS = tuple(name for name in COLUMNS if name not in _FACTORS)
# Table rows are rounded and measured one by one; the worst plain food adds up to 101.9.
_HIGHEST_SUM = 102.0


def with_overrides(ingredient: Ingredient, *, source: str = "the recipe", **values: float) -> Ingredient:
    """The ingredient with other figures, in per cent by mass (``density`` in kg/m3).

    The protein of a flour is made up by its carbohydrate; other water is made up by all dry parts in
    proportion; whatever else is changed stands as given. Energy follows from the table's own factors.
    """
    _check(ingredient.name, values)
    made = ingredient
    if "water" in values:
        made = _with_water(made, values["water"])
    before = made
    made = _with_protein(made, values)
    plain: dict[str, Any] = {
        name: value for name, value in values.items() if name not in ("water", "protein", "salt")
    }
    if "salt" in values:
        plain["sodium_mg"] = values["salt"] * 1000.0 / SALT_PER_SODIUM
    made = replace(made, **plain)
    if "density" in values:
        made = replace(
            made, density_source=source, measures=tuple(one for one in made.measures if not one.volume)
        )
    _check_sum(made)
    return replace(
        _with_energy(made, before), source=f"{ingredient.source}; {', '.join(values)} from {source}"
    )


def from_table(
    name: str,
    *,
    source: str,
    class_: Class | str | None = None,
    like: Ingredient | None = None,
    measures: Mapping[str, float] | None = None,
    allergens: Iterable[str] | None = None,
    **values: float,
) -> Ingredient:
    """An ingredient of the document's own: like one of ours, or of a class; ``measures`` in grams to one.

    What neither ``like`` nor ``values`` says stays unknown; allergens not said are said to be not said.
    """
    if like is None and class_ is None:
        raise InputError(
            Fault(f'ingredient "{name}"', wanted="a class or what it is like", try_='Write class = "flour"')
        )
    made = replace(like, name=name, source=f"{source}, else {like.source}") if like else Ingredient(
        name, name, name, Class.OTHER, source, check_label="allergens not said in the document"
    )  # fmt: skip
    made = replace(made, key=f"own:{name}", description=name, caution=None)
    if class_ is not None:
        made = replace(made, class_=_class_of(name, class_))
    if allergens is not None:
        us, eu = both_lists(allergens)
        made = replace(made, allergens_us=us, allergens_eu=eu, check_label=None)
    if values:
        made = replace(with_overrides(made, source=source, **values), source=made.source)
    return _with_measures(made, measures, source) if measures else made


def _with_measures(made: Ingredient, measures: Mapping[str, float], source: str) -> Ingredient:
    for label, grams in measures.items():
        if not (math.isfinite(grams) and grams > 0):
            raise OutOfRangeError(
                Fault(f'{made.name}: measure "{label}"', wanted="a mass above 0", found=f"{grams:g}")
            )
    own = tuple(own_measure(label, grams, made.class_, source) for label, grams in measures.items())
    names = {one.name for one in own}
    every = (*own, *(one for one in made.measures if one.name not in names))
    density, density_source = density_of(own)
    if density is None or made.density_source == source:
        return replace(made, measures=every)
    return replace(made, measures=every, density=density, density_source=density_source)


def _with_water(made: Ingredient, water: float) -> Ingredient:
    if made.water is None or made.water >= 100.0:
        return replace(made, water=water)
    drier = (100.0 - water) / (100.0 - made.water)
    changed: dict[str, Any] = {
        name: None if (value := getattr(made, name)) is None else value * drier for name in _CONTENTS
    }
    return replace(made, water=water, **changed)


def _with_protein(made: Ingredient, values: Mapping[str, float]) -> Ingredient:
    if "protein" not in values:
        return made
    before, now = made.protein, values["protein"]
    if made.class_ is Class.FLOUR and before is not None and made.carbohydrate is not None:
        made = replace(made, carbohydrate=max(made.carbohydrate + before - now, 0.0))
    return replace(made, protein=now)


def _with_energy(made: Ingredient, before: Ingredient) -> Ingredient:
    """Energy anew from the table's factors; unknown where a part that gives energy changed and has none."""
    parts = ("protein", "fat", "carbohydrate", "alcohol")
    if all(getattr(made, part) == getattr(before, part) for part in parts):
        return made
    pairs = (
        (made.protein, made.kcal_per_g_protein),
        (made.fat, made.kcal_per_g_fat),
        (made.carbohydrate, made.kcal_per_g_carbohydrate),
    )
    total = 0.0
    for grams, kcal in pairs:
        if grams is None or (kcal is None and grams > 0):
            return replace(made, energy_kcal=None, energy_kj=None)
        total += grams * (kcal or 0.0)
    return replace(made, energy_kcal=total, energy_kj=None)


def _class_of(name: str, class_: Class | str) -> Class:
    try:
        return Class(class_)
    except ValueError:
        names = [one.value for one in Class]
        try_ = did_you_mean(str(class_), names) or f"Write one of: {', '.join(names)}"
        fault = Fault(f'ingredient "{name}"', wanted="a class", found=f'"{class_}"', try_=try_)
        raise UnknownNameError(fault) from None


def _check(name: str, values: Mapping[str, float]) -> None:
    for what, value in values.items():
        if what not in OVERRIDES:
            raise UnknownNameError(
                Fault(
                    f'{name} has no "{what}"',
                    try_=did_you_mean(what, OVERRIDES) or f"Write one of: {', '.join(OVERRIDES)}",
                )
            )
        highest = 25_000.0 if what == "density" else 100.0
        lowest = 1.0 if what == "density" else 0.0
        if not lowest <= value <= highest:
            unit = "kg/m3" if what == "density" else "%"
            wanted = f"{lowest:g} to {highest:g} {unit}"
            raise OutOfRangeError(Fault(f'{name}: "{what}"', wanted=wanted, found=f"{value:g} {unit}"))


def _check_sum(made: Ingredient) -> None:
    total = sum(getattr(made, part) or 0.0 for part in _SUM)
    if total > _HIGHEST_SUM:
        parts = ", ".join(f"{part} {getattr(made, part):g}" for part in _SUM if getattr(made, part))
        raise OutOfRangeError(
            Fault(f"{made.name}: its parts", wanted="at most 100 % together", found=f"{total:g} % ({parts})")
        )
    for part, whole in _WITHIN.items():
        inner, outer = getattr(made, part), getattr(made, whole)
        if inner is not None and outer is not None and inner > outer + 1.0:
            raise OutOfRangeError(
                Fault(
                    f'{made.name}: "{part}"',
                    wanted=f"no more than its {whole}, {outer:g} %",
                    found=f"{inner:g} %",
                )
            )
