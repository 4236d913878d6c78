"""Whole processes: ``doughwright formula`` and ``doughwright days`` beside bare imports of what they use."""

from __future__ import annotations

import sys

from _measure import ROOT, Claim, arguments, command, doughwright, timed, told

RECIPE = str(ROOT / "tests/recipe/data/leek_and_rye.toml")
FORMULA, DAYS = "doughwright formula --json", "doughwright days --json"
LIBRARIES, NUMPY = "python: import tomlkit, click, pydantic", "python: import numpy"


def main() -> None:
    """Time the commands, and keep the result."""
    given = arguments(__doc__ or "")
    timings = timed(
        {
            FORMULA: command(doughwright(), "formula", RECIPE, "--json"),
            LIBRARIES: command(sys.executable, "-c", "import tomlkit, click, pydantic"),
            DAYS: command(doughwright(), "days", RECIPE, "--json"),
            NUMPY: command(sys.executable, "-c", "import numpy"),
        },
        given.runs,
    )
    claims = [
        Claim("formula", timings[FORMULA].median, "s", 0.25),
        Claim("days", timings[DAYS].median, "s", 1.0),
    ]
    told("formula_command", timings, claims, given.keep)


if __name__ == "__main__":
    main()
