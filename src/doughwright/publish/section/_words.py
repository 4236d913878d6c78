"""The oven in words: how a piece comes out, what the next one meets, how long the surface takes."""

from __future__ import annotations

from collections.abc import Iterator

from doughwright.figures import Figure
from doughwright.forecast.bake.results import Bake, PieceBaked
from doughwright.publish.render import HELD, capital, doubt, duration, figure, listed, number

STATES = ("right", "raw", "pale", "dark", "burnt")
NOTHING = "–"
LONG = 600.0
"""A time of a bake past this [s] is told to the minute."""


def margin(bake: Bake) -> Iterator[str]:
    """Two or three sentences: whoever reads only these knows the bake."""
    piece = bake.pieces[0]
    yield f"Base {piece.base.word}, {upper(bake)} {piece.rim.word}{_shares(piece)}."
    set_at = (
        f"The crumb is set {time_words(piece.set_at.value)} after it goes in"
        if piece.set_at.value is not None
        else "The crumb is not all set in this bake"
    )
    loss = piece.weight_loss.value
    yield f"{set_at}{f'; {number(loss, 1)}{HELD}% of the weight is lost' if loss is not None else ''}."
    if len(bake.pieces) > 1:
        yield _second(bake)


def finding(bake: Bake) -> str:
    """What the section of a piece shows, in a sentence or two."""
    piece = bake.pieces[(bake.section.piece if bake.section else 1) - 1]
    told = [
        f"{word} after {seconds_words(one)}" if one.value is not None else never
        for word, never, one in (
            ("the crumb is set", "the crumb is not all set", piece.set_at),
            ("it is baked through", "it is not baked through", piece.through_at),
        )
    ]
    return (
        f"Piece {piece.number} on the {bake.surface.name}, by depth and minute: {listed(told)}; "
        f"its coldest dough comes to {figure(piece.core_peak)}."
    )


def preheat_sentence(bake: Bake) -> str:
    """How the oven is set, what that is in truth, and how long the surface takes to get there."""
    oven, name = bake.oven, bake.surface.name
    modes = [*(["fan"] if oven.fan else []), *(["broiler"] if oven.broil else [])]
    text = f"The dial at {figure(oven.dial)}{f', {listed(modes)}' if modes else ''}: in truth "
    text += f"{figure(oven.true)}."
    if oven.preheat.value is None:
        return f"{text} {capital(oven.preheat.why or '')}."
    text += f" From cold, the {name} comes within 10{HELD}°C of that in {seconds_words(oven.preheat)}"
    given = oven.given.value
    return f"{text}." if given is None else f"{text}; the recipe gives it {time_words(60.0 * given)}."


def upper(bake: Bake) -> str:
    """What the crust above is called: the rim of a flat piece, the top of any other."""
    return "rim" if bake.form == "flat" else "top"


def seconds_words(one: Figure) -> str:
    """A time with its interval: "1 min 49 s (1 min 19 s to 2 min 38 s)"; why it never comes to it."""
    if one.value is None:
        return one.why or "not in this bake"
    per = 60.0 if one.unit == "min" else 1.0
    text = time_words(per * one.value)
    if one.low is not None and one.high is not None:
        return f"{text} ({time_words(per * one.low)} to {time_words(per * one.high)})"
    return f"{text} ({one.why})" if one.why else text


def cell(one: Figure, decimals: int = 0) -> tuple[str, str]:
    """A figure for a table: its value, and between what it lies."""
    if one.value is None:
        return NOTHING, one.why or ""
    return number(one.value, decimals), doubt(one, decimals)


def time_words(seconds: float) -> str:
    """A time of a bake: "1 min 49 s"; past ten minutes to the minute."""
    if seconds >= LONG:
        return duration(round(seconds / 60.0) / 60.0)
    minutes, rest = divmod(round(seconds), 60)
    parts = [f"{minutes}{HELD}min"] if minutes else []
    return HELD.join([*parts, *([f"{rest}{HELD}s"] if rest or not minutes else [])])


def _shares(piece: PieceBaked) -> str:
    """How it comes out in a hundred kitchens like this one; as one word where they were not asked."""
    if piece.share is None:
        return f": {piece.state}"
    told = [
        f"{number(value)} {name}"
        for name in STATES
        if (value := getattr(piece.share, name).value or 0.0) >= 0.5
    ]
    return f"; of 100 kitchens like this one it comes out {listed(told)}"


def _second(bake: Bake) -> str:
    first, second = bake.pieces[:2]
    before, then = first.surface_before.value, second.surface_before.value
    colour = f"its base comes out {second.base.word}"
    if before is None or then is None:
        return f"Of the second piece {colour}."
    gap = round(before - then)
    if abs(gap) < 2:
        return f"The second piece meets the {bake.surface.name} as hot as the first; {colour}."
    how = "cooler" if gap > 0 else "hotter"
    return f"The second piece meets the {bake.surface.name} {abs(gap)}{HELD}°C {how}; {colour}."
