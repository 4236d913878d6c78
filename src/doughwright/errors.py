"""The one error tree of Doughwright.

DoughwrightError
├── InputError (ValueError)            the input is wrong                   exit 2
│   ├── QuantityError                  a text is not the quantity wanted
│   ├── OutOfRangeError                a number is beyond what is known
│   ├── UnknownNameError (LookupError) a name nobody has
│   └── DocumentError                  a document with one or more faults
├── NoAnswerError (LookupError)        understood, but there is no answer   exit 3
└── MissingPartError (ImportError)     an optional part is not installed    exit 1
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong: what, where, what is wanted, what was found and what to write.

    ``line`` and ``column`` count from 1; ``None`` where there is no place to point at.
    """

    message: str
    file: str | None = None
    line: int | None = None
    column: int | None = None
    wanted: str | None = None
    found: str | None = None
    try_: str | None = None

    def __str__(self) -> str:
        """Say it in one line: ``pie.toml:21:30: step 4 "for": needs a time, found "-5". Write ...``."""
        where = ":".join(str(part) for part in (self.file, self.line, self.column) if part is not None)
        return (f"{where}: " if where else "") + self.sentence

    @property
    def sentence(self) -> str:
        """The fault without its place."""
        text = self.message
        if self.wanted:
            text += f": needs {self.wanted}"
        if self.found is not None:
            text += f", found {self.found}"
        return " ".join(_ended(part) for part in (text, self.try_) if part)

    def to_json(self) -> dict[str, object]:
        """The fault as DESIGN 4 prints it."""
        return {
            "message": self.message,
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "wanted": self.wanted,
            "found": self.found,
            "try": self.try_,
        }


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."


def _pointed(fault: Fault, text: str | None) -> str:
    """The line of a fault with a caret under its column, on lines of their own."""
    lines = text.removeprefix("\ufeff").split("\n") if text is not None else []
    if fault.line is None or fault.column is None or fault.line > len(lines):
        return ""
    line = lines[fault.line - 1].rstrip("\r")
    start = max(0, fault.column - 1 - WIDEST // 2)
    seen = "".join(" " if ord(character) < 32 else character for character in line[start : start + WIDEST])
    return f"\n    {seen}\n    {' ' * (fault.column - 1 - start)}^"


WIDEST = 96


class DoughwrightError(Exception):
    """Whatever goes wrong in Doughwright; ``faults`` holds each thing that is wrong, at least one.

    ``text`` is the text that the places of the faults are in, where it is at hand.
    """

    exit_code = 1

    def __init__(self, *faults: Fault | str) -> None:
        made = [Fault(fault) if isinstance(fault, str) else fault for fault in faults]
        self.faults: tuple[Fault, ...] = tuple(made) or (Fault("something went wrong"),)
        self.text: str | None = None
        super().__init__("\n".join(str(fault) for fault in self.faults))

    @property
    def fault(self) -> Fault:
        """The first fault."""
        return self.faults[0]

    def in_words(self) -> str:
        """Every fault in words, each with its line and a caret where the text is at hand."""
        return "\n".join(f"{fault}{_pointed(fault, self.text)}" for fault in self.faults)

    def to_json(self) -> dict[str, object]:
        """The error as DESIGN 4 prints it: the first fault under ``error``, all of them under ``faults``."""
        return {"error": self.fault.to_json(), "faults": [fault.to_json() for fault in self.faults]}


class InputError(DoughwrightError, ValueError):
    """The input is wrong."""

    exit_code = 2


class QuantityError(InputError):
    """A text is not the quantity that is wanted."""


class OutOfRangeError(InputError):
    """A number is beyond the range in which a model or a table is known."""


class UnknownNameError(InputError, LookupError):
    """A name that nothing has."""


class DocumentError(InputError):
    """A document with one or more faults."""


class NoAnswerError(DoughwrightError, LookupError):
    """The question is understood, but there is no answer: no such plan, not enough readings."""

    exit_code = 3


class MissingPartError(DoughwrightError, ImportError):
    """An optional part of Doughwright is not installed."""


def did_you_mean(name: str, names: Iterable[str]) -> str | None:
    """A sentence naming the nearest of ``names``, or ``None`` where nothing is near."""
    near = difflib.get_close_matches(name.casefold(), list(names), n=3, cutoff=0.6)
    return "Did you mean " + " or ".join(f'"{one}"' for one in near) + "?" if near else None


def placed(fault: Fault, *, file: str | None, line: int | None = None, column: int | None = None) -> Fault:
    """The same fault at a place; what it already says of its place stays."""
    return replace(
        fault,
        file=fault.file or file,
        line=fault.line if fault.line is not None else line,
        column=fault.column if fault.column is not None else column,
    )
