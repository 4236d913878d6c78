"""Faults told where they are: a limit by its option, a place or a dough by its line in the document."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING

from doughwright.errors import QuantityError, UnknownNameError, placed
from doughwright.recipe.read import RecipeDocument
from doughwright.recipe.text import Where

if TYPE_CHECKING:
    # Only calibrate has readings; the days need not load what reads them.
    from doughwright.kitchen.readings.read import ReadingsDocument

Names = Iterator[tuple[Where, str, str]]


@contextmanager
def naming(what: str) -> Iterator[None]:
    """A quantity that cannot be read is told by the name of its option."""
    try:
        yield
    except QuantityError as error:
        raise QuantityError(*(replace(one, message=what) for one in error.faults)) from error


@contextmanager
def placing(document: RecipeDocument | ReadingsDocument) -> Iterator[None]:
    """A place that a kitchen does not have is told by the line that names it."""
    names = _steps(document) if isinstance(document, RecipeDocument) else _readings(document)
    try:
        yield
    except UnknownNameError as error:
        found = next((one for one in names if error.fault.found == f'"{one[2]}"'), None)
        if found is None or error.fault.line is not None:
            raise
        where, what, _ = found
        line, column = document.document.place(where)
        told = placed(error.fault, file=document.document.file, line=line, column=column)
        known = UnknownNameError(replace(told, message=f"{what}: {told.message}"))
        known.text = document.text
        raise known from error


def _steps(document: RecipeDocument) -> Names:
    for number, step in enumerate(document.recipe.steps):
        if step.at is not None:
            yield ("step", number, "at"), f'step {number + 1} "at"', step.at.text


def _readings(document: ReadingsDocument) -> Names:
    read = document.readings
    if read.dough is not None:
        yield ("dough",), '"dough"', read.dough
    for number, jar in enumerate(read.jars):
        if jar.at is not None:
            yield ("jar", number, "at"), f'jar {number + 1} "at"', jar.at.text
    for number, probe in enumerate(read.temperatures):
        yield ("temperature", number, "of"), f'temperature {number + 1} "of"', probe.of
    for number, log in enumerate(read.logs):
        yield ("log", number, "place"), f'log {number + 1} "place"', log.place
