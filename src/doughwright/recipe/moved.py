"""What moved between two results, in words: what, how, now, before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from doughwright.figures import Figure
from doughwright.recipe.formula import Dough, Entry, Formula, OtherMix
from doughwright.units import format_time

# Differences below this share no scale shows; writing a number down makes some of them.
_SAME = 2e-4


@dataclass(frozen=True, slots=True)
class Moved:
    """One thing that is not as it was."""

    what: str
    how: str
    now: Figure | str
    before: Figure | str


def moved_figure(
    what: str, before: Figure, now: Figure, *, more: str | None = None, less: str | None = None
) -> Moved | None:
    """How a figure moved, ``None`` where it did not; ``more`` and ``less`` are words such as "later"."""
    if before.value is None or now.value is None:
        if before.value is None and now.value is None:
            return None
        return Moved(what, "now known" if now.value is not None else "no longer known", now, before)
    change = now.value - before.value
    if abs(change) <= _SAME * max(abs(before.value), abs(now.value)):
        return None
    return Moved(what, _how(change, now.unit, more, less), now, before)


def moved_words(what: str, before: str, now: str) -> Moved | None:
    """How something said in words changed; ``None`` where it did not."""
    return None if before == now else Moved(what, f"was {before}, now {now}", now, before)


def moved_formula(before: Formula, now: Formula) -> tuple[Moved, ...]:
    """What moved between two formulas; what did not is left out."""
    return tuple(_formula(before, now))


# How more and less of a unit are said: a word before the number, the unit, a word after it.
_WORDS = {
    "percent": ("up", "down", "points", "", ""),
    "g": ("", "", "g", "more", "less"),
    "g/cm2": ("", "", "g/cm2", "more", "less"),
    "degC": ("", "", "°C", "warmer", "colder"),
    "ratio": ("up", "down", "", "", ""),
}
_SECONDS = {"h": 3600.0, "min": 60.0, "s": 1.0}


def _how(change: float, unit: str, more: str | None, less: str | None) -> str:
    up = change > 0
    if unit in _SECONDS:
        word = (more or "longer") if up else (less or "shorter")
        return f"{format_time(abs(change) * _SECONDS[unit])} {word}"
    rise, fall, shown, larger, smaller = _WORDS.get(unit, ("", "", unit, "more", "less"))
    after = ((more or larger) if up else (less or smaller)) if larger or more else ""
    number = _number(abs(change))
    return " ".join(part for part in (rise if up else fall, number, shown, after) if part)


def _number(value: float) -> str:
    """Two digits that count, whole numbers from ten up."""
    return f"{value:.0f}" if value >= 9.95 else f"{value:#.2g}"


def _formula(before: Formula, now: Formula) -> Iterator[Moved]:
    old = {dough.name: dough for dough in before.doughs}
    several = len(now.doughs) > 1 or len(before.doughs) > 1
    for dough in now.doughs:
        if dough.name in old:
            prefix = f"{dough.name}: " if several else ""
            yield from _dough(prefix, old.pop(dough.name), dough)
        else:
            yield Moved(f'dough "{dough.name}"', "new", dough.mass, "not there")
    for name, dough in old.items():
        yield Moved(f'dough "{name}"', "gone", "not there", dough.mass)
    yield from _entries(_all(before), _all(now))


_FIGURES = (
    "flour", "water", "hydration", "hydration_poured", "salt", "sugar", "fat", "yeast_as_fresh", "mass",
    "piece_mass", "loading",
)  # fmt: skip
_SAID = {
    "hydration_poured": "hydration as poured",
    "yeast_as_fresh": "yeast as fresh",
    "mass": "dough",
    "piece_mass": "a piece",
}


def _dough(prefix: str, before: Dough, now: Dough) -> Iterator[Moved]:
    for name in _FIGURES:
        what = prefix + _SAID.get(name, name)
        one = moved_figure(what, getattr(before, name), getattr(now, name))
        if one is not None:
            yield one
    if before.pieces != now.pieces:
        change = now.pieces - before.pieces
        how = f"{abs(change)} {'more' if change > 0 else 'fewer'}"
        yield Moved(f"{prefix}pieces", how, str(now.pieces), str(before.pieces))


Key = tuple[str, str, int]


def _all(formula: Formula) -> dict[Key, Entry]:
    """Every ingredient by the mix it is weighed in, its name and which of that name it is."""
    found: dict[Key, Entry] = {}
    mixes: tuple[Dough | OtherMix, ...] = (*formula.doughs, *formula.others)
    for mix in mixes:
        seen: dict[tuple[str, str], int] = {}
        for entry in mix.ingredients:
            key = (entry.mix, entry.item.casefold())
            seen[key] = seen.get(key, 0) + 1
            found.setdefault((*key, seen[key]), entry)
    return found


def _entries(before: dict[Key, Entry], now: dict[Key, Entry]) -> Iterator[Moved]:
    for key, entry in now.items():
        what = f"{entry.item} ({entry.mix})"
        if key not in before:
            yield Moved(what, "new", entry.weighed, "not there")
            continue
        old = before[key]
        one = moved_figure(what, old.weighed, entry.weighed)
        if one is not None:
            yield one
        judged = moved_words(f"{what} on the scale", _judged(old), _judged(entry))
        if judged is not None:
            yield judged
    for key, entry in before.items():
        if key not in now:
            yield Moved(f"{entry.item} ({entry.mix})", "gone", "not there", entry.weighed)


def _judged(entry: Entry) -> str:
    if entry.weighable == "measured":
        return "measured"
    return "can be weighed" if entry.weighable else "too little to weigh"
