"""A folder read into a bench: an exported one with its whole history, or just a folder of ``.toml`` files."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from sqlalchemy import Connection

from doughwright.errors import Fault, InputError
from doughwright.store import _manifest as manifest
from doughwright.store import _rows as rows
from doughwright.store._errors import BenchError, ConflictError
from doughwright.store._folder import LARGEST_MANIFEST, read_text
from doughwright.store._records import History, Imported, Kind, Version
from doughwright.store.names import SUFFIX, checked_name, checked_text, key_of

# What only a recipe has on a line of its own; the store looks no further into a document than this.
_RECIPE = re.compile(r"^\s*(?:title\s*=|\[\[\s*(?:mix|step)\s*\]\])", re.MULTILINE)
_KITCHEN = re.compile(r"^\s*(?:kitchen\s*=|\[\s*(?:fridge|room|oven|tap|mixer|scale)\s*\])", re.MULTILINE)

Sign = Callable[[Kind, str, str, int], Version]


@dataclass(frozen=True, slots=True)
class Loose:
    """The current text of a document, as the folder has it now."""

    kind: Kind
    name: str
    text: str
    path: str


@dataclass(frozen=True, slots=True)
class Folder:
    """What lies in a folder: the histories its manifest lists, and the current texts."""

    histories: tuple[History, ...]
    loose: tuple[Loose, ...]


def read_folder(folder: Path) -> Folder:
    """Everything in the folder; ``InputError`` with every fault where something in it cannot be kept."""
    if not folder.is_dir():
        raise BenchError(Fault("there is no such folder", file=str(folder), try_="Name the folder to import"))
    faults: list[Fault] = []
    try:
        histories = _histories(folder, faults)
        loose = _loose(folder, faults)
    except OSError as error:
        shown = str(error.filename or folder)
        raise BenchError(
            Fault(f"cannot be read: {(error.strerror or str(error)).lower()}", file=shown)
        ) from error
    if faults:
        raise InputError(*faults)
    if not loose and not (folder / manifest.MANIFEST).exists():
        raise BenchError(
            Fault(
                "there is nothing to import",
                file=str(folder),
                wanted=f"files that end in {SUFFIX}",
                try_="Name another folder",
            )
        )
    return Folder(histories, loose)


def _histories(folder: Path, faults: list[Fault]) -> tuple[History, ...]:
    path = folder / manifest.MANIFEST
    if not path.exists():
        return ()
    try:
        listed = manifest.read(read_text(path, manifest.MANIFEST, largest=LARGEST_MANIFEST))
    except InputError as error:
        faults.extend(error.faults)
        return ()
    return tuple(tuple(_with_text(folder, one, faults) for one in document) for document in listed)


def _with_text(folder: Path, listed: manifest.Listed, faults: list[Fault]) -> Version:
    if listed.version.removed:
        return listed.version
    shown = str(manifest.version_path(listed.version))
    try:
        text = read_text(folder / shown, shown)
    except InputError as error:
        faults.extend(error.faults)
        return listed.version
    except FileNotFoundError:
        faults.append(Fault("the text of a version is missing", file=shown, try_="Export the bench again"))
        return listed.version
    if manifest.digest(text) != listed.sha256:
        advice = "Put it back as it was; to change a document edit its current text"
        faults.append(Fault("the text of a version was changed after the export", file=shown, try_=advice))
    return replace(listed.version, text=text)


def _loose(folder: Path, faults: list[Fault]) -> tuple[Loose, ...]:
    found: dict[tuple[Kind, str], Loose] = {}
    for kind, path in _toml_files(folder):
        shown = path.relative_to(folder).as_posix()
        try:
            name = checked_name(path.name)
            text = checked_text(read_text(path, shown), shown)
        except InputError as error:
            faults.extend(replace(fault, file=fault.file or shown) for fault in error.faults)
            continue
        one = Loose(kind or _kind_of(text), name, text, shown)
        other = found.setdefault((one.kind, key_of(name)), one)
        if other is not one:
            faults.append(
                Fault(
                    f"this {one.kind} has the name of {other.path}",
                    file=shown,
                    try_="Call one of them something else",
                )
            )
    return tuple(found.values())


def _toml_files(folder: Path) -> Iterator[tuple[Kind | None, Path]]:
    places: list[tuple[Kind | None, Path]] = [
        ("recipe", folder / "recipes"),
        ("kitchen", folder / "kitchens"),
    ]
    for kind, place in [*places, (None, folder)]:
        for path in sorted(place.iterdir()) if place.is_dir() else ():
            if path.suffix.casefold() == SUFFIX and not path.name.startswith(".") and path.is_file():
                yield kind, path


def _kind_of(text: str) -> Kind:
    return "kitchen" if _KITCHEN.search(text) and not _RECIPE.search(text) else "recipe"


def merge(connection: Connection, folder: Folder, sign: Sign) -> Imported:
    """Add what the bench lacks; ``ConflictError`` where both went on from one version in different ways."""
    added: list[Version] = []
    for history in folder.histories:
        added += _merge_history(connection, history)
    listed = {(one[-1].kind, key_of(one[-1].name)): one for one in folder.histories}
    for loose in folder.loose:
        added += _merge_loose(connection, loose, listed.get((loose.kind, key_of(loose.name)), ()), sign)
    names = {one[-1].name for one in folder.histories} | {loose.name for loose in folder.loose}
    return Imported(tuple(added), tuple(sorted(names - {version.name for version in added})))


def _merge_history(connection: Connection, theirs: History) -> History:
    ours = rows.versions(connection, theirs[-1].kind, theirs[-1].name)
    common = next(
        (n for n, (a, b) in enumerate(zip(ours, theirs, strict=False)) if a != b), min(len(ours), len(theirs))
    )
    if common < min(len(ours), len(theirs)):
        raise _diverged(ours, theirs[-1].text, common)
    new = theirs[common:]
    if new:
        rows.add(connection, new)
    return new


def _merge_loose(connection: Connection, loose: Loose, listed: History, sign: Sign) -> History:
    """The current text as a new version, unless it is known: what was edited in the folder comes in so."""
    ours = rows.versions(connection, loose.kind, loose.name)
    # An exported text left as it was is no edit; a text imported before is not imported again.
    left = listed if listed and listed[-1].removed else listed[-1:]
    unedited = {one.text for one in left if not one.removed}
    # Without a history in the folder, a removed document comes back.
    gone = bool(ours) and ours[-1].removed and not listed
    since = set() if gone else {one.text for one in ours[len(listed) :] if not one.removed}
    if loose.text in unedited | since:
        return ()
    if listed and len(ours) > len(listed):
        raise _diverged(ours, loose.text, len(listed))
    new = sign(loose.kind, ours[-1].name if ours else loose.name, loose.text, len(ours) + 1)
    rows.add(connection, [new])
    return (new,)


def _diverged(ours: History, text: str, common: int) -> ConflictError:
    head = ours[-1]
    fault = Fault(
        f"{head.name} was changed both on the bench and in the folder after version {common}",
        found=f"version {head.number} on the bench, by {head.who} at {head.when}",
        try_="Nothing was imported; take the folder's text over by hand, or import it into a new bench",
    )
    return ConflictError(fault, text=text, base=ours[common - 1] if common else None, head=head)
