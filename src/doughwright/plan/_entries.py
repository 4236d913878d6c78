"""From a solution to the entries of a plan."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import tzinfo

from doughwright.figures import Figure
from doughwright.plan._awake import Awake, moment_of
from doughwright.plan._network import Part
from doughwright.plan._solve import Solution
from doughwright.plan.model import Chosen, Entry
from doughwright.recipe.model import Recipe


def entries(solution: Solution, zone: tzinfo, awake: Awake) -> tuple[Entry, ...]:
    """Every entry in time order; of two at one moment, the work before the wait."""
    spans = [*_of_nodes(solution), *_standing(solution)]
    spans.sort(key=lambda one: (one[0], one[2].hands == 0, one[1]))
    return tuple(_entry(part, start, end, zone, awake) for start, end, part in spans)


def with_texts(made: Sequence[Entry], recipe: Recipe) -> tuple[Entry, ...]:
    """The entries with what the document writes at each step and in the notes before it, each text once."""
    texts = _texts(recipe)
    out: list[Entry] = []
    for entry in made:
        text = texts.pop(entry.step, None) if entry.step is not None else None
        out.append(replace(entry, text=text) if text else entry)
    return tuple(out)


def chosen(solution: Solution, recipe: Recipe) -> tuple[Chosen, ...]:
    """What was chosen for each wait of the document that has a range, in the document's order."""
    found = [
        (one.node.step, one)
        for one in solution.placed
        if one.node.wait and one.node.step is not None and one.node.range[0] < one.node.range[1]
    ]
    return tuple(
        Chosen(number + 1, recipe.steps[number].do, *(_hours(n) for n in (*one.node.range, one.length)))
        for number, one in sorted(found, key=lambda pair: pair[0])
    )


def lengths(solution: Solution, recipe: Recipe) -> dict[int, float]:
    """Seconds of every wait, and of all work on a dough but mixing and baking, by the step's number from 0.

    A preferment that stands ready for a while has waited that much longer.
    """
    extra = {
        chain.nodes[-1].key: one.start - end
        for one in solution.placed
        for chain, end in ((chain, _end(solution, chain.nodes[-1].key)) for chain in one.node.joins)
        if chain.mix is not None
    }
    found: dict[int, float] = {}
    for one in solution.placed:
        step = one.node.step
        if step is None or step < 0 or one.node.oven or recipe.steps[step].do in ("mix", "cook", "preheat"):
            continue
        found[step] = 60.0 * (one.length + (extra.get(one.node.key, 0) if one.node.wait else 0))
    return found


def _of_nodes(solution: Solution) -> Iterator[tuple[int, int, Part]]:
    for one in solution.placed:
        for part in one.node.parts:
            start = one.start + part.offset
            end = one.end if part.length is None else start + part.length
            if end > start:
                yield start, end, part


def _standing(solution: Solution) -> Iterator[tuple[int, int, Part]]:
    """What is ready before it is used: it stands, or the oven stays hot."""
    for one in solution.placed:
        for chain in one.node.joins:
            end = _end(solution, chain.nodes[-1].key)
            if end < one.start:
                said = f"Ready and waiting: {chain.mix}" if chain.mix else "The oven stays hot"
                last = chain.nodes[-1].parts[-1]
                yield end, one.start, Part(said, 0, None, mix=chain.mix, place=last.place)


def _end(solution: Solution, key: int) -> int:
    return next(one.end for one in solution.placed if one.node.key == key)


def _texts(recipe: Recipe) -> dict[int, str]:
    """By step from 1; a note at the very end belongs to the last step."""
    found: dict[int, list[str]] = {}
    waiting: list[str] = []
    last = 1
    for number, step in enumerate(recipe.steps, start=1):
        waiting += [text for text in (step.text, step.notes) if text]
        if step.do != "note":
            found[number], waiting, last = waiting, [], number
    found.setdefault(last, []).extend(waiting)
    return {number: " ".join(texts) for number, texts in found.items() if texts}


def _entry(part: Part, start: int, end: int, zone: tzinfo, awake: Awake) -> Entry:
    return Entry(
        start=moment_of(start, zone).isoformat(),
        end=moment_of(end, zone).isoformat(),
        what=part.what,
        hands_on=Figure(float(part.hands), "min"),
        step=None if part.step is None or part.step < 0 else part.step + 1,
        mix=part.mix,
        place=part.place,
        piece=part.piece,
        wait=part.hands == 0,
        assumed=part.assumed,
        night=part.hands > 0 and awake.night(start, end) > 0,
    )


def _hours(minutes: int) -> Figure:
    return Figure(minutes / 60.0, "h")
