"""``bench.json``, the list of versions in an exported folder, and where each text lies in it.

bench.json                                 who, when, note of every version
recipes/pie.toml  kitchens/boathouse.toml  the current texts
versions/recipes/pie.toml/0001.toml        every text there has been
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Any, TypeGuard

from doughwright.errors import Fault, InputError
from doughwright.store._records import KINDS, History, Kind, Version
from doughwright.store.names import LONGEST_NOTE, LONGEST_WHO, checked_line, checked_name, key_of

MANIFEST = "bench.json"
FORMAT = 1
FOLDERS: dict[Kind, str] = {"recipe": "recipes", "kitchen": "kitchens"}

_WHEN = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")


def current_path(kind: Kind, name: str) -> PurePosixPath:
    """Where the current text of a document lies."""
    return PurePosixPath(FOLDERS[kind], name)


def version_path(version: Version) -> PurePosixPath:
    """Where the text of one version lies."""
    return PurePosixPath("versions", FOLDERS[version.kind], version.name, f"{version.number:04d}.toml")


def digest(text: str) -> str:
    """The SHA-256 of a text as UTF-8."""
    return hashlib.sha256(text.encode()).hexdigest()


def written(histories: Iterable[History]) -> str:
    """The manifest of these histories."""
    documents = [{"kind": one[0].kind, "name": one[0].name, "versions": entries(one)} for one in histories]
    return json.dumps({"format": FORMAT, "documents": documents}, indent=2, ensure_ascii=False) + "\n"


def entries(history: History) -> list[dict[str, object]]:
    """How the versions of one document are listed."""
    return [entry(one, None if one.removed else digest(one.text)) for one in history]


def entry(version: Version, sha256: str | None) -> dict[str, object]:
    """How one version with a text of this ``sha256`` is listed."""
    return {
        "number": version.number,
        "who": version.who,
        "when": version.when,
        "note": version.note,
        "origin": version.origin,
        "removed": version.removed,
        "sha256": sha256,
    }


@dataclass(frozen=True, slots=True)
class Listed:
    """One version as a manifest lists it: everything but its text, which must have the ``sha256``."""

    version: Version
    sha256: str | None


def read(text: str) -> tuple[tuple[Listed, ...], ...]:
    """The versions a manifest lists, document by document; ``InputError`` where it is not one of ours."""
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        line = getattr(error, "lineno", None)
        raise InputError(Fault("this is not JSON", file=MANIFEST, line=line, try_=_TRY)) from error
    if not isinstance(found, dict) or not isinstance(found.get("documents"), list):
        raise _wrong("it lists no documents")
    if found.get("format") != FORMAT:
        raise InputError(
            Fault(
                "the list of versions is of another format",
                file=MANIFEST,
                wanted=f"format {FORMAT}",
                found=f"format {found.get('format')!r}"[:40],
                try_="Import it with the Doughwright that exported it",
            )
        )
    documents = tuple(_document(entry) for entry in found["documents"])
    seen = [(listed[0].version.kind, key_of(listed[0].version.name)) for listed in documents]
    if len(set(seen)) < len(seen):
        raise _wrong("it lists a document twice")
    return documents


def _document(found: Any) -> tuple[Listed, ...]:
    if (
        not isinstance(found, dict)
        or found.get("kind") not in KINDS
        or not isinstance(found.get("name"), str)
    ):
        raise _wrong("a document has no kind or no name")
    name, versions = checked_name(found["name"]), found.get("versions")
    if name != found["name"] or not isinstance(versions, list) or not versions:
        raise _wrong(f"{name} has no versions")
    return tuple(_listed(found["kind"], name, number, one) for number, one in enumerate(versions, 1))


def _is_time(when: object) -> TypeGuard[str]:
    return isinstance(when, str) and _WHEN.fullmatch(when) is not None


def _listed(kind: Kind, name: str, number: int, found: Any) -> Listed:
    where = f"version {number} of {name}"
    if not isinstance(found, dict) or type(found.get("number")) is not int or found["number"] != number:
        raise _wrong(f"{where} is missing or out of order")
    who, when, note = found.get("who"), found.get("when"), found.get("note")
    origin, removed, sha256 = (found.get(key) for key in ("origin", "removed", "sha256"))
    if not isinstance(who, str) or not isinstance(note, str) or not _is_time(when):
        raise _wrong(f"{where} does not say who, when (2026-11-28T12:00:00Z) and note")
    if type(origin) is not int or not 1 <= origin <= number or not isinstance(removed, bool):
        raise _wrong(f"{where} does not say its origin, or whether it is removed")
    if isinstance(sha256, str) == removed:
        raise _wrong(f"{where} has no sha256, or is removed and has one")
    signed = checked_line("who", who, LONGEST_WHO), checked_line("the note", note, LONGEST_NOTE)
    return Listed(
        Version(kind, name, number, "", signed[0], when, signed[1], origin, removed),
        sha256 if isinstance(sha256, str) else None,
    )


_TRY = "Export the bench again, into another folder"


def _wrong(why: str) -> InputError:
    return InputError(Fault(f"the list of versions is damaged: {why}", file=MANIFEST, try_=_TRY))
