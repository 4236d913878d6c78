"""Two windows have changed one document: both texts, what differs, and the three ways on."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote

from doughwright.store import Version
from doughwright.web._results import Occasion
from doughwright.web._windows import Work
from doughwright.web._words import when_words


@dataclass(frozen=True, slots=True)
class DiffLine:
    """A line of a comparison: ``in-new`` only in the second text, ``out`` only in the first, or ``same``."""

    kind: str
    sign: str
    text: str


@dataclass(frozen=True)
class ConflictPage:
    """This window's work against what was saved meanwhile; ``over`` is the number of theirs."""

    title: str
    path: str
    window: str
    digest: str
    base: int
    over: int
    theirs_by: str
    theirs_when: str
    mine: str
    theirs: str
    lines: tuple[DiffLine, ...]


def conflict_page(work: Work, title: str, occasion: Occasion) -> ConflictPage:
    """What to choose between."""
    return ConflictPage(
        title=title,
        path=f"/{work.kind}/{quote(work.name)}",
        window=work.window,
        digest=work.digest,
        base=work.base.number,
        over=work.head.number,
        theirs_by=work.head.who,
        theirs_when=when_words(work.head.when, occasion.now, occasion.zone),
        mine=work.text,
        theirs=work.head.text,
        lines=tuple(differences(work.head.text, work.text)),
    )


@dataclass(frozen=True)
class VersionPage:
    """One saved version: its text, and how it differs from what the window has."""

    title: str
    path: str
    window: str
    digest: str
    base: int
    number: int
    saved: str
    note: str
    text: str
    lines: tuple[DiffLine, ...]


def differences(old: str, new: str) -> Iterator[DiffLine]:
    """The lines that differ, each with three lines around it."""
    pairs = difflib.unified_diff(old.splitlines(), new.splitlines(), n=3, lineterm="")
    for line in list(pairs)[2:]:
        if line.startswith("@@"):
            yield DiffLine("gap", "", "")
        else:
            kind = {"+": "in-new", "-": "out"}.get(line[0], "same")
            yield DiffLine(kind, line[0].replace("-", "−"), line[1:])


def version_page(work: Work, version: Version, title: str, occasion: Occasion) -> VersionPage:
    """A saved version beside the window's text."""
    when = when_words(version.when, occasion.now, occasion.zone)
    return VersionPage(
        title=title,
        path=f"/{work.kind}/{quote(work.name)}",
        window=work.window,
        digest=work.digest,
        base=work.base.number,
        number=version.number,
        saved=f"saved {when} by {version.who}",
        note=version.note,
        text=version.text,
        lines=tuple(differences(version.text, work.text)),
    )
