"""What a row of a parameter set is: value, unit, meaning, how it is known, how far it may be off, source.

A parameter set is a frozen dataclass whose fields are made by ``row``; ``table_of`` lists them for people.
"""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from typing import Any, Literal, TypeVar, cast

How = Literal["measured", "fitted", "assumed", "from memory"]
SpreadKind = Literal["relative", "absolute", "factor"]
Set = TypeVar("Set")


@dataclass(frozen=True, slots=True)
class ParameterRow:
    """One row of the table: what a parameter is, its value and unit, and how well it is known.

    ``spread`` is one standard deviation: a share of the value ("relative"), in its unit ("absolute"), or a
    factor it is multiplied or divided by ("factor"); ``None`` where nobody has said.
    """

    name: str
    value: float
    unit: str
    meaning: str
    how: How
    source: str
    spread: float | None
    spread_kind: SpreadKind


@dataclass(frozen=True, slots=True)
class ParameterTable:
    """The rows of a parameter set."""

    rows: tuple[ParameterRow, ...]

    def __getitem__(self, name: str) -> ParameterRow:
        """The row of this name."""
        for one in self.rows:
            if one.name == name:
                return one
        raise KeyError(name)


def row(
    *,
    value: float,
    unit: str,
    meaning: str,
    how: How,
    source: str,
    spread: float | None = None,
    spread_kind: SpreadKind = "relative",
) -> Any:
    """A field of a parameter set, with all that is said of it.

    Parameters
    ----------
    value : float
        its value [in ``unit``], scalar
    unit : str
        its unit [no unit]
    meaning : str
        what it is, in words [no unit]
    how : str
        measured, fitted, assumed or from memory [no unit]
    source : str
        where the value is from [no unit]
    spread : float
        one standard deviation [as ``spread_kind`` says], scalar; ``None`` where nobody has said
    spread_kind : str
        relative, absolute or factor [no unit]

    Returns
    -------
    field
        a dataclass field whose default is the value
    """
    said = {
        "unit": unit,
        "meaning": meaning,
        "how": how,
        "source": source,
        "spread": spread,
        "spread_kind": spread_kind,
    }
    return field(default=value, metadata=said)


def table_of(*, chosen: Any) -> ParameterTable:
    """Every parameter of a set with its unit, source and spread.

    Parameters
    ----------
    chosen : parameter set
        the set [each row in its own unit]

    Returns
    -------
    ParameterTable
        one row for each field, in order
    """
    return ParameterTable(
        tuple(
            ParameterRow(name=one.name, value=getattr(chosen, one.name), **one.metadata)
            for one in fields(chosen)
        )
    )


def varied(parameters: Set, **values: Any) -> Set:
    """A set in which some parameters are others, or differ from kitchen to kitchen.

    Each value replaces the row of its name: a number, or an array of shape (lanes,).

    Parameters
    ----------
    parameters : parameter set
        the set [each row in its own unit]

    Returns
    -------
    parameter set
        the new set; its annotations say ``float`` where a row of many kitchens holds an array
    """
    made: Any = replace(cast(Any, parameters), **values)
    return cast(Set, made)
