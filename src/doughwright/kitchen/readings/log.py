"""A thermometer's log: the table that any logger writes, to moments and degrees.

The table is found in the file, its columns by name, its times by what they can mean together; what cannot
be told is refused with both meanings named, never guessed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from statistics import median
from typing import Literal

from doughwright.errors import DocumentError, Fault, InputError
from doughwright.kitchen.readings import _columns, _moments, _stamps, _table
from doughwright.kitchen.readings._celsius import Wrong, degrees_of
from doughwright.units import format_time

Clock = Literal["utc", "wall", "elapsed"]

MOST_BYTES = 20_000_000
MOST_WRONG = 0.5


@dataclass(frozen=True, slots=True)
class Hints:
    """What is known of a log beside its file: columns by name, unit, order of a date, zone and dates.

    ``starts`` and ``near`` are a date and time as a clock shows it [s as if UTC]: of the first row, and of
    something that happened about when the log was kept.
    """

    zone: str | None = None
    time: str | None = None
    column: str | None = None
    unit: str | None = None
    order: str | None = None
    starts: float | None = None
    near: float | None = None


@dataclass(frozen=True, slots=True)
class ThermometerLog:
    """Temperatures over time, in order: ``times`` [s] and ``degrees`` [degC], of one length.

    ``clock`` says what the times are: "utc" (since 1970), "wall" (as a clock without a known zone shows
    them) or "elapsed" (since the first row). ``notes`` say what was left out, put right or assumed.
    """

    times: tuple[float, ...]
    degrees: tuple[float, ...]
    clock: Clock
    notes: tuple[str, ...] = ()
    file: str | None = None


def load_log(path: Path, hints: Hints | None = None) -> ThermometerLog:
    """Read a log from its file; ``InputError`` where there is none, else as ``read_log``."""
    name = str(path)
    try:
        size = path.stat().st_size
        raw = path.read_bytes() if size <= MOST_BYTES else b""
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        fault = Fault(f"cannot read it ({reason})", file=name, wanted="a thermometer's log")
        raise InputError(fault) from error
    if size > MOST_BYTES:
        wanted, found = f"a log of at most {MOST_BYTES:,} bytes", f"{size:,}"
        raise DocumentError(Fault("the log is too long", file=name, wanted=wanted, found=found))
    return read_log(raw, name, hints)


def read_log(raw: bytes, file: str | None = None, hints: Hints | None = None) -> ThermometerLog:
    """Read a log from its bytes.

    Raises ``DocumentError`` with line, column, what is wanted, what was found and what to write.
    """
    given = hints or Hints()
    table = _table.find_table(_table.text_of(raw, file), file, _asked(given))
    columns = _columns.choose(table, time=given.time, column=given.column, unit=given.unit)
    kept, stamps, degrees, notes = _rows(table, columns)
    asked = _moments.Asked(given.zone, given.order, given.starts, given.near)
    moments = _moments.moments(table, columns, stamps, kept, asked)
    times, values, more = _in_order(moments.times, degrees, table, kept)
    all_notes = [*columns.notes, *notes, *moments.notes, *more, *_gaps(times)]
    return ThermometerLog(times, values, moments.clock, tuple(dict.fromkeys(all_notes)), file)


def _asked(hints: Hints) -> tuple[str, ...]:
    return tuple(name for name in (hints.time, hints.column) if name is not None)


def _rows(
    table: _table.Table, columns: _columns.Columns
) -> tuple[list[int], list[_stamps.Stamp], list[float], list[str]]:
    """The rows that have a time and a temperature; raises where too few have."""
    kept: list[int] = []
    stamps: list[_stamps.Stamp] = []
    degrees: list[float] = []
    wrong: list[tuple[int, str]] = []
    untimed: list[int] = []
    for index in range(len(table.rows)):
        stamp = _stamps.read_stamp(table.cells(index, columns.times), columns.meaning)
        value = degrees_of(table.cell(index, columns.degrees), columns.unit_at(table, index), columns.decimal)
        if isinstance(value, Wrong):
            wrong.append((index, value.found))
        elif stamp is None:
            untimed.append(index)
        else:
            kept.append(index)
            stamps.append(stamp)
            degrees.append(value)
    _enough(table, columns, kept, wrong, untimed)
    notes = [_left_out(table, [one for one, _ in wrong], "no temperature")] if wrong else []
    notes += [_left_out(table, untimed, "no time")] if untimed else []
    kept, stamps, degrees, woke = _woken(kept, stamps, degrees)
    return kept, stamps, degrees, notes + woke


def _left_out(table: _table.Table, rows: Sequence[int], lacks: str) -> str:
    many = f"{len(rows)} rows" if len(rows) > 1 else "a row"
    verb = "have" if len(rows) > 1 else "has"
    return f"{many} that {verb} {lacks} left out, the first on line {table.line(rows[0])}"


def _enough(
    table: _table.Table,
    columns: _columns.Columns,
    kept: Sequence[int],
    wrong: Sequence[tuple[int, str]],
    untimed: Sequence[int],
) -> None:
    rows = len(table.rows)
    if kept and len(wrong) <= MOST_WRONG * rows and len(untimed) <= MOST_WRONG * rows:
        return
    if len(untimed) >= len(wrong) and untimed:
        column = columns.times[0]
        raise table.refuse(
            untimed[0], column, "a time", table.cell(untimed[0], column), _stamps.FORMS,
        )  # fmt: skip
    if wrong:
        index, found = wrong[0]
        raise table.refuse(
            index, columns.degrees, "a temperature in at least half of the rows", found,
            "See whether the sensor was connected, or name the column: column = \"Probe 1\"",
        )  # fmt: skip
    raise table.refuse(0, 0, "rows with a time and a temperature", "none", "See what the file holds")


def _woken(
    kept: list[int], stamps: list[_stamps.Stamp], degrees: list[float]
) -> tuple[list[int], list[_stamps.Stamp], list[float], list[str]]:
    """Leave out 85 °C exactly, what a common digital sensor says before its first conversion."""
    good = [one for one in degrees if one != 85.0]
    if len(good) == len(degrees) or not good or median(good) > 55.0:
        return kept, stamps, degrees, []
    keep = [index for index, one in enumerate(degrees) if one != 85.0]
    note = f"{len(degrees) - len(keep)} rows at 85 °C exactly left out: a sensor that had not measured yet"
    return [kept[i] for i in keep], [stamps[i] for i in keep], [degrees[i] for i in keep], [note]


def _in_order(
    times: Sequence[float], degrees: Sequence[float], table: _table.Table, kept: Sequence[int]
) -> tuple[tuple[float, ...], tuple[float, ...], list[str]]:
    """Rows in order of time; those of one moment as one, their mean."""
    order = sorted(range(len(times)), key=lambda index: times[index])
    notes: list[str] = []
    if order != list(range(len(times))):
        first = next(index for index, one in enumerate(order) if one != index)
        notes.append(f"rows put in order of time, from line {table.line(kept[first])} on")
    found: list[tuple[float, list[float]]] = []
    for index in order:
        if found and times[index] == found[-1][0]:
            found[-1][1].append(degrees[index])
        else:
            found.append((times[index], [degrees[index]]))
    doubles = len(times) - len(found)
    if doubles:
        apart = max(max(values) - min(values) for _, values in found)
        said = f"{doubles} rows have the time of another: taken as one"
        notes.append(said + (f", their mean ({apart:.1f} K apart at most)" if apart > 0.0 else ""))
    return tuple(one for one, _ in found), tuple(sum(v) / len(v) for _, v in found), notes


def _gaps(times: Sequence[float]) -> list[str]:
    """A note where the log is silent for long: what it says there is not known."""
    steps = [after - before for before, after in pairwise(times)]
    if not steps:
        return []
    usual = median(steps)
    gaps = [step for step in steps if step > max(4.0 * usual, 1800.0)]
    if not gaps:
        return []
    many = "a gap" if len(gaps) == 1 else f"{len(gaps)} gaps"
    return [f"{many} in the log, the longest of {format_time(max(gaps))}"]
