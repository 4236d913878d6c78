"""Which columns of a log are its time and its temperature, and in what unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.errors import DocumentError, did_you_mean
from doughwright.kitchen.readings._celsius import number_of, unit_word
from doughwright.kitchen.readings._names import (
    is_elapsed,
    is_temperature,
    is_time,
    time_unit,
    unit_in,
    words,
    zone_in,
)
from doughwright.kitchen.readings._stamps import Meaning, read_stamp
from doughwright.kitchen.readings._table import Table

LOOKED_AT = 60
"""How many rows are looked at to tell what a column holds."""

UNIT_NAMES = frozenset(
    ("unit", "units", "einheit", "unité", "unités", "unidad", "unità", "eenheid", "enhed", "enhet")
)


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns chosen: of the time (a date and a time may be two), of the degrees, and what they mean."""

    times: tuple[int, ...]
    degrees: int
    meaning: Meaning
    unit: str | None
    unit_column: int | None
    decimal: str
    offset: float | None
    notes: tuple[str, ...]

    def unit_at(self, table: Table, index: int) -> str | None:
        """The unit of a row: the column's own, else the one in its column of units."""
        if self.unit is not None or self.unit_column is None:
            return self.unit
        return unit_word(table.cell(index, self.unit_column))


def choose(table: Table, *, time: str | None, column: str | None, unit: str | None) -> Columns:
    """The columns by their names or, without names, by what they hold.

    Raises ``DocumentError`` where several could be meant, or none.
    """
    if not table.rows:
        raise table.refuse_header("rows below the headings", "none", "See whether the logger had started")
    _not_split(table)
    notes: list[str] = []
    times, meaning = _times(table, time, notes)
    degrees = _degrees(table, times, column, notes)
    decimal = _decimal(table, degrees)
    said, unit_column = _unit(table, degrees, decimal, unit)
    offset = next((one for index in times if (one := zone_in(table.name(index))) is not None), None)
    return Columns(times, degrees, meaning, said, unit_column, decimal, offset, tuple(notes))


def _not_split(table: Table) -> None:
    """Refuse rows with more cells than headings: a decimal comma among commas has cut the numbers in two."""
    wide = len(table.header)
    over = [i for i, row in enumerate(table.rows) if len(row) > wide and row[wide].strip().isdigit()]
    if table.mark == "," and wide and 2 * len(over) > len(table.rows):
        raise table.refuse(
            over[0], wide, f"{wide} cells in a row of {wide} headings", ",".join(table.rows[over[0]]),
            "Export it with semicolons between the columns, or with a decimal point",
        )  # fmt: skip


def _sample(table: Table, column: int) -> list[str]:
    cells = [table.cell(index, column) for index in range(min(LOOKED_AT, len(table.rows)))]
    return [one for one in cells if one]


def _width(table: Table) -> int:
    return max(len(table.header), *(len(row) for row in table.rows[:LOOKED_AT]))


def _named(table: Table, name: str) -> int:
    """The column of this name; raises where there is none."""
    wanted = " ".join(name.split()).casefold()
    names = [table.name(index) for index in range(_width(table))]
    for index, one in enumerate(names):
        if wanted in (" ".join(one.split()).casefold(), f"column {index + 1}"):
            return index
    near = did_you_mean(name, names) or f"The columns are: {', '.join(names)}"
    raise table.refuse_header(f'the column "{name}"', "no such column", near)


def _meaning(table: Table, column: int) -> Meaning:
    name = table.name(column) if table.header else ""
    return Meaning(
        time_unit(name), is_elapsed(name) or (_numbers(table, column) and time_unit(name) is not None)
    )


def _numbers(table: Table, column: int) -> bool:
    cells = _sample(table, column)
    return bool(cells) and all(one.replace(".", "", 1).replace(",", "", 1).isdigit() for one in cells)


def _holds(table: Table, column: int) -> str | None:
    """What most cells of a column are: a full time, a date, a clock's time or time elapsed."""
    found: dict[str, int] = {}
    cells = _sample(table, column)
    for cell in cells:
        stamp = read_stamp(cell, _meaning(table, column))
        if stamp is not None:
            kind = stamp.kind if ":" in cell or stamp.kind != "wall" or cell.isdigit() else _date(cell)
            found[kind] = found.get(kind, 0) + 1
    best = max(found, key=lambda kind: found[kind], default=None)
    return best if best is not None and 2 * found[best] >= len(cells) else None


def _date(cell: str) -> str:
    """A date alone, or a date with a time that has no colon in it."""
    return "wall" if " " in cell.strip() and any(one in cell for one in ".hH") and len(cell) > 11 else "date"


def _times(table: Table, asked: str | None, notes: list[str]) -> tuple[tuple[int, ...], Meaning]:
    if asked is not None:
        index = _named(table, asked)
        return (index,), _meaning(table, index)
    every = range(_width(table))
    candidates = [one for one in every if is_time(table.name(one))] if table.header else list(every)
    kinds = {one: kind for one in candidates if (kind := _holds(table, one)) is not None}
    if not table.header:
        kinds = {one: kind for one, kind in kinds.items() if not (_numbers(table, one) and kind == "wall")}
    for wanted in ("utc", "wall"):
        full = [one for one, kind in kinds.items() if kind == wanted]
        if full:
            notes += [f'the time is taken from "{table.name(full[0])}"'] if len(full) > 1 else []
            return (full[0],), _meaning(table, full[0])
    dates = [one for one, kind in kinds.items() if kind == "date"]
    clocks = [one for one, kind in kinds.items() if kind == "clock"]
    if dates and clocks:
        return (dates[0], clocks[0]), Meaning()
    for some in ([one for one, kind in kinds.items() if kind == "elapsed"], clocks, dates):
        if some:
            return (some[0],), _meaning(table, some[0])
    raise _no_time(table, candidates)


def _no_time(table: Table, candidates: Sequence[int]) -> DocumentError:
    if candidates and table.header:
        column = candidates[0]
        found = next(iter(_sample(table, column)), "")
        return table.refuse(
            0, column, "times that can be read", found,
            'Write them as "2026-11-28 18:05"; for numbers, say the unit in the heading: "Time (s)"',
        )  # fmt: skip
    names = ", ".join(table.name(one) for one in range(_width(table)))
    return table.refuse_header(
        "a column of times", f'"{names[:60]}"', 'Name it in the [[log]]: time = "Time"'
    )


def _degrees(table: Table, times: Sequence[int], asked: str | None, notes: list[str]) -> int:
    if asked is not None:
        return _named(table, asked)
    every = [one for one in range(_width(table)) if one not in times]
    found = [one for one in every if is_temperature(table.name(one))] if table.header else every
    full = [one for one in found if _mostly_numbers(table, one)]
    found = full or (found if table.header else [])
    if len(found) > 1 and len({unit_in(table.name(one)) for one in found}) == len(found):
        found = _one_quantity(table, found)
        notes.append(f'the temperature is taken from "{table.name(found[0])}"')
    if len(found) == 1:
        return found[0]
    names = ", ".join(f'"{table.name(one)}"' for one in found or every)
    wanted = "one column of temperatures"
    try_ = f'Name it in the [[log]]: column = "{table.name((found or every or [0])[0])}"'
    raise table.refuse_header(wanted, f"{len(found)}: {names}" if found else f"none among {names}", try_)


def _one_quantity(table: Table, found: list[int]) -> list[int]:
    """One of several columns that give the same temperature in different units; all where they do not."""
    units = {unit_in(table.name(one)): one for one in found}
    plain = {tuple(one for one in words(table.name(column)) if not unit_word(one)) for column in found}
    return [units["°C"]] if "°C" in units and None not in units and len(plain) == 1 else found


def _mostly_numbers(table: Table, column: int) -> bool:
    cells = _sample(table, column)
    good = sum(_a_number(one) for one in cells)
    return bool(cells) and 2 * good >= len(cells)


def _a_number(cell: str) -> bool:
    found = number_of(cell, ".") or number_of(cell, ",")
    return found is not None and (not found[1] or unit_word(found[1]) is not None)


def _decimal(table: Table, column: int) -> str:
    """The sign before the decimals: the comma where cells have one, and no point."""
    cells = [table.cell(index, column) for index in range(len(table.rows))]
    commas = sum("," in one for one in cells)
    return "," if commas and not any("." in one for one in cells) else "."


def _unit(table: Table, column: int, decimal: str, asked: str | None) -> tuple[str | None, int | None]:
    """The unit asked for, else of the heading, of a column of units, of each cell, of the lines above."""
    said = asked or unit_in(table.name(column))
    if said is not None:
        return said, None
    unit_columns = [i for i, name in enumerate(table.header) if set(words(name)) & UNIT_NAMES]
    if unit_columns and any(unit_word(one) for one in _sample(table, unit_columns[0])):
        return None, unit_columns[0]
    numbers = [one for cell in _sample(table, column) if (one := number_of(cell, decimal)) is not None]
    if any(unit_word(rest) for _, rest in numbers):
        return None, None
    above = {word for line in table.before if (word := _unit_above(line)) is not None}
    if len(above) == 1:
        return above.pop(), None
    raise table.refuse_header(
        "the unit of the temperature", f'"{table.name(column)}"', 'Write unit = "°C" in the [[log]]'
    )


def _unit_above(line: str) -> str | None:
    """The unit that a line before the table states: "Unit: °C"."""
    said = words(line)
    named = any(one in UNIT_NAMES or is_temperature(one) for one in said)
    return unit_in(line) if named else None
