"""All that follows from a recipe's text in a kitchen, worked out once and kept by its text."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeVar

from doughwright.errors import DoughwrightError, Fault, InputError
from doughwright.forecast.days import days
from doughwright.forecast.results import Run
from doughwright.forecast.water import Water, water
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.formula import Formula, formula
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.store import Bench

T = TypeVar("T")
_KEPT = 64


@dataclass(frozen=True)
class Results:
    """A recipe in a kitchen: what was read and what follows. What has no answer says why in ``missing``."""

    read: RecipeDocument
    kitchen: Surroundings
    kitchen_file: str | None
    kitchen_fault: Fault | None
    formula: Formula
    waters: tuple[Water, ...]
    runs: tuple[Run, ...]
    missing: dict[str, Fault]

    @property
    def recipe(self) -> Recipe:
        """The recipe itself."""
        return self.read.recipe

    @property
    def run(self) -> Run | None:
        """The days of the first dough, where it has any."""
        return self.runs[0] if self.runs else None


def results_of(text: str, file: str, bench: Bench) -> Results:
    """What follows from a text on this bench; raises ``DocumentError`` where the text cannot be read."""
    named = _read(text, file).recipe.kitchen
    found: str | None = None
    if named is not None:
        found = next((one for one in bench.names("kitchen") if one.casefold() == named.casefold()), None)
    kitchen_text = bench.head("kitchen", found).text if found is not None else None
    return _results(text, file, named, found, kitchen_text)


@lru_cache(maxsize=_KEPT)
def _read(text: str, file: str) -> RecipeDocument:
    return read_recipe(text, file)


@lru_cache(maxsize=_KEPT)
def _results(text: str, file: str, named: str | None, found: str | None, kitchen_text: str | None) -> Results:
    read = _read(text, file)
    around, fault = _kitchen(named, found, kitchen_text)
    missing: dict[str, Fault] = {}
    runs = _tried(missing, "days", lambda: days(read.recipe, around).runs) or ()
    waters = [
        _tried(missing, f"water {mix.name}", lambda name=mix.name: water(read.recipe, around, name))
        for mix in read.recipe.doughs
    ]
    return Results(
        read=read,
        kitchen=around,
        kitchen_file=found,
        kitchen_fault=fault,
        formula=formula(read.recipe, around),
        waters=tuple(one for one in waters if one is not None),
        runs=runs,
        missing=missing,
    )


def _kitchen(named: str | None, found: str | None, text: str | None) -> tuple[Surroundings, Fault | None]:
    """The kitchen that the recipe names; the middle of the population where it cannot be had, and why."""
    if named is None:
        return surroundings(None), None
    if found is None or text is None:
        return surroundings(None), Fault(f'this bench has no kitchen "{named}"')
    try:
        return surroundings(read_kitchen(text, found).kitchen), None
    except InputError:
        return surroundings(None), Fault(f"the kitchen {found} has faults")


def _tried(missing: dict[str, Fault], what: str, work: Callable[[], T]) -> T | None:
    """The result, or why there is none."""
    try:
        return work()
    except DoughwrightError as error:
        missing[what] = error.fault
        return None
