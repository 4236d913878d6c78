"""The verb for paper: ``card``."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Literal

import click

from doughwright.cli._planning import plan_of, write_bytes
from doughwright.cli._shell import bench_option, emit, json_option, kitchen_option, what_argument
from doughwright.cli._sources import Sources, sources_of

System = Literal["metric", "US", "both"]


@click.command()
@what_argument
@click.option(
    "--out",
    metavar="FILE",
    help="The PDF to write, over an older one but over nothing else; left out: the recipe's name with .pdf.",
)
@click.option("--units", type=click.Choice(["metric", "US", "both"]), default="metric", show_default=True)
@click.option("--eat", metavar="WHEN", help="A meal to give the steps their times: as for plan.")
@click.option("--zone", metavar="ZONE", help="The time zone; left out: this machine's.")
@kitchen_option
@bench_option
@json_option
def card(
    what: str | None,
    out: str | None,
    units: System,
    eat: str | None,
    zone: str | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """Write a card to print: a PDF of A5 pages with amounts, steps, the days and cautions."""
    sources = sources_of(what, kitchen, bench)
    path = Path(out) if out else Path(f"{Path(sources.source.name or 'card').stem}.pdf")
    write_bytes(path, card_of(sources, units, eat, zone))
    if as_json:
        emit({"card": str(path), "units": units})
    else:
        click.echo(f"Wrote {path}.")


def card_of(sources: Sources, units: System, eat: str | None = None, zone: str | None = None) -> bytes:
    """The card of a recipe; with a meal its steps carry the plan's times."""
    from doughwright.publish.card import recipe_card

    plan = plan_of(sources, eat, zone) if eat else None
    stamp = f"{datetime.now(UTC):%Y-%m-%d}"
    return recipe_card(sources.document.recipe, sources.kitchen, units=units, plan=plan, date=stamp)
