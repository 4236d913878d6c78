"""Verbs for weighing: ``formula``, ``scale``."""

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
from doughwright.cli._sources import sources_of
from doughwright.recipe.formula import Formula
from doughwright.recipe.scaling import Scaled


@prints(Formula)
@click.command()
@what_argument
@kitchen_option
@bench_option
@json_option
def formula(what: str | None, kitchen: str | None, bench: str | None, as_json: bool) -> None:
    """Baker's percentages, all water counted, and what this kitchen's scale can weigh."""
    from doughwright.publish.terminal.formula import formula_text
    from doughwright.recipe.formula import formula as formula_of

    sources = sources_of(what, kitchen, bench)
    result = formula_of(sources.document.recipe, sources.kitchen)
    if as_json:
        emit(result)
    else:
        click.echo(formula_text(result))


@prints(Scaled)
@click.command()
@what_argument
@click.option("--pieces", type=int, help="So many pieces of the same size.")
@click.option("--diameter", metavar="LENGTH", help='Rounds of this size at equal loading: "35 cm", "14 in".')
@click.option("--flour", metavar="MASS", help='So much flour: "1 kg".')
@click.option("--dough", metavar="MASS", help='So much dough: "1.5 kg".')
@click.option("--piece", metavar="MASS", help='Pieces of this mass: "260 g".')
@click.option("--out", metavar="FILE", help="Write the new document to a new FILE.")
@kitchen_option
@bench_option
@json_option
def scale(
    what: str | None,
    pieces: int | None,
    diameter: str | None,
    flour: str | None,
    dough: str | None,
    piece: str | None,
    out: str | None,
    kitchen: str | None,
    bench: str | None,
    as_json: bool,
) -> None:
    """Scale to one of pieces, diameter, flour, dough or piece; only amounts change in the document."""
    from doughwright.publish.terminal.moved import moved_lines
    from doughwright.recipe.scaling import scale as scale_to

    sources = sources_of(what, kitchen, bench)
    scaled = scale_to(
        sources.document,
        pieces=pieces,
        diameter=None if diameter is None else units.parse_length(diameter),
        flour=None if flour is None else units.parse_mass(flour),
        dough=None if dough is None else units.parse_mass(dough),
        piece=None if piece is None else units.parse_mass(piece),
        kitchen=sources.kitchen,
    )
    if out is not None:
        write_new(Path(out), scaled.document)
    if as_json:
        emit(scaled)
        return
    note("\n".join([*moved_lines(scaled.moved), *(f"Note: {one.rstrip('.')}." for one in scaled.notes)]))
    click.echo(scaled.document if out is None else f"Wrote {out}.", nl=out is not None)
