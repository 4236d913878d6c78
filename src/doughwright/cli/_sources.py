"""What a verb is about: the recipe and its kitchen, from files, standard input or the bench."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from doughwright.cli._shell import note
from doughwright.errors import Fault, InputError, UnknownNameError, did_you_mean
from doughwright.kitchen.assumed import MIDDLE, Surroundings, surroundings
from doughwright.kitchen.read import KitchenDocument, read_kitchen
from doughwright.recipe.read import RecipeDocument, read_recipe
from doughwright.recipe.text import decoded, read_file

if TYPE_CHECKING:
    from doughwright.store import Kind

BENCH = "bench.sqlite"


@dataclass(frozen=True)
class Source:
    """A text and where it came from: a file, standard input (neither) or the bench in ``bench``."""

    text: str
    shown: str
    path: Path | None = None
    bench: Path | None = None

    @property
    def name(self) -> str | None:
        """The document's name, by which the bench knows it."""
        return self.path.name if self.path else self.shown if self.bench else None


@dataclass(frozen=True)
class Sources:
    """A recipe with the kitchen it is made in; ``own`` is that kitchen's document, where it has one."""

    source: Source
    document: RecipeDocument
    kitchen: Surroundings
    own: KitchenDocument | None = None


def sources_of(what: str | None, kitchen: str | None = None, bench: str | None = None) -> Sources:
    """The recipe a verb is about, with its kitchen.

    Raises ``InputError`` where there is no such file or name, ``DocumentError`` where it cannot be read.
    """
    return with_kitchen(source_of(what, bench), kitchen, bench)


def with_kitchen(source: Source, kitchen: str | None, bench: str | None) -> Sources:
    """A text read as a recipe, with the kitchen it is made in."""
    document = read_recipe(source.text, source.shown)
    found = source_of(kitchen, bench) if kitchen else _named_kitchen(document, source, bench)
    own = read_kitchen(found.text, found.shown) if found is not None else None
    return Sources(source, document, surroundings(own.kitchen if own else None), own)


def source_of(what: str | None, bench: str | None = None) -> Source:
    """The text a verb is about: standard input for ``-``, a file, else a name on the bench."""
    if what == "-":
        return Source(decoded(sys.stdin.buffer.read(), "-"), "standard input")
    path = Path(what) if what is not None else _only_recipe()
    if path.exists():
        return Source(read_file(path), str(path), path)
    folder = bench_folder(bench)
    found = stored(folder, str(path)) if folder is not None else None
    if found is None:
        raise InputError(_no_file(path))
    return found


def bench_folder(bench: str | None) -> Path | None:
    """The folder of the bench, ``None`` where there is none; raises ``InputError`` for one asked for."""
    folder = Path(bench) if bench else Path()
    if (folder / BENCH).exists():
        return folder
    if bench:
        fault = Fault(
            f"{bench} is no bench",
            wanted=f"a folder with {BENCH} in it",
            try_="Make one with: doughwright serve",
        )
        raise InputError(fault)
    return None


def stored(folder: Path, name: str, kinds: tuple[Kind, ...] = ("recipe", "kitchen")) -> Source | None:
    """The newest version of a document on the bench, ``None`` where there is none of that name."""
    from doughwright.store import open_bench

    with open_bench(folder, create=False) as bench:
        for kind in kinds:
            for one in (name, f"{name}.toml"):
                try:
                    return Source(bench.head(kind, one).text, one, bench=folder)
                except (InputError, UnknownNameError):
                    continue
    return None


def _named_kitchen(document: RecipeDocument, source: Source, bench: str | None) -> Source | None:
    """The kitchen that a recipe names: beside its file, else on the bench; else none, and it is said."""
    named = document.recipe.kitchen
    if named is None:
        return None
    beside = (source.path.parent if source.path else Path()) / named
    if beside.is_file():
        return Source(read_file(beside), str(beside))
    folder = source.bench or bench_folder(bench)
    found = stored(folder, named, ("kitchen",)) if folder is not None else None
    if found is None:
        note(f'Note: the recipe\'s kitchen "{named}" is not there; the {MIDDLE} is meant.')
    return found


def _only_recipe() -> Path:
    found = sorted(path for path in Path().glob("*.toml") if _looks_like_recipe(path))
    if len(found) == 1:
        return found[0]
    names = ", ".join(path.name for path in found) or "none in this folder"
    raise InputError(Fault("which recipe?", wanted="a recipe document", found=names, try_="Name its file"))


def _looks_like_recipe(path: Path) -> bool:
    try:
        return "[[mix]]" in read_file(path)
    except InputError:
        return False


def _no_file(path: Path) -> Fault:
    there = [one.name for one in path.parent.glob("*.toml")] if path.parent.is_dir() else []
    return Fault(
        "there is no such file", file=str(path), wanted="a recipe or kitchen document",
        try_=did_you_mean(path.name, there),
    )  # fmt: skip
