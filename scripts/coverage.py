"""Study of the intervals: how often they hold what happened. Writes docs/coverage.md.

    python scripts/coverage.py

Cooks are made up: each has measured some things, and has a true kitchen, yeast and dough drawn from all that
the measurements leave open. The interval is built from what the cook knows; then it is seen whether the true
dough lies in it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

import numpy as np

from doughwright.forecast.doubt import ENDS, sampled
from doughwright.forecast.many import judged_at
from doughwright.kitchen.assumed import FRIDGE, ROOM, Surroundings, surroundings
from doughwright.kitchen.types import Known
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe
from doughwright.science.parameters import Parameters, varied

PAGE = Path(__file__).resolve().parent.parent / "docs" / "coverage.md"
READINGS = ("rise", "core", "sugar")
COOKS, DRAWS = 600, 256

RECIPES = {
    "two days cold": ("0.84 g", "48 h", "fridge", "2 h"),
    "a day in the room": ("0.15 g", "18 h", "room", "1 h"),
    "four hours": ("4 g", "3 h", "room", "1 h"),
}
"""Each with its instant yeast, its longest wait and where, and its last wait in the room."""


def document(yeast: str, long: str, place: str, last: str) -> Recipe:
    """A recipe of 600 g of flour in four balls, aimed at 24 °C."""
    return read_recipe(
        f"""
schema = 1
title = "Coverage"
[makes]
pieces = 4
shape = "round"
diameter = "30 cm"
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  {{ item = "bread flour", amount = "600 g" }},
  {{ item = "water", amount = "372 g" }},
  {{ item = "salt, fine", amount = "15 g" }},
  {{ item = "instant yeast", amount = "{yeast}" }},
]
[[step]]
do = "mix"
mix = "dough"
for = "8 min"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "rest"
for = "{long}"
at = "{place}"
in = "lidded tub"
[[step]]
do = "temper"
for = "{last}"
at = "room"
[[step]]
do = "shape"
[target]
dough_temperature = "24 °C"
"""
    ).recipe


@dataclass(frozen=True)
class World:
    """How the true days differ from the model's: its parameters, and what is done to the true kitchen."""

    parameters: Parameters = field(default_factory=Parameters)
    kitchen: Callable[[Surroundings], Surroundings] = lambda one: one


def _stronger(one: Surroundings) -> Surroundings:
    return replace(one, flour_protein=Known(0.098, "known"))


def _cycling(one: Surroundings) -> Surroundings:
    cycle = Known(2700.0, "known")
    return replace(one, fridge_swing=Known(2.0, "known"), cold=replace(one.cold, cycle=cycle))


P = Parameters()
WORLDS = {
    "the same model": World(),
    "another gassing curve (stops at -3.5 and 46 °C, falls less steeply)": World(
        varied(P, gassing_minimum=-3.5, gassing_maximum=46.0, gassing_slope=0.2)
    ),
    "weaker flour than the bag says (9.8 % protein)": World(kitchen=_stronger),
    "work that takes out less gas (0.25 less of it)": World(
        varied(P, degas_ball=P.degas_ball - 0.25, degas_divide=P.degas_divide - 0.25)
    ),
    "a fridge that cycles by 2 °C either way": World(kitchen=_cycling),
}


def cook(rng: np.random.Generator) -> Surroundings:
    """A cook who has measured fridge and room to half a degree, and weighs to 0.1 g."""
    base = surroundings(None)
    cold = float(np.clip(rng.normal(FRIDGE.middle, FRIDGE.spread), 1.0, 9.0))
    warm = float(np.clip(rng.normal(ROOM.middle, ROOM.spread), 16.0, 28.0))
    return replace(
        base,
        fridge=Known(cold, "measured", 0.5),
        cold=replace(base.cold, offset=Known(0.0, "measured", 0.0)),
        room=Known(warm, "measured", 0.5),
        scale=0.0001,
        scale_known=True,
    )


def held(recipe: Recipe, world: World, *, cooks: int, draws: int, seed: int) -> dict[str, float]:
    """Per cent of cooks whose true dough lies in its interval, by reading."""
    rng = np.random.default_rng(seed)
    hits = dict.fromkeys(READINGS, 0)
    for number in range(cooks):
        there = cook(rng)
        said = sampled(recipe, there, "dough", seed=seed + 2 * number, draws=draws)
        true = sampled(
            recipe,
            world.kitchen(there),
            "dough",
            seed=seed + 2 * number + 1,
            draws=1,
            parameters=world.parameters,
        )
        ours, theirs = (judged_at(one.moment, one.judge) for one in (said, true))
        for name in READINGS:
            low, high = np.percentile(getattr(ours, name), ENDS)
            hits[name] += int(low <= getattr(theirs, name)[0] <= high)
    return {name: 100.0 * count / cooks for name, count in hits.items()}


def table(cooks: int = COOKS, draws: int = DRAWS) -> list[str]:
    """A row for each world and recipe."""
    lines = ["| the true days | recipe | rise, % | core, % | sugar, % |", "|---|---|---:|---:|---:|"]
    for number, (world, differs) in enumerate(WORLDS.items()):
        for name, made in RECIPES.items():
            found = held(document(*made), differs, cooks=cooks, draws=draws, seed=1000 * number)
            values = " | ".join(f"{found[reading]:.1f}" for reading in READINGS)
            lines.append(f"| {world} | {name} | {values} |")
            print(lines[-1], flush=True)
    return lines


PROSE = """\
# Do the intervals hold?

Made by `python scripts/coverage.py`; do not edit. {cooks} cooks are made up for each row. Each has measured
fridge and room to half a degree, aims for 24 °C and weighs to 0.1 g; what is true of the kitchen, the yeast
and the dough is drawn from all that this leaves open. The 90 % interval is built from {draws} draws of what
the cook knows. The table says how often it held the true dough when it is judged: of {cooks} cooks, chance
alone moves a figure by 1.2 either way.

{table}

Where the true days are the model's, about 90 in 100 are held: the intervals say what they mean to say. The
other rows are days that the model does not know. They have no target; they show what an interval does not
cover. A figure over 90 means that the interval is wider than that error needs.
"""


def main() -> None:
    """Write the page."""
    PAGE.write_text(PROSE.format(cooks=COOKS, draws=DRAWS, table="\n".join(table())), encoding="utf-8")
    print(f"wrote {PAGE.relative_to(PAGE.parent.parent)}")


if __name__ == "__main__":
    main()
