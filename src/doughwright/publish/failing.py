"""The kitchens that a recipe fails in, in words: how many, when, and what the worst have in common."""

from __future__ import annotations

from doughwright.forecast.elsewhere.results import Failing, Trait
from doughwright.publish.render import HELD, MINUS, duration, figure, listed, number, rise


def failing_words(one: Failing, judged_at: float | None = None) -> str:
    """A group in a sentence or two; ``judged_at`` [h] is when the dough is judged in the middle kitchen."""
    kitchens = f"{one.kitchens:,} kitchen{'' if one.kitchens == 1 else 's'}"
    said = f"In {kitchens} it is {one.state}{_when(one, judged_at)}."
    where = f"Where it fails worst it stands at {rise(one.rise.value or 0.0)} volumes"
    traits = listed(_trait(trait) for trait in one.traits)
    return f"{said} {where}: {traits}." if traits else f"{said} {where}."


def _when(one: Failing, judged_at: float | None) -> str:
    at = one.when.value
    if at is None:
        return f" ({one.when.why})"
    if one.state == "past":
        early = "" if judged_at is None else f", {_whole(judged_at - at)} before it is judged"
        return f": half of those have left the range by {_whole(at)}{early}"
    late = "" if judged_at is None else f", {_whole(at - judged_at)} after it is judged"
    return f": half of those would come to it by {_whole(at)}{late}"


def _whole(hours: float) -> str:
    """Hours to the minute: half of many kitchens says no more."""
    return duration(round(max(hours, 0.0) * 60.0) / 60.0)


def _trait(trait: Trait) -> str:
    """ "a fridge of 1.9 °C (4.8 °C in all kitchens)", or "yeast 12 % weaker than usual"."""
    there, everywhere = trait.there, trait.all
    if there.unit == "percent" and there.value is not None:
        sign = MINUS if there.value < 0 else "+"
        return f"{trait.what} {sign}{number(abs(there.value))}{HELD}%"
    places = 1 if there.unit in ("degC", "percent") else 2
    return f"{trait.what} {figure(there, places)} ({figure(everywhere, places)} in all)"
