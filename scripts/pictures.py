"""Writes the pictures of the documentation from the demo recipe: its days and its plan, in light colours.

Run it after a change to a picture or to the models: ``python scripts/pictures.py``.
"""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from doughwright.forecast.days import days
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import load_kitchen
from doughwright.plan.timeline import plan
from doughwright.publish.band import band_of, band_svg
from doughwright.publish.lanes import lanes_svg
from doughwright.recipe.read import load_recipe

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "src" / "doughwright" / "cli" / "demo"
PICTURES = ROOT / "docs" / "pictures"
MEAL = datetime(2026, 12, 12, 19, 0, tzinfo=ZoneInfo("Europe/London"))


def main() -> None:
    """Draw both."""
    recipe = load_recipe(DEMO / "leek-and-rye-flat-pie.toml").recipe
    kitchen = surroundings(load_kitchen(DEMO / "boathouse.toml").kitchen)
    run = days(recipe, kitchen).runs[0]
    write("days", band_svg(band_of(run, recipe, kitchen), for_paper=True))
    planned = plan(recipe, kitchen, eat=MEAL)
    write("plan", lanes_svg(planned, kitchen.awake, for_paper=True))


def write(name: str, svg: str) -> None:
    """Keep a picture, on white: a reader's page may be dark."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    path = PICTURES / f"{name}.svg"
    ground = '</desc><rect width="100%" height="100%" fill="#ffffff"/>'
    path.write_text(svg.replace("</desc>", ground, 1) + "\n", encoding="utf-8")
    print(f"Wrote {path.relative_to(ROOT)}.")


if __name__ == "__main__":
    main()
