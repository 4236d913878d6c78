"""The history of a document: its versions, and how one goes back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, tzinfo
from urllib.parse import quote

from doughwright.store import Bench, Draft
from doughwright.web._windows import Work
from doughwright.web._words import when_words

# The newest so many are listed at once, the others on opening.
AT_ONCE = 5


@dataclass(frozen=True, slots=True)
class VersionRow:
    """A saved version: its number, when and by whom, its note, and where its text is."""

    number: int
    when: str
    who: str
    note: str
    address: str


@dataclass(frozen=True, slots=True)
class HistoryPart:
    """The part "History": the newest versions first; ``elsewhere`` are other windows with unsaved work."""

    newest: tuple[VersionRow, ...]
    older: tuple[VersionRow, ...]
    undoable: bool
    elsewhere: tuple[tuple[str, str], ...]


def history_part(bench: Bench, work: Work, now: datetime, zone: tzinfo) -> HistoryPart:
    """All versions of a window's document, and the windows with unsaved work on it."""
    path = f"/{work.kind}/{quote(work.name)}"
    rows = tuple(
        VersionRow(
            number=one.number,
            when=when_words(one.when, now, zone),
            who=one.who,
            note=one.note,
            address=f"{path}/version/{one.number}?window={work.window}",
        )
        for one in reversed(bench.versions(work.kind, work.name))
    )
    others = [one for one in bench.drafts(work.kind, work.name) if _counts(one, work)]
    elsewhere = tuple((f"{path}?window={one.window}", when_words(one.when, now, zone)) for one in others)
    undoable = work.head.origin > 1 and not work.unsaved and not work.overtaken
    return HistoryPart(rows[:AT_ONCE], rows[AT_ONCE:], undoable, elsewhere)


def _counts(draft: Draft, work: Work) -> bool:
    """Whether a draft is unsaved work of another window."""
    return draft.window != work.window and draft.text != work.head.text
