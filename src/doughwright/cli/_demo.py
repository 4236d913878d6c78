"""The verb ``demo``: builds the Saltmarsh Kitchen bench, runs the main job on it, and serves it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

import click

from doughwright.cli._paper import card_of
from doughwright.cli._planning import plan_of, write_bytes
from doughwright.cli._sources import Sources, sources_of
from doughwright.store import Bench, Kind, open_bench

RECIPES = ("leek-and-rye-flat-pie.toml", "boathouse-milk-loaf.toml")
KITCHENS = ("boathouse.toml", "warm-flat.toml", "mountain-cabin.toml", "student-kitchen.toml")
ZONE = "Europe/London"


@click.command()
@click.argument("folder", type=click.Path(file_okay=False), default="saltmarsh-kitchen")
@click.option("--no-serve", is_flag=True, help="Do not serve the bench afterwards, even at a terminal.")
def demo(folder: str, no_serve: bool) -> None:
    """Build the demo bench in FOLDER, run the main job on it, then serve it at a terminal."""
    build(Path(folder))
    for name in RECIPES:
        for part in main_job(folder, name):
            click.echo(part)
    click.echo(f"The bench is in {folder}: doughwright serve {folder}")
    if not no_serve and sys.stdin.isatty() and sys.stdout.isatty():
        from doughwright.cli._serve import start

        start(folder, None)


def build(folder: Path) -> None:
    """Put the demo's documents on a bench; what is there already stays as it is."""
    with open_bench(folder, who="Saltmarsh Kitchen") as bench:
        for name in KITCHENS:
            _put(bench, "kitchen", name)
        for name in RECIPES:
            _put(bench, "recipe", name)


def _put(bench: Bench, kind: Kind, name: str) -> None:
    if name not in (*bench.names(kind), *bench.names(kind, removed=True)):
        bench.save(kind, name, document(name), expected=None, note="the demo")


def document(name: str) -> str:
    """The text of one of the demo's documents."""
    return resources.files("doughwright.cli").joinpath("demo", name).read_text(encoding="utf-8")


def main_job(folder: str, name: str) -> Iterator[str]:
    """Formula, water, days, plan and card of one recipe, each as the terminal prints it."""
    from doughwright.forecast.days import days
    from doughwright.forecast.water import water
    from doughwright.publish.terminal.days import days_text
    from doughwright.publish.terminal.formula import formula_text
    from doughwright.publish.terminal.plan import plan_text
    from doughwright.publish.terminal.water import water_text
    from doughwright.recipe.formula import formula

    what = f"{name} --bench {folder}"
    sources = sources_of(name, bench=folder)
    recipe, kitchen = sources.document.recipe, sources.kitchen
    yield _said(f"formula {what}", formula_text(formula(recipe, kitchen)))
    yield _said(f"water {what}", water_text(water(recipe, kitchen)))
    yield _said(f"days {what}", days_text(days(recipe, kitchen), recipe, kitchen))
    yield _said(f"plan {what}", plan_text(plan_of(sources, None, ZONE)))
    yield _said(f"card {what}", _card(folder, name, sources))


def _card(folder: str, name: str, sources: Sources) -> str:
    path = Path(folder) / f"{Path(name).stem}.pdf"
    write_bytes(path, card_of(sources, "both"))
    return f"Wrote {path}."


def _said(command: str, text: str) -> str:
    return f"$ doughwright {command}\n\n{text}\n"
