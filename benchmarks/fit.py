"""A fit to another kitchen, whole and as a command, beside SciPy's least squares on the same objective."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from _measure import ROOT, Claim, arguments, command, doughwright, timed, told
from scipy.optimize import least_squares

from doughwright.forecast.fit import Limits, fit
from doughwright.forecast.fit._bench import Bench
from doughwright.forecast.fit._case import case_of
from doughwright.forecast.fit._choose import SIZES
from doughwright.forecast.fit._solve import WEIGHT, Choice, choices, solve
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.recipe.read import read_recipe

DEMO = ROOT / "src/doughwright/cli/demo"
RECIPE, OWN, HERE = DEMO / "leek-and-rye-flat-pie.toml", DEMO / "boathouse.toml", DEMO / "mountain-cabin.toml"
COMMAND, FIT = "doughwright fit --json", "fit, all of it"
OURS, PEER = "search: every one, two and three levers", "SciPy least_squares, the same choices"


def main() -> None:
    """Time the command, the fit, and its search beside SciPy's; keep the result."""
    given = arguments(__doc__ or "")
    document = read_recipe(RECIPE.read_text(encoding="utf-8"))
    own, here = _kitchen(OWN), _kitchen(HERE)
    search = case_of(document, own, here, limits=Limits(), dough=None, name=None).search()
    bench = search.bench
    every = choices(bench, SIZES)
    timings = timed(
        {
            COMMAND: command(doughwright(), "fit", str(RECIPE), "--kitchen", str(HERE), "--json"),
            FIT: lambda: fit(document, own, here),
            OURS: lambda: solve(bench, choices(bench, SIZES)),
        },
        given.runs,
    )
    # The peer takes minutes for all of it: a few choices are timed, once, and it is scaled to their number.
    few = [one for one in every if len(one.free) == 2][:3]
    peer = timed({PEER: lambda: [_least_squares(bench, one) for one in few]}, 1)[PEER]
    whole = peer.median * len(every) / len(few)
    claims = [
        Claim("fit as a command", timings[COMMAND].median, "s", 1.0),
        Claim("our search over SciPy's, share of the time", timings[OURS].median / whole, "times", 0.1),
    ]
    told("fit", {**timings, PEER: peer}, claims, given.keep)


def _kitchen(path: Path) -> Surroundings:
    return surroundings(read_kitchen(path.read_text(encoding="utf-8")).kitchen)


def _least_squares(bench: Bench, choice: Choice) -> object:
    """The same objective, bounds and levers, by SciPy's trust region."""
    free = list(choice.free)

    def off(values: np.ndarray) -> np.ndarray:
        point = np.zeros((1, len(bench.levers.every)))
        point[0, free] = values
        return WEIGHT * bench.run(bench.levers.designs(point)).off[0]

    bounds = choice.low[free], choice.high[free]
    return least_squares(off, np.zeros(len(free)), bounds=bounds, xtol=1e-3, diff_step=0.05)


if __name__ == "__main__":
    main()
