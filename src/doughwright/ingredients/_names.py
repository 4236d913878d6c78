"""From what a cook writes to the ingredient that is meant."""

from __future__ import annotations

import difflib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from doughwright.errors import Fault, UnknownNameError
from doughwright.ingredients._rows import keyed, rows_of
from doughwright.ingredients._tables import compositions, ingredient
from doughwright.ingredients._words import words_of
from doughwright.ingredients.model import Ingredient

Words = tuple[str, ...]
_LONGEST = 80


@dataclass(frozen=True, slots=True)
class Resolution:
    """The ingredient a name means, with a note where the name leaves a choice."""

    ingredient: Ingredient
    note: str | None = None


def find(name: str) -> Ingredient:
    """The ingredient that ``name`` means; raises UnknownNameError."""
    return resolve(name).ingredient


def resolve(name: str) -> Resolution:
    """The ingredient that ``name`` means and what was taken as read; raises UnknownNameError."""
    words = words_of(name)
    hit = _spoken().get(words) or _index().get(words) or _unordered().get(tuple(sorted(words)))
    if hit is None:
        raise UnknownNameError(_unknown(name))
    return Resolution(ingredient(hit[0]), hit[1])


def search(word: str, limit: int = 10) -> list[Ingredient]:
    """Ingredients for a word or a part of one, the likeliest first; else those spelled alike."""
    words = words_of(word)
    scores: dict[str, float] = {}
    for listed, key, worth in _searched():
        score = _score(words, listed)
        if score > 0.0 and score * worth > scores.get(key, 0.0):
            scores[key] = score * worth
    order = {key: place for place, key in enumerate(compositions())}
    ranked = sorted(scores, key=lambda key: (-scores[key], order[key]))
    keys = ranked or [_index()[words_of(name)][0] for name in _alike(word, 0.68)]
    return [ingredient(key) for key in dict.fromkeys(keys)][:limit]


@cache
def _searched() -> tuple[tuple[Words, str, float], ...]:
    """What a search looks at, and what a hit there is worth: the name, then synonyms, then descriptions."""
    names = [(words_of(row["name"]), key, 1.0) for key, row in keyed("facts").items()]
    synonyms = [(words_of(row["name"]), row["key"], 0.9) for row in rows_of("names")]
    described = [(words_of(row["description"]), key, 0.8) for key, row in compositions().items()]
    return (*names, *synonyms, *described)


def known_names() -> tuple[str, ...]:
    """Every everyday name and synonym, as written."""
    return tuple(name for name, _, _ in _everyday())


def _everyday() -> Iterator[tuple[str, str, str | None]]:
    for row in rows_of("names"):
        yield row["name"], row["key"], row["note"] or None
    for key, row in keyed("facts").items():
        yield row["name"], key, None


@cache
def _spoken() -> dict[Words, tuple[str, str | None]]:
    """Names and synonyms by their words in order."""
    spoken: dict[Words, tuple[str, str | None]] = {}
    for name, key, note in _everyday():
        spoken.setdefault(words_of(name), (key, note))
    return spoken


@cache
def _index() -> dict[Words, tuple[str, str | None]]:
    """Names, synonyms and descriptions by their words in order; an earlier kind of name wins."""
    index = dict(_spoken())
    for key, row in compositions().items():
        index.setdefault(words_of(row["description"]), (key, None))
    for words, keys in _shortened().items():
        if len(keys) == 1 and words:
            index.setdefault(words, (next(iter(keys)), None))
    return index


def _shortened() -> dict[Words, set[str]]:
    """The public descriptions without their first word, and without all before the first comma."""
    shortened: dict[Words, set[str]] = {}
    for key, row in keyed("sr_subset").items():
        for rest in (row["description"].partition(" ")[2], row["description"].partition(",")[2]):
            shortened.setdefault(words_of(rest), set()).add(key)
    return shortened


@cache
def _unordered() -> dict[Words, tuple[str, str | None]]:
    """The same with the words sorted; where two ingredients share them, neither is meant."""
    found: dict[Words, tuple[str, str | None]] = {}
    clashes: set[Words] = set()
    for words, hit in _index().items():
        ordered = tuple(sorted(words))
        if found.setdefault(ordered, hit)[0] != hit[0]:
            clashes.add(ordered)
    return {words: hit for words, hit in found.items() if words not in clashes}


def _score(asked: Words, listed: Words) -> float:
    """How well a listed name answers: whole words, then beginnings, then likeness; short names first."""
    if asked == listed:
        return 10.0
    total = 0.0
    for word in asked:
        best = max((_word_score(word, other) for other in listed), default=0.0)
        if best == 0.0:
            return 0.0
        total += best
    return total / len(asked) - 0.1 * (len(listed) - len(asked)) if asked else 0.0


def _word_score(asked: str, listed: str) -> float:
    if asked == listed:
        return 4.0
    if listed.startswith(asked):
        return 3.0
    return 2.0 if len(asked) > 2 and asked in listed else 0.0


def _unknown(name: str) -> Fault:
    shown = name if len(name) <= _LONGEST else name[:_LONGEST] + "..."
    near = _near(name)
    choices = " or ".join(f'"{one}"' for one in near)
    try_ = (
        f"Did you mean {choices}?"
        if near
        else 'Look with "doughwright find WORD", or describe it in an [[ingredient]]'
    )
    return Fault(
        f'no ingredient is called "{shown}"', wanted="a known ingredient", found=f'"{shown}"', try_=try_
    )


def _near(name: str) -> list[str]:
    """At most three names: those spelled alike, else those that hold all its words, else those less alike."""
    return _alike(name, 0.72) or [one.name for one in search(name, 3)]


def _alike(name: str, cutoff: float) -> list[str]:
    if not name.strip() or len(name) > _LONGEST:
        return []
    names = {one.casefold(): one for one in known_names()}
    near = difflib.get_close_matches(" ".join(name.casefold().split()), names, n=3, cutoff=cutoff)
    return [names[one] for one in near]
