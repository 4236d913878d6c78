"""Which mix each step of a document is about."""

from __future__ import annotations

from doughwright.recipe.model import Recipe, Step


def subjects(recipe: Recipe) -> list[str | None]:
    """The mix that each step is about; a step that names none is about the one dough, once it is mixed."""
    doughs = [mix.name for mix in recipe.doughs]
    mixed: set[str] = set()
    latest: str | None = None
    found: list[str | None] = []
    for step in recipe.steps:
        subject = step.of or step.mix or (_cooked(recipe, step) if step.do == "cook" else None)
        if subject is None and step.do == "mix" and step.add:
            having = [
                mix.name for mix in recipe.mixes if any(line.add == step.add for line in mix.ingredients)
            ]
            subject = latest if latest in having or not having else having[0]
        if subject is None and step.do != "cook":
            main = doughs[0] if len(doughs) == 1 else None
            subject = main if main is not None and (main in mixed or latest is None) else latest
        if step.do == "mix" and subject is not None:
            mixed.add(subject)
            latest = subject
        found.append(subject)
    return found


def _cooked(recipe: Recipe, step: Step) -> str | None:
    aside = [mix.name for mix in recipe.mixes if mix.kind in ("sauce", "topping")]
    return step.with_[0] if step.with_ else aside[0] if len(aside) == 1 else None
