"""Writes docs/commands.md from each verb's help and from the dataclass its ``--json`` prints.

A verb's click command carries that dataclass as ``json_type`` (or several, as a tuple). With ``--check``
it only says whether the page on disk is current.
"""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import sys
import types
import typing
from collections.abc import Iterable, Mapping, Sequence
from enum import Enum
from pathlib import Path

import click

from doughwright.figures import UNITS, Figure

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "commands.md"
PLAIN = {str: "text", int: "whole number", float: "number", bool: "true or false", type(None): "null"}

HEAD = f"""\
# Commands

Made by `make docs` from `--help` and from the dataclasses that `--json` prints; do not edit.

Exit status: 0 done (warnings too); 2 the input is wrong; 3 understood, but there is no answer; 1 we are
wrong. Faults go to standard error, and with `--json`, like everything else, to standard output, as
`{{"error": {{"message", "file", "line", "column", "wanted", "found", "try"}}, "faults": [...]}}`.

In JSON a *quantity* is `{{"value": 62.4, "unit": "percent"}}`, with `"low"` and `"high"` (a 90 % interval)
where there is one; an unknown one is `{{"value": null, "unit": ..., "why": ...}}`.
Units: {", ".join(f"`{unit}`" for unit in UNITS)}.
"""


def page() -> str:
    """The whole page."""
    main = importlib.import_module("doughwright.cli").main
    with click.Context(main, info_name="doughwright", max_content_width=100, terminal_width=100) as context:
        lines = [HEAD, "```text", main.get_help(context), "```", ""]
        for name in main.list_commands(context):
            lines += command_part(name, main.get_command(context, name), context)
    return "\n".join(line.rstrip() for line in "\n".join(lines).splitlines()).rstrip() + "\n"


def command_part(name: str, command: click.Command, parent: click.Context) -> list[str]:
    """A verb's heading, its help, its JSON, and its own verbs where it has some."""
    with command.make_context(name, [], parent=parent, resilient_parsing=True) as context:
        lines = [f"## {context.command_path.removeprefix('doughwright ')}", ""]
        lines += ["```text", command.get_help(context), "```", "", *json_part(command)]
        if isinstance(command, click.Group):
            for below in command.list_commands(context):
                found = command.get_command(context, below)
                if found is not None:
                    lines += command_part(below, found, context)
    return lines


def json_part(command: click.Command) -> list[str]:
    """The JSON a verb prints, dataclass by dataclass, those inside after the one that holds them."""
    given = getattr(command, "json_type", None)
    if given is None:
        return []
    waiting = list(given) if isinstance(given, tuple) else [given]
    lines, seen = ["With `--json`:", ""], set()
    while waiting:
        one = waiting.pop(0)
        if one in seen:
            continue
        seen.add(one)
        lines += table(one)
        waiting += [inner for kind in hints(one).values() for inner in inside(kind)]
    return lines


def table(kind: type) -> list[str]:
    """The fields of a dataclass as they are printed."""
    said = " ".join((inspect.getdoc(kind) or "").split("\n\n")[0].split())
    lines = [f"**{kind.__name__}**: {said}", "", "| key | value |", "|---|---|"]
    for field in dataclasses.fields(kind):
        if field.metadata.get("json", True):
            note = field.metadata.get("doc", "")
            text = words(hints(kind)[field.name]) + (f"; {note}" if note else "")
            lines.append(f"| `{field.name.rstrip('_')}` | {text} |")
    return [*lines, ""]


def hints(kind: type) -> Mapping[str, object]:
    """The types of the fields that are printed."""
    every = typing.get_type_hints(kind)
    return {one.name: every[one.name] for one in dataclasses.fields(kind) if one.metadata.get("json", True)}


def inside(kind: object) -> Iterable[type]:
    """The dataclasses that a type holds, quantities left out."""
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        return [] if kind is Figure else [kind]
    return [inner for part in typing.get_args(kind) for inner in inside(part)]


def words(kind: object) -> str:
    """A type in words."""
    origin, parts = typing.get_origin(kind), [one for one in typing.get_args(kind) if one is not Ellipsis]
    if origin in (types.UnionType, typing.Union):
        return " or ".join(dict.fromkeys(words(one) for one in parts))
    if origin is typing.Literal:
        return " or ".join(f"`{one}`" for one in parts)
    if isinstance(origin, type) and issubclass(origin, Mapping):
        return f"object of {words(parts[1])}"
    if isinstance(origin, type) and issubclass(origin, Sequence | set | frozenset):
        return f"list of {' and '.join(dict.fromkeys(words(one) for one in parts))}"
    return one_type(kind)


def one_type(kind: object) -> str:
    """A type without parts, in words."""
    if kind is Figure:
        return "quantity"
    if isinstance(kind, type) and issubclass(kind, Enum):
        return " or ".join(f"`{one.value}`" for one in kind)
    if isinstance(kind, type) and dataclasses.is_dataclass(kind):
        return kind.__name__
    return PLAIN.get(typing.cast(type, kind), getattr(kind, "__name__", str(kind)).lower())


def main() -> int:
    """Write the page, or say whether the one on disk is what would be written."""
    text = page()
    if "--check" not in sys.argv[1:]:
        PAGE.write_text(text, encoding="utf-8")
        print(f"wrote {PAGE.relative_to(ROOT)}")
        return 0
    if not PAGE.exists() or PAGE.read_text(encoding="utf-8") != text:
        print("docs/commands.md is not what --help says; write it anew: make docs")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
