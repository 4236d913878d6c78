"""The part "What moved": what a window's edits did to the recipe, and all that this moved."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from doughwright.figures import Figure, celsius
from doughwright.publish.edits import edits
from doughwright.publish.moved import Outcome, what_moved
from doughwright.publish.others import ripe_moved
from doughwright.publish.render import capital, figure, listed
from doughwright.recipe.moved import Moved
from doughwright.recipe.text import Where
from doughwright.web._results import Results

# More edits than these are counted, not listed.
MOST_EDITS = 4
# A longer value does not fit the button.
LONGEST_VALUE = 16


@dataclass(frozen=True, slots=True)
class MovedRow:
    """One thing that moved, as words: what, how, now, before."""

    what: str
    how: str
    now: str
    before: str


@dataclass(frozen=True, slots=True)
class MovedPart:
    """What the cook did, what moved by it since the saved version, and what did not."""

    margin: tuple[str, ...]
    rows: tuple[MovedRow, ...]
    still: str


def moved_part(before: Results, now: Results) -> MovedPart:
    """What moved between the saved version and the window's."""
    found = what_moved(outcome(before), outcome(now))
    rows = tuple(_row(one) for one in found.moved)
    still = found.still_sentence if rows else "Nothing moved: all figures stay as they were."
    return MovedPart((_edited(before, now),), rows, still)


def with_others(part: MovedPart, before: int | None, now: int | None) -> MovedPart:
    """The part with how many of a hundred other kitchens are ripe, where both numbers are known."""
    moved = ripe_moved(before, now) if before is not None and now is not None else None
    return replace(part, rows=(*part.rows, _row(moved))) if moved is not None else part


def moved_sentence(before: Results, now: Results) -> str:
    """What the last edit moved, in one sentence."""
    return what_moved(outcome(before), outcome(now)).strip


def kitchen_moved(before: Results, now: Results) -> tuple[tuple[MovedRow, ...], str]:
    """What a change of the kitchen moves in one recipe: the rows, and the sentence."""
    found = what_moved(outcome(before), outcome(now))
    return tuple(_row(one) for one in found.moved), found.strip


def put_back_words(before: Results, now: Results) -> str:
    """The words of the button that takes the last edit back: "Put 0.5 g back"."""
    old, new = (dict(_values(one.read.document.data)) for one in (before, now))
    changed = [where for where in old.keys() | new.keys() if old.get(where) != new.get(where)]
    value = old.get(changed[0], "") if len(changed) == 1 else ""
    if value and len(value) <= LONGEST_VALUE:
        return f"Put {value} back"
    return "Put them back" if len(changed) > 1 else "Put it back"


def _values(thing: Any, where: Where = ()) -> Iterator[tuple[Where, str]]:
    """Every value of a document with its path."""
    if isinstance(thing, dict | list):
        for key, one in thing.items() if isinstance(thing, dict) else enumerate(thing):
            yield from _values(one, (*where, key))
    else:
        yield where, str(thing)


def outcome(results: Results) -> Outcome:
    """The results as what two versions are compared by."""
    run = results.run
    waters = [one for one in results.waters if run is not None and one.dough == run.dough]
    return Outcome(
        recipe=results.recipe,
        formula=results.formula,
        run=run,
        clock=results.clock(run) if run is not None else None,
        water=celsius(waters[0].water_temperature) if waters else None,
        hands_on=results.plan.hands_on_total if results.plan is not None else None,
    )


def _edited(before: Results, now: Results) -> str:
    done = edits(before.recipe, now.recipe)
    if not done:
        return "The text is another, the recipe the same."
    said = listed(done[:MOST_EDITS])
    more = f", and {len(done) - MOST_EDITS} more edits" if len(done) > MOST_EDITS else ""
    return f"{capital(said)}{more}."


def _row(one: Moved) -> MovedRow:
    return MovedRow(one.what, one.how, _shown(one.now), _shown(one.before))


def _shown(value: Figure | str) -> str:
    return figure(value) if isinstance(value, Figure) else value
