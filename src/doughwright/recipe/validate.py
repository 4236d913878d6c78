"""A parsed text against its dataclass: every fault at once, each at its place."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from typing import Any, Generic, TypeVar

from pydantic import TypeAdapter, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from doughwright.errors import DocumentError, Fault, did_you_mean, placed
from doughwright.recipe.text import Document, Where
from doughwright.recipe.types import shown

T = TypeVar("T")


class Schema(Generic[T]):
    """What a kind of document may hold: its dataclass, and the keys of each of its tables."""

    def __init__(self, kind: type[T]) -> None:
        self.adapter = TypeAdapter(kind)
        self.keys = keys_of(kind)

    def read(self, document: Document, context: object) -> T:
        """The document as its dataclass; raise ``DocumentError`` with every fault, in order."""
        try:
            return self.adapter.validate_python(document.data, context=context, by_alias=True, by_name=False)
        except ValidationError as error:
            details = [one for one in error.errors(include_url=False) if not _echo(one)]
            faults = [self._fault(one, document) for one in details]
            raise DocumentError(*in_order(faults)) from error

    def _fault(self, details: ErrorDetails, document: Document) -> Fault:
        where = _real(details["loc"], document.data)
        kind = details["type"]
        if kind == "doughwright":
            return at(document, where, details["ctx"]["fault"])
        if kind in ("unexpected_keyword_argument", "extra_forbidden"):
            return at(document, where, self._unknown_key(where), key=True)
        maker = FAULTS.get(kind, _other)
        return at(document, where[:-1] if kind.startswith("missing") else where, maker(details, where))

    def _unknown_key(self, where: Where) -> Fault:
        keys = self.keys.get(_table(where), ())
        near = did_you_mean(str(where[-1]), keys)
        return Fault(
            "", wanted="a key that is known", found=shown(str(where[-1])),
            try_=near or "The keys here are: " + ", ".join(keys),
        )  # fmt: skip


def _echo(details: ErrorDetails) -> bool:
    """Whether a list is called too short only because what is in it has faults of its own."""
    return details["type"] == "too_short" and bool(details["input"])


def in_order(faults: list[Fault]) -> list[Fault]:
    """Faults in the order of the text, each once."""
    return sorted(dict.fromkeys(faults), key=lambda fault: (fault.line or 0, fault.column or 0))


def at(document: Document, where: Where, fault: Fault, *, key: bool = False) -> Fault:
    """A fault at the place of a value (or its key), with the name of the thing it is about."""
    line, column = document.place(where, key=key)
    name = named(where)
    message = f"{name}: {fault.message}" if fault.message and name else fault.message or name
    return placed(dataclasses.replace(fault, message=message), file=document.file, line=line, column=column)


def named(where: Where) -> str:
    """A path as a cook would say it: ``step 4 "for"``, ``mix 2, ingredient 3 "amount"``."""
    things: list[str] = []
    for index, part in enumerate(where):
        if isinstance(part, int):
            things[-1] = f"{things[-1]} {part + 1}"
        elif index + 1 < len(where) and isinstance(where[index + 1], int):
            things.append(SINGULAR.get(part, part))
        elif things and index + 1 == len(where):
            things[-1] = f'{things[-1]} "{part}"'
        else:
            things.append(part if index + 1 < len(where) else f'"{part}"')
    return ", ".join(things)


SINGULAR = {"ingredients": "ingredient", "ingredient": "own ingredient", "heights": "height"}


def _real(loc: tuple[int | str, ...], data: Any) -> Where:
    """The part of pydantic's path that is a path of the document (a missing or unknown key included)."""
    where: list[int | str] = []
    for part in loc:
        where.append(part)
        try:
            data = data[part]
        except (KeyError, IndexError, TypeError):
            break
    return tuple(where)


def _missing(details: ErrorDetails, where: Where) -> Fault:
    key = str(where[-1])
    return Fault(f'"{key}" is missing', wanted=f'the key "{key}"', try_=EXAMPLES.get(key))


def _choice(details: ErrorDetails, where: Where) -> Fault:
    names = [part.strip("' ") for part in _expected(details).replace(" or ", ", ").split(", ")]
    found = details["input"]
    near = did_you_mean(found, names) if isinstance(found, str) else None
    wanted = names[0] if len(names) == 1 else "one of " + ", ".join(names)
    return Fault("", wanted=wanted, found=shown(found), try_=near)


def _expected(details: ErrorDetails) -> str:
    return str(details.get("ctx", {}).get("expected", ""))


def _wants(wanted: str, try_: str | None = None) -> Callable[[ErrorDetails, Where], Fault]:
    def make(details: ErrorDetails, where: Where) -> Fault:
        example = try_ or EXAMPLES.get(str(where[-1]))
        return Fault("", wanted=wanted, found=shown(details["input"]), try_=example)

    return make


def _table_wanted(details: ErrorDetails, where: Where) -> Fault:
    name = next((str(part) for part in reversed(where) if isinstance(part, str)), "")
    repeated = name in TABLES_OF_MANY or where == ("temperature",)
    header = f"[[{name}]]" if repeated else f"[{name}]"
    return Fault(
        "", wanted=f"a table {header}", found=shown(details["input"]), try_=f"Begin it with {header}"
    )


def _other(details: ErrorDetails, where: Where) -> Fault:
    return Fault(details["msg"][:1].lower() + details["msg"][1:], found=shown(details["input"]))


TABLES_OF_MANY = ("mix", "step", "ingredient", "surface", "place", "jar", "log")

FAULTS: dict[str, Callable[[ErrorDetails, Where], Fault]] = {
    "missing": _missing,
    "missing_argument": _missing,
    "literal_error": _choice,
    "bool_type": _wants("true or false", "Write true or false, without quotes"),
    "bool_parsing": _wants("true or false", "Write true or false, without quotes"),
    "tuple_type": _table_wanted,
    "dataclass_type": _table_wanted,
    "too_short": _wants("at least one [[mix]]"),
}

EXAMPLES = {
    "schema": "Write schema = 1",
    "title": 'Write for example title = "Leek pie"',
    "kitchen": 'Write for example kitchen = "Boathouse"',
    "mix": 'Begin one with [[mix]] and name = "dough"',
    "name": 'Write for example name = "dough"',
    "do": 'Write for example do = "bulk"',
    "source": 'Write where the figures are from: source = "the packet"',
    "temperature": 'Write for example temperature = "5 °C"',
    "equipment": 'Write for example equipment = ["peel", "steel"]',
    "readings": 'Write for example readings = "Leek pie, 28 November"',
    "heights": 'Write heights = [ { when = "2 h", height = "38 mm" } ]',
    "when": 'Write for example when = "1 h 30 min"',
    "file": 'Write for example file = "fridge.csv"',
    "tags": 'Write for example tags = ["pie"]',
}


def _table(where: Where) -> str:
    """The table a key stands in: ``mix.ingredients`` for ``("mix", 0, "ingredients", 2, "x")``."""
    return ".".join(part for part in where[:-1] if isinstance(part, str))


def keys_of(kind: Any, table: str = "") -> dict[str, tuple[str, ...]]:
    """The keys of a document's dataclass and of all tables in it, by the table's dotted name."""
    fields: dict[str, FieldInfo] = kind.__pydantic_fields__
    names = {key_of(name, info): info for name, info in fields.items()}
    keys = {table: tuple(names)}
    for name, info in names.items():
        inner = _dataclass_in(info.annotation)
        if inner is not None:
            keys |= keys_of(inner, f"{table}.{name}".strip("."))
    return keys


def key_of(name: str, info: FieldInfo) -> str:
    """The key of a field as a document writes it."""
    return str(info.validation_alias) if info.validation_alias else name


def _dataclass_in(annotation: Any) -> Any:
    if hasattr(annotation, "__pydantic_fields__"):
        return annotation
    for inner in getattr(annotation, "__args__", ()):
        found = _dataclass_in(inner)
        if found is not None:
            return found
    return None
