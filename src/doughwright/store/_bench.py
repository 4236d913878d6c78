"""The bench: recipes and kitchens as text, with every version of each. It does not read the documents."""

from __future__ import annotations

import getpass
import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType

from sqlalchemy import Connection

from doughwright.errors import Fault, InputError, NoAnswerError, UnknownNameError, did_you_mean
from doughwright.store import _rows as rows
from doughwright.store._database import Database, bench_file, open_database
from doughwright.store._errors import ConflictError
from doughwright.store._export import export_histories
from doughwright.store._import import merge, read_folder
from doughwright.store._records import KINDS, LARGEST_NUMBER, Draft, Exported, Imported, Kind, Version
from doughwright.store.names import (
    LONGEST_NOTE,
    LONGEST_WHO,
    checked_line,
    checked_name,
    checked_text,
)

Clock = Callable[[], datetime]


def open_bench(
    place: str | os.PathLike[str], *, who: str | None = None, clock: Clock | None = None, create: bool = True
) -> Bench:
    """The bench in a folder (``bench.sqlite`` there) or in a file, made where there is none.

    ``who`` signs what is saved without a name of its own (the user of this machine, when left out); ``clock``
    gives the time as an aware datetime. Raises ``BenchError`` where the place cannot hold a bench.
    """
    signed = checked_line("who", who if who is not None else _user(), LONGEST_WHO)
    return Bench(open_database(bench_file(place), create=create), signed, clock or _system_now)


class Bench:
    """An open bench. Any thread may use it; every change is on the disk when the call returns."""

    def __init__(self, database: Database, who: str, clock: Clock) -> None:
        self._database = database
        self._who = who
        self._clock = clock

    @property
    def path(self) -> Path:
        """The file the bench is kept in."""
        return self._database.path

    def __enter__(self) -> Bench:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._database.close()

    # Reading

    def names(self, kind: Kind, *, removed: bool = False) -> tuple[str, ...]:
        """The names of all documents of a kind, in order; of the removed ones instead with ``removed``."""
        with self._database.reading() as connection:
            return tuple(head.name for head in rows.heads(connection, _kind(kind)) if head.removed == removed)

    def heads(self, kind: Kind) -> tuple[Version, ...]:
        """The current version of every document of a kind, by name, without the removed ones."""
        with self._database.reading() as connection:
            return tuple(head for head in rows.heads(connection, _kind(kind)) if not head.removed)

    def head(self, kind: Kind, name: str) -> Version:
        """The current version; ``UnknownNameError`` where the document does not exist or is removed."""
        with self._database.reading() as connection:
            found = rows.head(connection, _kind(kind), name)
            if found is None or found.removed:
                raise _unknown(connection, kind, name, found)
            return found

    def versions(self, kind: Kind, name: str) -> tuple[Version, ...]:
        """Every version of a document, the oldest first; a removed document still has them all."""
        with self._database.reading() as connection:
            found = rows.versions(connection, _kind(kind), name)
            if not found:
                raise _unknown(connection, kind, name, None)
            return found

    def version(self, kind: Kind, name: str, number: int) -> Version:
        """One version by its number."""
        with self._database.reading() as connection:
            found = rows.version_numbered(connection, _kind(kind), name, number)
            if found:
                return found
            head = rows.head(connection, kind, name)
            if head is None:
                raise _unknown(connection, kind, name, None)
            raise UnknownNameError(
                Fault(f"{name} has no such version", wanted=f"1 to {head.number}", found=str(number))
            )

    # Writing

    def save(
        self,
        kind: Kind,
        name: str,
        text: str,
        *,
        expected: int | None,
        who: str | None = None,
        note: str = "",
    ) -> Version:
        """Keep ``text`` as the newest version and return it; the head itself where it has this text already.

        ``expected`` is the number of the version the writer started from, ``None`` for a new document.
        Raises ``ConflictError``, and writes nothing, where the head is another one by now.
        """
        name, text = checked_name(name), checked_text(text, name)
        with self._database.writing() as connection:
            head = rows.head(connection, _kind(kind), name)
            if head and not head.removed and head.text == text:
                return head
            _refuse_conflict(connection, head, expected, text, name)
            return self._add(connection, head, _Made(kind, name, text, who, note))

    def remove(
        self, kind: Kind, name: str, *, expected: int, who: str | None = None, note: str = ""
    ) -> Version:
        """Mark a document as removed, by a new version without text; ``undo`` brings it back."""
        with self._database.writing() as connection:
            head = rows.head(connection, _kind(kind), name)
            if head is None or head.removed:
                raise _unknown(connection, kind, name, head)
            _refuse_conflict(connection, head, expected, "", name)
            return self._add(connection, head, _Made(kind, name, "", who, note, removed=True))

    def undo(
        self, kind: Kind, name: str, *, expected: int | None = None, who: str | None = None, note: str = ""
    ) -> Version:
        """A new version with the text from before the one in which the head's text was written.

        Undoing again goes one further back, as in a text editor; ``NoAnswerError`` where nothing is before.
        Undoing a removal brings the document back. ``expected``, where given, is checked as in ``save``.
        """
        with self._database.writing() as connection:
            head = rows.head(connection, _kind(kind), name)
            if head is None:
                raise _unknown(connection, kind, name, None)
            if expected is not None:
                _refuse_conflict(connection, head, expected, head.text, name)
            before = rows.version_numbered(connection, kind, name, head.origin - 1)
            if before is None:
                raise NoAnswerError(Fault(f"{name} has nothing before version {head.origin} to go back to"))
            note = note or f"undo: back to version {before.origin}"
            return self._add(
                connection, head, _Made(kind, name, before.text, who, note, before.origin, before.removed)
            )

    # In and out

    def export(self, folder: str | os.PathLike[str]) -> Exported:
        """Write all versions into a plain folder, from which ``import_`` makes the same bench again.

        Nothing is written, and ``BenchError`` raised, where a file there holds what this bench does not.
        Drafts stay behind.
        """
        with self._database.reading() as connection:
            kept = rows.histories(connection)
        return export_histories(kept, Path(folder).expanduser().absolute())

    def import_(
        self, folder: str | os.PathLike[str], *, who: str | None = None, note: str = "imported"
    ) -> Imported:
        """Add what an exported folder, or a plain folder of documents, has and this bench lacks.

        An exported history is taken over as it is; a text changed in the folder since, or one without a
        history, becomes a new version signed ``who`` and ``note``, unless the bench has had it before.
        All or nothing: ``ConflictError`` where both went on from one version in different ways. Doing it
        again adds nothing.
        """
        found = read_folder(Path(folder).expanduser().absolute())
        signed = checked_line("who", who if who is not None else self._who, LONGEST_WHO)
        remark, when = checked_line("the note", note, LONGEST_NOTE), self._now()

        def sign(kind: Kind, name: str, text: str, number: int) -> Version:
            return Version(kind, name, number, text, signed, when, remark, number)

        with self._database.writing() as connection:
            return merge(connection, found, sign)

    # Drafts

    def save_draft(self, kind: Kind, name: str, window: str, text: str, *, based_on: int | None) -> Draft:
        """Keep the unsaved text of one window; it takes the place of the window's draft before."""
        name, text = checked_name(name), checked_text(text, name)
        window = checked_line("the window's name", window, LONGEST_WHO)
        if based_on is not None and not 0 < based_on <= LARGEST_NUMBER:
            raise InputError(Fault("no such version to base a draft on", found=str(based_on)))
        made = Draft(_kind(kind), name, window, text, based_on, self._now())
        with self._database.writing() as connection:
            rows.put_draft(connection, made)
        return made

    def drafts(self, kind: Kind, name: str) -> tuple[Draft, ...]:
        """The drafts of a document in all windows, the latest first."""
        with self._database.reading() as connection:
            return rows.drafts(connection, _kind(kind), name)

    def draft(self, kind: Kind, name: str, window: str) -> Draft | None:
        """The draft of one window, if it has one."""
        return next((one for one in self.drafts(kind, name) if one.window == window), None)

    def drop_draft(self, kind: Kind, name: str, window: str) -> None:
        """Forget the draft of one window, if it has one."""
        with self._database.writing() as connection:
            rows.drop_draft(connection, _kind(kind), name, window)

    # Inside

    def _add(self, connection: Connection, head: Version | None, made: _Made) -> Version:
        """Write the version after ``head``, signed and dated."""
        who = checked_line("who", made.who if made.who is not None else self._who, LONGEST_WHO)
        number = head.number + 1 if head else 1
        new = Version(
            made.kind,
            head.name if head else made.name,
            number,
            made.text,
            who,
            self._now(),
            checked_line("the note", made.note, LONGEST_NOTE),
            made.origin or number,
            made.removed,
        )
        rows.add(connection, [new])
        return new

    def _now(self) -> str:
        return self._clock().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")


@dataclass(frozen=True, slots=True)
class _Made:
    """What a caller says of the version to be made."""

    kind: Kind
    name: str
    text: str
    who: str | None
    note: str
    origin: int | None = None
    removed: bool = False


def _refuse_conflict(
    connection: Connection, head: Version | None, expected: int | None, text: str, name: str
) -> None:
    """Raise where the head is not the version the writer started from."""
    if head is None:
        if expected is None:
            return
        raise UnknownNameError(
            Fault(f"{name} is not on this bench yet", found=f"a save that starts from version {expected}")
        )
    if head.number == expected or (expected is None and head.removed):
        return
    if expected is None:
        fault = Fault(f"there is already a {head.kind} named {head.name}", try_="Choose another name")
    else:
        fault = Fault(
            f"{head.name} was changed meanwhile: {head.who} saved version {head.number} at {head.when}",
            wanted=f"version {head.number} to start from",
            found=f"version {expected}",
            try_="Nothing was saved; compare the two texts, then save again from the new version",
        )
    base = rows.version_numbered(connection, head.kind, head.name, expected) if expected else None
    raise ConflictError(fault, text=text, base=base, head=head)


def _unknown(connection: Connection, kind: Kind, name: str, found: Version | None) -> UnknownNameError:
    if found:
        message = f"the {kind} {found.name} was removed by {found.who} at {found.when}"
        return UnknownNameError(Fault(message, try_="Undo brings it back"))
    known = [head.name for head in rows.heads(connection, kind) if not head.removed]
    return UnknownNameError(
        Fault(f'there is no {kind} named "{name}" on this bench', try_=did_you_mean(name, known))
    )


def _kind(kind: Kind) -> Kind:
    if kind not in KINDS:
        raise InputError(Fault("no such kind of document", wanted=" or ".join(KINDS), found=str(kind)))
    return kind


def _system_now() -> datetime:
    return datetime.now(UTC)


def _user() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "someone"
