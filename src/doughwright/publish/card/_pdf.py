"""The card: a recipe on one or two sides of A5, as a PDF that reads well by eye and by machine."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, replace
from functools import cache
from importlib import resources

from doughwright.errors import DoughwrightError
from doughwright.publish.band import Band, band_svg, description

# Drawn for A5 less its margins at this width, its words come to 8 pt, the size of the notes.
PICTURE_WIDTH = 550.0


@dataclass(frozen=True, slots=True)
class CardRow:
    """One line of a mix; ``weights`` in the order of the card's weight columns; ``note`` stands below it."""

    item: str
    weights: tuple[str, ...]
    measure: str
    percent: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class CardMix:
    """What is weighed together, with its total."""

    name: str
    rows: tuple[CardRow, ...]
    totals: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class CardStep:
    """One step: when, what, for how long and where; ``day`` only where it is another than before."""

    day: str
    time: str
    do: str
    for_: str
    at: str


@dataclass(frozen=True, slots=True)
class CardCaution:
    """What to look out for, and what to do about it."""

    says: str
    do: str


@dataclass(frozen=True)
class CardData:
    """Everything that stands on a card, as words; ``band`` is drawn when the card is made."""

    title: str
    lead: str
    weight_units: tuple[str, ...]
    mixes: tuple[CardMix, ...]
    facts: tuple[tuple[str, str], ...]
    steps: tuple[CardStep, ...]
    finding: str = ""
    band: Band | None = None
    notes: tuple[str, ...] = ()
    cautions: tuple[CardCaution, ...] = ()
    allergens: tuple[tuple[str, str], ...] = ()
    version: str = ""
    date: str = ""
    kitchen: str = ""
    measure_note: str = ""
    lang: str = "en"


def card(data: CardData) -> bytes:
    """The card as a PDF; the same data give the same bytes."""
    inputs = {"card": json.dumps(_inputs(data), ensure_ascii=False, sort_keys=True)}
    last: Exception | None = None
    # The bundled faces alone give the same bytes everywhere; a script they lack needs the machine's own.
    for own_faces_only, marked in ((True, True), (False, True), (False, False)):
        try:
            return _compiled(inputs, own_faces_only=own_faces_only, marked=marked)
        except RuntimeError as error:
            last = error
    raise DoughwrightError(f"the card could not be set: {last}") from last


def _compiled(inputs: dict[str, str], *, own_faces_only: bool, marked: bool) -> bytes:
    import typst

    return typst.compile(
        template(),
        format="pdf",
        sys_inputs=inputs,
        pdf_standards="ua-1" if marked else None,
        ignore_system_fonts=own_faces_only,
        timestamp=0,
    )


@cache
def template() -> bytes:
    """The card's layout; it holds no data, and takes all of it as JSON."""
    return resources.files("doughwright.publish.card").joinpath("card.typ").read_bytes()


def _inputs(data: CardData) -> dict[str, object]:
    """The data as plain values, with the picture drawn for paper."""
    plain = asdict(replace(data, band=None))
    if data.band is not None:
        plain["picture"] = band_svg(data.band, width=PICTURE_WIDTH, prefix="card", for_paper=True)
        plain["picture_says"] = description(data.band)
    del plain["band"]
    return plain
