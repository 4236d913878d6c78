"""The oven as text: a table of the pieces, and sentences for what it says of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from doughwright.figures import Figure
from doughwright.forecast.bake.results import Bake, Colour, Frame, PieceBaked
from doughwright.publish.render import (
    counted,
    doubt,
    duration,
    figure,
    listed,
    number,
    temperature,
)
from doughwright.publish.terminal.columns import columns, indented, wrapped

_SHOWN = 12
_STATES = ("raw", "pale", "right", "dark", "burnt")


def oven_text(bake: Bake) -> str:
    """Every dough's bake."""
    return "\n\n".join("\n".join(_bake(one)) for one in (bake, *bake.doughs))


def _bake(bake: Bake) -> list[str]:
    lines = [*wrapped(_head(bake)), *wrapped(_oven(bake)), *wrapped(_goes_in(bake)), ""]
    lines += [*indented(_table(bake)), ""]
    above = "rim" if bake.form == "flat" else "top"
    for piece in bake.pieces:
        lines += wrapped(f"Piece {piece.number}: {piece.state}, {piece.state_why}.")
        lines += [line for sentence in _piece(piece, above) for line in wrapped(sentence, "  ")]
    if bake.section is not None:
        lines += ["", *_section(bake.section.piece, bake.section.frames)]
    if bake.draws:
        said = (
            "In brackets: 9 in 10 kitchens like this one, with all that is not known of it and of the model."
        )
        lines += ["", *wrapped(said)]
    lines += [line for text in bake.warnings for line in wrapped(f"Careful: {text}.")]
    return lines + (["", *wrapped("Assumed: " + "; ".join(bake.said) + ".")] if bake.said else [])


def _head(bake: Bake) -> str:
    surface = bake.surface
    thick = number((surface.thickness.value or 0.0) * 10.0, 1).removesuffix(".0") + " mm"
    name = (
        surface.name if surface.name == surface.material else f"{surface.name} ({surface.material}, {thick})"
    )
    return f"{bake.dough} in the kitchen {bake.kitchen}: {counted(len(bake.pieces), 'piece')} on the {name}."


def _oven(bake: Bake) -> str:
    oven = bake.oven
    modes = [*(["fan"] if oven.fan else []), *(["broiler"] if oven.broil else [])]
    mode = f", {listed(modes)}" if modes else ", top and bottom"
    text = f"The dial at {figure(oven.dial)}{mode}: in truth {figure(oven.true)}."
    if oven.preheat.value is not None:
        text += f" From cold, the {bake.surface.name} comes within 10 °C of that in {_minutes(oven.preheat)}"
        given = oven.given.value
        text += "." if given is None else f"; the recipe gives it {number(given)} min."
    return text


def _goes_in(bake: Bake) -> str:
    piece = bake.goes_in
    area = f" ({figure(replace(piece.loading, low=None, high=None))})" if bake.form == "flat" else ""
    dressed = f", {figure(piece.toppings)} of toppings" if piece.toppings.value else ""
    return (
        f"A piece goes in with {figure(piece.mass, 0)} of dough{area}{dressed}, its core at "
        f"{figure(piece.core)}, sugar left {figure(piece.sugar)}: it browns {figure(piece.browning, 1)} "
        "times as fast as a plain lean dough."
    )


def _minutes(one: Figure) -> str:
    """A time with its interval, all in minutes."""
    return f"{number(one.value or 0.0)} min{_beside(one)}"


def _seconds(one: Figure) -> str:
    """A time of a bake with its interval: in seconds, past ten minutes in minutes."""
    if one.value is None:
        return "not in this bake"
    if one.value >= 600.0:
        low, high = (None if end is None else end / 60.0 for end in (one.low, one.high))
        return _minutes(Figure(one.value / 60.0, "min", low, high, one.why))
    return f"{number(one.value)} s{_beside(one)}"


def _beside(one: Figure) -> str:
    """The interval of a time in brackets, or in how many kitchens it never comes."""
    width = doubt(one, 0) or (one.why or "").removesuffix(" of kitchens like this one")
    return f" ({width})" if width else ""


def _table(bake: Bake) -> list[str]:
    above = "rim" if bake.form == "flat" else "top"
    rows = [["piece", "state", "base L*", f"{above} L*", "loss %", "core °C", "surface before", "after"]]
    for piece in bake.pieces:
        cells = (
            (piece.base_lightness, 0),
            (piece.rim_lightness, 0),
            (piece.weight_loss, 1),
            (piece.core_peak, 0),
            (piece.surface_before, 0),
            (piece.surface_after, 0),
        )
        rows.append([str(piece.number), piece.state, *(_cell(one, places) for one, places in cells)])
    return columns(rows, right=[True, False, *[True] * 6])


def _cell(one: Figure, decimals: int) -> str:
    if one.value is None:
        return "–"
    width = doubt(one, decimals)
    return number(one.value, decimals) + (f" ({width})" if width else "")


def _piece(piece: PieceBaked, above: str) -> Iterator[str]:
    yield f"Base {_colour(piece.base)}, {above} {_colour(piece.rim)}."
    if piece.share is not None:
        shares = [(name, getattr(piece.share, name).value or 0.0) for name in _STATES]
        told = [f"{number(value)} % {name}" for name, value in shares if value >= 0.5]
        yield f"Of kitchens like this one: {listed(told)}."
    yield _done(piece)
    if toppings := _toppings(piece):
        yield toppings
    if piece.recover.value is not None and piece.recover.value >= 0.5:
        yield f"The surface is back within 10 °C of what it was after {_minutes(piece.recover)}."


def _colour(one: Colour) -> str:
    text = f"{one.word}, {one.srgb}"
    return text if one.low == one.high else f"{text} ({one.srgb_low} to {one.srgb_high})"


def _done(piece: PieceBaked) -> str:
    times = (
        ("set", "not all set", piece.set_at),
        ("yeast dead", "its yeast not all dead", piece.yeast_dead_at),
        ("baked through", "not baked through", piece.through_at),
    )
    words = [never if one.value is None else f"{word} after {_seconds(one)}" for word, never, one in times]
    line = f"; {piece.set_at.why}" if piece.set_at.value is None and piece.state != "raw" else ""
    text = f"{listed(words)}{line}; water in the crumb {figure(piece.moisture)}."
    return text[0].upper() + text[1:]


def _toppings(piece: PieceBaked) -> str:
    told = [
        f"{name} comes to {figure(one)}"
        for name, one in (("sauce", piece.sauce), ("cheese", piece.cheese))
        if one is not None
    ]
    if not told:
        return ""
    text = f"{listed(told)} at its hottest"
    filling = piece.filling
    if filling is not None and filling.least.value is not None:
        reached = "which is reached" if filling.reached else "which is not reached"
        text += (
            f"; the Food Code wants {temperature(filling.least.value)} for {listed(filling.items)}, {reached}"
        )
    return text[0].upper() + text[1:] + "."


def _section(piece: int, frames: tuple[Frame, ...]) -> list[str]:
    """The cut as a table: dough and toppings from below, at a dozen moments."""
    step = max(1, -(-len(frames) // _SHOWN))
    rows = [["after", "do", "base", "middle", "upper dough", "boiled from base", "from top", "thick"]]
    for one in frames[::step]:
        rows.append(_moment(one))
    head = f"Piece {piece} cut through (degrees; depths in mm):"
    return [head, *indented(columns(rows, right=[True, False, *[True] * 6]))]


def _moment(frame: Frame) -> list[str]:
    surface = sum(1 for one in frame.depth.values if one is not None and one < 0.0)
    layers = {one.name: one.thickness.value or 0.0 for one in frame.layers}
    above = [
        (depth, degrees)
        for depth, degrees in zip(
            frame.depth.values[surface:], frame.temperature.values[surface:], strict=True
        )
        if depth is not None and degrees is not None and depth <= layers["dough"]
    ]
    base, middle, top = above[0][1], above[len(above) // 2][1], above[-1][1]
    thick = layers["dough"] * 10.0
    return [
        duration((frame.time.value or 0.0) / 60.0),
        frame.do,
        *(number(one) for one in (base, middle, top)),
        *(number((one.value or 0.0) * 10.0, 1) for one in (frame.from_base, frame.from_top)),
        number(thick, 1),
    ]
