"""The two lanes as one SVG, each at its own scale, joined by wedges; upright on a phone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from doughwright.kitchen.types import Hours
from doughwright.plan.model import Plan
from doughwright.publish.band._axis import draw_axis
from doughwright.publish.band._frame import Frame
from doughwright.publish.clock import Clock
from doughwright.publish.lanes._blocks import (
    Block,
    Wait,
    asleep,
    blocks_of,
    lane_clock,
    lanes_sentence,
    waits_of,
)
from doughwright.publish.lanes._upright import draw_upright, fitting
from doughwright.publish.svg import Pen, text_width

WIDE = 932.0
UPRIGHT_BELOW = 420.0
LANE, UPPER, LOWER, HIGH = 6.0, 76.0, 172.0, 34.0
GAP = 7.0
NAMES = (18.0, 52.0, 86.0, 120.0, 154.0, 188.0, 222.0)
# So many places are looked at for the names; the usual plan needs a few dozen.
TRIES = 10_000


def lanes_svg(
    plan: Plan, awake: Hours, *, width: float = WIDE, prefix: str = "lanes", for_paper: bool = False
) -> str:
    """The picture at a width [px]; upper lane: the dough; lower lane: the cook's minutes, end to end."""
    pen = Pen(prefix, for_paper=for_paper)
    blocks, waits, clock = blocks_of(plan), waits_of(plan), lane_clock(plan)
    meal = clock.hours(plan.eats)
    if width < UPRIGHT_BELOW:
        height = draw_upright(pen, blocks, waits, (clock, awake, meal), width)
    else:
        height = _draw_wide(pen, blocks, waits, (clock, awake, meal), width)
    return pen.picture(width, height, "The plan in two lanes", lanes_sentence(plan))


def _draw_wide(
    pen: Pen,
    blocks: Sequence[Block],
    waits: Sequence[Wait],
    around: tuple[Clock, Hours, float],
    width: float,
) -> float:
    clock, awake, meal = around
    right = width - (8.0 if pen.for_paper else 1.0)
    frame = Frame(-1.0, clock.midnight_after(meal), 34.0, right, UPPER, 1.0, 1.0)
    draw_axis(pen, frame, clock, 4.0, days=True)
    for low, high in asleep(clock, awake, frame.start, frame.end):
        _hatch(pen, frame.x(low), frame.x(high), UPPER - 30.0)
    _draw_waits(pen, frame, waits)
    places = list(_places(blocks, 50.0, right))
    for block, (left, end) in zip(blocks, places, strict=True):
        _wedge(pen, (frame.x(block.start), frame.x(block.end)), (left, end))
    for block in blocks:
        pen.box(
            (frame.x(block.start), UPPER - 9.0),
            (max(frame.x(block.end) - frame.x(block.start), 2.0), 18.0),
            "cook",
        )
    pen.text((0.0, UPPER + 4.0), "dough", "strong")
    pen.text((0.0, LOWER + 21.0), "you", "strong")
    return _draw_blocks(pen, blocks, places, right)


def _places(blocks: Sequence[Block], left: float, right: float) -> list[tuple[float, float]]:
    """Left and right of each block: end to end, at one scale."""
    total = sum(block.minutes for block in blocks)
    scale = (right - left - GAP * (len(blocks) - 1)) / total if total else 0.0
    found, at = [], left
    for block in blocks:
        found.append((at, at + block.minutes * scale))
        at += block.minutes * scale + GAP
    return found


def _hatch(pen: Pen, left: float, right: float, y: float) -> None:
    """Slanted lines above the lane, and the word where it fits."""
    if right - left < 4.0:
        return
    count = int((right - left) / 6.0)
    path = "".join(f"M{left + 6.0 * n:.1f} {y + 12.0:.1f}l6 -12" for n in range(count))
    pen.path(path, "line", 0.8)
    if right - left > text_width("asleep"):
        pen.text((right, y - 4.0), "asleep", "soft", "end")


def _draw_waits(pen: Pen, frame: Frame, waits: Sequence[Wait]) -> None:
    """The lane: solid in the room, hollow in the fridge; what fits is written along it."""
    for wait in waits:
        left, right = frame.x(wait.start), frame.x(wait.end)
        role = "hollow" if wait.place == "fridge" else "lane"
        pen.box((left, UPPER - LANE / 2.0), (right - left, LANE), role)
        if text_width(wait.words) < right - left - 60.0:
            pen.text(((left + right) / 2.0, UPPER + 22.0), wait.words, "word", "middle")
        elif text_width(wait.length) < right - left + 24.0:
            pen.text(((left + right) / 2.0, UPPER - 13.0), wait.length, "clear", "middle")


def _wedge(pen: Pen, upper: tuple[float, float], lower: tuple[float, float]) -> None:
    (a, b), (c, d) = upper, lower
    low, high = UPPER + 9.0, LOWER
    pen.path(
        f"M{a:.1f},{low:.1f} C{a:.1f},{low + 60:.1f} {c:.1f},{high - 60:.1f} {c:.1f},{high:.1f}"
        f" L{d:.1f},{high:.1f} C{d:.1f},{high - 60:.1f} {b:.1f},{low + 60:.1f} {b:.1f},{low:.1f} Z",
        "wash",
    )


def _draw_blocks(
    pen: Pen, blocks: Sequence[Block], places: Sequence[tuple[float, float]], right: float
) -> float:
    """The cook's blocks with their minutes, and below them when and what; gives the lower edge."""
    for block, (left, end) in zip(blocks, places, strict=True):
        pen.box((left, LOWER), (end - left, HIGH), "cook")
        full = f"{block.minutes:.0f} min"
        words = full if text_width(full) < end - left - 4.0 else f"{block.minutes:.0f}"
        if text_width(words) < end - left:
            pen.text(((left + end) / 2.0, LOWER + 21.0), words, "over", "middle")
    names = _names(blocks, places, right)
    for name in names:
        _draw_name(pen, name)
    return LOWER + HIGH + NAMES[max((name.line for name in names), default=0)] + 24.0


@dataclass(frozen=True, slots=True)
class Name:
    """When and what of a block: from ``left`` to ``right`` on a line; its leader comes down at ``x``."""

    time: str
    words: str
    left: float
    right: float
    x: float
    line: int

    def meets(self, other: Name) -> bool:
        """Whether the words of two meet, or the leader of one runs through the words of the other."""
        if self.line == other.line:
            return self.left < other.right + 8.0 and other.left - 8.0 < self.right
        low, high = (self, other) if self.line > other.line else (other, self)
        return low.line > 0 and high.left - 6.0 < low.x < high.right + 6.0


def _names(blocks: Sequence[Block], places: Sequence[tuple[float, float]], right: float) -> list[Name]:
    """A name for each block, none of them on another where a place for all is found."""
    choices = [_choices(block, place, right) for block, place in zip(blocks, places, strict=True)]
    return _laid(choices, [], iter(range(TRIES))) or [one[0] for one in choices]


def _laid(choices: Sequence[list[Name]], names: list[Name], tries: Iterator[int]) -> list[Name] | None:
    """The first choices that do not meet; ``None`` where there are none, or the tries are used up."""
    if not choices:
        return names
    for name in choices[0]:
        if next(tries, None) is None:
            return None
        if not any(name.meets(one) for one in names):
            found = _laid(choices[1:], [*names, name], tries)
            if found is not None:
                return found
    return None


def _choices(block: Block, place: tuple[float, float], right: float) -> list[Name]:
    """Where a name may stand, the best first: at its block's left where it fits, else below."""
    left, end = place
    words = fitting(block.words, end - left)
    wide = max(text_width(words), text_width(block.time, bold=True))
    if wide <= end - left:
        return [Name(block.time, words, left, left + wide, left, 0)]
    found, middle = [], (left + end) / 2.0
    short = fitting(block.words, 0.0)
    for text, lines in (
        (block.words, range(1, 4)),
        (short, range(1, len(NAMES))),
        (block.words, range(4, 7)),
    ):
        wide = max(text_width(text), text_width(block.time, bold=True))
        for line in lines:
            for start in (middle - wide / 2.0, middle - wide, middle):
                start = max(min(start, right - wide), 0.0)
                found.append(Name(block.time, text, start, start + wide, middle, line))
    return found


def _draw_name(pen: Pen, name: Name) -> None:
    foot = LOWER + HIGH
    x, anchor = (name.left, "start") if name.line == 0 else ((name.left + name.right) / 2.0, "middle")
    if name.line:
        pen.line((name.x, foot), (name.x, foot + NAMES[name.line] - 12.0), "line")
    pen.text((x, foot + NAMES[name.line]), "", "word", anchor, strong=name.time)
    pen.text((x, foot + NAMES[name.line] + 15.0), name.words, "word", anchor)
