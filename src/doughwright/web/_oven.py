"""The part "The oven": the section, the crust as swatches, and the pieces one after another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from doughwright.errors import DoughwrightError
from doughwright.figures import Figure
from doughwright.forecast.bake.results import Bake, Colour, PieceBaked
from doughwright.publish.render import capital, number
from doughwright.publish.section import (
    HEADINGS,
    cell,
    cut_of,
    finding,
    margin,
    preheat_sentence,
    seconds_words,
    section_svg,
    section_table,
    swatch_svg,
)
from doughwright.web._sampling import Sampled

WIDE, NARROW = 932, 350
SWATCH, SMALL = (300.0, 52.0), (84.0, 16.0)


@dataclass(frozen=True, slots=True)
class Swatch:
    """A crust: "Base: golden", its swatch, and L* of its light end, as forecast, and of its dark end."""

    name: str
    picture: str
    light: str
    middle: str
    dark: str


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of the pieces: under which heading, a small swatch or none, the value, between what."""

    heading: str
    picture: str
    value: str
    between: str


@dataclass(frozen=True, slots=True)
class PieceRow:
    """A piece: its number, how it comes out and why, its cells."""

    number: int
    state: str
    why: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class OvenPicture:
    """One dough in the oven; ``narrow`` is empty where the window that asks is known to be wide."""

    dough: str
    wide: str
    narrow: str
    finding: str
    swatches: tuple[Swatch, ...]
    preheat: str
    pieces: tuple[PieceRow, ...]
    table: tuple[tuple[str, ...], ...]
    said: tuple[str, ...]
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OvenPart:
    """The part; ``waiting`` until it is there, ``why`` where there is no answer.

    ``earlier`` says that what is shown is of the text before the last change; ``page`` has all of it.
    """

    margin: tuple[str, ...]
    pictures: tuple[OvenPicture, ...]
    headings: tuple[str, ...]
    waiting: bool
    earlier: bool
    why: str
    page: str


def oven_part(state: Sampled[Bake], page: str, *, wide_only: bool = False) -> OvenPart:
    """The oven as far as it is there; the earlier one until the new is."""
    found = state.result or state.earlier if state.why is None else None
    bakes = (found, *found.doughs) if found is not None else ()
    several = len(bakes) > 1
    return OvenPart(
        margin=tuple(_margin(bakes)),
        pictures=tuple(
            _picture(one, nth, several=several, wide_only=wide_only) for nth, one in enumerate(bakes)
        ),
        headings=HEADINGS,
        waiting=not state.settled,
        earlier=found is not None and state.result is None,
        why=_why(state.why),
        page=page,
    )


def without_days(why: DoughwrightError | None) -> OvenPart:
    """The part where the days, from which the oven begins, are not modelled."""
    return OvenPart((), (), (), waiting=False, earlier=False, why=_why(why), page="")


def _why(error: DoughwrightError | None) -> str:
    return capital(error.fault.sentence) if error is not None else ""


def _margin(bakes: tuple[Bake, ...]) -> Iterator[str]:
    for bake in bakes:
        for sentence in margin(bake):
            yield f"{capital(bake.dough)}: {sentence}" if len(bakes) > 1 else sentence


@lru_cache(maxsize=16)
def _picture(bake: Bake, nth: int, *, several: bool, wide_only: bool) -> OvenPicture:
    cut, first = cut_of(bake), bake.pieces[0]
    wide = narrow = ""
    if cut is not None:
        wide = section_svg(cut, width=WIDE, prefix=f"section{nth}")
        narrow = "" if wide_only else section_svg(cut, width=NARROW, prefix=f"section-narrow{nth}")
    return OvenPicture(
        dough=bake.dough if several else "",
        wide=wide,
        narrow=narrow,
        finding=finding(bake),
        swatches=(
            _swatch("Base", first.base, first.base_lightness),
            _swatch(_upper(bake), first.rim, first.rim_lightness),
        ),
        preheat=preheat_sentence(bake),
        pieces=tuple(_row(one, bake) for one in bake.pieces),
        table=section_table(cut) if cut is not None else (),
        said=tuple(capital(one) for one in bake.said),
        warnings=tuple(f"{capital(one)}." for one in bake.warnings),
    )


def _upper(bake: Bake) -> str:
    return "Rim" if bake.form == "flat" else "Top"


def _swatch(name: str, colour: Colour, lightness: Figure) -> Swatch:
    ends = colour.low != colour.high
    middle = lightness.value if lightness.value is not None else colour.lab[0]
    return Swatch(
        name=f"{name}: {colour.word}",
        picture=swatch_svg(colour, width=SWATCH[0], height=SWATCH[1]),
        light=number(colour.high[0]) if ends else "",
        middle=number(middle),
        dark=number(colour.low[0]) if ends else "",
    )


def _row(piece: PieceBaked, bake: Bake) -> PieceRow:
    cells = (
        _crust("base, L*", piece.base, piece.base_lightness),
        _crust(f"{_upper(bake).lower()}, L*", piece.rim, piece.rim_lightness),
        Cell("loss, %", "", *cell(piece.weight_loss, 1)),
        Cell("set after", "", *_time(piece.set_at)),
        Cell("core, °C", "", *cell(piece.core_peak)),
        Cell("surface before, °C", "", *cell(piece.surface_before)),
        Cell("after, °C", "", *cell(piece.surface_after)),
    )
    return PieceRow(piece.number, piece.state, piece.state_why, cells)


def _crust(heading: str, colour: Colour, lightness: Figure) -> Cell:
    value, between = cell(lightness)
    small = swatch_svg(colour, width=SMALL[0], height=SMALL[1])
    return Cell(heading, small, f"{colour.word}, {value}", between)


def _time(one: Figure) -> tuple[str, str]:
    """A time and, apart from it, between what it lies."""
    if one.value is None:
        return "–", one.why or ""
    value, _, rest = seconds_words(one).partition(" (")
    return value, rest.removesuffix(")")
