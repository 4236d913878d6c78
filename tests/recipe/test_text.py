"""A TOML text is parsed with the place of every key and value."""

from __future__ import annotations

import tomllib

import pytest
import tomlkit.parser
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import DocumentError
from doughwright.recipe.text import MOST_BYTES, parse, read_file

from .documents import KITCHEN, RECIPE


def test_every_value_is_found_at_its_span():
    """The characters of each span, read alone, are the value itself."""
    document = parse(RECIPE)
    for where, span in document.values.items():
        written = RECIPE[span.start : span.end]
        value = document.data
        for part in where:
            value = value[part]
        if not isinstance(value, dict):
            assert tomllib.loads(f"x = {written}")["x"] == value, where


def test_the_data_agree_with_the_standard_library():
    """Our reading and that of Python's own parser are the same."""
    assert parse(RECIPE).data == tomllib.loads(RECIPE)
    assert parse(KITCHEN).data == tomllib.loads(KITCHEN)


def test_the_parser_still_has_the_private_names_we_lean_on():
    """The subclass overrides these; a new tomlkit without them must not pass unseen."""
    assert tomlkit.__version__ == "0.15.2"
    for name in ("_parse_value", "_parse_key_value", "_parse_table"):
        assert callable(getattr(tomlkit.parser.Parser, name))
    assert tomlkit.parser.Parser("a = 1")._src._idx == 0


def test_lists_count_their_elements_and_not_their_comments():
    """The second ingredient is number 1, whatever stands between."""
    document = parse('ingredients = [\n  # first\n  { item = "a" },\n\n  { item = "b" }, # last\n]\n')
    assert document.place(("ingredients", 1, "item")) == (5, 12)


def test_a_byte_order_mark_and_crlf_shift_no_column():
    """Line and column are as an editor shows them."""
    document = parse('\ufeffschema = 1\r\ntitle = "x"\r\n')
    assert document.place(("schema",)) == (1, 10)
    assert document.place(("title",)) == (2, 9)


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("", 1, 1, "empty"),
        ("  \n\n", 1, 1, "empty"),
        ("a = 1\na = 2\n", 2, 1, "written twice"),
        ("[makes]\n[[mix]]\n[makes]\nx = 1", 3, 1, "written twice"),
        ("a = {b = 1, b = 2}", 1, 13, "written twice"),
        ('a = "\n', 1, 6, "Close the quotes"),
        ("a = 420 g\n", 1, 9, "quotes round the quantity"),
        ("a = ½ cup\n", 1, 5, "quotes round the quantity"),
        ("[[mix]\n", 1, 7, "found '[[mix]'"),
        ("\x00\x01", 1, 1, "cannot be read as TOML"),
        ('a = "\\q"', 1, 7, "Write a backslash twice"),
        ("x = " + "[" * 200, 1, 105, "cannot be read as TOML"),
    ],
)
def test_what_is_no_toml_is_refused_with_its_place(text, line, column, says):
    """Line, column, what is wanted, what was found and what to write."""
    with pytest.raises(DocumentError) as caught:
        parse(text, "pie.toml")
    fault = caught.value.fault
    assert (fault.file, fault.line, fault.column) == ("pie.toml", line, column)
    assert says in str(fault)


def test_a_text_over_the_limit_is_refused_before_it_is_read(tmp_path):
    """Twenty megabytes are named, not parsed."""
    big = tmp_path / "big.toml"
    big.write_bytes(b"#" * 20_000_000)
    with pytest.raises(DocumentError, match=r"big\.toml: the document is too long.*found 20,000,000"):
        read_file(big)
    with pytest.raises(DocumentError, match="too long"):
        parse("#" * (MOST_BYTES + 1))


def test_a_file_in_another_encoding_is_refused_at_the_byte(tmp_path):
    """The place is that of the first byte that is no UTF-8."""
    latin = tmp_path / "latin.toml"
    latin.write_bytes('schema = 1\ntitle = "crème'.encode("latin-1"))
    with pytest.raises(DocumentError) as caught:
        read_file(latin)
    assert (caught.value.fault.line, caught.value.fault.column) == (2, 12)
    assert caught.value.fault.found == "the byte 0xe8"


@given(st.text(max_size=200))
def test_any_text_parses_or_is_refused_by_our_error(text):
    """Only our own error class may come out."""
    try:
        parse(text)
    except DocumentError as error:
        assert error.faults


def test_lines_that_end_in_a_lone_cr_are_refused_with_what_to_do():
    """Very old editors end a line in CR alone, TOML never does: the fault says what to save it with."""
    with pytest.raises(DocumentError) as caught:
        parse('schema = 1\rtitle = "x"\r[makes]\rpieces = 2\r', "old.toml")
    fault = caught.value.fault
    assert (fault.line, fault.wanted) == (1, "lines that end in LF or CRLF")
