"""Young, ripe or past: a dough's rows against the rise that is wanted of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from doughwright.forecast._wait import Row
from doughwright.forecast.printed import State
from doughwright.forecast.results import Reading, RipeWindow, Target
from doughwright.recipe.model import BAKES, CUSTOMARY, Recipe
from doughwright.science.gluten import ph_heuristic
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import Array

Codes: TypeAlias = NDArray[np.int8]

STATES: tuple[State, ...] = ("young", "ripe", "past")
"""What the codes of many doughs mean."""

LEAKED = 0.05
"""Share of the gas made that may leak at the ceiling before a dough is past."""

SUGAR = 0.5
"""Sugar [% of flour] under which a dough is past."""


def target_of(recipe: Recipe) -> Target:
    """The rise a recipe asks for; a single value v means 0.9 v to 1.1 v."""
    flat = recipe.shape in ("round", "rectangle")
    there = any(step.do in (("shape",) if flat else BAKES) for step in recipe.steps)
    judged = ("when shaping begins" if flat else "at the first bake") if there else "after its last wait"
    asked = recipe.target.rise
    if asked is None:
        low, high = CUSTOMARY[recipe.shape]
        return Target(low, high, True, judged)
    if asked.single:
        return Target(0.9 * asked.low, 1.1 * asked.low, False, judged)
    return Target(asked.low, asked.high, False, judged)


def _volumes(rise: float) -> str:
    """A rise with one decimal, or two where it has them."""
    return f"{rise:.1f}" if abs(rise - round(rise, 1)) < 0.005 else f"{rise:.2f}"


@dataclass(frozen=True, slots=True)
class Judge:
    """Judges rows against a target."""

    target: Target
    parameters: Parameters

    def state(self, one: Row) -> tuple[State, str]:
        """The state of a dough and why."""
        low, high, rise = self.target.low, self.target.high, one.rise
        if rise > high:
            return "past", f"its rise of {rise:.2f} is above {_volumes(high)}"
        if one.leaked > LEAKED:
            return "past", f"{100.0 * one.leaked:.0f} % of the gas made has leaked at the ceiling"
        if one.sugar < SUGAR:
            return "past", f"the sugar left, {one.sugar:.2f} % of flour, is under {SUGAR:g} %"
        if rise < low:
            return "young", f"its rise of {rise:.2f} is below {_volumes(low)}"
        return "ripe", f"its rise of {rise:.2f} is within {_volumes(low)} to {_volumes(high)}"

    def codes(self, rise: Array, leaked: Array, sugar: Array) -> Codes:
        """States of many doughs at once: 0 young, 1 ripe, 2 past, in the shape given."""
        past = (rise > self.target.high) | (leaked > LEAKED) | (sugar < SUGAR)
        return np.where(past, 2, np.where(rise < self.target.low, 0, 1)).astype(np.int8)

    def reading(self, one: Row, note: str = "") -> Reading:
        """A row as a reading."""
        state, why = self.state(one)
        return Reading(
            time=one.time,
            rise=one.rise,
            core=one.core,
            edge=one.edge,
            mean=one.mean,
            gas=one.gas / 100.0,
            dissolved=one.dissolved / 100.0,
            sugar=one.sugar,
            tightness=one.tightness,
            ph=float(ph_heuristic(made=one.made, parameters=self.parameters)),
            state=state,
            state_why=why + note,
        )

    def window(self, rows: Sequence[Row]) -> RipeWindow:
        """The first stretch of ripe rows, its ends on the line between two rows where the rise crosses."""
        states = [self.state(one)[0] for one in rows]
        if "ripe" not in states:
            why = "it is past when its last wait begins" if states[0] == "past" else "it is never ripe"
            if states[0] == states[-1] == "young":
                why = f"it is still young {rows[-1].time - rows[0].time:.3g} h after its last wait began"
            return RipeWindow(None, None, why)
        first = states.index("ripe")
        after = next((i for i in range(first, len(states)) if states[i] != "ripe"), None)
        begin = self._crossing(rows, first)
        said = ["it is ripe already when its last wait begins"] if first == 0 else []
        if after is None:
            said.append("it is still ripe 12 h past the end of its last wait")
        end = None if after is None else self._crossing(rows, after)
        return RipeWindow(begin, end, "; ".join(said) or None)

    def _crossing(self, rows: Sequence[Row], index: int) -> float:
        """When the rise crosses an end of the range between a row and the one before it."""
        here = rows[index]
        if index == 0:
            return here.time
        before = rows[index - 1]
        for level in (self.target.low, self.target.high):
            if (before.rise - level) * (here.rise - level) < 0.0:
                share = (level - before.rise) / (here.rise - before.rise)
                return before.time + share * (here.time - before.time)
        return here.time
