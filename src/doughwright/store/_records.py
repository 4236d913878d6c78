"""What the store hands out: a version of a document, and a draft of one."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

Kind = Literal["recipe", "kitchen"]
KINDS: tuple[Kind, ...] = ("recipe", "kitchen")
# What an INTEGER column holds in every database.
LARGEST_NUMBER = 2**31 - 1


@dataclass(frozen=True, slots=True)
class Version:
    """One version of one document, as it was saved.

    ``number`` counts from 1 without gaps; ``when`` is UTC in ISO 8601; ``origin`` is the number of the
    version in which this text was written (its own, except after an undo); a ``removed`` one has no text.
    """

    kind: Kind
    name: str
    number: int
    text: str
    who: str
    when: str
    note: str
    origin: int
    removed: bool = False


@dataclass(frozen=True, slots=True)
class Draft:
    """Unsaved work: the text in one ``window``, begun from version ``based_on`` (``None``: a new one)."""

    kind: Kind
    name: str
    window: str
    text: str
    based_on: int | None
    when: str


@dataclass(frozen=True, slots=True)
class Exported:
    """What an export did: how much the ``folder`` now holds, and how many files had to be ``written``."""

    folder: Path
    documents: int
    versions: int
    written: int


@dataclass(frozen=True, slots=True)
class Imported:
    """What an import did: the versions it ``added``, and the names of the documents that gained none."""

    added: tuple[Version, ...]
    unchanged: tuple[str, ...]


History = tuple[Version, ...]
