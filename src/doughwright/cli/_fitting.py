"""The verb that brings a recipe to another kitchen: ``fit``."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import click

from doughwright import units
from doughwright.cli._faults import naming, placing
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
from doughwright.cli._sources import Sources, source_of, sources_of
from doughwright.errors import Fault, InputError
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.fitting import Fitted


@prints(Fitted)
@click.command()
@what_argument
@click.option("--longest-wait", metavar="TIME", help='No wait is made longer than this: "24 h".')
@click.option(
    "--eat",
    metavar="WHEN",
    help='The meal: "2026-11-28 19:00"; no more time is taken than there is till then.',
)
@click.option("--zone", metavar="ZONE", help="With --eat: the time zone; left out: this machine's.")
@click.option(
    "--keep", metavar="WHAT", multiple=True,
    help='Leave it as it is: "yeast", "dough temperature", "fridge", "room", or a wait such as "temper".',
)  # fmt: skip
@click.option("--dough", metavar="NAME", help="Which dough; left out: the first.")
@click.option("--out", metavar="FILE", help="Write the new document to a new FILE.")
@kitchen_option
@bench_option
@json_option
def fit(
    what: str | None,
    longest_wait: str | None,
    eat: str | None,
    zone: str | None,
    keep: tuple[str, ...],
    dough: str | None,
    out: str | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """Change a recipe so that the kitchen of --kitchen gets the same dough as its own.

    The fewest changes of yeast, waits and dough temperature are taken that bring back rise, sugar, hours cold
    and warm, and tightness; the best single change is told beside them. Exit 3 where there is none.
    """
    from doughwright.forecast.fit import Limits, NoFitError
    from doughwright.forecast.fit import fit as fit_to
    from doughwright.publish.fitting import fitted
    from doughwright.publish.terminal.fit import fit_text

    sources = sources_of(what, None, bench)
    here, name = _here(sources, kitchen, bench, out)
    if zone is not None and eat is None:
        raise InputError(Fault("a zone is for a meal", try_="Add --eat"))
    now = datetime.now(UTC)
    meal = None if eat is None else _meal(eat, zone, now)
    limits = Limits(
        longest_wait=None if longest_wait is None else _longest(longest_wait),
        available=None if meal is None else (meal - now).total_seconds() / 3600.0,
        meal=None if meal is None else meal.hour + meal.minute / 60.0,
        keep=keep,
    )
    try:
        with placing(sources.document):
            found = fit_to(sources.document, sources.kitchen, here, limits=limits, dough=dough, name=name)
    except NoFitError as error:
        if not as_json:
            note(f"{fit_text(error.nearest)}\n")
        raise
    if out is not None:
        write_new(Path(out), found.document)
    if as_json:
        emit(fitted(found, sources.document.recipe, here))
        return
    note(fit_text(found))
    click.echo(found.document if out is None else f"Wrote {out}.", nl=out is not None)


def _here(
    sources: Sources, kitchen: str | None, bench: str | None, out: str | None
) -> tuple[Surroundings, str | None]:
    """The kitchen to fit to, and how the new document names it; the recipe's own where none is named."""
    if kitchen is None:
        return sources.kitchen, None
    found = source_of(kitchen, bench)
    here = surroundings(read_kitchen(found.text, found.shown).kitchen)
    if found.path is None:
        return here, found.name
    beside = (
        Path(out).parent if out is not None else sources.source.path.parent if sources.source.path else Path()
    )
    return here, Path(os.path.relpath(found.path, beside)).as_posix()


def _longest(text: str) -> float:
    with naming("--longest-wait"):
        return units.parse_time(text) / 3600.0


def _meal(eat: str, zone: str | None, now: datetime) -> datetime:
    from doughwright.plan.meal import parse_eat, zone_named

    at = parse_eat(eat, zone_named(zone), now).at
    if at <= now:
        raise InputError(
            Fault("the meal", wanted="a time to come", found=f"{at:%Y-%m-%d %H:%M}", try_="Name a later one")
        )
    return at
