"""Every amount of a recipe as a mass: spoons, counts, percentages and mixes in mixes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from doughwright.errors import Fault, InputError
from doughwright.ingredients import Ingredient, household_mass
from doughwright.recipe.model import Line, Mix, Recipe
from doughwright.recipe.resolve import ingredient_of
from doughwright.units import AmountKind


@dataclass(frozen=True, slots=True)
class WeighedLine:
    """A line with its mass [kg] for the whole batch; ``None`` where it is not measured ("to taste").

    ``how`` is one of weighed, percent, measured (spoons, cups), counted, mix, unmeasured; ``spread`` [kg] is
    one standard deviation where the mass comes from a household measure.
    """

    line: Line
    ingredient: Ingredient | None
    mass: float | None
    how: str
    spread: float | None = None
    source: str | None = None


@dataclass(frozen=True, slots=True)
class WeighedMix:
    """A mix with its lines weighed; ``mass`` and ``flour`` [kg] count the mixes in it."""

    mix: Mix
    lines: tuple[WeighedLine, ...]
    mass: float
    flour: float


class Weighing:
    """The masses of a recipe's mixes, each worked out once, the ones a mix needs first."""

    def __init__(self, recipe: Recipe) -> None:
        self.recipe = recipe
        self._done: dict[str, WeighedMix] = {}

    def mix(self, name: str) -> WeighedMix:
        """A mix, weighed; raises ``InputError`` where a percentage has nothing to be a percentage of."""
        for mix in self._with_what_is_in_it(name):
            self._done[mix.name] = self._weigh(mix)
        return self._done[name]

    def _with_what_is_in_it(self, name: str) -> list[Mix]:
        """A mix and those in it that are not weighed yet, each after all that is in it."""
        order: dict[str, Mix] = {}
        stack = [(name, False)]
        while stack:
            one, ready = stack.pop()
            if one in self._done or one in order:
                continue
            mix = self.recipe.mix(one)
            if ready:
                order[one] = mix
            else:
                stack += [(one, True), *((line.mix, False) for line in mix.ingredients if line.mix)]
        return list(order.values())

    def _weigh(self, mix: Mix) -> WeighedMix:
        pieces = self.recipe.makes.pieces if mix.per == "piece" else 1
        known = [self._line(mix, line, pieces) for line in mix.ingredients]
        if any(one.how == "percent" for one in known):
            flour = self._all_flour(mix, known)
            known = [self._of_flour(one, flour) for one in known]
        mass = sum(one.mass or 0.0 for one in known)
        return WeighedMix(mix, tuple(known), mass, sum(self._flour(one) for one in known))

    def _line(self, mix: Mix, line: Line, pieces: int) -> WeighedLine:
        amount = line.amount
        if amount is None:
            raise InputError(
                Fault(f'"{mix.name}": an amount is missing', try_='Write for example amount = "420 g"')
            )
        if line.mix is not None:
            return self._part(line, pieces)
        ingredient = ingredient_of(self.recipe, line)
        if amount.kind is AmountKind.PERCENT:
            return WeighedLine(line, ingredient, None, "percent")
        if amount.kind is AmountKind.MASS and amount.value is not None:
            return WeighedLine(line, ingredient, amount.value * pieces, "weighed")
        if amount.kind in (AmountKind.TASTE, AmountKind.ALL):
            return WeighedLine(line, ingredient, None, "unmeasured")
        return by_measure(line, ingredient, pieces)

    def _part(self, line: Line, pieces: int) -> WeighedLine:
        amount = line.amount
        if amount is not None and amount.kind is AmountKind.PERCENT:
            return WeighedLine(line, None, None, "percent")
        if amount is not None and amount.kind is AmountKind.MASS and amount.value is not None:
            return WeighedLine(line, None, amount.value * pieces, "mix")
        return WeighedLine(line, None, self.mix(line.mix or "").mass, "mix")

    def _flour(self, one: WeighedLine) -> float:
        """The flour [kg] in a weighed line, that of a mix in it included."""
        if one.mass is None:
            return 0.0
        if one.line.mix is not None:
            part = self.mix(one.line.mix)
            return part.flour * one.mass / part.mass if part.mass > 0 else 0.0
        return one.mass * one.ingredient.flour_fraction if one.ingredient is not None else 0.0

    def _all_flour(self, mix: Mix, lines: list[WeighedLine]) -> float:
        """All flour [kg] of a mix some of whose amounts are per cent of it."""
        shares = [(one, _share(one)) for one in lines if one.how == "percent"]
        in_flour = sum(share * self._flour_share(one) for one, share in shares)
        weighed = sum(self._flour(one) for one in lines)
        if weighed > 0:
            if in_flour >= 1.0:
                raise InputError(_too_much_flour(mix, in_flour))
            return weighed / (1.0 - in_flour)
        makes = self.recipe.makes
        if makes.piece_mass is None or in_flour <= 0:
            raise InputError(_no_flour(mix))
        whole = makes.piece_mass * makes.pieces / (1.0 - makes.loss)
        rest = whole - sum(one.mass or 0.0 for one in lines)
        if rest <= 0:
            raise InputError(
                Fault(f'"{mix.name}" weighs more than piece_mass asks for', try_="Raise piece_mass")
            )
        if abs(in_flour - 1.0) > 0.005:
            raise InputError(_not_whole(mix, in_flour))
        return rest / sum(share for _, share in shares)

    def _flour_share(self, one: WeighedLine) -> float:
        if one.line.mix is not None:
            part = self.mix(one.line.mix)
            return part.flour / part.mass if part.mass > 0 else 0.0
        return one.ingredient.flour_fraction if one.ingredient is not None else 0.0

    def _of_flour(self, one: WeighedLine, flour: float) -> WeighedLine:
        if one.how != "percent":
            return one
        return WeighedLine(one.line, one.ingredient, _share(one) * flour, "percent")


def _share(one: WeighedLine) -> float:
    return (one.line.amount.value or 0.0) if one.line.amount is not None else 0.0


def by_measure(line: Line, ingredient: Ingredient, pieces: int = 1) -> WeighedLine:
    """A line in spoons, cups or pieces, by the ingredient's own household measure.

    Raises ``UnknownNameError`` where the ingredient has no such measure.
    """
    amount = line.amount
    if amount is None:
        raise InputError("an amount is missing")
    if amount.volume is not None:
        found = household_mass(ingredient, volume_m3=amount.volume, measure=amount.measure)
        how = "measured"
    else:
        found = household_mass(ingredient, measure=amount.measure or "", count=amount.value or 0.0)
        how = "counted"
    return WeighedLine(line, ingredient, found.kg * pieces, how, found.spread_kg * pieces, found.source)


def weigh(recipe: Recipe) -> dict[str, WeighedMix]:
    """Every mix of a recipe, weighed, by name; raises ``InputError`` where an amount cannot be a mass."""
    return dict(_weighed(recipe))


@lru_cache(maxsize=32)
def _weighed(recipe: Recipe) -> dict[str, WeighedMix]:
    weighing = Weighing(recipe)
    return {mix.name: weighing.mix(mix.name) for mix in recipe.mixes}


def _no_flour(mix: Mix) -> Fault:
    return Fault(
        f'"{mix.name}": the percentages have no flour to be of',
        wanted="one flour with a mass, or piece_mass",
        try_='Give one flour in grams, or write piece_mass = "260 g" in [makes]',
    )  # fmt: skip


def _not_whole(mix: Mix, share: float) -> Fault:
    return Fault(
        f'"{mix.name}": the flours do not make up the whole', wanted="flours of 100 % together",
        found=f"{share * 100:g} %", try_="Change one flour's percentage",
    )  # fmt: skip


def _too_much_flour(mix: Mix, share: float) -> Fault:
    return Fault(
        f'"{mix.name}": the flours in per cent leave nothing for the flour in grams',
        wanted="less than 100 % in all", found=f"{share * 100:g} %",
        try_="Give every flour in grams, or lower the percentages",
    )  # fmt: skip
