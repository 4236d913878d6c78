"""Writes the parameter table into docs/model.md; ``--check`` only says whether it is current."""

from __future__ import annotations

import sys
from pathlib import Path

from doughwright.science.parameters import ParameterRow, parameter_table

PAGE = Path(__file__).resolve().parent.parent / "docs" / "model.md"
BEGIN, END = "<!-- parameters: made by scripts/model.py -->", "<!-- end of parameters -->"


def lines() -> list[str]:
    """The table, a row for each parameter."""
    head = [
        "| parameter | value | unit | what it is | known | spread (1 sd) | source |",
        "|---|---:|---|---|---|---|---|",
    ]
    return [*head, *(line(row) for row in parameter_table().rows)]


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


def page(text: str) -> str:
    """The page with its table made anew."""
    before, _, rest = text.partition(BEGIN)
    _, _, after = rest.partition(END)
    return "\n".join([before + BEGIN, "", *lines(), "", END + after])


def main() -> int:
    """Write the page, or say whether the one on disk is what would be written."""
    text = PAGE.read_text(encoding="utf-8")
    made = page(text)
    if "--check" not in sys.argv[1:]:
        PAGE.write_text(made, encoding="utf-8")
        print("wrote docs/model.md")
        return 0
    if made != text:
        print(
            "docs/model.md has another parameter table than the code; write it anew: python scripts/model.py"
        )
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
