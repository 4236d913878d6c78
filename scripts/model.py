"""Writes the tables of docs/model.md; ``--check`` only says whether they are current."""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

from doughwright.kitchen import air
from doughwright.kitchen.population import Input, population_inputs
from doughwright.kitchen.types import Assumption
from doughwright.science.materials import MATERIALS, Material
from doughwright.science.oven_parameters import oven_parameter_table
from doughwright.science.parameter_rows import ParameterRow, ParameterTable
from doughwright.science.parameters import parameter_table

PAGE = Path(__file__).resolve().parent.parent / "docs" / "model.md"
BEGIN, END = "<!-- {}: made by scripts/model.py -->", "<!-- end of {} -->"


def parameters() -> list[str]:
    """The table of the days, a row for each parameter."""
    return table(parameter_table())


def oven() -> list[str]:
    """The table of the oven, a row for each parameter."""
    return table(oven_parameter_table())


def table(rows: ParameterTable) -> list[str]:
    """A parameter set as a table."""
    head = [
        "| parameter | value | unit | what it is | known | spread (1 sd) | source |",
        "|---|---:|---|---|---|---|---|",
    ]
    return [*head, *(line(row) for row in rows.rows)]


def surfaces() -> list[str]:
    """The table of what food is baked on, a row for each material."""
    names = [
        "surface",
        "k, W/(m K)",
        "density, kg/m3",
        "c, J/(kg K)",
        "emissivity",
        "thickness if unsaid, mm",
    ]
    head = ["| " + " | ".join([*names, "known", "source"]) + " |", "|---|---:|---:|---:|---:|---:|---|---|"]
    return [*head, *(surface(one) for one in MATERIALS)]


def surface(one: Material) -> str:
    """One material."""
    values = (one.conductivity, one.density, one.heat_capacity, one.emissivity, 1000.0 * one.thickness)
    return "| " + " | ".join([one.name, *(f"{value:g}" for value in values), one.how, one.source]) + " |"


def line(row: ParameterRow) -> str:
    """One row."""
    parts = [f"`{row.name}`", f"{row.value:g}", row.unit, row.meaning, row.how, spread(row), row.source]
    return "| " + " | ".join(parts) + " |"


def spread(row: ParameterRow) -> str:
    """The spread in words; a dash where nobody has said."""
    if row.spread is None:
        return "–"
    if row.spread_kind == "relative":
        return f"{100.0 * row.spread:g} %"
    return f"{row.spread:g}" if row.spread_kind == "absolute" else f"×/÷ {row.spread:g}"


def kitchens() -> list[str]:
    """The table of what is drawn for a kitchen of the population, a row for each input."""
    head = [
        "| what | under | unit | 5 % | middle | 95 % | differs between | known | source |",
        "|---|---|---|---:|---:|---:|---|---|---|",
    ]
    return [*head, *(drawn(one) for one in population_inputs())]


def drawn(one: Input) -> str:
    """One input: nine kitchens of ten lie between the two ends; what is the same for all is a dash."""
    values = one.quantile((np.arange(10_000) + 0.5) / 10_000)
    ends = [f"{value:.3g}" for value in np.quantile(values, [0.05, 0.5, 0.95])]
    ends = ["–", "–", "–"] if len(set(ends)) == 1 else ends
    whose = "kitchens" if one.whose == "kitchen" else "what may be true"
    parts = [one.name, one.heading, one.unit, *ends, whose, one.how, one.source]
    return "| " + " | ".join(parts) + " |"


def moved() -> list[str]:
    """The table of what is assumed of a fridge's and a room's air."""
    rows = [(f"shelf: {name}", "K", one) for name, one in air.SHELVES.items()]
    rows += [
        ("place in a fridge, shelf not named", "K", air.PLACE),
        ("one opening a day, in the mean", "K", air.OPENING),
        ("openings that a survey's mean holds", "1 a day", air.USUAL_OPENINGS),
        ("a fridge's cycle", "s", air.CYCLE),
        ("a fridge's swing, where only its cycle is given", "K", air.CYCLE_SWING),
        ("a room's swing over a day", "K", air.DAILY_SWING),
    ]
    head = ["| what | middle | spread (1 sd) | unit | source |", "|---|---:|---:|---|---|"]
    return [*head, *(assumption(*row) for row in rows)]


def assumption(what: str, unit: str, one: Assumption) -> str:
    """One assumption."""
    return f"| {what} | {one.middle:g} | {one.spread:g} | {unit} | {one.source} |"


TABLES = {
    "parameters": parameters,
    "air": moved,
    "kitchens": kitchens,
    "oven parameters": oven,
    "surfaces": surfaces,
}


def page(text: str) -> str:
    """The page with its tables made anew."""
    for name, lines in TABLES.items():
        begin, end = BEGIN.format(name), END.format(name)
        before, _, rest = text.partition(begin)
        _, _, after = rest.partition(end)
        text = "\n".join([before + begin, "", *lines(), "", end + after])
    return text


def main() -> int:
    """Write the page, or say whether the one on disk is what would be written."""
    text = PAGE.read_text(encoding="utf-8")
    made = page(text)
    if "--check" not in sys.argv[1:]:
        PAGE.write_text(made, encoding="utf-8")
        print("wrote docs/model.md")
        return 0
    if made != text:
        print("docs/model.md has another table than the code; write it anew: python scripts/model.py")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
