"""Writing what was learnt into a kitchen's text, and putting it to use; all else keeps its characters."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import get_args

from doughwright.errors import Fault, InputError
from doughwright.kitchen.learnt import (
    NINETY,
    QUANTITIES,
    Learnt,
    LearntCorrelation,
    LearntQuantity,
    Quantity,
    is_factor,
    triangle,
)
from doughwright.recipe.edit import literal
from doughwright.recipe.text import Document, parse
from doughwright.science.parameters import Parameters

NAMES: dict[str, Quantity] = {name: name for name in get_args(Quantity)}
HEAD = "[learnt]   # from readings; written anew by each calibration"
_HEADER = re.compile(
    r"^[ \t]*\[{1,2}[ \t]*[\"']?(?P<name>[^\]\n.\"']+)[^\]\n]*\]{1,2}[ \t]*(?:#[^\n]*)?\r?$", re.M
)


def learnt_of(
    names: Sequence[str],
    middles: Sequence[float],
    covariance: Sequence[Sequence[float]],
    *,
    readings: Sequence[str],
    mixed_with: Mapping[str, Sequence[str]] | None = None,
) -> Learnt:
    """What is learnt, from means and covariance on the quantities' scales (a factor's is its logarithm)."""
    spreads = [math.sqrt(covariance[n][n]) for n in range(len(names))]
    mixed = mixed_with or {}
    quantities = tuple(
        LearntQuantity(NAMES[name], *_interval(name, middle, spread), _names(mixed.get(name, ())))
        for name, middle, spread in zip(names, middles, spreads, strict=True)
    )
    correlations = tuple(
        LearntCorrelation((NAMES[names[i]], NAMES[names[j]]), covariance[i][j] / (spreads[i] * spreads[j]))
        for i in range(len(names))
        for j in range(i + 1, len(names))
        if covariance[i][j] != 0.0
    )
    return Learnt(tuple(readings), quantities, correlations)


def _names(names: Sequence[str]) -> tuple[Quantity, ...]:
    return tuple(NAMES[name] for name in names)


def _interval(name: str, middle: float, spread: float) -> tuple[float, float, float]:
    ends = (middle, middle - NINETY * spread, middle + NINETY * spread)
    if not is_factor(name):
        return ends
    return math.exp(ends[0]), math.exp(ends[1]), math.exp(ends[2])


def with_learnt(text: str, learnt: Learnt | None) -> str:
    """The kitchen's text with its ``[learnt]`` replaced, or taken out; all else keeps its characters.

    It is written where the old one stood, else at the end. Raises ``InputError`` where the old one is not a
    table of its own.
    """
    document = parse(text)
    blocks = list(_blocks(document))
    if "learnt" in document.data and not blocks:
        fault = Fault('"learnt" is not a table of its own', wanted="a table [learnt]")
        raise InputError(replace(fault, try_="Take it out: it is written anew"))
    newline = "\r\n" if "\r\n" in text else "\n"
    written = newline.join(_lines(learnt)) + newline if learnt is not None else ""
    if not blocks:
        return _at_end(text, written, newline)
    ends = [0, *(end for _, end in blocks)]
    kept = [text[end:start] for end, (start, _) in zip(ends, blocks, strict=False)]
    rest = "".join(kept[1:]) + text[ends[-1] :]
    if not written and not rest.strip() and kept[0].strip():
        return kept[0].rstrip() + newline
    return kept[0] + written + rest


def _at_end(text: str, written: str, newline: str) -> str:
    if not written:
        return text
    gap = "" if text.endswith("\n") else newline
    return f"{text}{gap}{newline}{written}"


def _blocks(document: Document) -> Iterator[tuple[int, int]]:
    """Where the text's tables of what is learnt stand; what is said above the next table belongs to that."""
    text = document.text
    inside = [span for span in document.values.values() if text[span.start] in "\"'[{"]
    headers = [
        match
        for match in _HEADER.finditer(text)
        if not any(span.start < match.start() and match.end() <= span.end for span in inside)
    ]
    begun: int | None = None
    for match in headers:
        ours = match["name"].strip() == "learnt"
        if ours and begun is None:
            begun = match.start()
        elif not ours and begun is not None:
            yield begun, _content_end(text, begun, match.start())
            begun = None
    if begun is not None:
        yield begun, _content_end(text, begun, len(text))


def _content_end(text: str, start: int, end: int) -> int:
    """The end of the last line between two places that is neither empty nor a comment."""
    lines = text[start:end].splitlines(keepends=True)
    while len(lines) > 1 and lines[-1].strip()[:1] in ("", "#"):
        lines.pop()
    return start + sum(map(len, lines))


def _lines(learnt: Learnt) -> Iterator[str]:
    yield HEAD
    yield f"from = {_list(learnt.from_)}"
    if learnt.notes is not None:
        yield f"notes = {literal(learnt.notes)}"
    for one in learnt.quantities:
        yield from ("", "[[learnt.quantity]]", f'of = "{one.of}"')
        for key, said in zip(("value", "low", "high"), _said(one), strict=True):
            yield f'{key} = "{said}"'
        if one.mixed_with:
            yield f"mixed_with = {_list(one.mixed_with)}"
    for pair, value in _correlations(learnt):
        yield from ("", "[[learnt.correlation]]", f"between = {_list(pair)}", f'value = "{value:.3f}"')


def _list(words: Sequence[str]) -> str:
    return f"[{', '.join(literal(word) for word in words)}]"


def _said(one: LearntQuantity) -> tuple[str, ...]:
    """Value, low and high with as many digits as keep them apart."""
    unit = "" if QUANTITIES[one.of][1] == "factor" else " °C"
    for digits in (4, 7, 12):
        texts = [f"{value:.{digits}g}" for value in (one.value, one.low, one.high)]
        value, low, high = (float(text) for text in texts)
        if low < value < high:
            break
    return tuple(text + unit for text in texts)


def _correlations(learnt: Learnt) -> list[tuple[tuple[Quantity, Quantity], float]]:
    """The correlations to three digits, drawn in until they can hold together."""
    names = [one.of for one in learnt.quantities]
    shrink = 1.0
    while True:
        found = [(one.between, round(shrink * one.value, 3)) for one in learnt.correlations]
        by_pair = {one: value for (a, b), value in found for one in ((a, b), (b, a))}
        matrix = [[1.0 if a == b else by_pair.get((a, b), 0.0) for b in names] for a in names]
        try:
            triangle(matrix)
        except ValueError:
            shrink *= 0.995
        else:
            return [(pair, value) for pair, value in found if value != 0.0]


def minimum_for(factor: float, minimum: float) -> float:
    """The temperature [degC] below which gassing stops, for gassing at 4 °C times a factor.

    With s = (4 - Tmin)/(30 - Tmin), gassing at 4 over that at 30 °C goes as s squared; 10 and 20 °C follow.
    """
    root: float = factor**0.5
    share = (4.0 - minimum) / (30.0 - minimum) * root
    return (4.0 - 30.0 * share) / (1.0 - share)


def with_factors(parameters: Parameters, factors: Mapping[str, float]) -> Parameters:
    """The parameters times what is learnt or drawn: yeast, cold, growth, lag, film; the others are left."""
    lag, film = factors.get("lag", 1.0), factors.get("film", 1.0)
    return replace(
        parameters,
        gassing_30=parameters.gassing_30 * factors.get("yeast", 1.0),
        gassing_minimum=minimum_for(factors.get("cold", 1.0), parameters.gassing_minimum),
        growth_optimum_rate=parameters.growth_optimum_rate * factors.get("growth", 1.0),
        gassing_lag=parameters.gassing_lag * lag,
        gassing_lag_dry=parameters.gassing_lag_dry * lag,
        film_still=parameters.film_still * film,
        film_fan=parameters.film_fan * film,
        film_lidded=parameters.film_lidded * film,
    )


def as_learnt(parameters: Parameters, learnt: Learnt | None) -> Parameters:
    """The parameters with the factors that were learnt of this kitchen's yeast and air."""
    if learnt is None:
        return parameters
    return with_factors(parameters, {one.of: one.value for one in learnt.quantities})
