"""Where the words over the band stand: in groups, so that no leader crosses a word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from doughwright.publish.svg import text_width

# Nearer than this share of the width, and at most so many px, labels form a group.
NEAR_SHARE, NEAR = 0.13, 120.0
LINE = 16.0
MOST, MOST_NARROW = 4, 5


@dataclass(frozen=True, slots=True)
class Label:
    """A time and words at ``x``; ``row`` counts upwards, ``leftwards`` where the text ends at x."""

    x: float
    at: float
    time: str
    words: str
    row: int = 0
    leftwards: bool = False

    @property
    def width(self) -> float:
        """About how wide it stands [px]."""
        return text_width(f"{self.time} ", bold=True) + text_width(self.words)


def placed(labels: Sequence[Label], left: float, right: float) -> list[Label]:
    """Every label with its row and direction; what is close stands in a group, the earlier higher."""
    done: list[list[Label]] = []
    fitting = [_shortened(label, max(right - label.x, label.x - left)) for label in labels]
    most = MOST if right - left > 600.0 else MOST_NARROW
    for group in _groups(sorted(fitting, key=lambda one: one.x), left, right):
        rows = stacked(_merged(group, most), left, right)
        while done and _begin(rows) < _reach(done[-1]):
            rows = stacked([*done.pop(), *rows], left, right)
        done.append(rows)
    return [label for rows in done for label in rows]


def _shortened(label: Label, room: float) -> Label:
    """The same in fewer words where neither side has room: its first and last, else the first alone."""
    parts = label.words.split(", ")
    for words in (label.words, f"{parts[0]}, {parts[-1]}", f"{parts[0]} …"):
        short = replace(label, words=words)
        if short.width <= room:
            return short
    return short


def _begin(rows: Sequence[Label]) -> float:
    return min(one.x - one.width if one.leftwards else one.x for one in rows)


def _reach(rows: Sequence[Label]) -> float:
    return max(one.x if one.leftwards else one.x + one.width for one in rows) + 8.0


def _groups(labels: Sequence[Label], left: float, right: float) -> list[list[Label]]:
    groups: list[list[Label]] = []
    near = min(NEAR, NEAR_SHARE * (right - left))
    for label in labels:
        if groups and _joins(groups[-1], label, right, near):
            groups[-1].append(label)
        else:
            groups.append([label])
    return groups


def _joins(group: Sequence[Label], label: Label, right: float, near: float) -> bool:
    """Whether a label is near the group, or its text would meet the group's."""
    reach = max(one.x + one.width for one in group) + 10.0
    begins = label.x - label.width if label.x + label.width > right else label.x
    return label.x - group[-1].x < near or begins < reach


def _merged(group: list[Label], most: int) -> list[Label]:
    """The same things together ("fold, again 09:35"); over ``most`` in a group, the nearest share a line."""
    out: list[Label] = []
    for label in group:
        if out and out[-1].words.split(", again ")[0] == label.words:
            out[-1] = replace(out[-1], words=f"{out[-1].words}, again {label.time}")
        else:
            out.append(label)
    while len(out) > most:
        gaps = [(other.x - one.x, at) for at, (one, other) in enumerate(pairwise(out))]
        at = min(gaps)[1]
        joined = replace(out[at], words=f"{out[at].words}, {out[at + 1].time} {out[at + 1].words}")
        out[at : at + 2] = [joined]
    return out


def stacked(group: list[Label], left: float, right: float) -> list[Label]:
    """As many as can run right, the earlier higher; above them the rest run left, the later higher."""
    splits = range(len(group), -1, -1)
    running = min(splits, key=lambda split: _overlap(group[:split], group[split:], left, right))
    longest = max(range(len(group)), key=lambda at: group[at].width)
    short = _shortened(group[longest], 0.8 * group[longest].width)
    if _overlap(group[:running], group[running:], left, right) > 0.0 and short.width < group[longest].width:
        return stacked([*group[:longest], short, *group[longest + 1 :]], left, right)
    below = [replace(one, row=running - 1 - at, leftwards=False) for at, one in enumerate(group[:running])]
    above = [replace(one, row=running + at, leftwards=True) for at, one in enumerate(group[running:])]
    return below + above


def _overlap(low: Sequence[Label], high: Sequence[Label], left: float, right: float) -> float:
    """By how much [px] words would pass the edges or meet a leader: 0 where all is well."""
    reach = max((one.x + one.width for one in low), default=left)
    over = max(0.0, reach - (high[0].x - 4.0 if high else right))
    return over + max((left - (one.x - one.width) for one in high if one.x - one.width < left), default=0.0)
