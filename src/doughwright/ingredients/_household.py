"""Spoons, cups and counts to kilograms, only through the ingredient's own household measures."""

from __future__ import annotations

import math
from dataclasses import dataclass

from doughwright.errors import Fault, OutOfRangeError, UnknownNameError
from doughwright.ingredients._labels import default_volumes, volume_of
from doughwright.ingredients._words import words_of
from doughwright.ingredients.model import Ingredient, Measure

# What a cook says for what the table calls otherwise.
_SAME = {
    "sachet": "packet",
    "tin": "can",
    "rasher": "slice",
    "head": "bulb",
    "cake": "cake",
    "extra-large": "extra large",
}
_ANY_PIECE = ("medium", "large")


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
    exact = _holding(ingredient, words)
    if exact is not None or not words:
        return exact
    own = {*words_of(ingredient.name), *words_of(ingredient.description)}
    left = [word for word in words if word not in own]
    if left:
        return _holding(ingredient, left)
    pieces = [one for one in ingredient.measures if not one.volume]
    by_name = {one.name: one for one in pieces}
    return next((by_name[name] for name in _ANY_PIECE if name in by_name), pieces[0] if pieces else None)


def _holding(ingredient: Ingredient, words: list[str]) -> Measure | None:
    """The measure with all these words and the fewest others; the first listed where two are equal."""
    wanted = set(words)
    best: tuple[int, Measure] | None = None
    for one in ingredient.measures:
        have = set(words_of(f"{one.unit} {one.packing}"))
        if wanted and wanted <= have and (best is None or len(have) < best[0]):
            best = (len(have), one)
    return best[1] if best else None


def _of_volume(ingredient: Ingredient, volume_m3: float, measure: str | None) -> Mass:
    named = measure_named(ingredient, measure) if measure else None
    volumes = [named] if named and named.volume else default_volumes(ingredient.measures)
    if volumes and volume_m3 > 0:
        nearest = min(volumes, key=lambda one: abs(math.log(volume_of(one.unit) / volume_m3)))
        return _mass(nearest, volume_m3 / volume_of(nearest.unit))
    if volumes:
        return _mass(volumes[0], 0.0)
    if ingredient.density is not None:
        kg = ingredient.density * volume_m3
        return Mass(kg, 0.0, ingredient.density_source or ingredient.source, f"{ingredient.density:g} kg/m3")
    raise UnknownNameError(_no_measure(ingredient, measure or "a volume"))


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
