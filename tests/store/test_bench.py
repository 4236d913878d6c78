"""The bench keeps every version of every text."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path

import pytest

from doughwright.errors import InputError, NoAnswerError, UnknownNameError
from doughwright.store import Bench, ConflictError, Version, open_bench

NAME = "leek-and-rye-flat-pie.toml"
NOON = datetime(2026, 11, 28, 12, 0, tzinfo=UTC)


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    """An empty bench whose clock stands at noon and whose cook is Ines."""
    with open_bench(tmp_path / "bench", who="Ines", clock=lambda: NOON) as made:
        yield made


def texts(bench: Bench, name: str = NAME) -> list[str]:
    return [version.text for version in bench.versions("recipe", name)]


def save_all(bench: Bench, *wanted: str, name: str = NAME) -> None:
    number: int | None = None
    for text in wanted:
        number = bench.save("recipe", name, text, expected=number).number


class TestSaving:
    def test_a_saved_text_is_the_head_with_who_when_and_note(self, bench: Bench) -> None:
        """What is saved comes back with its number, signature, time in UTC and note."""
        saved = bench.save("recipe", NAME, "schema = 1\n", expected=None, note="as cooked on Sunday")
        assert saved == Version(
            kind="recipe", name=NAME, number=1, text="schema = 1\n", who="Ines",
            when="2026-11-28T12:00:00Z", note="as cooked on Sunday", origin=1, removed=False,
        )  # fmt: skip
        assert bench.head("recipe", NAME) == saved

    def test_nothing_is_overwritten(self, bench: Bench) -> None:
        """Each save is one more version, and the earlier ones stay as they were."""
        save_all(bench, "one", "two", "three")
        assert texts(bench) == ["one", "two", "three"]
        assert bench.version("recipe", NAME, 2).text == "two"

    def test_the_same_text_makes_no_new_version(self, bench: Bench) -> None:
        """Saving what is there already gives the head back, whatever version the writer started from."""
        save_all(bench, "one", "two")
        assert bench.save("recipe", NAME, "two", expected=1).number == 2
        assert texts(bench) == ["one", "two"]

    def test_a_text_that_is_no_document_is_kept(self, bench: Bench) -> None:
        """The store does not read documents, so what does not parse is not lost."""
        save_all(bench, "[[mix\nname = ")
        assert bench.head("recipe", NAME).text == "[[mix\nname = "

    @pytest.mark.parametrize(
        "text", ["", "a\r\nb\r\n", "\ufeffschema = 1", "x  \t\n\n", "½ cup 麦\U0001f35e", "nul\x00in"]
    )
    def test_a_text_comes_back_to_the_character(self, bench: Bench, text: str) -> None:
        """Line ends, a byte order mark, trailing spaces, signs of any script: nothing is tidied."""
        save_all(bench, text)
        assert bench.head("recipe", NAME).text == text

    def test_a_recipe_and_a_kitchen_may_share_a_name(self, bench: Bench) -> None:
        """The two kinds are kept apart."""
        bench.save("recipe", "boathouse.toml", "pie", expected=None)
        bench.save("kitchen", "boathouse.toml", "room", expected=None)
        assert bench.head("recipe", "boathouse.toml").text == "pie"
        assert bench.head("kitchen", "boathouse.toml").text == "room"

    def test_the_time_is_kept_in_utc(self, tmp_path: Path) -> None:
        """A clock of another zone is turned into UTC."""
        there = datetime(2026, 11, 28, 12, 0, tzinfo=timezone(timedelta(hours=2)))
        with open_bench(tmp_path, who="Ines", clock=lambda: there) as bench:
            assert bench.save("recipe", NAME, "one", expected=None).when == "2026-11-28T10:00:00Z"

    def test_who_may_be_said_for_one_save(self, bench: Bench) -> None:
        """A save may be signed by somebody else."""
        assert bench.save("recipe", NAME, "one", expected=None, who="Tam").who == "Tam"

    def test_what_was_saved_is_there_when_opened_again(self, tmp_path: Path) -> None:
        """A closed bench opens with all its versions."""
        with open_bench(tmp_path) as bench:
            save_all(bench, "one", "two")
        with open_bench(tmp_path / "bench.sqlite", create=False) as again:
            assert texts(again) == ["one", "two"]


class TestTwoWriters:
    def test_the_second_of_two_writers_gets_both_versions_and_writes_nothing(self, bench: Bench) -> None:
        """Who started from an older version is shown their text, where they began and what is there now."""
        save_all(bench, "one", "theirs")
        with pytest.raises(ConflictError, match="changed meanwhile: Ines saved version 2") as caught:
            bench.save("recipe", NAME, "mine", expected=1)
        error = caught.value
        assert error.text == "mine"
        assert error.base is not None
        assert (error.base.text, error.head.text, error.head.number) == ("one", "theirs", 2)
        assert texts(bench) == ["one", "theirs"]

    def test_a_new_document_does_not_replace_one_that_is_there(self, bench: Bench) -> None:
        """Making a document under a name that is taken is refused."""
        save_all(bench, "one")
        with pytest.raises(ConflictError, match="already a recipe named"):
            bench.save("recipe", NAME, "another", expected=None)

    def test_names_that_differ_by_capitals_are_one_name(self, bench: Bench) -> None:
        """Some disks would hold them in one file."""
        save_all(bench, "one")
        with pytest.raises(ConflictError, match=f"named {NAME}"):
            bench.save("recipe", NAME.upper(), "another", expected=None)
        assert bench.head("recipe", NAME.upper()).name == NAME
        assert bench.names("recipe") == (NAME,)

    def test_saving_from_a_version_of_a_document_that_is_not_there_is_refused(self, bench: Bench) -> None:
        """The writer believes in a document the bench has never had."""
        with pytest.raises(UnknownNameError, match="is not on this bench yet"):
            bench.save("recipe", NAME, "one", expected=3)

    def test_of_many_threads_that_start_from_one_version_one_wins(self, bench: Bench) -> None:
        """Twelve writers at once: one version more, eleven conflicts, no other error."""
        save_all(bench, "one")
        outcomes: list[str] = []

        def write(text: str) -> None:
            try:
                bench.save("recipe", NAME, text, expected=1)
                outcomes.append("saved")
            except ConflictError:
                outcomes.append("conflict")

        threads = [threading.Thread(target=write, args=(f"by {n}",)) for n in range(12)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert sorted(outcomes) == ["conflict"] * 11 + ["saved"]
        assert len(texts(bench)) == 2


class TestUndo:
    def test_undo_is_a_new_version_with_the_text_before(self, bench: Bench) -> None:
        """Nothing goes away: the text from before is saved again, and says where it is from."""
        save_all(bench, "one", "two")
        undone = bench.undo("recipe", NAME)
        assert (undone.number, undone.text, undone.origin, undone.note) == (
            3,
            "one",
            1,
            "undo: back to version 1",
        )
        assert texts(bench) == ["one", "two", "one"]

    def test_undo_again_goes_further_back(self, bench: Bench) -> None:
        """Repeated undo walks to the first version and then has nothing left to undo."""
        save_all(bench, "one", "two", "three")
        assert [bench.undo("recipe", NAME).text for _ in range(2)] == ["two", "one"]
        with pytest.raises(NoAnswerError, match="nothing before version 1"):
            bench.undo("recipe", NAME)
        assert texts(bench) == ["one", "two", "three", "two", "one"]

    def test_undo_after_an_edit_of_an_undone_text(self, bench: Bench) -> None:
        """Going back passes the text that the edit began from, then what was before that."""
        save_all(bench, "one", "two", "three")
        number = bench.undo("recipe", NAME).number
        bench.save("recipe", NAME, "four", expected=number)
        assert [bench.undo("recipe", NAME).text for _ in range(2)] == ["two", "one"]

    def test_undo_can_be_held_to_a_version(self, bench: Bench) -> None:
        """An undo meant for a version that is not the head any more is refused."""
        save_all(bench, "one", "two", "three")
        with pytest.raises(ConflictError):
            bench.undo("recipe", NAME, expected=2)
        assert bench.undo("recipe", NAME, expected=3).text == "two"


class TestRemoving:
    def test_a_removed_document_keeps_its_versions_and_undo_brings_it_back(self, bench: Bench) -> None:
        """A removal is a version too."""
        save_all(bench, "one", "two")
        removed = bench.remove("recipe", NAME, expected=2)
        assert (removed.number, removed.removed) == (3, True)
        assert bench.names("recipe") == ()
        assert bench.heads("recipe") == ()
        assert bench.names("recipe", removed=True) == (NAME,)
        with pytest.raises(UnknownNameError, match=r"was removed by Ines .* Undo brings it back"):
            bench.head("recipe", NAME)
        assert bench.undo("recipe", NAME).text == "two"
        assert bench.head("recipe", NAME).number == 4
        assert bench.undo("recipe", NAME).text == "one"

    def test_a_removed_name_may_be_used_anew(self, bench: Bench) -> None:
        """The new text goes on in the same history."""
        save_all(bench, "one")
        bench.remove("recipe", NAME, expected=1)
        assert bench.save("recipe", NAME, "other", expected=None).number == 3

    def test_a_document_changed_meanwhile_is_not_removed(self, bench: Bench) -> None:
        """A removal starts from a version like any change."""
        save_all(bench, "one", "two")
        with pytest.raises(ConflictError):
            bench.remove("recipe", NAME, expected=1)
        assert bench.head("recipe", NAME).text == "two"


class TestLookingUp:
    def test_heads_come_in_the_order_of_their_names(self, bench: Bench) -> None:
        """One call lists the current version of each document."""
        for name in ("plait.toml", "bun.toml"):
            save_all(bench, "old", f"new {name}", name=name)
        assert [(head.name, head.text, head.number) for head in bench.heads("recipe")] == [
            ("bun.toml", "new bun.toml", 2), ("plait.toml", "new plait.toml", 2),
        ]  # fmt: skip

    def test_an_unknown_name_says_what_is_near(self, bench: Bench) -> None:
        """A slip in a name is answered with the name that was meant."""
        save_all(bench, "one")
        with pytest.raises(UnknownNameError, match=f'Did you mean "{NAME}"'):
            bench.head("recipe", "leek-and-rye-flat-pies.toml")

    @pytest.mark.parametrize("number", [0, -1, 3, 10**30])
    def test_a_version_that_is_not_there_says_which_are(self, bench: Bench, number: int) -> None:
        """The error names the numbers there are."""
        save_all(bench, "one", "two")
        with pytest.raises(UnknownNameError, match=r"no such version: needs 1 to 2"):
            bench.version("recipe", NAME, number)

    @pytest.mark.parametrize("name", ["", "../etc", "\ud800.toml", "a\x00b", "x" * 5000])
    def test_any_text_may_be_asked_for_as_a_name(self, bench: Bench, name: str) -> None:
        """What could never be a name is just not there."""
        with pytest.raises(UnknownNameError):
            bench.head("recipe", name)
        with pytest.raises(UnknownNameError):
            bench.undo("recipe", name)

    def test_another_kind_of_document_is_refused(self, bench: Bench) -> None:
        """There are recipes and kitchens."""
        with pytest.raises(InputError, match="needs recipe or kitchen, found oven"):
            bench.names("oven")  # type: ignore[arg-type]


class TestDrafts:
    def test_a_draft_is_kept_per_window_and_is_no_version(self, bench: Bench) -> None:
        """Each window has one draft, which the next takes the place of."""
        save_all(bench, "one")
        bench.save_draft("recipe", NAME, "left", "first try", based_on=1)
        bench.save_draft("recipe", NAME, "left", "second try", based_on=1)
        bench.save_draft("recipe", NAME, "right", "other", based_on=None)
        found = bench.draft("recipe", NAME, "left")
        assert found is not None
        assert (found.text, found.based_on, found.when) == ("second try", 1, "2026-11-28T12:00:00Z")
        assert [draft.window for draft in bench.drafts("recipe", NAME)] == ["left", "right"]
        assert texts(bench) == ["one"]

    def test_a_dropped_draft_is_gone(self, bench: Bench) -> None:
        """Dropping a draft leaves the others, and dropping none is no fault."""
        bench.save_draft("recipe", NAME, "left", "text", based_on=None)
        bench.drop_draft("recipe", NAME, "left")
        bench.drop_draft("recipe", NAME, "left")
        assert bench.draft("recipe", NAME, "left") is None

    def test_a_draft_based_on_no_possible_version_is_refused(self, bench: Bench) -> None:
        """Versions count from 1."""
        with pytest.raises(InputError, match="no such version"):
            bench.save_draft("recipe", NAME, "left", "text", based_on=10**30)


class TestRefusals:
    @pytest.mark.parametrize("line", ["x" * 2000, "bell\x07", "\ud800"])
    def test_a_note_or_name_that_is_no_line_is_refused(self, bench: Bench, line: str) -> None:
        """A remark is short and printable."""
        with pytest.raises(InputError, match="the note cannot be kept"):
            bench.save("recipe", NAME, "one", expected=None, note=line)
        with pytest.raises(InputError, match="who cannot be kept"):
            bench.save("recipe", NAME, "one", expected=None, who=line)
        assert bench.names("recipe") == ()

    def test_a_text_over_a_megabyte_is_refused(self, bench: Bench) -> None:
        """The limit is counted in bytes and said."""
        with pytest.raises(InputError, match=r"at most 1,000,000 bytes, found 1,000,002 bytes"):
            bench.save("recipe", NAME, "é" * 500_001, expected=None)
        assert bench.save("recipe", NAME, "é" * 500_000, expected=None).number == 1

    def test_half_a_character_is_refused(self, bench: Bench) -> None:
        """A text that no file could hold is said to be so."""
        with pytest.raises(InputError, match=r"at character 3 .* U\+D800"):
            bench.save("recipe", NAME, "ab\ud800", expected=None)
