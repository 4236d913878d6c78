"""Fields of a form and values of a document: each field is named after the path of its value.

``f:mix.1.ingredients.3.amount`` is the amount of the fourth ingredient of the second mix. What the cook
leaves as it was changes no character of the text.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from doughwright.errors import Fault
from doughwright.recipe.edit import Change, edit, literal
from doughwright.recipe.text import Document, Where
from doughwright.web._documents import document_of

PREFIX = "f:"
HOW = ":how"
# Keys that a document writes as a whole number.
_COUNTS = ("pieces", "portions")
_PART = re.compile(r"[a-z_]{1,40}|\d{1,4}")
# A number alone keeps the unit that stood there; so does a range.
_NUMBER = r"[+\-−]?[\d½¼¾⅓⅔⅛][\d.,/ ½¼¾⅓⅔⅛]*"
_BARE = re.compile(rf"{_NUMBER}(?:(?:to|-|–) ?{_NUMBER})?")
_UNIT = re.compile(r"[^\d½¼¾⅓⅔⅛]+$")


@dataclass(frozen=True, slots=True)
class Field:
    """A field on the page: its name, the value as the document writes it, and what is wrong with it.

    ``label`` says item, mix and unit to those who do not see the table; ``was`` is the saved value where
    it is another; ``hint`` what is assumed where nothing is written. ``labels`` are the
    words of the ``options``, where those are not words themselves.
    """

    name: str
    value: str
    label: str
    was: str = ""
    fault: str = ""
    hint: str = ""
    size: int = 8
    dotted: bool = False
    options: tuple[str, ...] = ()
    labels: tuple[str, ...] = ()

    @property
    def always(self) -> bool:
        """Whether one of its options has to be chosen: how a value is known."""
        return self.name.endswith(HOW)

    @property
    def id(self) -> str:
        """Its id on the page."""
        return "field-" + re.sub(r"[^a-z0-9]+", "-", self.name.casefold())


def name_of(where: Where) -> str:
    """The name of the field that shows the value at a path."""
    return PREFIX + ".".join(str(part) for part in where)


def path_of(name: str) -> Where | None:
    """The path that a field's name means; ``None`` where it is no such name."""
    parts = name.removeprefix(PREFIX).removesuffix(HOW).split(".")
    if not name.startswith(PREFIX) or len(parts) > 8 or not all(_PART.fullmatch(part) for part in parts):
        return None
    return tuple(int(part) if part.isdecimal() else part for part in parts)


def written(document: Document, where: Where) -> str:
    """The value at a path as the form shows it; empty where nothing is written."""
    thing: Any = document.data
    for part in where:
        try:
            thing = thing[part]
        except (KeyError, IndexError, TypeError):
            return ""
    if isinstance(thing, dict):
        thing = thing.get("value", "")
    return _plain(thing)


def how_written(document: Document, where: Where) -> str:
    """How a kitchen's document says that a value is known; empty where it says nothing of it."""
    thing: Any = document.data
    for part in where:
        thing = thing.get(part) if isinstance(thing, dict) else None
    return str(thing.get("how", "known")) if isinstance(thing, dict) else "known" if thing else ""


def _plain(thing: object) -> str:
    if isinstance(thing, bool):
        return "yes" if thing else "no"
    return str(thing) if isinstance(thing, str | int | float) else ""


def edited(document: Document, posted: Mapping[str, str]) -> str:
    """The document's text with every value that the form shows otherwise than the text does."""
    text = document.text
    for where, value in list(_changes(document, posted)):
        text = _set(document if text == document.text else document_of(text), where, value)
    hows = {name: value for name, value in posted.items() if name.endswith(HOW)}
    for where, how in _hows(document_of(text), hows) if hows else ():
        text = _set_how(text, where, how)
    return text


def _changes(document: Document, posted: Mapping[str, str]) -> Iterator[tuple[Where, str]]:
    for name, value in posted.items():
        where = path_of(name)
        if where is None or name.endswith(HOW):
            continue
        old, new = written(document, where), " ".join(value.split())
        if new != " ".join(old.split()):
            yield where, _with_unit(old, new)


def _with_unit(old: str, new: str) -> str:
    """A number alone, written over a quantity, keeps the quantity's unit."""
    unit = _UNIT.search(old)
    bare_before = _BARE.fullmatch(old.strip())
    if new and unit and not bare_before and _BARE.fullmatch(new) and old[:1].isnumeric():
        return new.rstrip() + unit[0]
    return new


def _set(document: Document, where: Where, value: str) -> str:
    if not value:
        return _removed(document, where)
    table = where[:-1]
    if len(table) == 1 and isinstance(table[0], str) and table[0] not in document.data:
        document = document_of(_with_table(document.text, table[0]))
    inline = document.values.get((*where, "value"))
    target = (*where, "value") if inline is not None else where
    return edit(document, [Change(target, _typed(where, value))])


def _typed(where: Where, value: str) -> str | int | bool:
    if where[-1] in _COUNTS and value.isdecimal() and len(value) < 10:
        return int(value)
    if where[-1] == "fan" and value in ("yes", "no"):
        return value == "yes"
    return value


def _with_table(text: str, name: str) -> str:
    """The text with an empty table at its end."""
    newline = "\r\n" if "\r\n" in text else "\n"
    gap = "" if text.endswith("\n") else newline
    return f"{text}{gap}{newline}[{name}]{newline}"


def _removed(document: Document, where: Where) -> str:
    """The text without a key: its whole line where the key stands alone on it, else an empty value."""
    key, value = document.keys.get(where), document.values.get(where)
    if key is None or value is None:
        return document.text
    text = document.text
    start = text.rfind("\n", 0, key.start) + 1
    end = text.find("\n", value.end)
    end = len(text) if end < 0 else end + 1
    alone = not text[start : key.start].strip() and text[value.end : end].strip()[:1] in ("", "#")
    if alone and where[-1] != "amount":
        return text[:start] + text[end:]
    return edit(document, [Change(where, "")])


def _hows(document: Document, posted: Mapping[str, str]) -> Iterator[tuple[Where, str]]:
    for name, value in posted.items():
        where = path_of(name)
        if where is None or value not in ("known", "measured", "assumed"):
            continue
        before = how_written(document, where)
        if before and before != value:
            yield where, value


def _set_how(text: str, where: Where, how: str) -> str:
    """The text with how a value is known: a plain value becomes a small table."""
    document = document_of(text)
    if (*where, "value") in document.values:
        return edit(document, [Change((*where, "how"), how)])
    span = document.values.get(where)
    if span is None:
        return text
    plain = text[span.start : span.end]
    return f"{text[: span.start]}{{ value = {plain}, how = {literal(how)} }}{text[span.end :]}"


def fault_at(document: Document, where: Where, faults: tuple[Fault, ...]) -> str:
    """What is wrong with the value at a path, in words; empty where nothing is."""
    span = document.values.get(where) or document.keys.get(where)
    if span is None:
        return ""
    place = document.line_column(span.start)
    return " ".join(fault.sentence for fault in faults if (fault.line, fault.column) == place)
