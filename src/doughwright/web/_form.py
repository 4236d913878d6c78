"""The form over a document: its fields with what they hold, held before, and what is wrong with them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from doughwright.errors import Fault
from doughwright.recipe.text import Document, Where
from doughwright.web._documents import parsed
from doughwright.web._fields import HOW, Field, fault_at, how_written, name_of, written


@dataclass(frozen=True)
class Form:
    """What fields are made from: the text as it stands, the saved one, and the faults of the first.

    ``open`` is whether the fields may be changed: not where the text has another build than the one shown.
    """

    document: Document
    saved: Document | None
    faults: tuple[Fault, ...] = ()
    open: bool = True

    def field(
        self, where: Where, label: str, *, hint: str = "", size: int | None = None, dotted: bool = False,
        options: tuple[str, ...] = (), labels: tuple[str, ...] = (),
    ) -> Field:  # fmt: skip
        """The field of the value at a path."""
        value = written(self.document, where)
        before = written(self.saved, where) if self.saved is not None else value
        return Field(
            name=name_of(where),
            value=value,
            label=label,
            was=(before or "not said") if before != value else "",
            fault=fault_at(self.document, where, self.faults),
            hint=hint,
            size=max(len(value), size if size is not None else len(hint), 2),
            dotted=dotted,
            options=options,
            labels=labels,
        )

    def how(self, where: Where, label: str) -> Field | None:
        """The field that says how a kitchen's value is known; ``None`` where nothing is written."""
        value = how_written(self.document, where)
        if not value:
            return None
        before = how_written(self.saved, where) if self.saved is not None else value
        was = before if before and before != value else ""
        options = ("known", "measured", "assumed")
        return Field(name_of(where) + HOW, value, label, was=was, options=options)


def form_of(shown: Document, text: str, saved_text: str, faults: tuple[Fault, ...]) -> Form:
    """The form for what is shown; values of the text as it stands where it has the same build."""
    current = shown if text == shown.text else parsed(text)
    saved = parsed(saved_text)
    same = current is not None and build(current) == build(shown)
    document = current if same and current is not None else shown
    against = saved if saved is not None and build(saved) == build(document) else None
    return Form(document, against, faults, open=same)


def build(document: Document) -> tuple[object, ...]:
    """What a form stands on: which mixes with which ingredients, and which steps, in which order."""
    mixes = [(_of(mix, "name"), [_of(line, "item", "mix") for line in _list(mix, "ingredients")])
             for mix in _list(document.data, "mix")]  # fmt: skip
    steps = [_of(step, "do") for step in _list(document.data, "step")]
    named = [
        (kind, [_of(one, "name") for one in _list(document.data, kind)]) for kind in ("surface", "place")
    ]
    return repr(mixes), repr(steps), repr(named)


def _list(table: Any, key: str) -> list[Any]:
    found = table.get(key) if isinstance(table, dict) else None
    return found if isinstance(found, list) else []


def _of(table: Any, *keys: str) -> object:
    return [table.get(key) for key in keys] if isinstance(table, dict) else None
