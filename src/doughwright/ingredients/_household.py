"""Spoons, cups and counts to kilograms, only through the ingredient's own household measures."""

from __future__ import annotations

import math
from dataclasses import dataclass

from doughwright.errors import Fault, OutOfRangeError, QuantityError, UnknownNameError
from doughwright.ingredients._labels import default_volumes, relative_spread, volume_of
from doughwright.ingredients._words import words_of
from doughwright.ingredients.model import Class, Ingredient, Measure

# What a cook says for what the table calls otherwise.
_SAME = {
    "sachet": "packet",
    "tin": "can",
    "rasher": "slice",
    "head": "bulb",
    "extra-large": "extra large",
}

# Their weights are known, but what they hold is not: they stand only for themselves.
_BY_FINGERS = ("pinch", "dash")


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass found through a household measure: ``spread_kg`` is one standard deviation."""

    kg: float
    spread_kg: float
    source: str
    how: str


def household_mass(
    ingredient: Ingredient, *, volume_m3: float | None = None, measure: str | None = None, count: float = 1.0
) -> Mass:
    """What a volume [m3], or ``count`` of a measure ("large", "clove", "cup, chopped"), of it weighs.

    Raises UnknownNameError where the ingredient has no such measure, naming those it has.
    """
    if volume_m3 is None and measure is None:
        raise UnknownNameError(_no_measure(ingredient, "nothing"))
    amount = volume_m3 if volume_m3 is not None else count
    if not math.isfinite(amount) or amount < 0:
        raise OutOfRangeError(
            Fault(f"an amount of {ingredient.name}", wanted="zero or more", found=f"{amount:g}")
        )
    if volume_m3 is not None:
        return _of_volume(ingredient, volume_m3, measure)
    return _of_count(ingredient, measure or "", count)


def measure_named(ingredient: Ingredient, name: str) -> Measure | None:
    """The ingredient's measure that ``name`` means: its words, else with words to spare, else any piece."""
    words = [part for word in words_of(name) for part in _SAME.get(word, word).split()]
    usual_packing = {one.unit: one for one in default_volumes(ingredient.measures)}
    exact = usual_packing.get(" ".join(words)) or _holding(ingredient, words)
    if exact is not None or not words:
        return exact
    own = {*words_of(ingredient.name), *words_of(ingredient.description)}
    left = [word for word in words if word not in own]
    if left:
        return _holding(ingredient, left)
    usual = "large" if ingredient.class_ is Class.EGG else "medium"
    return _holding(ingredient, [usual]) or next((one for one in ingredient.measures if not one.volume), None)


def _holding(ingredient: Ingredient, words: list[str]) -> Measure | None:
    """The measure with all these words and the fewest others; of two alike the medium one, else the first."""
    wanted = set(words)
    fitting = [one for one in ingredient.measures if wanted and wanted <= _measure_words(one)]
    return min(fitting, key=lambda one: (len(words_of(one.name)), "medium" not in one.name), default=None)


def _measure_words(measure: Measure) -> set[str]:
    return {*words_of(measure.name), *words_of(measure.unit)}


def _of_volume(ingredient: Ingredient, volume_m3: float, measure: str | None) -> Mass:
    named = measure_named(ingredient, measure) if measure else None
    volumes = [one for one in default_volumes(ingredient.measures) if one.unit not in _BY_FINGERS]
    if named is not None and named.volume:
        return _mass(named, volume_m3 / volume_of(named.unit))
    if volumes:
        # By the spoon or cup that is written, not by how many: twice as many weigh twice as much.
        size = _one(measure) or volume_m3 or 1.0
        nearest = min(volumes, key=lambda one: abs(math.log(volume_of(one.unit) / size)))
        return _mass(nearest, volume_m3 / volume_of(nearest.unit))
    if ingredient.density is not None:
        kg, source = ingredient.density * volume_m3, ingredient.density_source or ingredient.source
        spread = kg * relative_spread(ingredient.class_, volume=True)
        return Mass(kg, spread, source, f"{ingredient.density:g} kg/m3 (spread assumed)")
    raise UnknownNameError(_no_measure(ingredient, f'"{measure}"' if measure else "a volume"))


def _one(measure: str | None) -> float | None:
    """What one of a spoon or cup holds [m3]; ``None`` where it is no measure of volume."""
    try:
        return volume_of(measure) if measure else None
    except (QuantityError, ValueError):
        return None


def _of_count(ingredient: Ingredient, measure: str, count: float) -> Mass:
    named = measure_named(ingredient, measure)
    if named is None:
        raise UnknownNameError(_no_measure(ingredient, f'"{measure}"'))
    return _mass(named, count)


def _mass(measure: Measure, count: float) -> Mass:
    how = f"1 {measure.name} = {measure.grams:g} g, give or take {measure.spread_grams:.2g} g ({measure.how})"
    return Mass(measure.grams * count / 1000.0, measure.spread_grams * count / 1000.0, measure.source, how)


def _no_measure(ingredient: Ingredient, found: str) -> Fault:
    names = [f'"{one.name}"' for one in ingredient.measures][:8]
    has = (
        "Write a mass, or one of its measures: " + ", ".join(names)
        if names
        else 'Write a mass, for example "20 g"'
    )
    return Fault(
        f"{ingredient.name}, by measure",
        wanted="a measure it has" if names else "a mass",
        found=found,
        try_=has,
    )
