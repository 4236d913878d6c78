"""The steps of one mix, and when each line of it goes in."""

from __future__ import annotations

from doughwright.errors import Fault, NoAnswerError, UnknownNameError, did_you_mean
from doughwright.recipe.model import Recipe, Step
from doughwright.recipe.subjects import subjects
from doughwright.recipe.weigh import WeighedLine, WeighedMix

# Not done to a dough: they take none of its time.
_BESIDE = ("cook", "slice", "note", "preheat")


def steps_of(recipe: Recipe, name: str) -> list[tuple[int, Step]]:
    """The steps about a mix, with their numbers from 0, in the document's order."""
    return [
        (number, step)
        for number, (step, owner) in enumerate(zip(recipe.steps, subjects(recipe), strict=True))
        if owner == name and not (step.do in _BESIDE and step.of != name)
    ]


def dough_named(recipe: Recipe, name: str | None) -> str:
    """The dough that is asked for, the first where none is named.

    Raises ``NoAnswerError`` where the recipe has none, ``UnknownNameError`` where it has no such one.
    """
    names = [mix.name for mix in recipe.doughs]
    if not names:
        try_ = 'Give a mix kind = "dough"'
        raise NoAnswerError(Fault("this recipe has no dough, so it has no days", try_=try_))
    if name is not None and name not in names:
        near = did_you_mean(name, names) or f"Write one of: {', '.join(names)}"
        raise UnknownNameError(
            Fault("no such dough", wanted="a dough of the recipe", found=f'"{name}"', try_=near)
        )
    return name or names[0]


def lines_by_step(mix: WeighedMix, mixing: list[Step]) -> list[tuple[WeighedLine, ...]]:
    """The lines that go in at each mix step; those with no label, or one that no step has, at the first."""
    labels = [step.add for step in mixing]
    into: list[list[WeighedLine]] = [[] for _ in mixing]
    for line in mix.lines:
        label = line.line.add
        into[labels.index(label) if label is not None and label in labels else 0].append(line)
    return [tuple(lines) for lines in into]
