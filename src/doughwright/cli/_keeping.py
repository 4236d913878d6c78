"""Verbs for keeping: ``undo``, ``export``, ``import``, and ``serve``, which starts the bench on screen."""

from __future__ import annotations

from pathlib import Path

import click

from doughwright.cli._shell import emit, json_option, prints
from doughwright.errors import Fault, InputError, UnknownNameError
from doughwright.store import Bench, Exported, Imported, Kind, Version, open_bench

HERE = click.option(
    "--bench",
    metavar="FOLDER",
    envvar="DOUGHWRIGHT_BENCH",
    default=".",
    help="The bench; left out: this folder.",
)


KINDS: tuple[Kind, Kind] = ("kitchen", "recipe")


def opened(folder: str, *, create: bool = False) -> Bench:
    """The bench of a folder."""
    return open_bench(Path(folder), create=create)


@prints(Version)
@click.command()
@click.argument("name")
@HERE
@click.option("--note", default="", help="Why, kept with the new version.")
@json_option
def undo(name: str, bench: str, note: str, as_json: bool) -> None:
    """Take NAME back to the version before; that is a new version, and nothing is lost."""
    with opened(bench) as store:
        kind, known = kind_of(store, name)
        version = store.undo(kind, known, note=note)
    if as_json:
        emit(version)
    else:
        click.echo(
            f"{version.name} is as it was in version {version.origin}; this is version {version.number}."
        )


def kind_of(store: Bench, name: str) -> tuple[Kind, str]:
    """Whether a name on the bench is a recipe's or a kitchen's, and the name with its ending."""
    known = {
        there.casefold(): (kind, there)
        for kind in KINDS
        for removed in (True, False)
        for there in store.names(kind, removed=removed)
    }
    found = known.get(name.casefold()) or known.get(f"{name}.toml".casefold())
    if found is not None:
        return found
    there = ", ".join(there for _, there in known.values()) or "none"
    raise UnknownNameError(
        Fault("there is no such document on the bench", found=f'"{name}"', try_=f"There are: {there}")
    )


@prints(Exported)
@click.command()
@click.argument("folder", type=click.Path(file_okay=False))
@HERE
@json_option
def export(folder: str, bench: str, as_json: bool) -> None:
    """Write the whole bench to a plain FOLDER: every document, every version."""
    with opened(bench) as store:
        result = store.export(Path(folder))
    if as_json:
        emit(result)
    else:
        click.echo(f"{result.documents} documents with {result.versions} versions are in {folder}.")


@prints(Imported)
@click.command("import")
@click.argument("folder", type=click.Path(file_okay=False))
@HERE
@json_option
def import_(folder: str, bench: str, as_json: bool) -> None:
    """Take a plain FOLDER onto the bench: one that was exported, or any with documents in it."""
    if not Path(folder).is_dir():
        raise InputError(
            Fault("there is no such folder", file=folder, wanted="a folder with documents in it")
        )
    with opened(bench, create=True) as store:
        result = store.import_(Path(folder))
    if as_json:
        emit(result)
    else:
        click.echo(f"{len(result.added)} came in, {len(result.unchanged)} were there already.")
