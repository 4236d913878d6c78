"""What the lanes show: the cook's work in blocks, the dough's waits, the hours asleep."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from zoneinfo import ZoneInfo

from doughwright.kitchen.types import Hours
from doughwright.plan.model import Entry, Plan
from doughwright.publish.clock import Clock
from doughwright.publish.render import capital, counted, duration

# Work that follows within this many hours is one block: the cook does not sit down in between.
TOGETHER = 0.2
ASIDE = re.compile(r"^Piece \d+: |,.*$|\bthe ")


@dataclass(frozen=True, slots=True)
class Block:
    """Work at one go: from ``start`` to ``end`` [h of the plan], ``minutes`` of the cook's own."""

    start: float
    end: float
    minutes: float
    time: str
    words: str


@dataclass(frozen=True, slots=True)
class Wait:
    """The dough stands: from ``start`` to ``end`` [h of the plan], in a place."""

    start: float
    end: float
    place: str

    @property
    def words(self) -> str:
        """How long and where: "13 h 30 min in the room"."""
        where = f"at {self.place}" if self.place[:1].isdigit() else f"in the {self.place}"
        return f"{self.length} {where}"

    @property
    def length(self) -> str:
        """How long."""
        return duration(self.end - self.start)


@dataclass(frozen=True, slots=True)
class LaneRow:
    """One row of the table beside the picture."""

    start: str
    what: str
    minutes: str


def lane_clock(plan: Plan) -> Clock:
    """The plan's clock: hour 0 is its first step."""
    first = min(entry.starts for entry in plan.entries)
    return Clock(first, ZoneInfo(plan.zone), dated=True)


def blocks_of(plan: Plan) -> tuple[Block, ...]:
    """The cook's work, what follows at once together."""
    clock = lane_clock(plan)
    blocks: list[Block] = []
    said: list[list[str]] = []
    for entry in sorted(plan.entries, key=lambda one: one.start):
        minutes = entry.hands_on.value or 0.0
        if minutes <= 0.0:
            continue
        start, end = clock.hours(entry.starts), clock.hours(entry.ends)
        if blocks and start - blocks[-1].end <= TOGETHER:
            last = blocks[-1]
            blocks[-1] = replace(last, end=max(last.end, end), minutes=last.minutes + minutes)
        else:
            blocks.append(Block(start, end, minutes, clock.time(start), ""))
            said.append([])
        said[-1].append(_short(entry.what))
    return tuple(replace(one, words=_words(words)) for one, words in zip(blocks, said, strict=True))


def _short(what: str) -> str:
    """The heart of an entry: "Piece 1: par-bake, dial at 250 °C" is "par-bake"."""
    text = " ".join(ASIDE.sub(" ", what.replace("Add: ", "Add ")).split())
    return text[:1].lower() + text[1:]


def _words(parts: list[str]) -> str:
    once = list(dict.fromkeys(parts))
    return ", ".join(once) if len(once) <= 3 else f"{once[0]}, {once[1]} … {once[-1]}"


def waits_of(plan: Plan) -> tuple[Wait, ...]:
    """Where the dough and its preferments stand, one after another; toppings and the oven left out."""
    clock = lane_clock(plan)
    waits: list[Wait] = []
    for entry in sorted(plan.entries, key=lambda one: one.start):
        if not (entry.wait and entry.step and entry.mix and entry.place):
            continue
        one = Wait(clock.hours(entry.starts), clock.hours(entry.ends), entry.place)
        if not waits or one.start >= waits[-1].end - 1e-6:
            waits.append(one)
    return tuple(waits)


def asleep(clock: Clock, awake: Hours, start: float, end: float) -> Iterator[tuple[float, float]]:
    """The hours between which the cook sleeps."""
    rises, retires = awake.start / 3600.0, awake.end / 3600.0
    length = (rises - retires) % 24.0
    midnight = clock.midnight_before(start) - 24.0
    while midnight < end:
        low, high = midnight + retires, midnight + retires + length
        if length and high > start and low < end:
            yield max(low, start), min(high, end)
        midnight = clock.midnight_after(midnight)


def lanes_table(plan: Plan) -> tuple[LaneRow, ...]:
    """Every entry that takes the cook's time."""
    clock = lane_clock(plan)
    work = sorted((one for one in plan.entries if one.hands_on.value), key=lambda one: one.start)
    return tuple(LaneRow(clock.day_time(clock.hours(one.starts)), one.what, _minutes(one)) for one in work)


def _minutes(entry: Entry) -> str:
    return f"{entry.hands_on.value or 0.0:.0f}"


def lanes_sentence(plan: Plan) -> str:
    """What the lanes show, in two sentences."""
    blocks = blocks_of(plan)
    clock = lane_clock(plan)
    total = sum(block.minutes for block in blocks)
    longest = max(waits_of(plan), key=lambda one: one.end - one.start, default=None)
    said = (
        f"From {clock.day_time(0.0)} to {clock.day_time(clock.hours(plan.eats))} the dough asks for "
        f"{duration(total / 60.0)} of your time, in {counted(len(blocks), 'turn')}."
    )
    return said if longest is None else f"{said} {capital(f'its longest wait is {longest.words}.')}"
