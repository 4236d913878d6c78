"""The part "Other kitchens": the fan, the hundred marks, what explains them, how each side fails."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.figures import Figure
from doughwright.forecast.elsewhere.results import Elsewhere, Explained, Told
from doughwright.publish.band import Band
from doughwright.publish.bars import bar_svg
from doughwright.publish.failing import failing_words
from doughwright.publish.fan import (
    HEADINGS,
    Landing,
    fan_finding,
    fan_of,
    fan_svg,
    fan_table,
    marks_finding,
    marks_svg,
    marks_words,
    share_finding,
    state_counts,
)
from doughwright.publish.others import Share, error_words, explained_sentence, share_words
from doughwright.publish.render import capital, number

WIDE, NARROW, MARKS = 932, 350, 460
NOTHING = "–"
# Inputs that explain less than this [%] of either are left to the command line.
LEAST_SHOWN = 0.5
MOST_SHOWN = 8


@dataclass(frozen=True, slots=True)
class ExplainedRow:
    """An input with its two shares: of the rise when judged, and of being ripe; each with its bar."""

    input: str
    rise: str
    rise_error: str
    rise_bar: str
    ripe: str
    ripe_error: str
    ripe_bar: str


@dataclass(frozen=True, slots=True)
class ToldRow:
    """What readers are told, what it is taken to mean, and the share that is ripe then."""

    what: str
    means: str
    ripe: str
    change: str


@dataclass(frozen=True, slots=True)
class OthersPart:
    """The part as it is shown; pictures for phones are empty where the window is wide."""

    head: str
    strong: str
    tail: str
    explained: str
    finding: str
    marks_finding: str
    wide: str
    narrow: str
    marks_wide: str
    marks_narrow: str
    legend: str
    rows: tuple[ExplainedRow, ...]
    failing: tuple[str, ...]
    told: tuple[ToldRow, ...]
    headings: tuple[str, ...]
    table: tuple[tuple[str, ...], ...]
    counts: tuple[tuple[str, int], ...]
    said: tuple[str, ...]


def others_part(
    found: Elsewhere, band: Band, named: tuple[Landing, ...], *, wide_only: bool = False
) -> OthersPart:
    """A recipe in many kitchens on the axis of its own days."""
    fan = fan_of(found, band, named)
    head, strong, tail = share_finding(fan)
    return OthersPart(
        head=head,
        strong=strong,
        tail=tail,
        explained=explained_sentence(_shares(found.explained_by), _shares(found.ripe_explained_by)),
        finding=fan_finding(fan),
        marks_finding=marks_finding(fan),
        wide=fan_svg(fan, width=WIDE, prefix="fan"),
        narrow="" if wide_only else fan_svg(fan, width=NARROW, prefix="fan-narrow"),
        marks_wide=marks_svg(fan, width=MARKS, prefix="marks"),
        marks_narrow="" if wide_only else marks_svg(fan, width=NARROW, prefix="marks-narrow"),
        legend=marks_words(fan),
        rows=tuple(_rows(found.explained_by, found.ripe_explained_by)),
        failing=tuple(failing_words(one, found.judged_at.value) for one in found.failing),
        told=tuple(_told(one) for one in found.readers),
        headings=HEADINGS,
        table=fan_table(fan),
        counts=state_counts(fan),
        said=tuple(capital(one) for one in found.said),
    )


def _shares(rows: Sequence[Explained]) -> list[Share]:
    return [Share(one.input, one.share.value) for one in rows if one.share.value is not None]


def _rows(rise: Sequence[Explained], ripe: Sequence[Explained]) -> list[ExplainedRow]:
    """The inputs, the greatest first, as many as say something."""
    other = {one.input: one.share for one in ripe}
    values = [*(one.share.value or 0.0 for one in rise), *(one.share.value or 0.0 for one in ripe)]
    full = max([*values, 1.0]) * 1.15
    shown = [
        one
        for one in rise
        if max(one.share.value or 0.0, _value(other.get(one.input))) >= LEAST_SHOWN
    ]  # fmt: skip
    return [_row(one.input, one.share, other.get(one.input), full) for one in shown[:MOST_SHOWN]]


def _row(name: str, rise: Figure, ripe: Figure | None, full: float) -> ExplainedRow:
    first, second = _cells(rise, full), _cells(ripe, full)
    return ExplainedRow(name, *first, *second)


def _cells(share: Figure | None, full: float) -> tuple[str, str, str]:
    """A share as its figure, its error and its bar."""
    if share is None or share.value is None:
        return NOTHING, "", ""
    error = (share.high - share.low) / 2.0 if share.low is not None and share.high is not None else 0.0
    value = max(share.value, 0.0)
    return share_words(value), error_words(error), bar_svg(value, error, full=full)


def _value(share: Figure | None) -> float:
    return share.value or 0.0 if share is not None else 0.0


def _told(one: Told) -> ToldRow:
    ripe, change = one.ripe.value, one.change.value
    return ToldRow(
        what=capital(one.what),
        means=one.means,
        ripe=NOTHING if ripe is None else f"{number(ripe)} of 100",
        change=_change(change),
    )


def _change(change: float | None) -> str:
    """How many more or fewer of a hundred are ripe."""
    if change is None:
        return NOTHING
    whole = round(change)
    if whole == 0:
        return "as many"
    return f"{abs(whole)} {'more' if whole > 0 else 'fewer'}"
