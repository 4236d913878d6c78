"""Writes the pictures of the documentation from the demo: its days, its plan, and its sheet in a browser.

Run it after a change to a picture or to the models: ``python scripts/pictures.py`` (it needs Chromium).
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from playwright.sync_api import sync_playwright

from doughwright.cli._demo import build
from doughwright.forecast.days import days
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import load_kitchen
from doughwright.plan.timeline import plan
from doughwright.publish.band import band_of, band_svg
from doughwright.publish.lanes import lanes_svg
from doughwright.recipe.read import load_recipe

CHROMIUM = "/usr/bin/chromium"
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
    with tempfile.TemporaryDirectory() as folder:
        photograph(Path(folder) / "saltmarsh-kitchen")


def photograph(folder: Path) -> None:
    """The sheet as a reader sees it first, after one edit: the yeast of the dough."""
    build(folder)
    command = [sys.executable, "-m", "doughwright", "serve", str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server, sync_playwright() as driver:
        try:
            said = server.stdout.readline() if server.stdout else ""
            browser = driver.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
            page = browser.new_page(viewport={"width": 1280, "height": 2000})
            page.goto(f"{said.split(' at ')[1].split(' ')[0]}recipe/leek-and-rye-flat-pie.toml")
            page.get_by_label("instant yeast in the dough", exact=True).fill("0.6 g")
            page.keyboard.press("Tab")
            page.get_by_role("heading", name="What moved").wait_for()
            page.evaluate("document.activeElement.blur(); scrollTo(0, 0)")
            page.wait_for_timeout(500)
            page.screenshot(path=PICTURES / "sheet.png")
            print("Wrote docs/pictures/sheet.png.")
        finally:
            server.terminate()


def write(name: str, svg: str) -> None:
    """Keep a picture, on white: a reader's page may be dark."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    path = PICTURES / f"{name}.svg"
    ground = '</desc><rect width="100%" height="100%" fill="#ffffff"/>'
    path.write_text(svg.replace("</desc>", ground, 1) + "\n", encoding="utf-8")
    print(f"Wrote {path.relative_to(ROOT)}.")


if __name__ == "__main__":
    main()
