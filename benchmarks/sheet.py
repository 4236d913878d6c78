"""A sheet recomputed on the server after an edit: the whole, and each part of it alone.

Each turn edits the yeast first, so that nothing worked out before can be used again. The peer is a fixed
piece of NumPy, small steps on short arrays, which is what the days are made of.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from datetime import UTC, datetime
from functools import cache
from itertools import count
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
from _measure import ROOT, Claim, arguments, timed, told

from doughwright.forecast.days import days
from doughwright.forecast.results import Days
from doughwright.forecast.water import water
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.plan.timeline import plan
from doughwright.publish.band import band_of, band_svg
from doughwright.publish.cautions import cautions
from doughwright.recipe.formula import formula
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe
from doughwright.store import open_bench
from doughwright.web._desk import environment
from doughwright.web._results import Occasion
from doughwright.web._samples import Asking
from doughwright.web._sampling import Sampler
from doughwright.web._sheet import sheet_page
from doughwright.web._windows import Windows

DATA = ROOT / "tests/recipe/data"
WHOLE, EDIT, PEER = "the whole sheet", "an edit on the bench", "numpy: 5000 small steps"
LIMIT = 60.0
NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
MEAL = datetime(2026, 11, 28, 14, 0, tzinfo=UTC)
NARROW = 350.0


def edited() -> Callable[[], str]:
    """The recipe with another amount of yeast each time it is asked for."""
    text, turns = (DATA / "leek_and_rye.toml").read_text(encoding="utf-8"), count()
    return lambda: text.replace('"0.8 g"', f'"0.8{next(turns):04d} g"')


def pictures(recipe: Recipe, kitchen: Surroundings, made: Days) -> list[str]:
    """Each dough's days twice: for a page and for a phone."""
    bands = [band_of(run, recipe, kitchen) for run in made.runs]
    return [svg for band in bands for svg in (band_svg(band), band_svg(band, width=NARROW))]


def sheet(text: str, kitchen: Surroundings) -> None:
    """All that a sheet shows, from the text; the days that the plan has asked for are not run again."""
    recipe = read_recipe(text).recipe
    run = cache(lambda one: days(one, kitchen))
    formula(recipe, kitchen)
    water(recipe, kitchen)
    planned = plan(recipe, kitchen, eat=MEAL, run_days=run)
    made = run(planned.recipe or recipe)
    cautions(recipe, kitchen, made)
    pictures(recipe, kitchen, made)


def edits(text: Callable[[], str]) -> Callable[[], str]:
    """An edit as the bench answers it to a wide window: draft, sheet and markup; sampling left out."""
    place = Path(tempfile.mkdtemp()) / "bench"
    bench = open_bench(place, who="nobody", clock=lambda: NOW)
    kitchen = (DATA / "boathouse.toml").read_text(encoding="utf-8")
    bench.save("kitchen", "boathouse.toml", kitchen, expected=None)
    bench.save("recipe", "pie.toml", text(), expected=None)
    windows, pages = Windows(bench), environment()
    occasion = Occasion(NOW, ZoneInfo("UTC"), MEAL.isoformat(" ", "minutes")[:16], wide_only=True)
    asking = Asking(Idle())

    def edit() -> str:
        work = windows.write(windows.work("recipe", "pie.toml", "abcdef"), text())
        page = sheet_page(bench, work, "form", occasion, asking)
        return pages.get_template("live/sheet.html").render(page=page, whole=True, token="", bench_name="")

    return edit


class Idle(Sampler):
    """Takes work and does none of it."""

    def _start(self) -> None:
        pass


def small_steps() -> None:
    """The yardstick."""
    field = np.linspace(0.0, 1.0, 16)
    for _ in range(5000):
        field = field + 0.1 * np.diff(field, prepend=0.0, append=0.0)[:-1]


def main() -> None:
    """Time the sheet and its parts, and keep the result."""
    given = arguments(__doc__ or "")
    kitchen = surroundings(read_kitchen((DATA / "boathouse.toml").read_text(encoding="utf-8")).kitchen)
    text = edited()
    recipe = read_recipe(text()).recipe
    made = days(recipe, kitchen)
    timings = timed(
        {
            WHOLE: lambda: sheet(text(), kitchen),
            EDIT: edits(text),
            "read": lambda: read_recipe(text()),
            "formula": lambda: formula(recipe, kitchen),
            "water": lambda: water(recipe, kitchen),
            "days, once": lambda: days(recipe, kitchen),
            "plan, its days left out": lambda: plan(recipe, kitchen, eat=MEAL),
            "cautions": lambda: cautions(recipe, kitchen, made),
            "pictures": lambda: pictures(recipe, kitchen, made),
            PEER: small_steps,
        },
        given.runs,
    )
    told("sheet", timings, [Claim(WHOLE, 1000 * timings[WHOLE].median, "ms", LIMIT)], given.keep)


if __name__ == "__main__":
    main()
