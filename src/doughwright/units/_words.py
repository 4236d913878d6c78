"""The English of household measures: which words they are, and one or many of them."""

from __future__ import annotations

_SIZES = "large medium small jumbo extra whole half quarter"
_PIECES = (
    "clove slice piece leaf sprig stalk stick bunch head bulb rasher strip link ring round wedge cube ball"
)
_PACKS = "can tin jar packet sachet package pack bag box bottle carton container tub pot glass mug"
_HANDFULS = "handful knob drop drizzle pinch dash pat spoonful scoop ladle"
_FOODS = "egg yolk white onion pepper potato tomato leek lemon orange apple olive anchovy date fig nut fruit"
_OTHERS = "ear floret spear fillet breast sheet square bar block cake loaf roll bun"
_HOUSEHOLD = frozenset(f"{_SIZES} {_PIECES} {_PACKS} {_HANDFULS} {_FOODS} {_OTHERS}".split())
_MEASURES = "cup tablespoon teaspoon dessertspoon ounce pound pint quart gallon gram gramme kilo litre liter"
_UNITS = frozenset(_MEASURES.split())
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


def agreeing(words: str, before: float, now: float) -> str:
    """The words as the number now wants them, if they agreed with the number before."""
    head, gap, last = words.rpartition(" ")
    one = _one(last)
    if last not in (one, _many(one)) or _many(one) == one or (last == one) != (before <= 1):
        return words
    return f"{head}{gap}{one if now <= 1 else _many(one)}"


def _one(word: str) -> str:
    if word in _ODD:
        return _ODD[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(_AS_THEY_ARE):
        return word
    if word.endswith("ies") and len(word) > 5:
        return word[:-3] + "y"
    return word[:-2] if word.endswith(_PLURAL_ES) else word[:-1]


def _many(word: str) -> str:
    if word not in _HOUSEHOLD | _UNITS or word in _NO_PLURAL:
        return word
    for many, one in _ODD.items():
        if one == word:
            return many
    return f"{word}es" if word.endswith(("ch", "sh", "ss", "x", "to")) else f"{word}s"
