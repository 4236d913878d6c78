"""The verb for the oven: ``oven``."""

from __future__ import annotations

import click

from doughwright.cli._shell import bench_option, emit, json_option, kitchen_option, prints, what_argument
from doughwright.cli._sources import sources_of
from doughwright.forecast.bake.results import Bake


@prints(Bake)
@click.command()
@what_argument
@click.option("--section", is_flag=True, help="Cut a piece through: its temperatures by depth and time.")
@click.option("--piece", type=click.IntRange(min=1), help="With --section: which piece; left out: the first.")
@kitchen_option
@bench_option
@json_option
def oven(
    what: str | None,
    section: bool,
    piece: int | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """What the oven does to each piece: colour, loss, set, and the surface it lies on."""
    from doughwright.forecast.bake import bake
    from doughwright.forecast.seed import seed_of

    sources = sources_of(what, kitchen, bench)
    cut = (piece or 1) if section or piece is not None else None
    result = bake(sources.document.recipe, sources.kitchen, seed=seed_of(sources.source.text), section=cut)
    if as_json:
        emit(result)
        return
    from doughwright.publish.terminal.oven import oven_text

    click.echo(oven_text(result))
