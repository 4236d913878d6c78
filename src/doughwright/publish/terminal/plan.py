"""A plan as text: a line for each thing to do, by day."""

from __future__ import annotations

from doughwright.plan.model import Entry, Plan
from doughwright.publish.clock import WEEKDAYS
from doughwright.publish.render import capital, duration, figure
from doughwright.publish.terminal.columns import columns, indented, wrapped


def plan_text(plan: Plan, dough: tuple[str, ...] = ()) -> str:
    """The plan by day, the cook's minutes, and how the dough will be."""
    meal = plan.eats
    head = f"{plan.title}, on the table {WEEKDAYS[meal.weekday()]} {meal:%d.%m.%Y %H:%M} ({plan.zone})"
    rows: list[list[str]] = []
    day = ""
    for entry in plan.entries:
        today = f"{WEEKDAYS[entry.starts.weekday()]} {entry.starts:%d.%m.}"
        rows.append([today if today != day else "", *_cells(entry)])
        day = today
    lines = [head, "", *indented(columns(rows, right=[False, False, False, True, True])), ""]
    lines += wrapped(f"Hands-on {figure(plan.hands_on_total)} of {figure(plan.length)} in all.")
    if any(entry.assumed for entry in plan.entries):
        lines += wrapped("Minutes with a ~ are from the table, not from the recipe.")
    lines += [line for text in (*dough, *plan.notes) for line in wrapped(f"{capital(text).rstrip('.')}.")]
    return "\n".join(lines)


def _cells(entry: Entry) -> list[str]:
    what = entry.what if entry.piece is None else f"{entry.what} ({entry.piece})"
    minutes = "" if entry.wait else f"{'~' if entry.assumed else ''}{figure(entry.hands_on)}"
    return [f"{entry.starts:%H:%M}", what, _length(entry), minutes]


def _length(entry: Entry) -> str:
    return duration((entry.ends - entry.starts).total_seconds() / 3600.0) if entry.wait else ""
