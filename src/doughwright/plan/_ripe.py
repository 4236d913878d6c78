"""The dough at the chosen waits: young, ripe or past, and the last wait moved so that it is ripe."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from doughwright.errors import NoAnswerError
from doughwright.forecast.results import Days, Reading, Run
from doughwright.plan._network import Chain
from doughwright.plan._words import length_says
from doughwright.recipe.model import WAITS, Recipe

RunDays = Callable[[Recipe], Days]
UNRUN = "the days were not run"
# Rounds of moving the last wait: moving one wait may move the others, and with them the ripe window.
ROUNDS = 3
# Halvings in search of the least lean that leaves the dough ripe.
HALVINGS = 3


@dataclass(frozen=True, slots=True)
class Outlook:
    """The run at some waits, or why there is none."""

    run: Run | None
    why: str | None = None

    @property
    def reading(self) -> Reading | None:
        """The dough where it is judged."""
        return self.run.judged if self.run is not None else None

    @property
    def ripe(self) -> bool:
        """Whether there is nothing to mend: the dough is ripe, or nobody knows."""
        return self.run is None or self.run.judged.state == "ripe"


def outlook(recipe: Recipe, run_days: RunDays | None) -> Outlook:
    """Run the days of a recipe whose waits are chosen."""
    if run_days is None:
        return Outlook(None, UNRUN)
    try:
        runs = run_days(recipe).runs
    except NoAnswerError as error:
        return Outlook(None, error.fault.sentence)
    # Of several doughs the first that is not ripe decides: it is the one to mend, and to speak of.
    return Outlook(next((run for run in runs if run.judged.state != "ripe"), runs[0]))


def narrowed(meal: Chain, run: Run) -> Chain | None:
    """The network with those lengths of the last wait that leave the dough ripe; ``None`` where none does."""
    last = _last_wait(run)
    window = run.ripe_window
    if last is None or window.from_ is None:
        return None
    step, start = last
    node = next((one for one in meal.all_nodes() if one.wait and one.step == step), None)
    if node is None:
        return None
    until = window.to if window.to is not None else float("inf")
    ripe = tuple(n for n in node.lengths if window.from_ <= start + n / 60.0 <= until)
    return meal.with_node(replace(node, lengths=ripe, asked=node.range)) if ripe else None


def leaning(meal: Chain, run: Run, lean: float) -> Chain | None:
    """The network with every ranged wait of the dough drawn to its long end (1) or its short one (-1)."""
    steps = {one.step for one in run.events if one.verb in WAITS and one.end <= run.judged_at + 1e-6}
    nodes = [one for one in meal.all_nodes() if one.wait and one.step in steps and len(one.lengths) > 1]
    for node in nodes:
        meal = meal.with_node(replace(node, lean=lean))
    return meal if nodes else None


def advice(meal: Chain, run: Run) -> str:
    """What to say of a dough that is not ripe in the plan."""
    reading, last = run.judged, _last_wait(run)
    said = f"the dough will be {reading.state}: {reading.state_why}"
    if last is None or run.ripe_window.from_ is None:
        return said
    step, start = last
    node = next((one for one in meal.all_nodes() if one.wait and one.step == step), None)
    if node is None:
        return said
    low = round((run.ripe_window.from_ - start) * 60.0)
    high = round((run.ripe_window.to - start) * 60.0) if run.ripe_window.to is not None else None
    if low <= 0 and (high is None or high <= 0):
        return said
    needs = f"from {length_says(max(0, low))}" + (f" to {length_says(high)}" if high is not None else " on")
    return f"{said}; it would be ripe if its last wait (step {step + 1}) took {needs}"


def _last_wait(run: Run) -> tuple[int, float] | None:
    """The step from 0 of the last wait before the dough is judged, and when it starts [h]."""
    waits = [one for one in run.events if one.verb in WAITS and one.end <= run.judged_at + 1e-6]
    return (waits[-1].step, waits[-1].start) if waits else None
