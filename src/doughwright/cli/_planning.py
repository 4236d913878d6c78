"""Verbs for the days: ``days`` and ``plan``."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import click

from doughwright.cli._faults import placing
from doughwright.cli._shell import bench_option, emit, json_option, kitchen_option, prints, what_argument
from doughwright.cli._sources import Sources, sources_of
from doughwright.errors import Fault, InputError
from doughwright.forecast.printed import PrintedDays
from doughwright.plan.model import Plan

# So many first bytes tell a calendar or a card from any other file.
_KIND = 5


@prints(PrintedDays)
@click.command()
@what_argument
@kitchen_option
@bench_option
@json_option
def days(what: str | None, kitchen: str | None, bench: str | None, as_json: bool) -> None:
    """What the dough does hour by hour: temperature, rise, sugar, and when it is ripe."""
    from doughwright.forecast.days import days as days_of
    from doughwright.forecast.doubt import with_doubt
    from doughwright.forecast.seed import seed_of

    sources = sources_of(what, kitchen, bench)
    recipe = sources.document.recipe
    with placing(sources.document):
        result = days_of(recipe, sources.kitchen)
    result = with_doubt(result, recipe, sources.kitchen, seed=seed_of(sources.source.text))
    if as_json:
        emit(result)
        return
    from doughwright.publish.terminal.days import days_text

    click.echo(days_text(result, recipe, sources.kitchen))


@prints(Plan)
@click.command()
@what_argument
@click.option(
    "--eat", metavar="WHEN", help='The meal: "2026-11-28 19:00", "Saturday 19:00"; left out: the recipe\'s.'
)
@click.option(
    "--zone", metavar="ZONE", help="The time zone, such as Europe/London; left out: this machine's."
)
@click.option(
    "--ics", metavar="FILE", help="Write a calendar to FILE, over an older one but over nothing else."
)
@kitchen_option
@bench_option
@json_option
def plan(
    what: str | None,
    eat: str | None,
    zone: str | None,
    ics: str | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """What to do when, back from the meal, in the hours the cook is up."""
    sources = sources_of(what, kitchen, bench)
    result = plan_of(sources, eat, zone)
    if ics is not None:
        from doughwright.plan.calendar import calendar

        write_bytes(Path(ics), calendar(result, stamp=datetime.now(UTC)))
    if as_json:
        emit(result)
        return
    from doughwright.publish.terminal.plan import plan_text

    click.echo(plan_text(result))
    if ics is not None:
        click.echo(f"\nWrote {ics}.")


def plan_of(sources: Sources, eat: str | None, zone: str | None) -> Plan:
    """The plan of a recipe for a meal: as asked, else the document's own, the next one there is time for."""
    from doughwright.forecast.days import days as days_of
    from doughwright.plan.meal import next_meal, parse_eat, zone_named
    from doughwright.plan.timeline import plan as plan_back
    from doughwright.plan.timeline import shortest

    recipe, where = sources.document.recipe, zone_named(zone)
    now = datetime.now(UTC)
    own, ready = recipe.makes.eat, now + shortest(recipe)
    meal = next_meal(own, where, ready) if eat is None else parse_eat(eat, where, now)
    made = plan_back(
        recipe,
        sources.kitchen,
        eat=meal.at,
        # A meal that is past is looked back at; for one to come there must be time left.
        now=now if meal.at > now else None,
        run_days=lambda one: days_of(one, sources.kitchen),
    )
    said = [*([meal.said] if meal.said else []), *(["this meal is past"] if meal.at <= now else [])]
    return replace(made, notes=(*said, *made.notes))


def write_bytes(path: Path, content: bytes) -> None:
    """Write a made file (a calendar, a card), over an older one of its kind but over nothing else."""
    try:
        if path.is_file() and path.stat().st_size and not path.read_bytes().startswith(content[:_KIND]):
            try_ = "Choose another name"
            raise InputError(Fault("there is another file of that name", file=str(path), try_=try_))
        path.write_bytes(content)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise InputError(Fault(f"cannot write it ({reason})", file=str(path))) from error
