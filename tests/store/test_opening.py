"""What a bench is opened in, and what is refused."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import tempfile
import threading
from contextlib import closing
from pathlib import Path

import pytest

from doughwright.errors import InputError
from doughwright.store import BenchError, open_bench


def test_a_bench_is_made_where_there_is_none(tmp_path: Path) -> None:
    """A folder that does not exist yet is made, and holds ``bench.sqlite``."""
    with open_bench(tmp_path / "a b" / "ü?#%41") as bench:
        assert bench.path == tmp_path / "a b" / "ü?#%41" / "bench.sqlite"
        assert bench.path.exists()


def test_a_bench_may_be_named_by_its_file(tmp_path: Path) -> None:
    """A name that ends in .sqlite is the file itself."""
    with open_bench(tmp_path / "mine.sqlite") as bench:
        bench.save("recipe", "pie.toml", "one", expected=None)
    assert (tmp_path / "mine.sqlite").is_file()


def test_a_bench_that_is_not_there_is_not_made_when_only_asked_for(tmp_path: Path) -> None:
    """A command that only reads leaves no empty bench behind."""
    with pytest.raises(BenchError, match="there is no bench here"):
        open_bench(tmp_path / "new", create=False)
    assert list(tmp_path.iterdir()) == []


def test_an_empty_file_becomes_a_bench(tmp_path: Path) -> None:
    """It is what is left when the making of a bench is stopped at once."""
    (tmp_path / "bench.sqlite").touch()
    with open_bench(tmp_path) as bench:
        assert bench.names("recipe") == ()


@pytest.mark.parametrize("content", [b"title = 'Pie'\n", b"\x00" * 4096, b"SQLite"])
def test_a_file_of_another_kind_is_refused_and_left_as_it_is(tmp_path: Path, content: bytes) -> None:
    """A text, zeros, the start of a header."""
    path = tmp_path / "bench.sqlite"
    path.write_bytes(content)
    with pytest.raises(BenchError, match=r"this is not a bench: needs .*, found a file of another kind"):
        open_bench(tmp_path)
    assert path.read_bytes() == content


def test_another_program_s_database_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    """A SQLite file with tables, but not ours."""
    path = tmp_path / "bench.sqlite"
    with closing(sqlite3.connect(path)) as raw:
        raw.executescript("CREATE TABLE alembic_version (version_num); CREATE TABLE document (id)")
    before = path.read_bytes()
    with pytest.raises(BenchError, match="found another program's SQLite file"):
        open_bench(tmp_path)
    assert path.read_bytes() == before


def test_a_damaged_bench_is_said_to_be_damaged(tmp_path: Path) -> None:
    """The header is right and the rest is not."""
    open_bench(tmp_path).close()
    path = tmp_path / "bench.sqlite"
    path.write_bytes(path.read_bytes()[:100] + b"\xff" * 8000)
    with pytest.raises(BenchError, match=r"damaged.*Restore it from a copy"):
        open_bench(tmp_path)


def test_a_bench_of_a_newer_schema_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    """An older Doughwright does not guess at what a newer one keeps."""
    open_bench(tmp_path).close()
    with closing(sqlite3.connect(tmp_path / "bench.sqlite")) as raw:
        raw.executescript("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(BenchError, match=r"newer Doughwright: needs schema \d+ or older, found schema 9999"):
        open_bench(tmp_path)


@pytest.mark.parametrize(
    "statement", ["UPDATE alembic_version SET version_num = '0000'", "DELETE FROM alembic_version"]
)
def test_a_bench_whose_schema_nobody_has_made_is_refused(tmp_path: Path, statement: str) -> None:
    """A number that no Doughwright wrote, or none."""
    open_bench(tmp_path).close()
    with closing(sqlite3.connect(tmp_path / "bench.sqlite")) as raw:
        raw.executescript(statement)
    with pytest.raises(BenchError):
        open_bench(tmp_path)


@pytest.mark.parametrize("place", ["", "postgresql://boathouse/bench", "a\x00b"])
def test_a_place_that_is_no_folder_is_refused(place: str) -> None:
    """A bench is kept in a folder or a file of this machine."""
    with pytest.raises(BenchError, match="this is no place for a bench"):
        open_bench(place)


def test_a_place_below_a_file_is_refused(tmp_path: Path) -> None:
    """The reason the system gives is passed on."""
    (tmp_path / "file").touch()
    with pytest.raises(BenchError, match="the bench cannot be opened"):
        open_bench(tmp_path / "file" / "bench")


def test_a_signature_that_is_no_line_is_refused(tmp_path: Path) -> None:
    """Who signs is checked before anything is made."""
    with pytest.raises(InputError, match="who cannot be kept"):
        open_bench(tmp_path / "bench", who="\x1b[31m")
    assert not (tmp_path / "bench").exists()


# A first bench loads everything, for the other user may not be able to read this Python.
WITHOUT_RIGHTS = """
import os, sys, tempfile
import doughwright.store
with tempfile.TemporaryDirectory() as first:
    doughwright.store.open_bench(first).close()
if os.geteuid() == 0:
    os.setuid(65534)
try:
    with doughwright.store.open_bench(sys.argv[1], who="nobody") as bench:
        bench.save("recipe", "pie.toml", "one", expected=None)
except doughwright.store.BenchError as error:
    sys.exit(str(error))
"""


@pytest.mark.parametrize(("make", "said"), [("folder", "cannot be opened"), ("file", "cannot be written to")])
def test_a_place_one_may_not_write_to_is_said(make: str, said: str) -> None:
    """No right to write to the folder, and to the file: a plain sentence, not a traceback."""
    # Not below tmp_path, which another user may not even look into.
    with tempfile.TemporaryDirectory() as place:
        Path(place).chmod(0o755)
        folder = Path(place, "bench")
        folder.mkdir()
        if make == "file":
            open_bench(folder).close()
            (folder / "bench.sqlite").chmod(0o444)
        folder.chmod(0o555)
        done = subprocess.run(
            [sys.executable, "-c", WITHOUT_RIGHTS, str(folder)], capture_output=True, text=True, check=False
        )
        folder.chmod(0o755)
    assert done.returncode == 1
    assert said in done.stderr
    assert "Traceback" not in done.stderr


def test_a_new_bench_may_be_opened_by_many_at_once(tmp_path: Path) -> None:
    """Eight openings of one new bench: one makes it, the others wait, all can write."""
    errors: list[BaseException] = []

    def work(number: int) -> None:
        try:
            with open_bench(tmp_path / "bench") as bench:
                bench.save("recipe", f"pie-{number}.toml", "one", expected=None)
        except BaseException as error:  # noqa: BLE001 (handed to the test)
            errors.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert errors == []
    with open_bench(tmp_path / "bench") as bench:
        assert len(bench.names("recipe")) == 8


def test_a_bench_that_others_keep_busy_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another program holds the file for longer than one waits: nothing is written, and it is said."""
    monkeypatch.setattr("doughwright.store._database._BUSY_SECONDS", 0.05)
    with open_bench(tmp_path) as bench, closing(sqlite3.connect(bench.path)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BenchError, match="another program has been writing to this bench for too long"):
            bench.save("recipe", "pie.toml", "one", expected=None)
        assert bench.names("recipe") == ()


def test_a_full_disk_loses_nothing_that_was_saved(tmp_path: Path) -> None:
    """The save that finds no room is refused, and the bench stays as it was."""
    with open_bench(tmp_path) as bench:
        bench.save("recipe", "pie.toml", "one", expected=None)
        with bench._database.reading() as connection:
            pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
            connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(BenchError, match="the disk is full; nothing was saved"):
            bench.save("recipe", "pie.toml", "x" * 500_000, expected=1)
        assert bench.head("recipe", "pie.toml").text == "one"


def test_a_bench_does_not_depend_on_the_folder_one_is_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The migrations are found in the package, and a place is taken once."""
    monkeypatch.chdir(tmp_path)
    with open_bench("bench") as bench:
        os.chdir("/")
        bench.save("recipe", "pie.toml", "one", expected=None)
        assert bench.head("recipe", "pie.toml").text == "one"
    assert (tmp_path / "bench" / "bench.sqlite").exists()
