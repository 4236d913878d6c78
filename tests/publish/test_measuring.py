"""What measuring would buy, and readings over the band: pictures and sentences."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from doughwright.publish.bars import bar_svg
from doughwright.publish.measuring import (
    Measure,
    Measuring,
    buys_words,
    measuring_finding,
    measuring_svg,
    next_words,
)
from doughwright.publish.others import Share, explained_sentence, share_words
from doughwright.publish.readings import Panel, Point, Spread, panel_finding, panel_svg
from doughwright.publish.scales import tick_step, ticks
from doughwright.publish.svg import picture_css
from tests.publish._example import parts, words

FRIDGE = Measure("a thermometer in the fridge", 0.3, 10.0)
FLOUR = Measure("the flour’s protein", 0.598, 2.0)
MEASURING = Measuring(1.8, 1.5, 2.1, (FRIDGE, FLOUR))
HOURS = (0.0, 1.0, 2.0, 3.0, 4.0)
BEFORE = Spread(HOURS, (1.0, 1.1, 1.2, 1.3, 1.4), (1.0, 1.2, 1.4, 1.6, 1.8), (1.0, 1.3, 1.6, 1.9, 2.2))
AFTER = Spread(HOURS, (1.0, 1.15, 1.3, 1.45, 1.6), (1.0, 1.2, 1.4, 1.6, 1.8), (1.0, 1.25, 1.5, 1.75, 2.0))
JAR = Panel(
    "rise in the jar", "", (Point(1.0, 1.2), Point(2.0, 1.55), Point(3.0, 2.6, odd=True), Point(4.0, 1.7)),
    BEFORE, AFTER, 1, "hours after mixing",
)  # fmt: skip
PICTURES = [
    measuring_svg(MEASURING), measuring_svg(MEASURING, width=350.0, prefix="phone"),
    panel_svg(JAR), panel_svg(JAR, width=350.0, prefix="narrow"),
]  # fmt: skip


@pytest.mark.parametrize("svg", PICTURES)
def test_pictures_are_well_formed_with_classes_of_the_style_sheet(svg: str) -> None:
    """Title and description are there; nothing carries a style of its own."""
    root = ElementTree.fromstring(svg)
    texts = {one.attrib["id"]: one.text for one in root.iter() if "id" in one.attrib}
    assert all(texts[one] for one in root.attrib["aria-labelledby"].split())
    assert "style" not in svg
    used = {one for text in re.findall(r'class="([^"]+)"', svg) for one in text.split()} - {"pic"}
    assert {f".{one}" for one in used} <= set(re.findall(r"\.[a-z-]+", picture_css()))


def test_what_measuring_buys_is_said_with_both_widths() -> None:
    """And what buys next to nothing says so."""
    assert buys_words(MEASURING, FRIDGE) == "±\u00a00.30 becomes ±\u00a00.15"
    assert buys_words(MEASURING, FLOUR) == "next to nothing"
    head, best, tail = next_words(MEASURING)
    assert (head, best) == ("The next thing worth measuring is", FRIDGE.name)
    assert tail.endswith("is known to within ±\u00a00.15, not ±\u00a00.30.")
    assert "by 50\u00a0%" in measuring_finding(MEASURING)


def test_where_nothing_helps_that_is_said() -> None:
    """No measurement is named as the next."""
    flat = replace(MEASURING, measures=(FLOUR,))
    assert next_words(flat)[1] == ""
    assert "no single measurement" in measuring_finding(flat)


def test_each_bar_is_as_wide_as_its_doubt() -> None:
    """Half the doubt, half the bar; round the middle as it lies now."""
    boxes = [float(one.attrib["width"]) for one in parts(PICTURES[0], "rect")]
    assert boxes[1] / boxes[0] == pytest.approx(0.5, abs=0.01)
    assert MEASURING.after(FRIDGE) == pytest.approx((1.65, 1.95))


def test_readings_are_counted_within_both_bands() -> None:
    """What does not fit is said and crossed out, and counts in neither."""
    assert panel_finding(JAR) == (
        "3\u00a0readings of rise in the jar: 3 within the band before, 2 within the band after. "
        "At the last of them the forecast is known to ± 0.20, before to ± 0.40. "
        "1\u00a0reading does not fit the others."
    )
    assert "does not fit" in words(panel_svg(JAR))


def test_a_long_log_is_a_line() -> None:
    """Thousands of discs would hide the band."""
    log = tuple(Point(at / 100.0, 1.0 + at / 500.0) for at in range(400))
    svg = panel_svg(replace(JAR, points=log))
    assert parts(svg, "circle") == []


def test_readings_alone_are_drawn() -> None:
    """Before anything is fitted there is no band."""
    svg = panel_svg(replace(JAR, before=None, after=None))
    assert len(parts(svg, "circle")) == 4


def test_a_bar_is_as_long_as_its_share_and_not_announced() -> None:
    """The figure stands beside it; the whisker is its error."""
    half, whole = (float(parts(bar_svg(share), "rect")[0].attrib["width"]) for share in (50.0, 100.0))
    assert half / whole == pytest.approx(0.5)
    assert 'aria-hidden="true"' in bar_svg(50.0, 5.0)
    assert len(parts(bar_svg(50.0, 5.0), "line")) == 4


@pytest.mark.parametrize(
    ("rise", "ripe", "said"),
    [
        (
            [Share("the fridge", 62.0), Share("the yeast", 20.0)],
            [Share("the fridge", 40.0)],
            "Most of the difference is explained by the fridge (62\u00a0%); being ripe hangs on the fridge",
        ),
        (
            [Share("the room", 30.0), Share("the fridge", 28.0), Share("the scale", 9.0)],
            [],
            "Most of the difference is explained by the room (30\u00a0%) and the fridge (28\u00a0%).",
        ),
        ([Share("the room", 3.0)], [], "No single input explains the difference"),
    ],
)
def test_what_explains_the_spread_is_a_sentence(rise: list[Share], ripe: list[Share], said: str) -> None:
    """The inputs that explain half of it, with their shares; and what being ripe hangs on."""
    assert explained_sentence(rise, ripe).startswith(said)


def test_a_share_that_rounds_to_nothing_is_not_nothing() -> None:
    """It is under one per cent."""
    assert [share_words(one) for one in (52.4, 0.3)] == ["52\u00a0%", "under\u00a01\u00a0%"]


@pytest.mark.parametrize(
    ("low", "high", "most", "step"), [(0.0, 1.0, 5.0, 0.2), (1.5, 2.1, 8.0, 0.1), (0.0, 72.0, 12.0, 10.0)]
)
def test_axes_have_round_steps(low: float, high: float, most: float, step: float) -> None:
    """1, 2 or 5 times a power of ten."""
    assert tick_step(low, high, most) == pytest.approx(step)
    shown = ticks(low, high, step)
    assert shown and shown[0] >= low - 1e-9 and shown[-1] <= high + 1e-9
