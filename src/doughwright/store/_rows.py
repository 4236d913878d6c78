"""The questions the bench asks of its tables, and the rows it adds; each inside the caller's transaction."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, Select, and_, delete, func, insert, select

from doughwright.store._records import LARGEST_NUMBER, Draft, History, Kind, Version
from doughwright.store._tables import document, draft, version
from doughwright.store.names import key_of

_COLUMNS = (
    document.c.name, version.c.number, version.c.text, version.c.who, version.c.at, version.c.note,
    version.c.origin, version.c.removed,
)  # fmt: skip


def _version(kind: Kind, row: Sequence[Any]) -> Version:
    name, number, text, who, at, note, origin, removed = row
    return Version(kind, name, number, text, who, at, note, origin, removed)


def _of(kind: Kind, name: str) -> Select[*tuple[Any, ...]]:
    chosen = select(*_COLUMNS).join(version, version.c.document_id == document.c.id)
    return chosen.where(document.c.kind == kind, document.c.key == key_of(name))


def versions(connection: Connection, kind: Kind, name: str) -> tuple[Version, ...]:
    """Every version of a document, the oldest first."""
    return tuple(
        _version(kind, row) for row in connection.execute(_of(kind, name).order_by(version.c.number))
    )


def version_numbered(connection: Connection, kind: Kind, name: str, number: int) -> Version | None:
    """One version by its number."""
    if not 0 < number <= LARGEST_NUMBER:
        return None
    row = connection.execute(_of(kind, name).where(version.c.number == number)).one_or_none()
    return _version(kind, row) if row else None


def head(connection: Connection, kind: Kind, name: str) -> Version | None:
    """The newest version, removed or not."""
    row = connection.execute(_of(kind, name).order_by(version.c.number.desc()).limit(1)).one_or_none()
    return _version(kind, row) if row else None


def heads(connection: Connection, kind: Kind) -> tuple[Version, ...]:
    """The newest version of every document of a kind, removed ones too, in the order of their names."""
    newest = (
        select(version.c.document_id, func.max(version.c.number).label("number"))
        .group_by(version.c.document_id)
        .subquery()
    )
    chosen = (
        select(*_COLUMNS)
        .join(version, version.c.document_id == document.c.id)
        .join(newest, and_(newest.c.document_id == document.c.id, newest.c.number == version.c.number))
        .where(document.c.kind == kind)
        .order_by(document.c.key)
    )
    return tuple(_version(kind, row) for row in connection.execute(chosen))


def add(connection: Connection, versions_: Iterable[Version]) -> None:
    """Add versions of one document, making the document where it is new."""
    made = list(versions_)
    first = made[0]
    key = key_of(first.name)
    where = (document.c.kind == first.kind, document.c.key == key)
    document_id = connection.execute(select(document.c.id).where(*where)).scalar_one_or_none()
    if document_id is None:
        connection.execute(insert(document).values(kind=first.kind, name=first.name, key=key))
        document_id = connection.execute(select(document.c.id).where(*where)).scalar_one()
    connection.execute(insert(version), [_row(document_id, one) for one in made])


def _row(document_id: int, one: Version) -> dict[str, object]:
    return {
        "document_id": document_id,
        "number": one.number,
        "text": one.text,
        "who": one.who,
        "at": one.when,
        "note": one.note,
        "origin": one.origin,
        "removed": one.removed,
    }


def put_draft(connection: Connection, made: Draft) -> None:
    """Keep a draft in the place of the window's draft before."""
    drop_draft(connection, made.kind, made.name, made.window)
    connection.execute(
        insert(draft).values(
            kind=made.kind,
            key=key_of(made.name),
            window=made.window,
            name=made.name,
            text=made.text,
            based_on=made.based_on,
            at=made.when,
        )
    )


def drop_draft(connection: Connection, kind: Kind, name: str, window: str) -> None:
    """Forget the draft of one window."""
    connection.execute(
        delete(draft).where(draft.c.kind == kind, draft.c.key == key_of(name), draft.c.window == window)
    )


def drafts(connection: Connection, kind: Kind, name: str) -> tuple[Draft, ...]:
    """The drafts of a document, the latest first."""
    chosen = select(draft).where(draft.c.kind == kind, draft.c.key == key_of(name))
    return tuple(
        Draft(kind, row.name, row.window, row.text, row.based_on, row.at)
        for row in connection.execute(chosen.order_by(draft.c.at.desc(), draft.c.window))
    )


def histories(connection: Connection) -> tuple[History, ...]:
    """Every version of every document: by kind, then by name, the oldest version first."""
    chosen = (
        select(document.c.kind, *_COLUMNS)
        .join(version, version.c.document_id == document.c.id)
        .order_by(document.c.kind, document.c.key, version.c.number)
    )
    kept: dict[tuple[Kind, str], list[Version]] = {}
    for kind, *row in connection.execute(chosen):
        kept.setdefault((kind, row[0]), []).append(_version(kind, row))
    return tuple(tuple(history) for history in kept.values())
