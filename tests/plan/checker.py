"""A check of plans that shares nothing with the planner: plain loops over entries, own arithmetic."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise

from doughwright.plan.model import Entry, Plan
from doughwright.recipe.model import Recipe

WAIT = {"rest", "autolyse", "bulk", "bench rest", "retard", "temper", "proof", "cool", "freeze", "thaw"}
OVEN = {"par-bake", "bake"}


def objections(plan: Plan, recipe: Recipe, up: tuple[str, str] = ("07:00", "23:00")) -> list[str]:
    """What is wrong with a plan; empty where nothing is."""
    found: list[str] = []
    found += _order(plan)
    found += _awake(plan, up)
    found += _one_thing_at_a_time(plan)
    found += _waits(plan, recipe)
    found += _straight_on(plan, recipe)
    found += _every_step(plan, recipe)
    return found


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).astimezone(UTC)


def minutes(entry: Entry) -> float:
    return (utc(entry.end) - utc(entry.start)).total_seconds() / 60


def _order(plan: Plan) -> list[str]:
    found = []
    for before, after in pairwise(plan.entries):
        if utc(after.start) < utc(before.start):
            found.append(f"{after.what} is out of order")
    for entry in plan.entries:
        if utc(entry.end) <= utc(entry.start):
            found.append(f"{entry.what} takes no time")
        if utc(entry.end) > utc(plan.eat):
            found.append(f"{entry.what} ends after the meal")
    if not plan.entries or utc(plan.entries[-1].end) != utc(plan.eat):
        found.append("the last entry does not end at the meal")
    return found


def _awake(plan: Plan, up: tuple[str, str]) -> list[str]:
    """Minute by minute on the wall clock, for hours awake within one day."""
    found = []
    for entry in plan.entries:
        if entry.hands_on.value == 0 and entry.place != "oven":
            continue
        at = datetime.fromisoformat(entry.start)
        end = datetime.fromisoformat(entry.end)
        offset = at.utcoffset()
        while at < end:
            clock = (at.astimezone(UTC) + (offset or timedelta(0))).strftime("%H:%M")
            if not up[0] <= clock < up[1]:
                found.append(f"{entry.what} at {clock}")
                break
            at += timedelta(minutes=1)
    return found


def _one_thing_at_a_time(plan: Plan) -> list[str]:
    found = []
    working = [entry for entry in plan.entries if (entry.hands_on.value or 0) > 0]
    for i, one in enumerate(working):
        for other in working[i + 1 :]:
            apart = utc(one.end) <= utc(other.start) or utc(other.end) <= utc(one.start)
            long_bake = any(e.place == "oven" and minutes(e) > 15 for e in (one, other))
            if not apart and not long_bake:
                found.append(f"{one.what} and {other.what} at once")
    return found


def _waits(plan: Plan, recipe: Recipe) -> list[str]:
    found = []
    for number, step in enumerate(recipe.steps, start=1):
        if step.do not in WAIT or step.for_ is None:
            continue
        took = sum(minutes(entry) for entry in plan.entries if entry.step == number)
        if not step.for_.low / 60 - 1e-6 <= took <= step.for_.high / 60 + 1e-6:
            found.append(f"step {number} {step.do} takes {took} min")
    return found


def _straight_on(plan: Plan, recipe: Recipe) -> list[str]:
    """The dough's entries follow one another without a hole, but for what ``between`` allows."""
    found = []
    own = [entry for entry in plan.entries if entry.mix == "dough" or entry.piece is not None]
    for before, after in pairwise(own):
        hole = (utc(after.start) - utc(before.end)).total_seconds() / 60
        change = before.piece != after.piece and before.piece is not None
        if hole != (3 if change else 0):
            found.append(f"{hole} min between {before.what} and {after.what}")
    return found


def _every_step(plan: Plan, recipe: Recipe) -> list[str]:
    found = []
    for number, step in enumerate(recipe.steps, start=1):
        entries = [entry for entry in plan.entries if entry.step == number]
        waits = step.do in WAIT
        works = [entry for entry in entries if not entry.wait]
        if step.do in OVEN and len(entries) != 2:
            found.append(f"step {number} {step.do} has {len(entries)} entries for 2 pieces")
        if step.do not in OVEN and step.do not in ("dress", "preheat") and not waits and len(works) != 1:
            found.append(f"step {number} {step.do} is done {len(works)} times")
        if waits and not entries:
            found.append(f"step {number} {step.do} is missing")
        if step.for_ is not None and not waits and step.do not in ("preheat",):
            short = [entry for entry in entries if minutes(entry) < step.for_.low / 60]
            if short:
                found.append(f"step {number} {step.do} is too short")
    for number, step in enumerate(recipe.steps, start=1):
        if step.do == "preheat" and step.for_ is not None:
            found += _heats(
                [entry for entry in plan.entries if entry.step == number], plan, step.for_.low / 60
            )
    place = {}
    for entry in plan.entries:
        before = place.get(entry.mix)
        if before == "fridge" and entry.place not in ("fridge", None) and entry.wait:
            found.append(f"{entry.what}: nobody took it out of the fridge")
        if entry.mix:
            place[entry.mix] = entry.place
    return found


def _heats(entries: list[Entry], plan: Plan, least: float) -> list[str]:
    """Somebody turns the oven on, it heats long enough, and is hot when the first piece goes in."""
    turned = [entry for entry in entries if not entry.wait]
    heats = [entry for entry in entries if entry.wait]
    if len(turned) != 1 or len(heats) != 1:
        return ["the oven is not heated once"]
    first = min(utc(entry.start) for entry in plan.entries if entry.piece is not None)
    if minutes(heats[0]) < least or utc(heats[0].end) > first:
        return ["the oven is not hot"]
    return []
