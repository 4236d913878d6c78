"""Into how many pieces a dough goes, of what mass, and what is left."""

from __future__ import annotations

import math
from dataclasses import dataclass

from doughwright.recipe.model import Mix, Recipe, Step
from doughwright.units import format_mass


@dataclass(frozen=True, slots=True)
class Divided:
    """``pieces`` of ``mass`` [kg] and the ``rest`` [kg]; ``shared`` where all of the dough is shared out."""

    pieces: int
    mass: float | None
    rest: float
    shared: bool
    why: str | None = None
    notes: tuple[str, ...] = ()


def divide_step(recipe: Recipe, dough: str) -> Step | None:
    """The step that divides this dough, the first where there are more."""
    only = len(recipe.doughs) == 1
    for step in recipe.steps:
        subject = step.of or step.mix
        if step.do == "divide" and (subject == dough or (subject is None and only)):
            return step
    return None


def divided(recipe: Recipe, mix: Mix, mass: float) -> Divided:
    """How a dough of this mass [kg] is divided, what stays in the bowl left out."""
    step = divide_step(recipe, mix.name)
    left = mass * (1.0 - recipe.makes.loss)
    if step is not None and step.each is not None:
        return _each(step.each, left, recipe.makes.pieces)
    pieces = step.pieces if step is not None and step.pieces is not None else recipe.makes.pieces
    each = left / pieces
    return Divided(pieces, each, 0.0, True, notes=_against(recipe.makes.piece_mass, each))


def _each(each: float, left: float, asked: int) -> Divided:
    pieces = math.floor(left / each + 1e-6)
    if pieces == 0:
        why = f"the dough is {format_mass(left)}, less than one piece of {format_mass(each)}"
        return Divided(0, None, left, False, why, (why,))
    rest = max(left - pieces * each, 0.0)
    notes = (
        [f"{pieces} pieces of {each * 1000:.4g} g leave {rest * 1000:.3g} g of dough"] if rest > 1e-5 else []
    )
    if asked not in (1, pieces):
        notes.append(f"the dough makes {pieces} pieces of {each * 1000:.4g} g, but [makes] says {asked}")
    return Divided(pieces, each, rest, False, notes=tuple(notes))


def _against(asked: float | None, each: float) -> tuple[str, ...]:
    if asked is None or abs(each / asked - 1.0) <= 0.01:
        return ()
    return (f"a piece is {each * 1000:.4g} g, but [makes] piece_mass says {asked * 1000:.4g} g",)
