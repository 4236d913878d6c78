"""What moved, as text."""

from __future__ import annotations

from collections.abc import Iterable

from doughwright.figures import Figure
from doughwright.publish.render import figure
from doughwright.publish.terminal.columns import columns, indented
from doughwright.recipe.moved import Moved


def moved_lines(moved: Iterable[Moved]) -> list[str]:
    """What, how, now and before, in columns."""
    rows = [[one.what, one.how, _shown(one.now), f"was {_shown(one.before)}"] for one in moved]
    return indented(columns(rows))


def _shown(one: Figure | str) -> str:
    return figure(one) if isinstance(one, Figure) else one
