"""The allergens that have to be named, in the United States (9) and in the European Union (14)."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from doughwright.errors import Fault, UnknownNameError, did_you_mean
from doughwright.ingredients._rows import rows_of
from doughwright.ingredients._words import words_of

US = ("milk", "egg", "fish", "crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans", "sesame")
EU = (
    "cereals containing gluten", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "nuts",
    "celery", "mustard", "sesame", "sulphites", "lupin", "molluscs",
)  # fmt: skip


def both_lists(words: Iterable[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The members of the American and the European list that a cook's words mean."""
    us: dict[str, None] = {}
    eu: dict[str, None] = {}
    for word in words:
        american, european = _of(word)
        us |= dict.fromkeys([american] if american else [])
        eu |= dict.fromkeys([european] if european else [])
    return tuple(us), tuple(eu)


def _of(word: str) -> tuple[str, str]:
    hit = _table().get(words_of(word))
    if hit is None:
        names = [" ".join(words) for words in _table()]
        try_ = did_you_mean(word, names) or f"Write one of: {', '.join(names)}"
        raise UnknownNameError(
            Fault("allergens", wanted="allergens of either list", found=f'"{word}"', try_=try_)
        )
    return hit


@cache
def _table() -> dict[tuple[str, ...], tuple[str, str]]:
    return {words_of(row["word"]): (row["us"], row["eu"]) for row in rows_of("allergens")}
