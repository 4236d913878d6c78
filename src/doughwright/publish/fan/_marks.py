"""The hundred marks: each a hundredth of the kitchens, stacked by the dough's volume when judged."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass

from doughwright.publish.band._labels import Label, stacked
from doughwright.publish.fan._model import STATES, Fan, counts
from doughwright.publish.fan._words import marks_finding
from doughwright.publish.render import number
from doughwright.publish.svg import Pen, text_width

WIDE = 500.0
LEFT, RIGHT, ABOVE, LINE, UNDER = 8.0, 10.0, 30.0, 17.0, 36.0
LARGEST, LEAST_BIN = 5.0, 7.0
BINS = (0.1, 0.2, 0.5, 1.0)


@dataclass(frozen=True, slots=True)
class Scale:
    """Volumes ``low`` to ``high`` from ``left`` to ``right`` [px], in bins of so many volumes."""

    low: float
    high: float
    bin: float
    left: float
    right: float

    def x(self, volume: float) -> float:
        """Where a volume lies."""
        return self.left + (volume - self.low) / (self.high - self.low) * (self.right - self.left)

    @property
    def bin_px(self) -> float:
        """How wide a bin is."""
        return self.bin / (self.high - self.low) * (self.right - self.left)

    def index(self, volume: float) -> int:
        """The bin that a volume falls into."""
        return math.floor((volume - self.low) / self.bin + 1e-9)


def marks_svg(fan: Fan, *, width: float = WIDE, prefix: str = "marks", for_paper: bool = False) -> str:
    """The marks with their three counts in words, and the cook's own kitchens hanging under the axis."""
    pen = Pen(prefix, for_paper=for_paper)
    scale = _scale(fan, width)
    stacks = Counter(scale.index(rise) for rise in fan.percentiles)
    radius = min(LARGEST, (scale.bin_px - 1.5) / 2.0)
    step = 2.0 * radius + 2.6
    foot = ABOVE + max(stacks.values(), default=1) * step + 4.0
    _draw_zone(pen, fan, scale, foot)
    _draw_marks(pen, fan, scale, foot, radius, step)
    _draw_axis(pen, scale, foot)
    low = _draw_named(pen, fan, scale, foot)
    return pen.picture(width, low, f"Where 100 kitchens land {fan.judged_word}", marks_finding(fan))


def _scale(fan: Fan, width: float) -> Scale:
    """An axis that holds every mark, named kitchen and the ripe zone; bins as fine as there is room."""
    every = [*fan.percentiles, *fan.target, *(one.rise for one in fan.named)]
    low, high = min(every), max(every)
    left, right = LEFT, width - RIGHT
    for size in BINS:
        edge = 2.0 * size
        start = math.floor((low - 0.5 * size) / edge + 1e-9) * edge
        end = math.ceil((high + 0.5 * size) / edge - 1e-9) * edge
        found = Scale(max(start, 0.0), end, size, left, right)
        if found.bin_px >= LEAST_BIN:
            return found
    return found


def _draw_zone(pen: Pen, fan: Fan, scale: Scale, foot: float) -> None:
    """The ripe zone as two dashed lines, and the three counts in words over their parts."""
    low, high = (scale.x(volume) for volume in fan.target)
    for x in (low, high):
        pen.line((x, 8.0), (x, foot), "edge", 1.0, "5 3")
    young, ripe, past = (str(count) for count in counts(fan))
    room = high - low
    if text_width(f"{ripe} ripe", bold=True) + 6.0 <= room:
        pen.text(((low + high) / 2.0, 20.0), "ripe", "word", "middle", strong=ripe)
    else:
        pen.text((low, 3.0), "ripe", "clear", strong=ripe)
    _count(pen, (low - 8.0, 20.0), young, "young", "end", scale.left)
    _count(pen, (high + 8.0, 20.0), past, "past", "start", scale.right)


def _count(pen: Pen, at: tuple[float, float], count: str, word: str, anchor: str, edge: float) -> None:
    """A count beside its line; where the axis leaves no room there, it stands at the axis's end."""
    wide = text_width(f"{count} {word}", bold=True)
    if anchor == "end" and at[0] - wide < edge - LEFT:
        pen.text((edge - LEFT, 34.0), word, "clear", strong=count)
    elif anchor == "start" and at[0] + wide > edge + RIGHT:
        pen.text((edge + RIGHT, 34.0), word, "clear", "end", strong=count)
    else:
        pen.text(at, word, "word", anchor, strong=count)


def _draw_marks(pen: Pen, fan: Fan, scale: Scale, foot: float, radius: float, step: float) -> None:
    """Ring, disc or cross, each on those of its bin before it."""
    heights: Counter[int] = Counter()
    for rise, state in zip(fan.percentiles, fan.mark_states, strict=True):
        at = scale.index(rise)
        x = scale.left + (at + 0.5) * scale.bin_px
        y = foot - 6.0 - heights[at] * step - (step - 12.6) / 2.0
        heights[at] += 1
        draw_mark(pen, (x, y), state, radius)


def draw_mark(pen: Pen, at: tuple[float, float], state: str, radius: float) -> None:
    """The mark of a state: young a ring, ripe a disc, past a cross."""
    x, y = at
    if state == STATES[1]:
        pen.disc(at, radius)
    elif state == STATES[0]:
        pen.ring(at, radius - 0.7)
    else:
        arm = 0.7 * radius
        pen.path(
            f"M{x - arm:.1f} {y - arm:.1f}l{2 * arm:.1f} {2 * arm:.1f}"
            f"m0 {-2 * arm:.1f}l{-2 * arm:.1f} {2 * arm:.1f}",
            "edge", 1.7,
        )  # fmt: skip


def _draw_axis(pen: Pen, scale: Scale, foot: float) -> None:
    """Volumes under the marks, as many as can be read."""
    pen.line((scale.left, foot), (scale.right, foot), "edge", 1.2)
    per = (scale.right - scale.left) / (scale.high - scale.low)
    step = next((one for one in (0.2, 0.5, 1.0, 2.0) if one * per >= 26.0 and one >= scale.bin), 5.0)
    volume = math.ceil(scale.low / step - 1e-9) * step
    while volume <= scale.high + 1e-9:
        x = scale.x(volume)
        pen.line((x, foot), (x, foot + 4.0), "line")
        pen.text((x, foot + 18.0), number(volume, 1), "soft", "middle")
        volume += step


def _draw_named(pen: Pen, fan: Fan, scale: Scale, foot: float) -> float:
    """The kitchens by name, the rightmost highest, no leader across a word; gives the lower edge."""
    names = [Label(scale.x(one.rise), one.rise, number(one.rise, 1), one.name) for one in fan.named]
    names.sort(key=lambda one: one.x)
    labels = stacked(names, scale.left, scale.right + RIGHT) if names else []
    for label in labels:
        y = foot + UNDER + label.row * LINE
        pen.line((label.x, foot + 24.0), (label.x, y), "line")
        pen.disc((label.x, y), 2.6)
        if label.leftwards:
            pen.text((label.x - 8.0, y + 4.0), label.words, "word", "end", strong=label.time)
        else:
            pen.text((label.x + 8.0, y + 4.0), label.words, "word", strong=label.time)
    rows = max((label.row + 1 for label in labels), default=0)
    return foot + (UNDER + rows * LINE - 4.0 if rows else 26.0)
