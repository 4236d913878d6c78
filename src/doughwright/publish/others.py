"""What a recipe comes to in other kitchens, in words: what the spread comes from, and how each fails."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from doughwright.publish.render import HELD, capital, listed, number
from doughwright.recipe.moved import Moved

# Inputs below this share [%] say nothing that a cook could use.
LEAST_SHARE = 5.0


@dataclass(frozen=True, slots=True)
class Share:
    """An input, the share [%] of a spread that comes from it, and that share's error [%]."""

    input: str
    share: float
    error: float = 0.0


def share_words(percent: float) -> str:
    """A share in whole per cent: "52 %"; what rounds to nothing is "under 1 %"."""
    return f"under{HELD}1{HELD}%" if percent < 0.5 else f"{number(percent)}{HELD}%"


def error_words(percent: float) -> str:
    """The error of a share: "± 2"; empty where it does not show."""
    return f"±{HELD}{number(percent)}" if percent >= 0.5 else ""


def explained_sentence(rise: Sequence[Share], ripe: Sequence[Share] = ()) -> str:
    """Where most of the spread comes from, and what being ripe hangs on."""
    first = _most(rise)
    if not first:
        return "No single input explains the difference: many small ones add up to it."
    said = f"most of the difference is explained by {listed(_named(first))}"
    other = _most(ripe)
    if not other:
        return f"{capital(said)}."
    if other[0].input == first[0].input:
        return f"{capital(said)}; being ripe hangs on {other[0].input} too, by {share_words(other[0].share)}."
    return f"{capital(said)}; being ripe hangs most on {other[0].input}, by {share_words(other[0].share)}."


def ripe_moved(before: int, now: int) -> Moved | None:
    """How many more or fewer of a hundred kitchens are ripe; ``None`` where as many are."""
    if before == now:
        return None
    how = f"{abs(now - before)} {'more' if now > before else 'fewer'} of 100 are ripe"
    return Moved("other kitchens", how, f"{now} of 100", f"{before} of 100")


def _most(rows: Sequence[Share]) -> list[Share]:
    """The inputs that together explain half, at most three of them."""
    chosen: list[Share] = []
    for row in sorted(rows, key=lambda one: one.share, reverse=True)[:3]:
        if row.share < LEAST_SHARE or sum(one.share for one in chosen) >= 50.0:
            break
        chosen.append(row)
    return chosen


def _named(rows: Sequence[Share]) -> list[str]:
    return [f"{row.input} ({share_words(row.share)})" for row in rows]
