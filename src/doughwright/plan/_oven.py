"""The oven's part of a plan: each piece through all its steps there before the next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from doughwright.plan import hands
from doughwright.plan._network import Chain, Node, Part, Span
from doughwright.plan._words import work_says
from doughwright.recipe.model import BAKES, Recipe, Step


@dataclass(frozen=True, slots=True)
class Pass:
    """The steps of one pass of a dough (``mix``) through the oven: how many pieces, one by one or at once."""

    recipe: Recipe
    steps: Sequence[tuple[int, Step]]
    pieces: int
    one_by_one: bool
    mix: str | None = None


def oven_node(key: int, passing: Pass, joins: tuple[Chain, ...]) -> Node:
    """One node for all pieces: somebody is up for the whole of it; a long bake leaves the hands free."""
    parts: list[Part] = []
    busy: list[Span] = []
    at, rounds = 0, passing.pieces if passing.one_by_one else 1
    for piece in range(1, rounds + 1):
        at += _between(passing) if piece > 1 else 0
        for number, step in passing.steps:
            part = _part(passing, number, step, piece, at)
            parts.append(part)
            busy += _busy(part, step)
            at += part.length or 0
    return Node(
        key,
        (at,),
        tuple(parts),
        busy=tuple(busy),
        up=((0, at),),
        oven=True,
        joins=joins,
        step=passing.steps[0][0],
    )


def _part(passing: Pass, number: int, step: Step, piece: int, at: int) -> Part:
    at_once = 1 if passing.one_by_one else passing.pieces
    own, assumed = hands.minutes_of(step, at_once)
    length = ceil(step.for_.middle / 60.0) if step.for_ is not None else own
    length = max(length, own) if step.do not in BAKES else max(length, 1)
    said = work_says(passing.recipe, step, passing.mix, passing.pieces)
    if passing.one_by_one:
        said = f"Piece {piece}: {said[0].lower()}{said[1:]}"
    which = piece if passing.one_by_one else None
    return Part(said, at, length, min(own, length), number, passing.mix, "oven", which, assumed)


def _busy(part: Part, step: Step) -> list[Span]:
    start, end = part.offset, part.offset + (part.length or 0)
    if step.do in BAKES and end - start > hands.WATCHED_BAKE:
        first = max(1, part.hands // 2)
        return [(start, start + first), (end - 1, end)]
    return [(start, end)]


def _between(passing: Pass) -> int:
    said = [step.between for _, step in passing.steps if step.between is not None]
    return ceil(said[-1] / 60.0) if said else hands.BETWEEN
