"""From a text to a cook's readings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from doughwright.errors import DocumentError, Fault
from doughwright.kitchen.readings._faults import faults, notes
from doughwright.kitchen.readings.log import Hints, ThermometerLog, load_log
from doughwright.kitchen.readings.model import Log, Readings
from doughwright.recipe.text import Document, parse, read_file, telling
from doughwright.recipe.types import Reading
from doughwright.recipe.validate import Schema, at, in_order


@dataclass(frozen=True)
class ReadingsDocument:
    """Readings with the text they were read from, the logs they name, and what reads oddly."""

    document: Document
    readings: Readings
    notes: tuple[Fault, ...]
    logs: tuple[ThermometerLog, ...] = ()

    @property
    def text(self) -> str:
        """The text as it was read."""
        return self.document.text


@cache
def readings_schema() -> Schema[Readings]:
    """The schema of a readings document."""
    return Schema(Readings)


def is_readings(data: dict[str, object]) -> bool:
    """Whether a parsed text is a cook's readings."""
    return "readings" in data and "mix" not in data


def read_readings(text: str, file: str | None = None) -> ReadingsDocument:
    """Read readings from their text, the logs left out.

    Raises ``DocumentError`` with every fault, each with line, column, what is wanted, found and to write.
    """
    with telling(text):
        document = parse(text, file)
        if not is_readings(document.data) and ("mix" in document.data or "kitchen" in document.data):
            kind = "a recipe" if "mix" in document.data else "a kitchen"
            raise DocumentError(_another(kind, file))
        readings = readings_schema().read(document, Reading())
        found = [at(document, where, fault) for where, fault in faults(readings)]
        if found:
            raise DocumentError(*in_order(found))
    noted = [at(document, where, fault) for where, fault in notes(readings)]
    return ReadingsDocument(document, readings, tuple(in_order(noted)))


def load_readings(path: Path) -> ReadingsDocument:
    """Read readings from a file, and the logs that it names beside it.

    Raises ``InputError`` where a file is not there, else as ``read_readings`` and ``read_log``.
    """
    read = read_readings(read_file(path), str(path))
    logs = tuple(load_log(path.parent / log.file, hints(read.readings, log)) for log in read.readings.logs)
    return ReadingsDocument(read.document, read.readings, read.notes, logs)


def hints(readings: Readings, log: Log) -> Hints:
    """What the document says of a log's file."""
    mixed = readings.mixed
    return Hints(
        zone=log.zone or readings.zone,
        time=log.time,
        column=log.column,
        unit=log.unit,
        order=log.order,
        starts=log.starts.wall if log.starts is not None else None,
        near=mixed.wall if mixed is not None else None,
    )


def _another(kind: str, file: str | None) -> Fault:
    return Fault(
        f"this is {kind}", file=file, line=1, column=1, wanted="a readings document",
        try_='Begin it with schema = 1 and readings = "Leek pie, 28 November"',
    )  # fmt: skip
