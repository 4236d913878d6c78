"""From a recipe's weighed lines to what a dough is made of: its contents, its yeast, its heat."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._dough import Contents, Yeast
from doughwright.ingredients import Class, Ingredient
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.weigh import WeighedLine, WeighedMix
from doughwright.science.mixing import Part
from doughwright.science.parameters import Parameters
from doughwright.science.properties import (
    flour_composition,
    heat_capacity_choi_okos_1986,
)
from doughwright.science.yeast import Real, cold_shock

ASSUMED_PROTEIN = 12.0
"""Protein [%] of a flour of which none is known."""

_SHOCK = {"yeast_active_dry": "cold_shock_dry", "yeast_instant": "cold_shock_instant"}
_MOST_RUN = 120
_SCOPE = (Class.CULTURE, Class.RAISING)


@dataclass(frozen=True, slots=True)
class Lines:
    """Weighed lines with how their flour is read: ``protein`` [%] by ingredient key replaces the table's."""

    lines: tuple[WeighedLine, ...]
    protein: dict[str, Real]
    room: Real
    parameters: Parameters

    def contents(self) -> Contents:
        """All of them together."""
        return sum((self._one(line) for line in self.items()), Contents())

    def items(self) -> Iterable[tuple[WeighedLine, Ingredient, Real]]:
        """Each measured line that is an ingredient, with its mass [g]."""
        for line in self.lines:
            if line.ingredient is not None and line.mass is not None and is_some(line.mass):
                yield line, line.ingredient, line.mass * 1000.0

    def yeast(self, degrees: Real) -> list[Yeast]:
        """The yeast among them, as fresh, that wakes in a dough of so many degC."""
        return [
            Yeast(
                mass * ingredient.to_fresh * self._survives(line, ingredient, degrees),
                self._lag(line, ingredient),
            )
            for line, ingredient, mass in self.items()
            if ingredient.to_fresh is not None
        ]

    def _survives(self, line: WeighedLine, ingredient: Ingredient, degrees: Real) -> Real:
        if line.line.woken or ingredient.key not in _SHOCK:
            return 1.0
        return cold_shock(temperature=degrees, loss=getattr(self.parameters, _SHOCK[ingredient.key]))

    def _lag(self, line: WeighedLine, ingredient: Ingredient) -> Real:
        dry = ingredient.key == "yeast_active_dry" and not line.line.woken
        return self.parameters.gassing_lag_dry if dry else self.parameters.gassing_lag

    def parts(self, flour_temperature: Real, water_temperature: Real) -> list[Part]:
        """Each line in the heat balance; what says no temperature of its own is as warm as the room."""
        return [
            Part(mass / 1000.0, self._heat(line), self._warmth(line[0], flour_temperature, water_temperature))
            for line in self.items()
            for mass in [line[2]]
        ]

    def _warmth(self, line: WeighedLine, flour: Real, water: Real) -> Real:
        if line.line.temperature is not None:
            return line.line.temperature
        if line.ingredient is not None and line.ingredient.class_ is Class.FLOUR:
            return flour
        return water if is_water(line.ingredient) else self.room

    def _heat(self, line: tuple[WeighedLine, Ingredient, Real]) -> Real:
        _, ingredient, _ = line
        if ingredient.class_ is Class.FLOUR:
            return self.parameters.flour_heat
        if is_water(ingredient):
            return self.parameters.water_heat
        composition = self._one(line).composition
        return heat_capacity_choi_okos_1986(composition=composition, temperature=15.0) / 1000.0

    def _one(self, line: tuple[WeighedLine, Ingredient, Real]) -> Contents:
        _, ingredient, mass = line
        flour = mass * ingredient.flour_fraction
        return self._flour(ingredient, flour) + _other(ingredient, mass - flour)

    def _flour(self, ingredient: Ingredient, mass: Real) -> Contents:
        if not is_some(mass):
            return Contents()
        protein = self.flour_protein(ingredient)
        parts = [part * mass / 100.0 for part in flour_composition(protein=protein)]
        return Contents(mass, mass, flour_protein=mass * protein / 100.0, **_heat_parts(parts))

    def flour_protein(self, ingredient: Ingredient) -> Real:
        """Protein [%] of a flour: the kitchen's, else its own, else the assumed."""
        known = ingredient.protein if ingredient.protein is not None else ASSUMED_PROTEIN
        return self.protein.get(ingredient.key, known)


def is_some(mass: Real) -> bool:
    """Whether there is anything of it in any kitchen."""
    return bool(np.any(np.asarray(mass) > 0.0))


def _heat_parts(parts: Sequence[Real]) -> dict[str, Real]:
    names = ("all_water", "all_protein", "all_fat", "all_carbohydrate", "all_fibre", "all_ash")
    return dict(zip(names, parts, strict=True))


def _other(ingredient: Ingredient, mass: Real) -> Contents:
    """What is no flour; composition the source leaves blank is counted as carbohydrate, for its heat only."""
    if not is_some(mass):
        return Contents()
    share = mass / 100.0
    salt = ingredient.salt or 0.0
    if ingredient.class_ is Class.SALT:
        return Contents(mass=mass, salt=mass, all_ash=mass)
    water, sugar = ingredient.water or 0.0, ingredient.sugars or 0.0
    if ingredient.class_ is Class.CULTURE:
        water = 100.0
    known = [
        water,
        ingredient.protein or 0.0,
        ingredient.fat or 0.0,
        ingredient.fibre or 0.0,
        ingredient.ash or 0.0,
    ]
    rest = max(100.0 - sum(known), 0.0)
    parts = [known[0], known[1], known[2], rest, known[3], known[4]]
    return Contents(
        mass=mass,
        water=water * share,
        salt=salt * share,
        sugar=0.0 if ingredient.milk_sugar else sugar * share,
        lactose=sugar * share if ingredient.milk_sugar else 0.0,
        **_heat_parts([part * share for part in parts]),
    )


def is_water(ingredient: Ingredient | None) -> bool:
    """Whether an ingredient is plain water, which is poured at a temperature of the cook's choice."""
    return ingredient is not None and ingredient.class_ is Class.LIQUID and (ingredient.water or 0.0) > 99.0


_FORMS = {"yeast_active_dry": "active dry", "yeast_instant": "instant", "yeast_compressed_fresh": "fresh"}


def yeast_forms(lines: Iterable[WeighedLine]) -> list[str]:
    """The forms of yeast among the lines, as the table of limits names them."""
    return [
        "active dry, woken" if line.line.woken and form == "active dry" else form
        for line in lines
        if line.ingredient is not None and line.ingredient.class_ is Class.YEAST and line.mass
        for form in [_FORMS.get(line.ingredient.key, "instant")]
    ]


def blanks(lines: Iterable[WeighedLine]) -> list[str]:
    """What the table does not know of a dough's ingredients and the days therefore leave out, in words."""
    said = []
    for line in lines:
        ingredient = line.ingredient
        if ingredient is None or not line.mass or ingredient.class_ in (Class.FLOUR, Class.YEAST):
            continue
        if ingredient.class_ is not Class.SALT:
            missing = [
                word
                for word, value in (
                    ("water", ingredient.water),
                    ("sugar", ingredient.sugars),
                    ("salt", ingredient.salt),
                )
                if value is None
            ]
            if missing:
                said.append(f"the {' and '.join(missing)} in {line.line.item} is not known and is left out")
    return said


def lines_within(weighed: Mapping[str, WeighedMix], name: str) -> list[WeighedLine]:
    """The lines of a mix and of every mix in it, each mix once; refuses more mixes than days are run of."""
    names = [name]
    for one in names:
        names += dict.fromkeys(
            line.line.mix for line in weighed[one].lines if line.line.mix and line.line.mix not in names
        )
    if len(names) > _MOST_RUN:
        wanted, try_ = f"at most {_MOST_RUN} for its days", "Take some of them together"
        raise NoAnswerError(Fault(f'"{name}" is made of {len(names)} mixes', wanted=wanted, try_=try_))
    return [line for one in names for line in weighed[one].lines if line.line.mix is None]


def kitchen_protein(kitchen: Surroundings, lines: Iterable[WeighedLine]) -> dict[str, Real]:
    """The kitchen's own flour protein [%] for the flour there is most of, where the kitchen gives one."""
    flours: dict[str, float] = {}
    for line in lines:
        if line.ingredient is not None and line.ingredient.class_ is Class.FLOUR and line.mass is not None:
            flours[line.ingredient.key] = flours.get(line.ingredient.key, 0.0) + float(np.mean(line.mass))
    if kitchen.flour_protein is None or not flours:
        return {}
    return {max(flours, key=lambda key: flours[key]): kitchen.flour_protein.value * 100.0}


def main_protein(lines: Iterable[WeighedLine]) -> float | None:
    """The share of protein in the flour there is most of; ``None`` without flour."""
    flours: dict[str, tuple[float, float]] = {}
    for line in lines:
        one = line.ingredient
        if one is not None and one.class_ is Class.FLOUR and line.mass is not None:
            known = one.protein if one.protein is not None else ASSUMED_PROTEIN
            flours[one.key] = (flours.get(one.key, (0.0, known))[0] + line.mass, known / 100.0)
    return max(flours.values())[1] if flours else None


def need_yeast(name: str, lines: Sequence[WeighedLine]) -> None:
    """Refuse a dough without yeast, naming what else raises it."""
    if any(line.ingredient is not None and line.ingredient.to_fresh and line.mass for line in lines):
        return
    beyond = out_of_scope(lines)
    because = f" ({', '.join(beyond)} is not modelled)" if beyond else ""
    raise NoAnswerError(
        Fault(
            f'"{name}" has no yeast, and the days are those of a yeasted dough{because}',
            try_="Formula, plan, shopping and label still count it",
        )
    )


def out_of_scope(lines: Iterable[WeighedLine]) -> list[str]:
    """Cultures and chemical raising among the lines, by name."""
    return [
        line.line.item or ""
        for line in lines
        if line.ingredient is not None and line.ingredient.class_ in _SCOPE
    ]
