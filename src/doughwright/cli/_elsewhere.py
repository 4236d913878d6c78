"""The verb for other kitchens: ``elsewhere``."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from doughwright import units
from doughwright.cli._faults import naming, placing
from doughwright.cli._files import write_new
from doughwright.cli._progress import progress
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
from doughwright.errors import Fault, InputError, did_you_mean
from doughwright.forecast.elsewhere.results import Elsewhere
from doughwright.forecast.redesign.results import Limits, Redesign

WITHIN = {
    "hours": ("total", units.parse_time, 3600.0),
    "fridge": ("cold", units.parse_time, 3600.0),
    "room": ("room", units.parse_time, 3600.0),
    "temper": ("temper", units.parse_time, 3600.0),
    "yeast": ("yeast", units.parse_mass, 0.001),
    "dough": ("dough_temperature", units.parse_temperature, 1.0),
}
"""What a limit may be of: the field, how it is read, and its unit in SI."""


@prints(Elsewhere, Redesign)
@click.command()
@what_argument
@click.option("--kitchens", "count", type=click.IntRange(1, 10_000_000), help="How many; left out: 10,000.")
@click.option(
    "--season", type=click.Choice(["year", "summer"]), default="year", help="Rooms in summer are warmer."
)
@click.option(
    "--aim", is_flag=True, help="Readers aim for the recipe's dough temperature, and miss by 1.5 °C."
)
@click.option("--full", is_flag=True, help="What explains the spread by a design of its own, totals too.")
@click.option("--dough", metavar="NAME", help="Which dough; left out: the first.")
@click.option("--redesign", "again", is_flag=True, help="Search what is free for the most ripe kitchens.")
@click.option(
    "--within", "limits", metavar="LIMIT", multiple=True,
    help='With --redesign, a limit: "hours 24 h to 48 h", or of fridge, room, temper, yeast, dough; '
    'or "divide as written".',
)  # fmt: skip
@click.option(
    "--tries", type=click.IntRange(16, 100_000), help="With --redesign: designs to try; left out: 768."
)
@click.option("--out", metavar="FILE", help="With --redesign: write the changed document to a new FILE.")
@kitchen_option
@bench_option
@json_option
def elsewhere(
    what: str | None,
    count: int | None,
    season: str,
    aim: bool,
    full: bool,
    dough: str | None,
    again: bool,
    limits: tuple[str, ...],
    tries: int | None,
    out: str | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """The recipe in 10,000 kitchens: how often it is young, ripe or past, why, and what would help.

    Progress goes to standard error; Ctrl-C ends the run and keeps what it has.
    """
    sources = sources_of(what, kitchen, bench)
    if again:
        _redesign(sources, read_limits(limits), season, aim, dough, tries, out, as_json)
        return
    if limits or tries or out:
        raise InputError(Fault("a limit, --tries and --out are for a search", try_="Add --redesign"))
    from doughwright.forecast.elsewhere import KITCHENS
    from doughwright.forecast.elsewhere import elsewhere as run
    from doughwright.forecast.seed import seed_of
    from doughwright.publish.terminal.elsewhere import elsewhere_text

    with progress() as shown, placing(sources.document):
        found = run(
            sources.document.recipe,
            kitchens=count or KITCHENS,
            season="summer" if season == "summer" else "year",
            aim=aim,
            full=full,
            seed=seed_of(sources.source.text),
            dough=dough,
            own=sources.kitchen,
            progress=shown.says,
            stop=shown.stop,
        )
    if as_json:
        emit(found)
    else:
        click.echo(elsewhere_text(found))


def _redesign(
    sources: Sources,
    limits: Limits,
    season: str,
    aim: bool,
    dough: str | None,
    tries: int | None,
    out: str | None,
    as_json: bool,
) -> None:
    from doughwright.forecast.redesign import TRIES, redesign
    from doughwright.forecast.seed import seed_of
    from doughwright.publish.terminal.elsewhere import redesign_text

    with progress() as shown, placing(sources.document):
        found = redesign(
            sources.document.recipe,
            limits=limits,
            tries=tries or TRIES,
            season="summer" if season == "summer" else "year",
            aim=aim,
            seed=seed_of(sources.source.text),
            dough=dough,
            own=sources.kitchen,
            document=sources.document,
            progress=shown.says,
            stop=shown.stop,
        )
    if out is not None and found.document is not None:
        write_new(Path(out), found.document)
    if as_json:
        emit(found)
        return
    click.echo(redesign_text(found))
    if out is not None:
        note(f"Wrote {out}.")


def read_limits(texts: tuple[str, ...]) -> Limits:
    """A cook's limits, each "hours 24 h to 48 h" or the like; raises ``InputError`` for any other text."""
    found: dict[str, Any] = {}
    for text in texts:
        name, _, rest = text.strip().partition(" ")
        if name == "divide" and rest.strip() == "as written":
            found["divide"] = rest.strip()
            continue
        if name not in WITHIN or not rest:
            near = None if name in WITHIN else did_you_mean(name, WITHIN)
            near = near or 'Write for example "hours 24 h to 48 h"'
            raise InputError(
                Fault(
                    "a limit", wanted=f"one of {', '.join(WITHIN)} and a range", found=f'"{text}"', try_=near
                )
            )
        field, parse, per = WITHIN[name]
        with naming(f"the limit of {name}"):
            low, high = units.parse_range(rest, parse)
        found[field] = low / per, high / per
    return Limits(**found)
