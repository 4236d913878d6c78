"""What the cautions ask of a recipe: what is in each mix, and how long it stands above 5 °C."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from doughwright.errors import UnknownNameError
from doughwright.forecast.results import Days, Run, Series
from doughwright.ingredients import Class, Ingredient
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.model import BAKES, Line, Mix, Recipe
from doughwright.recipe.resolve import ingredient_of
from doughwright.recipe.subjects import subjects

COLD = 5.0
HOT = 32.0
# A dough nears the temperature of its fridge and never reaches it: a core this much [K] above counts as cold.
NEARLY = 0.5
# Food of animal origin by class. Butter and lard are of the class fat: little water, and not counted.
ANIMAL = frozenset({Class.EGG, Class.MILK, Class.DAIRY, Class.CHEESE, Class.MEAT, Class.FISH})


@dataclass(frozen=True, slots=True)
class Stand:
    """A wait of a mix: the step from 0, the air [degC], and at most how long [h]."""

    step: int
    degrees: float
    hours: float


@dataclass(frozen=True, slots=True)
class Facts:
    """A recipe in a kitchen, with its days where they have been run."""

    recipe: Recipe
    kitchen: Surroundings
    runs: tuple[Run, ...] = ()

    def lines(self, mix: Mix) -> Iterator[tuple[Line, Ingredient]]:
        """The ingredients of a mix, those of mixes in it left out."""
        return ((line, ingredient_of(self.recipe, line)) for line in mix.ingredients if line.item)

    def every_line(self) -> Iterator[tuple[Line, Ingredient]]:
        """The ingredients of all mixes, dusting and finish included."""
        return (pair for mix in self.recipe.mixes for pair in self.lines(mix))

    def within(self, mix: Mix) -> list[Mix]:
        """The mix and every mix in it."""
        inside = [self.recipe.mix(line.mix) for line in mix.ingredients if line.mix]
        return [mix, *(one for part in inside for one in self.within(part))]

    def stands(self, name: str) -> list[Stand]:
        """Every wait of a mix with the air it stands in; each at the longest that its range allows."""
        found: list[Stand] = []
        place, worked = "room", False
        for number, (step, subject) in enumerate(zip(self.recipe.steps, subjects(self.recipe), strict=True)):
            if subject != name or step.do in ("note", "preheat"):
                continue
            if not step.waits:
                worked = True
                continue
            place = step.at.text if step.at is not None else "room" if worked else place
            worked = False
            degrees = step.at.degrees if step.at is not None and step.at.degrees is not None else None
            hours = step.for_.high / 3600.0 if step.for_ is not None else 0.0
            found.append(Stand(number, self.air(place) if degrees is None else degrees, hours))
        return found

    def air(self, place: str) -> float:
        """The air [degC] of a place; a place that the kitchen does not have is as the room."""
        try:
            return self.kitchen.place(place).value
        except UnknownNameError:
            return self.kitchen.room.value

    def uses_fridge(self) -> bool:
        """Whether anything stands in the fridge."""
        return any(
            step.waits and step.at is not None and step.at.name == "fridge" for step in self.recipe.steps
        )

    def first_bake(self) -> int:
        """The first step from 0 that bakes; past the last where none does."""
        steps = self.recipe.steps
        return next((n for n, step in enumerate(steps) if step.do in BAKES), len(steps))

    def warm_hours(self, chain: Sequence[Mix]) -> tuple[float, float]:
        """Hours above 5 °C and above 32 °C of what is in the first mix of a chain, up to the first bake.

        The chain leads from a mix to the dough it ends up in. The dough's own core counts where its days
        have been run, since a warm dough takes hours to cool; else the air of the places it stands in.
        """
        ends = [self._warm(mix, chain[-1]) for mix in chain]
        return sum(one[0] for one in ends), sum(one[1] for one in ends)

    def _warm(self, mix: Mix, dough: Mix) -> tuple[float, float]:
        run = next((one for one in self.runs if one.dough == dough.name), None)
        series = _series_of(run, mix.name) if run is not None else []
        if series:
            return sum(_above(one, COLD + NEARLY) for one in series), sum(_above(one, HOT) for one in series)
        stands = [one for one in self.stands(mix.name) if one.step < self.first_bake()]
        return (
            sum(one.hours for one in stands if one.degrees > COLD),
            sum(one.hours for one in stands if one.degrees > HOT),
        )

    def ways(self, mix: Mix) -> Iterator[list[Mix]]:
        """The mixes that lead from one to each dough that is baked, the first and the last included."""
        if mix in self.recipe.doughs:
            yield [mix]
        for user in self.recipe.mixes:
            if any(line.mix == mix.name for line in user.ingredients):
                yield from ([mix, *way] for way in self.ways(user))


def facts_of(recipe: Recipe, kitchen: Surroundings, run: Days | Run | None) -> Facts:
    """The facts of a recipe in a kitchen, with or without its days."""
    runs = run.runs if isinstance(run, Days) else (run,) if run is not None else ()
    return Facts(recipe, kitchen, runs)


def _series_of(run: Run, name: str) -> list[tuple[Series, float | None]]:
    """The course of a mix up to the bake, each with where to stop [h]."""
    if run.dough == name:
        later: list[tuple[Series, float | None]] = [(run.after, None)] if run.after is not None else []
        return [(run.series, run.judged_at), *later]
    return [(one.series, None) for one in run.preferments if one.name == name]


def _above(course: tuple[Series, float | None], degrees: float) -> float:
    """Hours of a course in which the core is above a temperature, between points taken as a line."""
    series, until = course
    points = [
        (time, core)
        for time, core in zip(series.time, series.core, strict=True)
        if until is None or time <= until
    ]
    hours = 0.0
    for (start, first), (end, last) in pairwise(points):
        low, high = min(first, last), max(first, last)
        share = 1.0 if low > degrees else 0.0 if high <= degrees else (high - degrees) / (high - low)
        hours += share * (end - start)
    return hours
