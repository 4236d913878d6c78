"""What recipes and kitchens share: a posted form changes a window's text, and its button says what then."""

from __future__ import annotations

from dataclasses import replace

from starlette.datastructures import FormData

from doughwright.recipe.text import Document
from doughwright.store import Kind
from doughwright.web._adding import PREFIX as NEW
from doughwright.web._adding import with_items
from doughwright.web._desk import Desk, text_of
from doughwright.web._documents import parsed
from doughwright.web._fields import PREFIX, edited
from doughwright.web._results import read_of
from doughwright.web._windows import Work, checked_window, new_window

VIEWS = ("form", "text")
NOTICES = {
    "old": "This page was older than the window’s text, so its last change was not made. "
    "Here is the text as it stands.",
    "own": "The same window was open twice. What was typed here is kept as a window of its own; "
    "the other still has its text.",
}


def view_of(asked: str | None) -> str:
    """The view that is asked for; the form where none is."""
    return asked if asked in VIEWS else VIEWS[0]


def number_of(given: FormData, name: str) -> int | None:
    """A field that holds a whole number; ``None`` where it holds none."""
    value = text_of(given, name) or ""
    return int(value) if value.isdecimal() and len(value) < 10 else None


def work_of(desk: Desk, kind: Kind, name: str, given: FormData) -> Work:
    """The work of the window that posts."""
    window = checked_window(text_of(given, "window"))
    return desk.windows.work(kind, name, window, number_of(given, "base"))


def applied(desk: Desk, work: Work, given: FormData) -> tuple[Work, str]:
    """The work with what was typed, and a notice ("" where there is none).

    A page of an older text changes nothing; what was typed as text is then kept in a window of its own.
    """
    text = text_of(given, "text")
    if text_of(given, "digest") == work.digest:
        return desk.windows.write(work, _new_text(work, given)), ""
    if text is None or text == work.text:
        return work, "old"
    return desk.windows.write(replace(work, window=new_window()), text), "own"


def _new_text(work: Work, given: FormData) -> str:
    """The window's text with what was typed; fields change nothing in a text that is no TOML."""
    text = text_of(given, "text")
    if text is not None:
        return text.replace("\n", "\r\n") if "\r\n" in work.text else text
    fields = {name: value for name, value in given.items() if isinstance(value, str)}
    document = _document(work) if any(name.startswith((PREFIX, NEW)) for name in fields) else None
    return with_items(edited(document, fields), fields) if document is not None else work.text


def _document(work: Work) -> Document | None:
    """The document of the window's text, as it was read already where it could be."""
    read = read_of(work.text, work.name) if work.kind == "recipe" else None
    return read.document if read is not None else parsed(work.text)


def after_wish(desk: Desk, work: Work, wish: str | None, given: FormData) -> Work:
    """What a button asks for, done: save, put the last edit back, drop all unsaved work, bring one back.

    Raises ``ConflictError`` where another window has saved meanwhile.
    """
    match wish:
        case "save":
            note = " ".join((text_of(given, "note") or "").split())
            over = number_of(given, "over") or work.base.number
            desk.bench.save(work.kind, work.name, work.text, expected=over, note=note)
            desk.windows.forget(work)
        case "put-back":
            return desk.windows.put_back(work)
        case "drop":
            desk.windows.forget(work)
        case "undo":
            desk.bench.undo(work.kind, work.name, expected=work.base.number)
            desk.windows.forget(work)
        case "bring":
            version = desk.bench.version(work.kind, work.name, number_of(given, "number") or 0)
            return desk.windows.write(work, version.text)
        case _:
            return work
    return desk.windows.work(work.kind, work.name, work.window)
