"""Verbs that ask what to measure and learn from it: ``narrow``, ``calibrate``."""

from __future__ import annotations

from pathlib import Path

import click

from doughwright.cli._faults import placing
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
from doughwright.cli._sources import sources_of
from doughwright.errors import Fault, InputError
from doughwright.forecast.calibrate.results import Calibrated
from doughwright.forecast.narrow_results import Narrow


@prints(Narrow)
@click.command()
@what_argument
@click.option("--dough", metavar="NAME", help="Which dough; left out: the first.")
@kitchen_option
@bench_option
@json_option
def narrow(
    what: str | None, dough: str | None, kitchen: str | None, bench: str | None, as_json: bool
) -> None:
    """Which single measurement would narrow the forecast of the rise most, and the minutes it costs."""
    from doughwright.forecast.narrow import narrow as rank
    from doughwright.forecast.seed import seed_of
    from doughwright.publish.terminal.narrow import narrow_text

    sources = sources_of(what, kitchen, bench)
    seed = seed_of(sources.source.text)
    with placing(sources.document):
        found = rank(sources.document.recipe, sources.kitchen, dough=dough, seed=seed)
    emit(found) if as_json else click.echo(narrow_text(found))


@prints(Calibrated)
@click.command()
@what_argument
@click.option("--readings", metavar="FILE", required=True, help="The document of what was read.")
@click.option("--out", metavar="FILE", help="Write the kitchen with what it has learnt to a new FILE.")
@kitchen_option
@bench_option
@json_option
def calibrate(
    what: str | None, readings: str, out: str | None, kitchen: str | None, bench: str | None, as_json: bool
) -> None:
    """What your own readings teach of your kitchen and your yeast: jars, dough temperatures, loggers.

    WHAT and --kitchen may be left out where the readings name them. Exit 3 where the readings do not settle.
    """
    from doughwright.forecast.calibrate import calibrate as learn
    from doughwright.forecast.seed import seed_of
    from doughwright.kitchen.readings.read import load_readings
    from doughwright.kitchen.readings.taken import taken
    from doughwright.publish.terminal.calibrate import calibrate_text

    read = load_readings(Path(readings))
    own = read.readings
    beside = Path(readings).parent
    sources = sources_of(what or _beside(beside, own.recipe), kitchen or _beside(beside, own.kitchen), bench)
    if out is not None and sources.own is None:
        raise InputError(Fault("there is no kitchen document to write in", try_="Name one with --kitchen"))
    for one in read.notes:
        note(f"Note: {one}")
    with placing(read):
        found = learn(
            sources.document.recipe, sources.own, taken(read), called=own.readings, dough=own.dough,
            seed=seed_of(read.text),
        )  # fmt: skip
    if out is not None and found.document is not None:
        write_new(Path(out), found.document)
    emit(found) if as_json else click.echo(calibrate_text(found))
    if out is not None:
        note(f"Wrote {out}." if found.document is not None else "Nothing was learnt: nothing is written.")


def _beside(folder: Path, name: str | None) -> str | None:
    """A document that the readings name: beside them, else by its name."""
    if name is None:
        return None
    path = folder / name
    return str(path) if path.is_file() else name
