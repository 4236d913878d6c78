"""The formula as text."""

from __future__ import annotations

from doughwright.publish.render import baker_percent, capital, figure, listed, number
from doughwright.publish.terminal.columns import columns, indented, wrapped
from doughwright.recipe.formula import Dough, Entry, Formula, OtherMix


def formula_text(formula: Formula) -> str:
    """Every dough with its percentages, what the scale cannot weigh, and the other mixes."""
    lines: list[str] = []
    for dough in formula.doughs:
        lines += [*_dough(dough), ""]
    for other in formula.others:
        lines += [*_other(other), ""]
    lines += [f"Scale of {figure(formula.scale)}; kitchen: {formula.kitchen}."]
    lines += [line for one in formula.notes for line in wrapped(f"Note: {one}.")]
    return "\n".join(lines)


def _dough(dough: Dough) -> list[str]:
    mixes = list(dict.fromkeys(entry.mix for entry in dough.ingredients))
    head = ["", *([f"{mix}, g" for mix in mixes] if len(mixes) > 1 else []), "all, g", "baker's %", ""]
    rows = [head, *_rows(dough, mixes)]
    pieces = f"{dough.pieces} of {figure(dough.piece_mass)}" if dough.pieces > 1 else "one piece"
    lines = [f"{dough.name}: {figure(dough.mass)}, {pieces}", ""]
    lines += indented(columns(rows, right=[False, *[True] * (len(head) - 2)]))
    lines += ["", *indented(_totals(dough))]
    lines += [line for entry in dough.ingredients for line in _weighing(entry)]
    return lines + [line for note in dough.notes for line in wrapped(f"Note: {note}.", "  ")]


def _rows(dough: Dough, mixes: list[str]) -> list[list[str]]:
    rows = []
    for item in dict.fromkeys(entry.item for entry in dough.ingredients):
        entries = [entry for entry in dough.ingredients if entry.item == item]
        by_mix = [[entry for entry in entries if entry.mix == mix] for mix in mixes]
        parts = [_sum([entry.mass.value for entry in one]) if one else "" for one in by_mix]
        marks = "*" if any(entry.weighable is False for entry in entries) else ""
        rows.append(
            [
                item,
                *(parts if len(mixes) > 1 else []),
                _sum([entry.mass.value for entry in entries]),
                baker_percent(sum(entry.percent.value or 0.0 for entry in entries)),
                marks,
            ]
        )
    return rows


def _sum(values: list[float | None]) -> str:
    known = [value for value in values if value is not None]
    if not known:
        return "to taste"
    total = sum(known)
    return number(total, 2 if total < 1 else 1 if total < 100 else 0)


def _totals(dough: Dough) -> list[str]:
    pairs = [
        ("hydration", figure(dough.hydration)),
        ("as bakers quote it", figure(dough.hydration_poured)),
        ("salt", figure(dough.salt)),
        ("sugar", figure(dough.sugar)),
        ("fat", figure(dough.fat)),
        ("yeast, as fresh", figure(dough.yeast_as_fresh, 2)),
        ("loading", _loading(dough)),
    ]
    return columns([list(pair) for pair in pairs])


def _loading(dough: Dough) -> str:
    if dough.loading.value is None:
        return dough.loading.why or ""
    band = dough.loading_customary
    if band is None:
        return figure(dough.loading)
    low, high = figure(band.low), figure(band.high)
    return f"{figure(dough.loading)} (customary for a {dough.shape}: {low} to {high})"


def _weighing(entry: Entry) -> list[str]:
    if entry.weighable is not False:
        return []
    text = f"* {entry.item} ({entry.mix}): {entry.why}."
    if entry.instead:
        text += f" {capital(entry.instead)}."
    return wrapped(text.replace("..", "."), "  ")


def _other(other: OtherMix) -> list[str]:
    use = f", {other.use}" if other.use else ""
    parts = [f"{entry.amount} {entry.item}" for entry in other.ingredients]
    return wrapped(f"{other.name} ({other.kind}{use}, per {other.per}): {listed(parts)}.")
