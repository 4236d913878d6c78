"""Which mix each step of a document is about, and when each line of a mix goes in."""

from __future__ import annotations

from doughwright.recipe.model import Recipe, Step
from doughwright.recipe.weigh import WeighedLine, WeighedMix

# Not done to a dough: they take none of its time.
_BESIDE = ("cook", "slice", "note", "preheat")


def steps_of(recipe: Recipe, name: str) -> list[tuple[int, Step]]:
    """The steps about a mix, with their numbers from 0, in the document's order."""
    return [
        (number, step)
        for number, (step, owner) in enumerate(zip(recipe.steps, owners(recipe), strict=True))
        if owner == name and not (step.do in _BESIDE and step.of != name)
    ]


def owners(recipe: Recipe) -> list[str | None]:
    """The mix that each step is about; a step that names none is about the one dough, once it is mixed."""
    main = recipe.doughs[0].name if len(recipe.doughs) == 1 else None
    mixed: set[str] = set()
    latest: str | None = None
    found: list[str | None] = []
    for step in recipe.steps:
        owner = step.of or step.mix
        if owner is None and step.do == "mix" and step.add:
            owner = _with_label(recipe, step.add, latest)
        if owner is None:
            owner = main if main is not None and (main in mixed or latest is None) else latest
        if step.do == "mix" and owner is not None:
            mixed.add(owner)
            latest = owner
        found.append(owner)
    return found


def _with_label(recipe: Recipe, label: str, latest: str | None) -> str | None:
    having = [mix.name for mix in recipe.mixes if any(line.add == label for line in mix.ingredients)]
    return latest if latest in having or not having else having[0]


def lines_by_step(mix: WeighedMix, mixing: list[Step]) -> list[tuple[WeighedLine, ...]]:
    """The lines that go in at each mix step; those with no label, or one that no step has, at the first."""
    labels = [step.add for step in mixing]
    into: list[list[WeighedLine]] = [[] for _ in mixing]
    for line in mix.lines:
        label = line.line.add
        into[labels.index(label) if label is not None and label in labels else 0].append(line)
    return [tuple(lines) for lines in into]
