"""Redesign against a 2,000-point random search at equal cost, on three recipes, judged on fresh kitchens.

Both try 2,000 designs in the same 128 kitchens; random search keeps the one with the most ripe kitchens.
Writes the table of docs/elsewhere.md. ``--tries`` makes it shorter.
"""

from __future__ import annotations

import argparse
import re
import sys
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from doughwright.forecast.elsewhere._figures import RIPE  # noqa: E402
from doughwright.forecast.elsewhere._kitchens import kitchens_of  # noqa: E402
from doughwright.forecast.elsewhere._watch import Watch  # noqa: E402
from doughwright.forecast.redesign._best import Best, best_of, changes_in, trials_of  # noqa: E402
from doughwright.forecast.redesign._told import fresh_run  # noqa: E402
from doughwright.forecast.redesign._trial import Trial  # noqa: E402
from doughwright.forecast.redesign.results import Limits  # noqa: E402
from doughwright.kitchen.population import Readers  # noqa: E402
from doughwright.recipe.read import read_recipe  # noqa: E402
from doughwright.science.sampling.sobol import sobol  # noqa: E402
from tests.forecast.redesign.three import THREE  # noqa: E402

PAGE = ROOT / "docs" / "elsewhere.md"
EACH, USUAL, FRESH = 128, 768, 16_384
LIMITS = Limits(total=(0.0, 48.0))


@dataclass(frozen=True)
class Outcome:
    """The share that is ripe [%] as written, by random search, by ours, and by ours with its usual tries."""

    name: str
    written: float
    random: float
    ours: float
    short: float


def main() -> None:
    """Run all three and write the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--tries", type=int, default=2000)
    parser.add_argument("--page", type=Path, default=PAGE)
    asked = parser.parse_args()
    found = [compared(name, text, asked.tries) for name, text in THREE.items()]
    page = asked.page.read_text(encoding="utf-8")
    new = re.sub(
        r"(?s)(<!-- redesign -->\n).*?(<!-- end -->)",
        lambda at: at[1] + table(found, asked.tries) + at[2],
        page,
    )
    asked.page.write_text(new, encoding="utf-8")


def compared(name: str, text: str, tries: int) -> Outcome:
    """One recipe as written, by either search, and by ours with its usual 768 designs."""
    written = kitchens_of(read_recipe(text).recipe, readers=Readers(), dough=None)
    watch = Watch(1)
    points = sobol(count=EACH, dimensions=written.inputs, seed=1)
    trials = trials_of(written, LIMITS, points, watch)
    ours, short = (ripe(best_of(trials, count, 0), watch) for count in (tries, min(USUAL, tries)))
    random = max_random(trials, tries, watch)
    plain = 100.0 * np.mean(fresh_run(written, FRESH, 99, watch).state == RIPE)
    one = Outcome(name, float(plain), random, ours, short)
    print(one)
    return one


def ripe(best: Best, watch: Watch) -> float:
    """The share that is ripe in kitchens that no search has seen."""
    kitchens = replace(best.trial.kitchens, changes=changes_in(best))
    return float(100.0 * np.mean(fresh_run(kitchens, FRESH, 99, watch).state == RIPE))


def max_random(trials: list[tuple[tuple[int, ...] | None, Trial]], tries: int, watch: Watch) -> float:
    """The best of as many random designs, either order of steps as likely, by its plain share."""
    chance = np.random.Generator(np.random.PCG64(7))
    best: tuple[float, Best] | None = None
    for order, trial in trials:
        for _ in range(0, tries // len(trials), 16):
            designs = chance.random((16, len(trial.levers)))
            designs = designs[trial.outside(designs) <= 0.0]
            if not len(designs):
                continue
            share = np.mean((trial.run(designs).state == RIPE).reshape(len(designs), -1), axis=1)
            top = int(np.argmax(share))
            if best is None or share[top] > best[0]:
                values = tuple(
                    float(lever.value(designs[[top], at])[0]) for at, lever in enumerate(trial.levers)
                )
                best = float(share[top]), Best(trial, order, values, tries)
    assert best is not None
    return ripe(best[1], watch)


def table(found: list[Outcome], tries: int) -> str:
    """The table of the page."""
    head = (
        f"{datetime.now(UTC):%Y-%m-%d}: ripe of 100 kitchens, in {FRESH:,} fresh ones; {tries:,} designs in "
        f"{EACH} kitchens each, at most 48 h in all.\n\n"
        "| recipe | as written | random search | redesign | with 768 designs |\n"
        "|---|---:|---:|---:|---:|\n"
    )
    rows = [
        f"| {one.name} | {one.written:.1f} | {one.random:.1f} | {one.ours:.1f} | {one.short:.1f} |\n"
        for one in found
    ]
    return head + "".join(rows)


if __name__ == "__main__":
    main()
