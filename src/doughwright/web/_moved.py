"""What a window's edits have moved: in the document, and in all that follows from it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from doughwright.figures import Figure
from doughwright.publish.band import run_clock
from doughwright.publish.render import capital, duration, figure, listed, rise
from doughwright.recipe.moved import Moved, moved_formula
from doughwright.recipe.text import Where
from doughwright.recipe.validate import named
from doughwright.web._form import build, parsed
from doughwright.web._results import Results

NOTHING = "Nothing has moved: the formula, the days and the plan stay as they were."


@dataclass(frozen=True, slots=True)
class MovedRow:
    """One thing that moved, as words: what, how, now, before."""

    what: str
    how: str
    now: str
    before: str


@dataclass(frozen=True, slots=True)
class MovedPart:
    """The part "What moved": what the cook did, what moved by it, and what did not."""

    margin: tuple[str, ...]
    rows: tuple[MovedRow, ...]
    still: str


@dataclass(frozen=True, slots=True)
class Edit:
    """One value that is another now: which, what it was and is."""

    what: str
    before: str
    now: str

    @property
    def words(self) -> str:
        """The edit as one says it."""
        return f"{self.what} from {self.before or 'nothing'} to {self.now or 'nothing'}"


def moved_part(old_text: str, text: str, before: Results, now: Results) -> MovedPart:
    """What moved between two texts of one recipe."""
    edits = edits_between(old_text, text)
    said = f"You took {listed([one.words for one in edits[:4]])}." if edits else "You changed the text."
    if len(edits) > 4:
        said = f"{said[:-1]}, and {len(edits) - 4} more."
    return MovedPart((said,), rows_between(before, now), "")


def edits_between(old_text: str, text: str) -> tuple[Edit, ...]:
    """The values that differ, where the two texts have the same build; else none."""
    old, new = parsed(old_text), parsed(text)
    if old is None or new is None or build(old) != build(new):
        return ()
    before, now = dict(_leaves(old.data)), dict(_leaves(new.data))
    paths = list(dict.fromkeys([*now, *before]))
    return tuple(
        Edit(_called(new.data, where), before.get(where, ""), now.get(where, ""))
        for where in paths
        if before.get(where) != now.get(where)
    )


def _leaves(thing: Any, where: Where = ()) -> Iterator[tuple[Where, str]]:
    if isinstance(thing, dict):
        for key, value in thing.items():
            yield from _leaves(value, (*where, key))
    elif isinstance(thing, list):
        for index, value in enumerate(thing):
            yield from _leaves(value, (*where, index))
    else:
        yield where, str(thing)


def _called(data: Any, where: Where) -> str:
    """A value as the cook calls it: "the dough's instant yeast", "the retard's time"."""
    match where:
        case ("mix", int(number), "ingredients", int(index), "amount"):
            mix = data["mix"][number]
            line = mix["ingredients"][index]
            return f"the {mix.get('name', 'mix')}’s {line.get('item') or line.get('mix')}"
        case ("step", int(number), "for"):
            return f"the time of step {number + 1}, {data['step'][number].get('do', '')},"
        case ("step", int(number), "at"):
            return f"the place of step {number + 1}, {data['step'][number].get('do', '')},"
        case (_, key) if isinstance(key, str):
            return f"the {key.replace('_', ' ')}"
        case _:
            return named(where)


def rows_between(before: Results, now: Results) -> tuple[MovedRow, ...]:
    """What moved between two results: the days first, then the formula."""
    rows = [*_days(before, now), *(_row(one) for one in moved_formula(before.formula, now.formula))]
    return tuple(rows)


def _row(one: Moved) -> MovedRow:
    return MovedRow(one.what, one.how, _shown(one.now), _shown(one.before))


def _shown(value: Figure | str) -> str:
    return figure(Figure(value.value, value.unit, why=value.why)) if isinstance(value, Figure) else value


def _days(before: Results, now: Results) -> Iterator[MovedRow]:
    old, run = before.run, now.run
    if old is None or run is None:
        return
    was, is_ = run_clock(old, before.recipe), run_clock(run, now.recipe)
    old_from, new_from = old.ripe_window.from_, run.ripe_window.from_
    if old_from is not None and new_from is not None:
        gone = (is_.at(new_from) - was.at(old_from)).total_seconds() / 3600.0
        if abs(gone) >= 1.0 / 60.0:
            how = f"{duration(abs(gone))} {'later' if gone > 0 else 'earlier'}"
            yield MovedRow("ripe", how, is_.day_time(new_from), was.day_time(old_from))
    if old.judged.state != run.judged.state:
        how = f"{run.judged.state}, no longer {old.judged.state}"
        yield MovedRow("the dough", how, rise(run.judged.rise), rise(old.judged.rise))
    elif abs(old.judged.rise - run.judged.rise) >= 0.005:
        how = "higher" if run.judged.rise > old.judged.rise else "lower"
        yield MovedRow("the dough", how, f"{rise(run.judged.rise)} times", rise(old.judged.rise))


def sentence(rows: tuple[MovedRow, ...]) -> str:
    """What moved, in one sentence for the strip."""
    if not rows:
        return NOTHING
    said = listed([f"{row.what} {row.how}" for row in rows[:2]])
    return capital(f"{said}.")
