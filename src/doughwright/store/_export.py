"""A bench written out as a plain folder, where nothing the bench does not hold is written over."""

from __future__ import annotations

from pathlib import Path

from doughwright.errors import Fault, InputError
from doughwright.store import _manifest as manifest
from doughwright.store._errors import BenchError
from doughwright.store._folder import LARGEST_MANIFEST, read_text, write_text
from doughwright.store._records import Exported, History


def export_histories(histories: tuple[History, ...], folder: Path) -> Exported:
    """Write every version into ``folder``; ``BenchError`` before the first where something is in the way."""
    try:
        files = _files(histories)
        faults = [
            fault
            for path, allowed in _allowed(histories).items()
            if (fault := _in_the_way(folder, path, allowed))
        ]
        faults += _manifest_in_the_way(histories, folder)
        if faults:
            raise BenchError(*faults)
        changed = [path for path, text in files.items() if _content(folder / path) != text.encode()]
        for path in changed:
            write_text(folder / path, files[path])
        for path in _left_over(histories):
            (folder / path).unlink(missing_ok=True)
    except OSError as error:
        shown = str(error.filename or folder)
        raise BenchError(
            Fault(f"cannot be written: {(error.strerror or str(error)).lower()}", file=shown)
        ) from error
    return Exported(folder, len(histories), sum(len(history) for history in histories), len(changed))


def _files(histories: tuple[History, ...]) -> dict[str, str]:
    """Path and text of each file, the manifest last: until it is there the export is not complete."""
    made: dict[str, str] = {}
    for history in histories:
        made |= {str(manifest.version_path(one)): one.text for one in history if not one.removed}
        if not history[-1].removed:
            made[str(manifest.current_path(history[-1].kind, history[-1].name))] = history[-1].text
    return made | {manifest.MANIFEST: manifest.written(histories)}


def _left_over(histories: tuple[History, ...]) -> list[str]:
    """Where the current text of a removed document would still lie from an earlier export."""
    return [str(manifest.current_path(one[-1].kind, one[-1].name)) for one in histories if one[-1].removed]


def _allowed(histories: tuple[History, ...]) -> dict[str, set[bytes]]:
    """What each file may hold already without anything being lost when it is written over."""
    allowed: dict[str, set[bytes]] = {}
    for history in histories:
        known = {one.text.encode() for one in history if not one.removed}
        allowed[str(manifest.current_path(history[-1].kind, history[-1].name))] = known
        allowed |= {
            str(manifest.version_path(one)): {one.text.encode()} for one in history if not one.removed
        }
    return allowed


def _content(path: Path) -> bytes | None:
    return path.read_bytes() if path.exists() or path.is_symlink() else None


def _in_the_way(folder: Path, path: str, allowed: set[bytes]) -> Fault | None:
    found = _content(folder / path)
    if found is None or found in allowed:
        return None
    return Fault(
        "a file with another text is in the way",
        file=str(folder / path),
        wanted="no file, or a text this bench holds",
        try_="Import the folder first, or export into another one",
    )


def _manifest_in_the_way(histories: tuple[History, ...], folder: Path) -> list[Fault]:
    path = folder / manifest.MANIFEST
    if not path.exists():
        return []
    try:
        listed = manifest.read(read_text(path, str(path), largest=LARGEST_MANIFEST))
    except InputError as error:
        return list(error.faults)
    ours = {(history[-1].kind, history[-1].name): history for history in histories}
    return [
        Fault(
            f"the folder holds versions of {theirs[0].version.name} that this bench does not",
            file=str(path),
            try_="Import the folder first, or export into another one",
        )
        for theirs in listed
        if not _holds(ours.get((theirs[0].version.kind, theirs[0].version.name), ()), theirs)
    ]


def _holds(ours: History, theirs: tuple[manifest.Listed, ...]) -> bool:
    mine = manifest.entries(ours[: len(theirs)])
    return mine == [manifest.entry(one.version, one.sha256) for one in theirs]
