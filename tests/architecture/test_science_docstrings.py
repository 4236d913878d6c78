"""The docstring of a science function is a contract: its names are the signature's, each with its unit."""

from __future__ import annotations

import ast
import re

from tests.architecture._source import Function, modules

ENTRY = re.compile(r"^(\w+(?:, \w+)*)\s*:\s")
PHYSICAL = re.compile(r"\b(float|Real|Array|NDArray|ndarray)\b")
UNIT = re.compile(r"\[[^\]]+\]")
SECTION = re.compile(r"^(\w[\w ]*)\n-{3,}\n", re.M)


def contracts() -> list[tuple[str, Function]]:
    """Every public function of the science layer."""
    return [
        (f"{module.name}.{name}", function)
        for module in modules().values()
        if module.layer == "science" and not module.name.rpartition(".")[2].startswith("_")
        for name, function in module.functions()
        if not name.startswith("_") and "." not in name
    ]


def sections(function: Function) -> dict[str, str]:
    """The docstring's sections by title; the text before the first is under the empty title."""
    parts = SECTION.split(ast.get_docstring(function) or "")
    return {"": parts[0]} | dict(zip(parts[1::2], parts[2::2], strict=True))


def entries(text: str) -> dict[str, str]:
    """The parameters named in a section, each with all that is said of it."""
    found: dict[str, str] = {}
    names: list[str] = []
    for line in text.splitlines():
        match = ENTRY.match(line)
        if match:
            names = match.group(1).split(", ")
        for name in names:
            found[name] = found.get(name, "") + line + "\n"
    return found


def arguments(function: Function) -> list[str]:
    every = function.args
    return [one.arg for one in [*every.posonlyargs, *every.args, *every.kwonlyargs]]


def test_the_names_are_those_of_the_signature() -> None:
    """Same names, same order."""
    wrong = {
        name: (said, arguments(function))
        for name, function in contracts()
        if (said := list(entries(sections(function).get("Parameters", "")))) != arguments(function)
    }
    assert wrong == {}


def test_every_parameter_has_its_unit() -> None:
    """In brackets: ``[degC]``, ``[-]`` for a plain number, ``[see its table]`` for a parameter set."""
    bare = [
        f"{name}: {parameter}"
        for name, function in contracts()
        for parameter, text in entries(sections(function).get("Parameters", "")).items()
        if not UNIT.search(text)
    ]
    assert bare == []


def test_every_physical_argument_is_given_by_name() -> None:
    """Two floats side by side are easily swapped, so they are keyword-only."""
    by_place = [
        f"{name}: {one.arg}"
        for name, function in contracts()
        for one in [*function.args.posonlyargs, *function.args.args]
        if one.annotation is None or PHYSICAL.search(ast.unparse(one.annotation))
    ]
    assert by_place == []


def test_each_says_what_it_returns() -> None:
    """The first part is a sentence, and there is a section Returns."""
    wanting = [
        name
        for name, function in contracts()
        if "Returns" not in sections(function) or not sections(function)[""].strip()
    ]
    assert wanting == []
