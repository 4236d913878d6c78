"""The English of household measures: which words they are, and one or many of them."""

from __future__ import annotations

_HOUSEHOLD = frozenset(
    """large medium small jumbo extra whole half quarter egg yolk white clove slice piece leaf sprig stalk stick
    bunch can tin jar packet sachet package pack bag box bottle carton container head bulb rasher strip link
    ring round wedge cube ball handful knob drop drizzle pinch dash pat ear floret spear fillet breast fruit
    onion pepper potato tomato leek lemon orange apple olive anchovy date fig nut sheet square bar block cake
    loaf roll bun pot tub scoop ladle glass mug spoonful""".split()
)
_ODD = {
    "leaves": "leaf", "loaves": "loaf", "halves": "half", "knives": "knife",
    "anchovies": "anchovy", "berries": "berry", "radishes": "radish",
}  # fmt: skip
_AS_THEY_ARE = ("ss", "us", "is")
_PLURAL_ES = ("ches", "shes", "sses", "xes", "oes", "zes")
_NO_PLURAL = frozenset({"large", "medium", "small", "jumbo", "whole", "extra", "white", "fruit"})


def is_household(measure: str) -> bool:
    """Whether all of its words are words for household measures."""
    return all(word in _HOUSEHOLD for word in measure.split())


def singular(words: str) -> str:
    """One of them: "cloves" is "clove"; each word on its own."""
    return " ".join(_one(word) for word in words.split())


def plural(words: str) -> str:
    """Many of them, as far as the word is one of ours; else as it is."""
    head, _, last = words.rpartition(" ")
    many = _many(last)
    return f"{head} {many}" if head else many


def _one(word: str) -> str:
    if word in _ODD:
        return _ODD[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(_AS_THEY_ARE):
        return word
    if word.endswith("ies") and len(word) > 5:
        return word[:-3] + "y"
    return word[:-2] if word.endswith(_PLURAL_ES) else word[:-1]


def _many(word: str) -> str:
    if word not in _HOUSEHOLD or word in _NO_PLURAL:
        return word
    for many, one in _ODD.items():
        if one == word:
            return many
    return f"{word}es" if word.endswith(("ch", "sh", "ss", "x", "to")) else f"{word}s"
