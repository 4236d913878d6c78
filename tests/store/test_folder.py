"""A bench goes out to a plain folder and comes back whole."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import InputError
from doughwright.store import Bench, BenchError, ConflictError, Kind, Version, open_bench

PIE = "pie.toml"
RECIPE = 'schema = 1\ntitle = "Pie"\nkitchen = "boathouse.toml"\n'
KITCHEN = 'schema = 1\nkitchen = "Boathouse"\n[fridge]\ntemperature = "5 °C"\n'


def ticking() -> Callable[[], datetime]:
    """A clock that goes on a minute each time it is looked at."""
    minutes = count()
    return lambda: datetime(2026, 11, 28, 12, 0, tzinfo=UTC) + timedelta(minutes=next(minutes))


@pytest.fixture
def open_at(tmp_path: Path) -> Iterator[Callable[[str], Bench]]:
    """Opens benches below the test's folder and closes them."""
    opened: list[Bench] = []

    def opener(name: str) -> Bench:
        opened.append(open_bench(tmp_path / name, who="Ines", clock=ticking()))
        return opened[-1]

    yield opener
    for bench in opened:
        bench.close()


Opener = Callable[[str], Bench]


def everything(bench: Bench) -> list[tuple[Version, ...]]:
    kinds: tuple[Kind, ...] = ("recipe", "kitchen")
    return [
        bench.versions(kind, name)
        for kind in kinds
        for removed in (False, True)
        for name in bench.names(kind, removed=removed)
    ]


def files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def fill(bench: Bench) -> None:
    """A recipe with an undo, one that was removed, and a kitchen."""
    bench.save("recipe", PIE, RECIPE, expected=None, note="erste Fassung, à la minute")
    bench.save("recipe", PIE, "\ufeff" + RECIPE.replace("\n", "\r\n") + "  \t", expected=1, who="Tam")
    bench.undo("recipe", PIE)
    bench.save("recipe", "crème bun.toml", "not [ toml\x00", expected=None)
    bench.remove("recipe", "crème bun.toml", expected=1, note="no good")
    bench.save("kitchen", "boathouse.toml", KITCHEN, expected=None)


class TestExport:
    def test_the_folder_has_current_texts_history_and_list(self, open_at: Opener, tmp_path: Path) -> None:
        """A cook finds the current texts on top, and every earlier one below ``versions``."""
        bench = open_at("bench")
        fill(bench)
        done = bench.export(tmp_path / "out")
        assert (done.documents, done.versions, done.written) == (3, 6, 8)
        assert sorted(files(tmp_path / "out")) == [
            "bench.json",
            "kitchens/boathouse.toml",
            "recipes/pie.toml",
            "versions/kitchens/boathouse.toml/0001.toml",
            "versions/recipes/crème bun.toml/0001.toml",
            "versions/recipes/pie.toml/0001.toml",
            "versions/recipes/pie.toml/0002.toml",
            "versions/recipes/pie.toml/0003.toml",
        ]
        assert (tmp_path / "out/recipes/pie.toml").read_bytes() == RECIPE.encode()
        second = (tmp_path / "out/versions/recipes/pie.toml/0002.toml").read_bytes()
        assert second == b"\xef\xbb\xbf" + RECIPE.replace("\n", "\r\n").encode() + b"  \t"

    def test_export_and_import_lose_nothing(self, open_at: Opener, tmp_path: Path) -> None:
        """Every version comes back with its text, number, signature, time, note and origin."""
        bench, other = open_at("bench"), open_at("other")
        fill(bench)
        bench.export(tmp_path / "out")
        imported = other.import_(tmp_path / "out")
        assert len(imported.added) == 6
        assert everything(other) == everything(bench)
        other.export(tmp_path / "again")
        assert files(tmp_path / "again") == files(tmp_path / "out")

    def test_exporting_again_writes_only_what_changed(self, open_at: Opener, tmp_path: Path) -> None:
        """An earlier export of the same bench is brought up to date; a removed document's text goes."""
        bench = open_at("bench")
        fill(bench)
        bench.export(tmp_path / "out")
        assert bench.export(tmp_path / "out").written == 0
        bench.save("recipe", PIE, "new", expected=3)
        bench.remove("kitchen", "boathouse.toml", expected=1)
        assert bench.export(tmp_path / "out").written == 3
        assert (tmp_path / "out/recipes/pie.toml").read_text() == "new"
        assert not (tmp_path / "out/kitchens/boathouse.toml").exists()
        assert open_at("other").import_(tmp_path / "out").unchanged == ()

    def test_an_edited_text_in_the_folder_is_not_written_over(self, open_at: Opener, tmp_path: Path) -> None:
        """Where the folder holds a text the bench has never had, nothing is written."""
        bench = open_at("bench")
        fill(bench)
        bench.export(tmp_path / "out")
        (tmp_path / "out/recipes/pie.toml").write_text("edited by hand")
        (tmp_path / "out/versions/recipes/pie.toml/0002.toml").write_text("this too")
        bench.save("kitchen", "boathouse.toml", "new", expected=1)
        before = files(tmp_path / "out")
        with pytest.raises(BenchError, match="a file with another text is in the way") as caught:
            bench.export(tmp_path / "out")
        assert [fault.file for fault in caught.value.faults] == [
            str(tmp_path / "out/recipes/pie.toml"),
            str(tmp_path / "out/versions/recipes/pie.toml/0002.toml"),
        ]
        assert files(tmp_path / "out") == before

    def test_another_bench_s_export_is_not_written_over(self, open_at: Opener, tmp_path: Path) -> None:
        """A list with versions this bench does not have stays."""
        bench, other = open_at("bench"), open_at("other")
        fill(bench)
        bench.export(tmp_path / "out")
        before = files(tmp_path / "out")
        other.save("recipe", "loaf.toml", "loaf", expected=None)
        with pytest.raises(BenchError, match=r"holds versions of .* that this bench does not"):
            other.export(tmp_path / "out")
        assert files(tmp_path / "out") == before

    def test_a_list_of_another_program_is_not_written_over(self, open_at: Opener, tmp_path: Path) -> None:
        """A ``bench.json`` that is not ours is left alone."""
        (tmp_path / "bench.json").write_text("{}")
        with pytest.raises(BenchError, match="damaged"):
            open_at("bench").export(tmp_path)
        assert (tmp_path / "bench.json").read_text() == "{}"

    def test_a_place_that_cannot_be_written_to_is_said(self, open_at: Opener, tmp_path: Path) -> None:
        """A file where the folder should be, a folder where a file should be."""
        bench = open_at("bench")
        fill(bench)
        (tmp_path / "file").write_text("")
        with pytest.raises(BenchError, match="cannot be written: not a directory"):
            bench.export(tmp_path / "file" / "out")
        (tmp_path / "out/recipes/pie.toml").mkdir(parents=True)
        with pytest.raises(BenchError, match="cannot be written: is a directory"):
            bench.export(tmp_path / "out")


class TestImport:
    def test_importing_twice_adds_nothing(self, open_at: Opener, tmp_path: Path) -> None:
        """The second import, and one into the bench it came from, find everything there."""
        bench, other = open_at("bench"), open_at("other")
        fill(bench)
        bench.export(tmp_path / "out")
        other.import_(tmp_path / "out")
        for one in (bench, other):
            again = one.import_(tmp_path / "out")
            assert again.added == ()
            assert again.unchanged == ("boathouse.toml", "crème bun.toml", "pie.toml")

    def test_a_later_export_brings_the_later_versions(self, open_at: Opener, tmp_path: Path) -> None:
        """Where the bench has the beginning of a history, the rest is added."""
        bench, other = open_at("bench"), open_at("other")
        fill(bench)
        bench.export(tmp_path / "out")
        other.import_(tmp_path / "out")
        bench.save("recipe", PIE, "later", expected=3)
        bench.export(tmp_path / "out")
        assert [version.text for version in other.import_(tmp_path / "out").added] == ["later"]
        assert everything(other) == everything(bench)
        assert bench.import_(tmp_path / "out").added == ()

    def test_a_text_edited_in_the_folder_becomes_a_version_once(
        self, open_at: Opener, tmp_path: Path
    ) -> None:
        """A cook may edit the exported texts and bring them back; bringing them twice makes one version."""
        bench = open_at("bench")
        fill(bench)
        bench.export(tmp_path / "out")
        (tmp_path / "out/recipes/pie.toml").write_bytes(b"edited\r\n")
        (added,) = bench.import_(tmp_path / "out", who="Tam", note="by hand").added
        assert (added.number, added.text, added.who, added.note) == (4, "edited\r\n", "Tam", "by hand")
        assert bench.import_(tmp_path / "out").added == ()
        bench.save("recipe", PIE, "gone on", expected=4)
        assert bench.import_(tmp_path / "out").added == ()
        assert bench.head("recipe", PIE).text == "gone on"

    def test_a_text_edited_on_both_sides_is_a_conflict_and_nothing_comes_in(
        self, open_at: Opener, tmp_path: Path
    ) -> None:
        """Neither side wins silently: both texts are handed back."""
        bench = open_at("bench")
        fill(bench)
        bench.export(tmp_path / "out")
        bench.save("recipe", PIE, "on the bench", expected=3)
        (tmp_path / "out/recipes/pie.toml").write_text("in the folder")
        (tmp_path / "out/recipes/a-new-one.toml").write_text("new")
        before = everything(bench)
        with pytest.raises(ConflictError, match="changed both on the bench and in the folder") as caught:
            bench.import_(tmp_path / "out")
        assert (caught.value.text, caught.value.head.text) == ("in the folder", "on the bench")
        assert everything(bench) == before

    def test_histories_that_parted_are_a_conflict(self, open_at: Opener, tmp_path: Path) -> None:
        """Two benches that went on from one version are not mixed."""
        bench, other = open_at("bench"), open_at("other")
        fill(bench)
        bench.export(tmp_path / "out")
        other.import_(tmp_path / "out")
        other.save("recipe", PIE, "theirs", expected=3)
        other.export(tmp_path / "theirs")
        bench.save("recipe", PIE, "ours", expected=3)
        with pytest.raises(ConflictError, match="after version 3") as caught:
            bench.import_(tmp_path / "theirs")
        assert caught.value.base is not None
        assert (caught.value.base.number, caught.value.text) == (3, "theirs")

    def test_a_plain_folder_of_documents_comes_in(self, open_at: Opener, tmp_path: Path) -> None:
        """Without a list of versions each file becomes version 1; what looks like a kitchen is one."""
        plain = tmp_path / "plain"
        (plain / "kitchens").mkdir(parents=True)
        (plain / "pie.toml").write_text(RECIPE)
        (plain / "boathouse.toml").write_text(KITCHEN)
        (plain / "broken.toml").write_text("[[")
        (plain / "kitchens" / "cabin.toml").write_text("??")
        (plain / ".hidden.toml").write_text("no")
        (plain / "notes.txt").write_text("no")
        bench = open_at("bench")
        assert {(one.number, one.note) for one in bench.import_(plain).added} == {(1, "imported")}
        assert bench.names("recipe") == ("broken.toml", "pie.toml")
        assert bench.names("kitchen") == ("boathouse.toml", "cabin.toml")
        assert bench.import_(plain).added == ()
        bench.save("recipe", PIE, "gone on", expected=1)
        assert bench.import_(plain).added == ()
        (plain / "pie.toml").write_text("edited")
        assert [(one.number, one.text) for one in bench.import_(plain).added] == [(3, "edited")]
        bench.remove("recipe", PIE, expected=3)
        assert [one.number for one in bench.import_(plain).added] == [5]

    def test_every_fault_of_a_folder_is_said_at_once(self, open_at: Opener, tmp_path: Path) -> None:
        """Wrong encoding, too large, a name no disk takes and two files of one name; nothing comes in."""
        (tmp_path / "in" / "recipes").mkdir(parents=True)
        (tmp_path / "in/latin.toml").write_bytes(b"a = 1\ntitle = 'cr\xe8me'\n")
        (tmp_path / "in/large.toml").write_bytes(b"#" * 1_000_001)
        (tmp_path / "in/what?.toml").write_text("x")
        (tmp_path / "in/fine.toml").write_text("x")
        (tmp_path / "in/recipes/Fine.toml").write_text("y")
        bench = open_at("bench")
        with pytest.raises(InputError) as caught:
            bench.import_(tmp_path / "in")
        said = sorted(str(fault) for fault in caught.value.faults)
        assert said[0].startswith("fine.toml: this recipe has the name of recipes/Fine.toml")
        assert said[1].startswith("large.toml: the text is too large to keep")
        assert said[2].startswith(
            "latin.toml:2: the file is not text as Doughwright keeps it: needs UTF-8, found the byte 0xE8"
        )
        assert said[3].startswith('what?.toml: the name "what?.toml" holds more than')
        assert bench.names("recipe") == ()

    @pytest.mark.parametrize("make", ["missing", "file", "empty"])
    def test_a_folder_with_nothing_in_it_is_said(self, open_at: Opener, tmp_path: Path, make: str) -> None:
        """No folder, a file in its place, no documents."""
        place = tmp_path / "in"
        if make == "file":
            place.write_text("x")
        if make == "empty":
            place.mkdir()
        with pytest.raises(BenchError, match=r"no such folder|nothing to import"):
            open_at("bench").import_(place)

    def test_a_text_of_the_history_that_was_changed_or_lost_is_said(
        self, open_at: Opener, tmp_path: Path
    ) -> None:
        """The list holds a checksum of every version."""
        bench = open_at("bench")
        fill(bench)
        bench.export(tmp_path / "out")
        (tmp_path / "out/versions/recipes/pie.toml/0001.toml").write_text("forged")
        (tmp_path / "out/versions/recipes/pie.toml/0002.toml").unlink()
        with pytest.raises(InputError) as caught:
            open_at("other").import_(tmp_path / "out")
        first, second = caught.value.faults
        assert "0001.toml: the text of a version was changed after the export" in str(first)
        assert "0002.toml: the text of a version is missing" in str(second)

    @pytest.mark.parametrize(
        ("path", "value"),
        [
            (("format",), 2),
            (("format",), None),
            (("documents",), {}),
            (("documents", 0, "kind"), "oven"),
            (("documents", 0, "kind"), []),
            (("documents", 0, "name"), "../../etc.toml"),
            (("documents", 0, "name"), 7),
            (("documents", 0, "name"), "PIE.toml"),
            (("documents", 0, "versions"), []),
            (("documents", 0, "versions", 0, "number"), 2),
            (("documents", 0, "versions", 0, "number"), True),
            (("documents", 0, "versions", 0, "origin"), 2),
            (("documents", 0, "versions", 0, "who"), None),
            (("documents", 0, "versions", 0, "who"), "\x07"),
            (("documents", 0, "versions", 0, "when"), "yesterday"),
            (("documents", 0, "versions", 0, "note"), "x" * 5000),
            (("documents", 0, "versions", 0, "removed"), "no"),
            (("documents", 0, "versions", 0, "removed"), True),
            (("documents", 0, "versions", 0, "sha256"), None),
            (("documents", 0, "versions", 0, "sha256"), "0" * 64),
            (("documents", 0, "versions", 0), 1),
            (("documents", 0), "pie"),
        ],
    )
    def test_a_damaged_list_is_refused(
        self, open_at: Opener, tmp_path: Path, path: tuple[str | int, ...], value: object
    ) -> None:
        """Whatever is wrong in ``bench.json``, it is an input error and nothing comes in."""
        bench, other = open_at("bench"), open_at("other")
        fill(bench)
        bench.export(tmp_path / "out")
        listed: Any = json.loads((tmp_path / "out/bench.json").read_text())
        inner = listed
        for step in path[:-1]:
            inner = inner[step]
        inner[path[-1]] = value
        (tmp_path / "out/bench.json").write_text(json.dumps(listed))
        with pytest.raises(InputError):
            other.import_(tmp_path / "out")
        assert everything(other) == []

    @pytest.mark.parametrize(
        "text", ["", "{", "[" * 100_000, "null", "\ufeff{}", '{"format": NaN, "documents": []}']
    )
    def test_a_list_that_is_not_json_is_refused(self, open_at: Opener, tmp_path: Path, text: str) -> None:
        """Nor does any other text pass for a list."""
        (tmp_path / "in").mkdir()
        (tmp_path / "in/bench.json").write_text(text)
        with pytest.raises(InputError):
            open_at("bench").import_(tmp_path / "in")


NAMES = st.sampled_from(["pie.toml", "bun.toml", "crème 2.toml"])
TEXTS = st.text(max_size=30)
MOVES = st.lists(
    st.tuples(st.sampled_from(["save", "save", "save", "undo", "remove"]), NAMES, TEXTS, st.text(max_size=5)),
    max_size=25,
)


@pytest.mark.property
@settings(max_examples=25, deadline=None)
@given(moves=MOVES)
def test_any_bench_survives_export_and_import(moves: list[tuple[str, str, str, str]]) -> None:
    """Whatever was saved, undone and removed, the folder holds it all, to the byte."""
    with tempfile.TemporaryDirectory() as place, open_bench(f"{place}/a", clock=ticking()) as bench:
        for move, name, text, note in moves:
            history = bench.versions("recipe", name) if name in bench.names("recipe") else ()
            try:
                if move == "save":
                    expected = history[-1].number if history else None
                    bench.save("recipe", name, text, expected=expected, note=note)
                elif move == "undo":
                    bench.undo("recipe", name)
                elif history:
                    bench.remove("recipe", name, expected=history[-1].number)
            except (InputError, LookupError):
                continue
        bench.export(f"{place}/out")
        with open_bench(f"{place}/b") as other:
            other.import_(f"{place}/out")
            assert everything(other) == everything(bench)
