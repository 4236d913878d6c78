"""How names are compared: without case, accents, commas or plurals; the order of words comes second."""

from __future__ import annotations

import re
import unicodedata

_SPLIT = re.compile(r"[^0-9a-z%.]+")
_PLURALS = (("ies", "y"), ("oes", "o"), ("ches", "ch"), ("shes", "sh"), ("xes", "x"), ("leaves", "leaf"))
_SINGULAR_IN_S = ("ss", "us", "is")
_SPELLINGS = {
    "yogurt": "yoghurt",
    "chile": "chilli",
    "chili": "chilli",
    "grey": "gray",
    "wholewheat": "wholemeal",
}


def words_of(text: str) -> tuple[str, ...]:
    """The words of a name, each in the singular, without case, accents or punctuation."""
    plain = text.casefold()
    if not plain.isascii():
        plain = "".join(c for c in unicodedata.normalize("NFKD", plain) if not unicodedata.combining(c))
    plain = plain.replace("'", "").replace("\u2019", "").replace("%", " % ")
    words = (word.strip(".") for word in _SPLIT.split(plain))
    return tuple(_SPELLINGS.get(one, one) for one in (singular(word) for word in words if word))


def singular(word: str) -> str:
    """The word in the singular, by rule; what matters is that both sides get the same rule."""
    if len(word) <= 3 or not word.endswith("s") or word.endswith(_SINGULAR_IN_S):
        return word
    for plural, one in _PLURALS:
        if word.endswith(plural):
            return word[: -len(plural)] + one
    return word[:-1]
