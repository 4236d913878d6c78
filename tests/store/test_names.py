"""Names of documents."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import InputError
from doughwright.store.names import checked_name, key_of, name_from_title


@pytest.mark.parametrize(
    "name",
    [
        "leek-and-rye-flat-pie.toml",
        "a.toml",
        "crème brioche.toml",
        "麦.toml",
        "v1.2_b+c.TOML",
        "x" * 95 + ".toml",
    ],
)
def test_a_name_that_every_disk_takes_is_kept(name: str) -> None:
    """Letters of any script, digits, spaces and a few signs."""
    assert checked_name(name) == name


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("", "is empty"),
        ("   ", "is empty"),
        ("../pie.toml", "is a path"),
        ("a/pie.toml", "is a path"),
        ("a\\pie.toml", "is a path"),
        (".pie.toml", "hidden"),
        (".toml", "hidden"),
        ("..", "hidden"),
        ("pie", "does not end in .toml"),
        ("pie.txt", "does not end in .toml"),
        ("pie.toml ", "does not end in .toml"),
        ("pie .toml", "holds more than letters"),
        (" pie.toml", "holds more than letters"),
        ("-pie.toml", "holds more than letters"),
        ("c:pie.toml", "holds more than letters"),
        ("pie?.toml", "holds more than letters"),
        ("pie\n.toml", "cannot be seen"),
        ("pie\x00.toml", "cannot be seen"),
        ("pie\u202e.toml", "cannot be seen"),
        ("pie\ud800.toml", "cannot be seen"),
        ("con.toml", "device"),
        ("COM1.toml", "device"),
        ("aux.old.toml", "device"),
        ("x" * 96 + ".toml", "is too long"),
        ("麦" * 90 + ".toml", "is too long"),
    ],
)
def test_a_name_that_some_disk_refuses_is_refused(name: str, why: str) -> None:
    """The error says what is wrong with it and shows a name that is right."""
    with pytest.raises(InputError, match=why) as caught:
        checked_name(name)
    assert caught.value.fault.try_ == 'Write for example "leek-and-rye-flat-pie.toml"'


def test_accents_are_composed() -> None:
    """The same name written with combining accents is the same name."""
    apart = unicodedata.normalize("NFD", "crème.toml")
    assert checked_name(apart) == "crème.toml"
    assert key_of(apart) == key_of("CRÈME.toml")


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Leek and rye flat pie", "leek-and-rye-flat-pie.toml"),
        ("Crème bun, no. 2", "creme-bun-no-2.toml"),
        ("", "untitled.toml"),
        ("!?", "untitled.toml"),
        ("Con", "con-1.toml"),
        ("a" * 300, "a" * 95 + ".toml"),
    ],
)
def test_a_title_gives_a_name(title: str, name: str) -> None:
    """The words of the title in small letters."""
    assert name_from_title(title) == name


@pytest.mark.property
@given(st.text())
def test_any_title_gives_a_name_that_is_taken(title: str) -> None:
    """There is no title without a name."""
    name = name_from_title(title)
    assert checked_name(name) == name
