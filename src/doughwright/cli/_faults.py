"""Faults told where they are: a limit by its option, a place by its line in the recipe."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from doughwright.errors import QuantityError, UnknownNameError, placed
from doughwright.recipe.read import RecipeDocument


@contextmanager
def naming(what: str) -> Iterator[None]:
    """A quantity that cannot be read is told by the name of its option."""
    try:
        yield
    except QuantityError as error:
        raise QuantityError(*(replace(one, message=what) for one in error.faults)) from error


@contextmanager
def placing(document: RecipeDocument) -> Iterator[None]:
    """A place that a kitchen does not have is told by the step that names it."""
    try:
        yield
    except UnknownNameError as error:
        number = next(
            (
                number
                for number, step in enumerate(document.recipe.steps)
                if step.at is not None and error.fault.found == f'"{step.at.text}"'
            ),
            None,
        )
        if number is None or error.fault.line is not None:
            raise
        line, column = document.document.place(("step", number, "at"))
        told = placed(error.fault, file=document.document.file, line=line, column=column)
        found = UnknownNameError(replace(told, message=f'step {number + 1} "at": {told.message}'))
        found.text = document.text
        raise found from error
