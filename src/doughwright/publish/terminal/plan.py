"""A plan as text: a line for each thing to do, by day."""

from __future__ import annotations

from doughwright.plan.model import Entry, Plan
from doughwright.publish.clock import WEEKDAYS
from doughwright.publish.render import capital, duration, figure
from doughwright.publish.terminal.columns import columns, indented, wrapped


def plan_text(plan: Plan) -> str:
    """The plan by day, the cook's minutes, and how the dough will be."""
    meal = plan.eats
    table = f"{WEEKDAYS[meal.weekday()]} {meal.day} {meal:%B %Y %H:%M}"
    head = f"{plan.title}, on the table {table} ({plan.zone})"
    rows: list[list[str]] = []
    day = ""
    for entry in plan.entries:
        today = f"{WEEKDAYS[entry.starts.weekday()]} {entry.starts.day} {entry.starts:%b}"
        rows.append([today if today != day else "", *_cells(entry)])
        day = today
    lines = [head, "", *indented(columns(rows, right=[False, False, False, True, True])), ""]
    lines += wrapped(f"Hands-on {figure(plan.hands_on_total)} of {figure(plan.length)} in all.")
    if any(entry.assumed for entry in plan.entries):
        lines += wrapped("Minutes with a ~ are from the table, not from the recipe.")
    lines += [
        line for text in (*_dough(plan), *plan.notes) for line in wrapped(f"{capital(text).rstrip('.')}.")
    ]
    return "\n".join(lines)


def _dough(plan: Plan) -> list[str]:
    """A dough that will be ripe, or is not modelled; one that is neither has a note of its own."""
    if plan.dough is None:
        return [f"how the dough will be is not known: {plan.dough_why}"] if plan.dough_why else []
    return [f"the dough will be ripe: {plan.dough.state_why}"] if plan.dough.state == "ripe" else []


def _cells(entry: Entry) -> list[str]:
    minutes = "" if entry.wait else f"{'~' if entry.assumed else ''}{figure(entry.hands_on)}"
    return [f"{entry.starts:%H:%M}", entry.what, _length(entry), minutes]


def _length(entry: Entry) -> str:
    return duration((entry.ends - entry.starts).total_seconds() / 3600.0) if entry.wait else ""
