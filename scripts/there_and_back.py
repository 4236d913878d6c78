"""Study of fit's way back: to another kitchen and from there to the own. Prints the table of docs/fit.md.

    python scripts/there_and_back.py

Five recipes, three kitchens of their own, eleven others, three scales. A pair counts where the recipe is ripe
in its own kitchen and both fits have an answer.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from sys import path

from doughwright.forecast.fit import Fit, NoFitError, fit
from doughwright.forecast.fit._round import yeast_step
from doughwright.kitchen.assumed import Surroundings
from doughwright.recipe.read import RecipeDocument
from doughwright.recipe.weigh import weigh

path.insert(0, str(Path(__file__).resolve().parent.parent))

from tests.forecast._fits import RECIPES, document, kitchen

HOMES = {"5 °C, 21 °C": (5, 21, 0), "7 °C, 24 °C": (7, 24, 0), "3 °C, 18 °C": (3, 18, 0)}
OTHERS = (
    (2, 17, 0),
    (8, 27, 0),
    (3, 18, 0),
    (7, 24, 0),
    (4, 19, 1800),
    (6, 22, 0),
    (8, 21, 0),
    (2, 21, 0),
    (5, 17, 0),
    (5, 25, 0),
    (4, 23, 900),
)
SCALES = ("0.01", "0.1", "1")
SAID = "may take other levers"


@dataclass
class Count:
    """Pairs that count, that return, and that are said to be unsure, with the seconds of each fit."""

    pairs: int = 0
    returned: int = 0
    unsaid: int = 0
    seconds: list[float] = field(default_factory=list)


def returned(one: RecipeDocument, back: RecipeDocument, scale: float) -> bool:
    """Whether yeast is within 5 % or half a step [g] of the scale, and each wait within 15 min."""
    was, now = _grams(one), _grams(back)
    waits = zip(one.recipe.steps, back.recipe.steps, strict=True)
    near = max(0.05 * was, 0.5 * yeast_step(was, scale))
    return abs(now - was) <= near + 1e-9 and all(
        abs((old.lasts or 0.0) - (new.lasts or 0.0)) <= 901.0 for old, new in waits if old.waits
    )


def unsure(found: Fit) -> bool:
    """Whether a fit says that its way back may be another recipe."""
    return any(SAID in one for one in found.said)


def main() -> None:
    """Print the table."""
    print("| its own kitchen | scale | pairs | again | not, and not said | longest fit |")
    print("|---|---|---|---|---|---|")
    for home, (fridge, room, altitude) in HOMES.items():
        for scale in SCALES:
            count = Count()
            own = kitchen("own", fridge=fridge, room=room, altitude=altitude, scale=scale)
            for name, other in _jobs():
                there = kitchen("there", fridge=other[0], room=other[1], altitude=other[2], scale=scale)
                _count(count, document(name), own, there, float(scale))
            print(
                f"| {home} | {scale} g | {count.pairs} | {count.returned} | {count.unsaid} "
                f"| {max(count.seconds):.2f} s |",
                flush=True,
            )


def _jobs() -> Iterator[tuple[str, tuple[int, int, int]]]:
    return ((name, other) for name in RECIPES for other in OTHERS)


def _count(count: Count, one: RecipeDocument, own: Surroundings, there: Surroundings, scale: float) -> None:
    try:
        away = _timed(count, one, own, there)
        if away.wanted.state != "ripe":
            return
        back = _timed(count, away.fitted, there, own)
    except NoFitError:
        return
    again = returned(one, back.fitted, scale)
    count.pairs += 1
    count.returned += again
    count.unsaid += not again and not unsure(away)


def _timed(count: Count, one: RecipeDocument, own: Surroundings, there: Surroundings) -> Fit:
    begun = time.process_time()
    try:
        return fit(one, own, there)
    finally:
        count.seconds.append(time.process_time() - begun)


def _grams(one: RecipeDocument) -> float:
    lines = weigh(one.recipe)["dough"].lines
    return sum(1000.0 * (line.mass or 0.0) for line in lines if line.ingredient and line.ingredient.to_fresh)


if __name__ == "__main__":
    main()
