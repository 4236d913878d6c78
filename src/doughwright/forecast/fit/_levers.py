"""What a fit can move: the yeast, the hours of waits, the dough's temperature."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from doughwright.errors import Fault, UnknownNameError, did_you_mean
from doughwright.forecast._amounts import Changes
from doughwright.forecast._edits import yeast_lines
from doughwright.forecast._order import steps_of
from doughwright.forecast._waits import Wait, waits_of
from doughwright.forecast.fit.results import Limits
from doughwright.recipe.model import Recipe
from doughwright.recipe.subjects import subjects
from doughwright.science.yeast import Real

Array = NDArray[np.float64]
Kind = Literal["yeast", "hours", "temperature"]

MOST_YEAST = 6.0
"""Yeast is searched from its share of the amount written to as many times that."""
SHORTER, LONGER = 4.0, 4.5
"""A wait is searched down to its share of what is written, and up to as many times that."""
SHORTEST = 5.0 / 60.0
"""No wait is made shorter than that [h]."""
WARMTH = (18.0, 30.0)
"""Dough temperatures [degC] that are searched."""
PER_DEGREE = 0.2
"""A degree of dough temperature in the search's own scale, beside the logarithm of yeast and hours."""
ALWAYS = ("yeast", "dough temperature", "fridge", "room")
"""May be kept of any recipe, whether it has them or not."""
ROOM = "all its waits at room temperature"


@dataclass(frozen=True, slots=True)
class Lever:
    """One thing to move; ``low`` and ``high`` are on the search's scale, where 0 is as written.

    That is the logarithm of the factor on yeast or on the hours of ``waits``, and for the dough's temperature
    the degrees times ``PER_DEGREE``. ``before`` says whether it moves a preferment.
    """

    name: str
    kind: Kind
    low: float
    high: float
    waits: tuple[Wait, ...] = ()
    before: bool = False

    @property
    def warm(self) -> bool:
        """Whether it moves waits of the dough itself outside the cold, and no others."""
        return bool(self.waits) and not self.before and not any(one.cold for one in self.waits)


@dataclass(frozen=True, slots=True)
class Designs:
    """Recipes to try, side by side: factor on the yeast (lanes,), hours of each wait (lanes, waits) by its
    step's ``numbers``, dough temperature [degC] (lanes,).
    """

    yeast: Array
    hours: Array
    degrees: Array
    numbers: tuple[int, ...]

    def __len__(self) -> int:
        return len(self.yeast)

    def changes(self, warmth: bool) -> Changes:
        """As the days take them; without ``warmth`` the dough's temperature is left to the recipe."""
        hours: dict[int, Real] = dict(zip(self.numbers, self.hours.T, strict=True))
        return Changes(yeast=self.yeast, hours=hours, dough_temperature=self.degrees if warmth else None)

    def take(self, lanes: Sequence[int] | Array) -> Designs:
        """Some of them."""
        at = np.asarray(lanes, dtype=np.intp)
        return Designs(self.yeast[at], self.hours[at], self.degrees[at], self.numbers)


@dataclass(frozen=True, slots=True)
class Levers:
    """All levers of a recipe, what is taken first before the rest; the waits they move, and the dough's
    temperature [degC] as written.
    """

    every: tuple[Lever, ...]
    waits: tuple[Wait, ...]
    warmth: float

    def designs(self, points: Array) -> Designs:
        """What points on the search's scale, shape (lanes, levers), mean."""
        hours = np.tile([one.hours for one in self.waits], (len(points), 1))
        place = {one.number: index for index, one in enumerate(self.waits)}
        yeast, degrees = np.ones(len(points)), np.full(len(points), self.warmth)
        for index, lever in enumerate(self.every):
            if lever.kind == "yeast":
                yeast = np.exp(points[:, index])
            elif lever.kind == "temperature":
                degrees = self.warmth + points[:, index] / PER_DEGREE
            for one in lever.waits:
                hours[:, place[one.number]] *= np.exp(points[:, index])
        return Designs(yeast, hours, degrees, tuple(one.number for one in self.waits))

    @property
    def usual(self) -> tuple[int, ...]:
        """The levers that are taken first: yeast, the longest wait in the cold, all at room temperature."""
        own = [index for index, one in enumerate(self.every) if not one.before]
        yeast = [index for index in own if self.every[index].kind == "yeast"]
        cold = [index for index in own if any(one.cold for one in self.every[index].waits)]
        warm = [index for index in own if self.every[index].warm]
        return (*yeast[:1], *sorted(cold, key=lambda one: -self.every[one].waits[0].hours)[:1], *warm[:1])

    def sets(self, size: int) -> Iterator[tuple[int, ...]]:
        """Every choice of so many levers that do not move the same wait."""
        for chosen in combinations(range(len(self.every)), size):
            numbers = [one.number for index in chosen for one in self.every[index].waits]
            if len(numbers) == len(set(numbers)):
                yield chosen


def levers_of(recipe: Recipe, dough: str, *, warmth: float, limits: Limits) -> Levers:
    """The levers of a recipe's dough, ``warmth`` [degC] being its temperature as written in this kitchen.

    First the yeast, which changes no time; then the waits in the cold, those at room temperature together and
    each by itself, the last first; then the dough's temperature, and last what is done to the preferments.
    """
    own = _groups(recipe, dough)
    before = [group for name in preferments_of(recipe, dough) for group in _groups(recipe, name)]
    room = [group for group in own if group[0].at.name == "room"]
    low, high = (PER_DEGREE * (end - warmth) for end in WARMTH)
    found: list[Lever] = []
    if yeast_lines(recipe, dough):
        found.append(Lever("yeast", "yeast", -np.log(MOST_YEAST), np.log(MOST_YEAST)))
    found += [_hours(group[0].verb, group, limits) for group in reversed(own) if group[0].cold]
    if len(room) > 1:
        found.append(_hours(ROOM, [one for group in room for one in group], limits))
    found += [_hours(group[0].verb, group, limits) for group in reversed(own) if not group[0].cold]
    found.append(Lever("dough temperature", "temperature", min(low, 0.0), max(high, 0.0)))
    found += [replace(_hours(_named(recipe, one), one, limits), before=True) for one in before]
    waits = tuple(one for group in (*own, *before) for one in group)
    _check_kept(recipe, dough, found, limits.keep)
    free = [one for one in found if one.high > one.low and not _kept(one, limits.keep)]
    return Levers(tuple(free), waits, warmth)


def preferments_of(recipe: Recipe, dough: str) -> list[str]:
    """The mixes that go into a dough, and those that go into them."""
    found: list[str] = []
    for line in recipe.mix(dough).ingredients:
        if line.mix is not None and line.mix not in found:
            found += [line.mix, *(one for one in preferments_of(recipe, line.mix) if one != line.mix)]
    return list(dict.fromkeys(found))


def _groups(recipe: Recipe, name: str) -> list[list[Wait]]:
    """Waits of a mix that are one to the cook: in one place, with no dividing, balling or shaping between."""
    free = [
        one for one in waits_of(recipe, name) if recipe.steps[one.number].until is None and one.hours > 0.0
    ]
    groups: list[list[Wait]] = []
    for one in free:
        last = groups[-1][-1] if groups else None
        if last is not None and last.at.name == one.at.name and not _parted(recipe, name, last, one):
            groups[-1].append(one)
        else:
            groups.append([one])
    return groups


def _parted(recipe: Recipe, name: str, first: Wait, second: Wait) -> bool:
    between = [step.do for number, step in steps_of(recipe, name) if first.number < number < second.number]
    return any(do in ("divide", "ball", "shape", "mix") for do in between)


def _named(recipe: Recipe, group: Sequence[Wait]) -> str:
    """A preferment's group by its verb and its mix."""
    return f"{group[0].verb} ({subjects(recipe)[group[0].number]})"


def _hours(name: str, group: Sequence[Wait], limits: Limits) -> Lever:
    """Waits moved by one factor: no wait leaves what it may be."""
    low = max(np.log(_shortest(one, limits) / one.hours) for one in group)
    high = min(np.log(_longest(one, limits) / one.hours) for one in group)
    return Lever(name, "hours", float(low), float(high), tuple(group))


def _shortest(one: Wait, limits: Limits) -> float:
    return min(max(one.hours / SHORTER, SHORTEST), one.low, _longest(one, limits))


def _longest(one: Wait, limits: Limits) -> float:
    longest = max(one.hours * LONGER, one.high)
    return longest if limits.longest_wait is None else min(longest, limits.longest_wait)


def _kept(lever: Lever, keep: Sequence[str]) -> bool:
    return bool(_names(lever) & {name.casefold() for name in keep})


def _names(lever: Lever) -> set[str]:
    waits = [name for one in lever.waits for name in (one.verb, one.at.name)]
    return {name.casefold() for name in (lever.name, *waits)}


def _check_kept(recipe: Recipe, dough: str, levers: Sequence[Lever], keep: Sequence[str]) -> None:
    """Refuse to keep what nobody could change: a wait that ends by the dough may be named, and is kept."""
    waits = [one for name in (dough, *preferments_of(recipe, dough)) for one in waits_of(recipe, name)]
    names = dict.fromkeys([*ALWAYS, *(lever.name for lever in levers), *(one.verb for one in waits)])
    known = {name.casefold() for name in (*names, *(one.at.name for one in waits))}
    for one in keep:
        if one.casefold() not in known:
            try_ = did_you_mean(one, names) or f"Write one of: {', '.join(names)}"
            raise UnknownNameError(
                Fault("what is kept", wanted="something that a fit may change", found=f'"{one}"', try_=try_)
            )
