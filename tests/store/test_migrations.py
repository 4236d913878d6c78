"""A bench of every earlier schema opens with all it holds."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

import doughwright.store
from doughwright.store import Version, open_bench
from doughwright.store._tables import APPLICATION_ID, SCHEMA, metadata

BENCHES = Path(__file__).with_name("benches")
SCRIPTS = ScriptDirectory(str(Path(doughwright.store.__file__).parent / "migrations"))
REVISIONS = sorted(script.revision for script in SCRIPTS.walk_revisions())
PIE = "leek-and-rye-flat-pie.toml"


def test_the_newest_migration_is_the_schema_the_code_is_written_for() -> None:
    """Otherwise a bench would be taken for up to date when it is not."""
    assert SCRIPTS.get_current_head() == SCHEMA


def test_every_schema_has_a_bench_to_migrate_from() -> None:
    """A new migration comes with a dump of a bench it has made."""
    assert sorted(path.stem for path in BENCHES.iterdir()) == REVISIONS


@pytest.mark.parametrize("revision", REVISIONS)
def test_an_earlier_bench_opens_with_all_it_holds(tmp_path: Path, revision: str) -> None:
    """Versions, an undo, a removal, a kitchen and a draft are there, and can be gone on from."""
    with closing(sqlite3.connect(tmp_path / "bench.sqlite")) as raw:
        raw.executescript((BENCHES / f"{revision}.sql").read_text())
    noon = "2026-11-28T12:00:00Z"
    first = 'schema = 1\ntitle = "Leek and rye flat pie"\n'
    with open_bench(tmp_path) as bench:
        assert bench.versions("recipe", PIE) == (
            Version("recipe", PIE, 1, first, "Ines", noon, "as cooked on Sunday", 1),
            Version("recipe", PIE, 2, 'schema = 1\ntitle = "Leek\'s pie"\n', "Tam", noon, "", 2),
            Version("recipe", PIE, 3, first, "Ines", noon, "undo: back to version 1", 1),
        )
        assert bench.names("recipe", removed=True) == ("loaf.toml",)
        assert bench.head("kitchen", "boathouse.toml").text == 'kitchen = "Boathouse"'
        assert [draft.text for draft in bench.drafts("recipe", "loaf.toml")] == ["unsaved"]
        assert bench.save("recipe", PIE, "more", expected=3).number == 4


def test_the_migrations_make_the_tables_the_code_reads(tmp_path: Path) -> None:
    """The tables of a new bench are those of the code, column for column, and the file says it is a bench."""
    with open_bench(tmp_path) as bench:
        path = bench.path
    engine = sa.create_engine(f"sqlite:///{path}")
    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []
        assert connection.exec_driver_sql("PRAGMA application_id").scalar_one() == APPLICATION_ID
    engine.dispose()


@pytest.mark.parametrize("statement", ["UPDATE version SET text = 'forged'", "DELETE FROM version"])
def test_the_database_itself_keeps_every_version(tmp_path: Path, statement: str) -> None:
    """A version cannot be changed or deleted, whatever program opens the file."""
    with open_bench(tmp_path) as bench:
        bench.save("recipe", PIE, "one", expected=None)
    refused = pytest.raises(sqlite3.IntegrityError, match="a version is never changed or deleted")
    with closing(sqlite3.connect(bench.path)) as raw, refused:
        raw.execute(statement)


def test_the_database_lets_no_version_stand_without_its_document(tmp_path: Path) -> None:
    """Foreign keys are on in every connection of a bench."""
    with open_bench(tmp_path) as bench, bench._database.writing() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar_one() == 1
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == 2
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"


def test_opening_a_bench_that_is_up_to_date_loads_no_migrations(tmp_path: Path) -> None:
    """The migrating library costs a quarter of a second, so it waits until it is needed."""
    open_bench(tmp_path).close()
    code = "import sys, doughwright.store as s; s.open_bench(sys.argv[1]); sys.exit('alembic' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code, str(tmp_path)], check=False).returncode == 0
