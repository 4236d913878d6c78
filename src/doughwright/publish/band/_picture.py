"""The swelling band as one SVG: the whole, then the deciding hours opened out; on a phone a row a day."""

from __future__ import annotations

from doughwright.publish.band._model import Band, Mark
from doughwright.publish.band._row import RowPlan, draw_row
from doughwright.publish.band._words import description, opened_words
from doughwright.publish.svg import Pen

WIDE, NARROW = 932.0, 350.0
A_ROW_A_DAY_BELOW = 420.0
OVERVIEW_UNIT, OPENED_UNIT, NARROW_UNIT, NARROW_OPENED_UNIT = 58.0, 86.0, 44.0, 62.0
# Between a phone and a page (a card, say) the units shrink, but not below what still reads.
LEAST_SCALE = 0.45
WEDGE = 40.0
VOLUME_WORDS = "volume, times that after mixing"


def band_svg(band: Band, *, width: float = WIDE, prefix: str = "band", for_paper: bool = False) -> str:
    """The picture at a width [px]: 932 on a page, 350 on a phone, and any other on paper.

    ``prefix`` keeps its ids apart from other pictures of the page; ``for_paper`` paints it in light colours.
    """
    pen = Pen(prefix, for_paper=for_paper)
    draw = _draw_by_day if width < A_ROW_A_DAY_BELOW else _draw_wide
    height = draw(pen, band, width)
    return pen.picture(width, height, "The days as a band", description(band))


def _draw_wide(pen: Pen, band: Band, width: float) -> float:
    left, right = 34.0, width - (8.0 if pen.for_paper else 1.0)
    opened = band.opened_from()
    shown = (
        band.marks
        if opened is None
        else tuple(mark for mark in band.marks if mark.at <= band.judged_at + 1e-6)
    )
    pen.text((0.0, 12.0), VOLUME_WORDS, "soft")
    scale = min(1.0, max(width / WIDE, LEAST_SCALE))
    low = 0.8 * scale if pen.for_paper else scale
    unit, tallest = (OVERVIEW_UNIT, 250.0) if opened is not None else (OPENED_UNIT, 340.0)
    plan = RowPlan(
        band.start, band.end, left, right, unit * scale, tallest * low, shown, opened=opened is None
    )
    bottom = draw_row(pen, band, plan, 18.0)
    if opened is None:
        return bottom
    start = left + (opened - band.start) * (right - left) / (band.end - band.start)
    low = _draw_wedge(pen, bottom + 2.0, (start, right), (left, right), opened_words(band, opened))
    shown = tuple(mark for mark in band.marks if mark.at >= opened)
    plan = RowPlan(opened, band.end, left, right, OPENED_UNIT * scale, 340.0 * low, shown, opened=True)
    return draw_row(pen, band, plan, low + 6.0)


def _draw_wedge(
    pen: Pen, y: float, upper: tuple[float, float], lower: tuple[float, float], words: str
) -> float:
    """The wedge that joins a stretch to the same stretch opened out; gives its lower edge."""
    wedge = WEDGE * (0.75 if pen.for_paper else 1.0)
    low = y + wedge
    (a, b), (c, d) = upper, lower
    bend_down, bend_up = f"{y + 0.6 * wedge:.1f}", f"{y + 0.4 * wedge:.1f}"
    pen.path(
        f"M{a:.1f},{y:.1f} C{a:.1f},{bend_down} {c:.1f},{bend_up} {c:.1f},{low:.1f}"
        f" L{d:.1f},{low:.1f} C{d:.1f},{bend_up} {b:.1f},{bend_down} {b:.1f},{y:.1f} Z",
        "wash",
    )
    pen.text((d - 12.0, low - 10.0), words, "strong", "end")
    return low


def _draw_by_day(pen: Pen, band: Band, width: float) -> float:
    """A row a day, from midnight to midnight, each as high as its dough; then the opened-out row."""
    left, right = 26.0, width - 4.0
    pen.text((0.0, 12.0), VOLUME_WORDS, "soft")
    low = 18.0
    start = band.clock.midnight_before(band.first_at)
    opened = band.opened_from()
    while start < band.end - 0.5:
        end = band.clock.midnight_after(start)
        pen.text((0.0, low + 16.0), band.clock.day(start), "strong")
        shown = tuple(
            mark for mark in band.marks if start <= mark.at < end and _in_overview(band, mark, opened)
        )
        plan = RowPlan(start, end, left, right, NARROW_UNIT, 200.0, shown, opened=False, days=False)
        low = draw_row(pen, band, plan, low + 22.0)
        start = end
    if opened is None:
        return low
    pen.text((0.0, low + 16.0), opened_words(band, opened), "strong")
    shown = tuple(mark for mark in band.marks if mark.at >= opened)
    plan = RowPlan(opened, band.end, left, right, NARROW_OPENED_UNIT, 280.0, shown, opened=True, days=False)
    return draw_row(pen, band, plan, low + 22.0)


def _in_overview(band: Band, mark: Mark, opened: float | None) -> bool:
    return opened is None or mark.at <= band.judged_at + 1e-6
