"""The verb for the dough's temperature: ``water``."""

from __future__ import annotations

from pathlib import Path

import click

from doughwright import units
from doughwright.cli._files import write_new
from doughwright.cli._shell import (
    bench_option,
    emit,
    json_option,
    kitchen_option,
    note,
    prints,
    what_argument,
)
from doughwright.cli._sources import Sources, sources_of
from doughwright.errors import Fault, InputError
from doughwright.forecast.friction import kitchen_with_friction
from doughwright.forecast.water import FrictionLearnt, Water, learn_friction, waters
from doughwright.publish.terminal.water import friction_text, water_text


@prints(Water, FrictionLearnt)
@click.command()
@what_argument
@click.option("--measured", metavar="TEMPERATURE", help="Learn the mixer's friction from a dough just mixed.")
@click.option("--used", metavar="TEMPERATURE", help="With --measured: the water poured; left out: the tap's.")
@click.option("--out", metavar="FILE", help="With --measured: write the kitchen with it to a new FILE.")
@kitchen_option
@bench_option
@json_option
def water(
    what: str | None,
    measured: str | None,
    used: str | None,
    out: str | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """How warm the dough's water has to be, with ice where the tap is too warm."""
    sources = sources_of(what, kitchen, bench)
    if measured is not None:
        _learn(sources, measured, used, out, as_json)
        return
    if used is not None or out is not None:
        raise InputError(Fault("--used and --out go with --measured", try_='Write --measured "26 °C" too'))
    result = waters(sources.document.recipe, sources.kitchen)
    emit(result) if as_json else click.echo("\n\n".join(water_text(one) for one in result.doughs))


def _learn(sources: Sources, measured: str, used: str | None, out: str | None, as_json: bool) -> None:
    """Learn the mixer's friction; with ``out`` the kitchen's document is written with it."""
    learnt = learn_friction(
        sources.document.recipe,
        sources.kitchen,
        measured=units.parse_temperature(measured),
        used=None if used is None else units.parse_temperature(used),
    )
    if out is not None:
        if sources.own is None:
            raise InputError(
                Fault("there is no kitchen document to write in", try_="Name one with --kitchen")
            )
        write_new(Path(out), kitchen_with_friction(sources.own, learnt.friction))
    emit(learnt) if as_json else click.echo(friction_text(learnt))
    if out is not None:
        note(f"Wrote {out}.")
