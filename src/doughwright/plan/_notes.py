"""What has to be said of a plan: what is assumed, what is not modelled, when the clocks change."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta

from doughwright.plan._chains import one_by_one, pieces_of
from doughwright.plan._words import DAYS, joined, length_says
from doughwright.plan.model import Entry
from doughwright.recipe.model import BAKES, Recipe

# Longer than this [min] cooked food is not left standing warm: the two hours of USDA FSIS.
WARM_FOR = 120


def notes(recipe: Recipe, made: Sequence[Entry], eat: datetime) -> Iterator[str]:
    """Each thing worth saying, in plain sentences."""
    steps = [recipe.steps[one.step - 1] for one in made if one.assumed and one.step and not one.wait]
    verbs = {"carry" if step.waits else step.do for step in steps}
    if verbs:
        yield f"the minutes of work are assumed for: {joined(sorted(verbs))}"
    if any(one.assumed and one.step is None for one in made):
        yield "no step heats the oven: the time for it is assumed"
    yield from _pieces(recipe)
    frozen = [step.do for step in recipe.steps if step.do in ("freeze", "thaw")]
    if frozen:
        yield "freezing is planned, but what it does to the dough is not modelled"
    yield from _standing(recipe, made)
    yield from _clocks(made[0].starts.astimezone(eat.tzinfo), eat)


def _pieces(recipe: Recipe) -> Iterator[str]:
    pieces = pieces_of(recipe)
    if pieces == 1 or not any(step.do in BAKES for step in recipe.steps):
        return
    if not one_by_one(recipe):
        which = f"all {pieces} pieces" if len(recipe.doughs) == 1 else "all pieces of a dough"
        yield f'{which} bake at once (assumed); write between = "3 min" if they go one by one'
    elif not any(step.between is not None for step in recipe.steps):
        yield "3 min from one piece to the next are assumed"


def _standing(recipe: Recipe, made: Sequence[Entry]) -> Iterator[str]:
    for one in made:
        if one.step is None and one.mix and one.ends - one.starts > timedelta(0):
            minutes = int((one.ends - one.starts).total_seconds() // 60)
            cold = ": put it in the fridge" if minutes > WARM_FOR else ""
            yield f"{one.mix}: ready {length_says(minutes)} before it is used{cold}"


def _clocks(start: datetime, eat: datetime) -> Iterator[str]:
    """A change of the clocks between the first step and the meal."""
    at = start
    while at < eat:
        # Steps in elapsed time: a day added on the clock would step over the change.
        after = (at.astimezone(UTC) + timedelta(hours=1)).astimezone(eat.tzinfo)
        before, now = at.utcoffset(), after.utcoffset()
        if before is not None and now is not None and before != now:
            way = "forward" if now > before else "back"
            hour = abs(now - before).total_seconds() / 3600.0
            yield (
                f"the clocks go {way} {hour:g} h on {DAYS[after.weekday()]}: waits are counted in hours "
                "that pass, not on the clock"
            )
        at = after
