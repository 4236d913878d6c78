"""Why there is no plan, and the nearest meal that works."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import tzinfo

from doughwright.errors import Fault
from doughwright.kitchen.types import Hours
from doughwright.plan._awake import Awake, moment_of
from doughwright.plan._entries import entries
from doughwright.plan._network import Chain, Node
from doughwright.plan._solve import Rules, Solution, solve
from doughwright.plan._words import awake_says, clock_says, joined, length_says, moment_says
from doughwright.plan.model import NoPlanError

QUARTER, DAY = 15, 24 * 60
# How far another meal is looked for [min], and how far one wait is stretched or cut [min].
AROUND, STRETCH = DAY, 12 * 60


@dataclass(frozen=True, slots=True)
class Question:
    """What was asked: a network, the minute of the meal, and what limits the cook."""

    meal: Chain
    at: int
    zone: tzinfo
    hours: Hours
    earliest: int | None = None

    def rules(self, *, strict: bool, at: int | None = None, late: bool = True) -> Rules:
        """The rules for a meal at a minute; ``late`` minds that the past is gone."""
        end = self.at if at is None else at
        awake = Awake(self.hours, self.zone, end - self.meal.longest - STRETCH - DAY, end + DAY)
        return Rules(awake, strict, self.earliest if late else None)


def no_plan(asked: Question) -> NoPlanError:
    """The error for a question without an answer."""
    in_time = solve(asked.meal, asked.at, asked.rules(strict=True, late=False))
    if in_time is not None:
        return _too_late(asked, in_time)
    rules = asked.rules(strict=False, late=False)
    endless = _endless(asked, rules.awake)
    if endless is not None:
        return endless
    anyhow = solve(asked.meal, asked.at, rules)
    return _at_night(asked, anyhow, rules.awake) if anyhow is not None else _impossible(asked)


def _endless(asked: Question, awake: Awake) -> NoPlanError | None:
    """The error for work that is longer than the longest day: no meal and no wait can help."""
    longest = max((end - start for start, end in awake.spans), default=0)
    for node in asked.meal.all_nodes():
        needed = max((end for _, end in node.up), default=0)
        if needed > longest:
            return NoPlanError(
                Fault(
                    f'no plan at any time: "{node.parts[0].what}" is longer than a day',
                    wanted=f"work of at most {length_says(longest)}, {awake_says(asked.hours)}",
                    found=length_says(needed),
                    try_="Make the step shorter, or divide it by a wait",
                )
            )
    return None


def _too_late(asked: Question, solution: Solution) -> NoPlanError:
    found = moment_says(moment_of(solution.start, asked.zone))
    nearest = _first(asked, _later(asked))
    fault = Fault(
        f"no plan for {moment_says(moment_of(asked.at, asked.zone))}: it is too late to start",
        wanted="a start that is still to come",
        found=found,
        try_=_eat_at(asked, nearest, "The earliest meal is"),
    )
    first = entries(solution, asked.zone, asked.rules(strict=True).awake)[:1]
    return NoPlanError(fault, nearest=_iso(asked, nearest), in_the_way=first)


def _at_night(asked: Question, solution: Solution, awake: Awake) -> NoPlanError:
    calls = tuple(one for one in entries(solution, asked.zone, awake) if one.night)
    nearest = _first(asked, _around(asked))
    stretched = _stretched(asked)
    try_ = _eat_at(asked, nearest, "The nearest meal that works is")
    fault = Fault(
        f"no plan for {moment_says(moment_of(asked.at, asked.zone))}: work would fall into the night",
        wanted=f"all hands-on work {awake_says(asked.hours)}",
        found=joined([f'"{one.what}" at {clock_says(one.starts)}' for one in calls[:3]]),
        try_=f"{try_}, or {stretched}" if stretched else try_,
    )
    return NoPlanError(fault, nearest=_iso(asked, nearest), in_the_way=calls)


def _impossible(asked: Question) -> NoPlanError:
    return NoPlanError(
        Fault(
            f"no plan for {moment_says(moment_of(asked.at, asked.zone))}: two steps need the cook at once",
            wanted="one thing at a time",
            try_="Give one of the waits a range",
        )
    )


def _eat_at(asked: Question, nearest: int | None, lead: str) -> str:
    if nearest is None:
        return f"No meal within {AROUND // 60} h of it works either: give the waits ranges"
    moment = moment_of(nearest, asked.zone)
    return f'{lead} {moment_says(moment)} (--eat "{moment:%Y-%m-%d %H:%M}")'


def _iso(asked: Question, minute: int | None) -> str | None:
    return None if minute is None else moment_of(minute, asked.zone).isoformat()


def _around(asked: Question) -> Iterator[int]:
    """Meals nearest first, a day to either side."""
    for away in range(QUARTER, AROUND + 1, QUARTER):
        yield asked.at - away
        yield asked.at + away


def _later(asked: Question) -> Iterator[int]:
    """Meals on the quarter hour from the first that leaves time to start, for two days."""
    first = (asked.earliest or 0) + asked.meal.shortest
    on_the_quarter = -(-first // QUARTER) * QUARTER
    return iter(range(on_the_quarter, on_the_quarter + 2 * AROUND + 1, QUARTER))


def _first(asked: Question, meals: Iterator[int]) -> int | None:
    return next((at for at in meals if solve(asked.meal, at, asked.rules(strict=True, at=at))), None)


def _stretched(asked: Question) -> str | None:
    """The one wait whose change, least for its length, would give a plan; ``None`` where none does."""
    best: tuple[float, str] | None = None
    for node in asked.meal.all_nodes():
        if node.wait and node.step is not None and node.step >= 0:
            change = _change(asked, node)
            if change is not None and (best is None or change < best):
                best = change
    return best[1] if best else None


def _change(asked: Question, node: Node) -> tuple[float, str] | None:
    low, high = node.range
    shorter = range(low - QUARTER, max(0, low - STRETCH - 1), -QUARTER)
    longer = range(high + QUARTER, high + STRETCH + 1, QUARTER)
    wide = replace(node, lengths=tuple(sorted({*shorter, *node.lengths, *longer})), asked=(low, high))
    found = solve(asked.meal.with_node(wide), asked.at, asked.rules(strict=True))
    if found is None:
        return None
    length = next(one.length for one in found.placed if one.node.key == node.key)
    was = length_says(low) if low == high else f"{length_says(low)} to {length_says(high)}"
    said = node.parts[-1].what
    return max(low - length, length - high) / max(
        low, length
    ), f'change "{said}" to {length_says(length)} (it is {was})'
