"""The SQLite file under a bench: opening it, knowing it for one, migrating it, reading and writing."""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, QueuePool, create_engine, event, exc

from doughwright.errors import DoughwrightError, Fault
from doughwright.store._errors import BenchError
from doughwright.store._tables import APPLICATION_ID, SCHEMA

FILE_NAME = "bench.sqlite"
_BUSY_SECONDS = 10.0
_HEADER = b"SQLite format 3\x00"
_SUFFIXES = {".sqlite", ".sqlite3", ".db"}


class Database:
    """A SQLite file; one connection a call, taken from a pool, so any thread may use it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._engine = _engine(path)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection that sees the bench as it is now, whatever is written meanwhile."""
        with self._told(), self._engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """The one writer's connection; what it did is on the disk when the block ends, or not at all."""
        with self._told(), self._engine.connect() as connection:
            connection.execution_options(immediate=True)
            with connection.begin():
                yield connection

    def close(self) -> None:
        """Close every connection."""
        self._engine.dispose()

    def prepare(self) -> None:
        """Make the file a bench of the newest schema; ``BenchError`` where it is something else."""
        with self.reading() as connection:
            found = _schema(connection, self.path)
        if found != SCHEMA:
            self._log_ahead()
            with self.writing() as connection:
                _migrate(connection, self.path)

    def _log_ahead(self) -> None:
        """Switch to write-ahead logging, which the file remembers; SQLite does not wait for others here."""
        until = time.monotonic() + _BUSY_SECONDS
        with self._told():
            raw = self._engine.raw_connection()
            try:
                while True:
                    try:
                        raw.cursor().execute("PRAGMA journal_mode = WAL")
                        return
                    except sqlite3.DatabaseError as error:
                        if "locked" not in str(error) or time.monotonic() > until:
                            raise exc.OperationalError("PRAGMA", None, error) from error
                        time.sleep(0.01)
            finally:
                raw.close()

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Say what SQLite complains of in the cook's words."""
        try:
            yield
        except exc.DatabaseError as error:
            raise _told_plainly(error, self.path) from error


def bench_file(place: str | os.PathLike[str]) -> Path:
    """The file of the bench at ``place``: a folder, or the file itself."""
    given = os.fspath(place)
    if "://" in given or "\x00" in given or not given:
        raise BenchError(
            Fault(
                "this is no place for a bench",
                wanted="a folder or a file",
                found=repr(given)[:80],
                try_="Name a folder",
            )
        )
    path = Path(given).expanduser().absolute()
    return path if path.is_file() or (path.suffix in _SUFFIXES and not path.is_dir()) else path / FILE_NAME


def open_database(path: Path, *, create: bool) -> Database:
    """The database in ``path``, ready to use."""
    try:
        if create:
            path.parent.mkdir(parents=True, exist_ok=True)
        elif not path.exists():
            raise BenchError(
                Fault(
                    "there is no bench here", file=str(path), try_="Make one with: doughwright serve FOLDER"
                )
            )
        if path.exists():
            _check_header(path)
    except OSError as error:
        raise BenchError(Fault(f"the bench cannot be opened: {_reason(error)}", file=str(path))) from error
    database = Database(path)
    try:
        database.prepare()
    except BaseException:
        database.close()
        raise
    return database


def _check_header(path: Path) -> None:
    if path.is_dir():
        raise _not_ours(path, "a folder")
    with path.open("rb") as file:
        start = file.read(len(_HEADER))
    # An empty file is what SQLite leaves when it is stopped before its first page.
    if start and start != _HEADER:
        raise _not_ours(path, "a file of another kind")


def _not_ours(path: Path, found: str) -> BenchError:
    return BenchError(
        Fault(
            "this is not a bench",
            file=str(path),
            wanted="a file made by Doughwright",
            found=found,
            try_="Name another folder",
        )
    )


def _engine(path: Path) -> Engine:
    engine = create_engine(
        URL.create("sqlite", database=str(path)),
        poolclass=QueuePool,
        max_overflow=-1,
        connect_args={"timeout": _BUSY_SECONDS, "check_same_thread": False},
    )

    @event.listens_for(engine, "connect")
    def _on_connect(raw: sqlite3.Connection, record: object) -> None:
        # None hands BEGIN over to us: the driver's own would not lock before the first write.
        raw.isolation_level = None
        for pragma in ("foreign_keys = ON", "synchronous = FULL"):
            raw.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def _on_begin(connection: Connection) -> None:
        immediate = connection.get_execution_options().get("immediate")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if immediate else "BEGIN")

    return engine


def _schema(connection: Connection, path: Path) -> str | None:
    """The schema the bench has, ``None`` for a file that holds nothing yet."""
    ours = connection.exec_driver_sql("PRAGMA application_id").scalar_one() == APPLICATION_ID
    names = {row[0] for row in connection.exec_driver_sql("SELECT name FROM sqlite_master")}
    if not names and not ours:
        return None
    if not ours or "alembic_version" not in names:
        raise _not_ours(path, "another program's SQLite file")
    found = str(connection.exec_driver_sql("SELECT max(version_num) FROM alembic_version").scalar_one())
    if found > SCHEMA:
        raise BenchError(
            Fault(
                "this bench was made by a newer Doughwright",
                file=str(path),
                wanted=f"schema {SCHEMA} or older",
                found=f"schema {found}",
                try_="Open it with the newer one; nothing was changed",
            )
        )
    return found


def _migrate(connection: Connection, path: Path) -> None:
    """Bring the tables to the newest schema inside the transaction that is open."""
    # Only here: alembic is slow to load, and nearly every bench is up to date.
    from alembic import command
    from alembic.config import Config
    from alembic.util import CommandError

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.attributes["connection"] = connection
    try:
        command.upgrade(config, "head")
    except CommandError as error:
        raise BenchError(Fault(_DAMAGED, file=str(path), try_=_RESTORE)) from error


def _told_plainly(error: exc.DatabaseError, path: Path) -> DoughwrightError:
    said = str(error.orig)
    for sign, message, advice in _COMPLAINTS:
        if sign in said:
            return BenchError(Fault(message, file=str(path), try_=advice))
    return DoughwrightError(Fault(f"the bench could not be used: {said}", file=str(path)))


_DAMAGED = "the bench file is damaged"
_RESTORE = "Restore it from a copy"
_COMPLAINTS = (
    ("not a database", "this is not a bench, or it is damaged", _RESTORE),
    ("malformed", _DAMAGED, _RESTORE),
    (
        "readonly",
        "the bench cannot be written to",
        "Give yourself the right to write to the file and its folder",
    ),
    ("unable to open", "the bench cannot be opened", "Look whether its folder exists and may be written to"),
    ("locked", "another program has been writing to this bench for too long", "Try again when it has ended"),
    ("full", "the disk is full; nothing was saved", "Make room and save again"),
)


def _reason(error: OSError) -> str:
    return (error.strerror or str(error)).lower()
