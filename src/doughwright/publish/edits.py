"""What was edited between two versions of a recipe, in words: "instant yeast 0.5 g to 0.4 g"."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

from doughwright.publish.render import duration, length, mass, number, share, temperature
from doughwright.recipe.model import Line, Mix, Recipe
from doughwright.recipe.types import At, Eating, Interval
from doughwright.recipe.until import Until
from doughwright.units import Amount

_LENGTHS = ("diameter", "length", "width", "height")
_TIMES = ("for_", "hands", "between", "turn")
_TEMPERATURES = ("dough_at", "dough_temperature", "temperature")
_MASSES = ("piece_mass", "each")


def edits(before: Recipe, now: Recipe) -> tuple[str, ...]:
    """Each edit in words, in the order of the document."""
    return tuple(_edits(before, now))


def _edits(before: Recipe, now: Recipe) -> Iterator[str]:
    for part in ("title", "kitchen", "cups", "description", "notes"):
        yield from _value(part, getattr(before, part), getattr(now, part), "")
    for part in ("makes", "target"):
        yield from _fields(getattr(before, part), getattr(now, part), "")
    yield from _mixes(before, now)
    yield from _steps(before, now)


def _mixes(before: Recipe, now: Recipe) -> Iterator[str]:
    old = {mix.name: mix for mix in before.mixes}
    new = {mix.name: mix for mix in now.mixes}
    yield from (f"{name} taken out" for name in old if name not in new)
    for name, mix in new.items():
        if name in old:
            yield from _lines(old[name], mix)
        else:
            yield f"{name} added"


def _lines(old: Mix, new: Mix) -> Iterator[str]:
    """Lines are matched by name; where names differ, what went and what came."""
    left = list(old.ingredients)
    for line in new.ingredients:
        match = next((one for one in left if (one.item, one.mix) == (line.item, line.mix)), None)
        if match is None:
            yield f"{_name(line)} added"
            continue
        left.remove(match)
        yield from _fields(match, line, _name(line))
    yield from (f"{_name(line)} taken out" for line in left)


def _name(line: Line) -> str:
    return line.item or line.mix or "an ingredient"


def _steps(before: Recipe, now: Recipe) -> Iterator[str]:
    if [step.do for step in before.steps] != [step.do for step in now.steps]:
        change = len(now.steps) - len(before.steps)
        yield "a step added" if change == 1 else "a step taken out" if change == -1 else "the steps changed"
        return
    for old, new in zip(before.steps, now.steps, strict=True):
        yield from _fields(old, new, new.do)


def _fields(old: object, new: object, name: str) -> Iterator[str]:
    """What differs between two of the same dataclass; ``name`` is what it is of."""
    if old == new or not dataclasses.is_dataclass(new):
        return
    for field in dataclasses.fields(new):
        yield from _value(field.name, getattr(old, field.name), getattr(new, field.name), name)


def _value(field: str, old: object, new: object, name: str) -> Iterator[str]:
    if old == new:
        return
    plain = field.rstrip("_").replace("_", " ")
    # The amount of an ingredient and the time of a step need no word of their own.
    what = name if name and field in ("amount", "for_", "at") else f"{name} {plain}".strip()
    if old is None or old == ():
        yield f"{what} {_said(field, new)}"
    elif new is None or new == ():
        yield f"{what} left out"
    else:
        was, is_now = _said(field, old), _said(field, new)
        yield f"{what} {is_now}, was {was}" if " to " in was + is_now else f"{what} {was} to {is_now}"


def _said(field: str, value: object) -> str:
    """A value as a cook would write it."""
    if isinstance(value, Amount | At | Eating | Until):
        return value.text
    if isinstance(value, Interval):
        low, high = (_number(field, end) for end in (value.low, value.high))
        return low if value.single else f"{low} to {high}"
    if isinstance(value, float):
        return _number(field, value)
    return ", ".join(map(str, value)) if isinstance(value, tuple) else str(value)


def _number(field: str, value: float) -> str:
    if field in _TIMES:
        return duration(value / 3600.0)
    if field in _LENGTHS:
        return length(value)
    if field in _TEMPERATURES:
        return temperature(value)
    if field in _MASSES:
        return mass(value)
    return number(value, 1) if field == "rise" else share(value)
