"""The fan and its hundred marks: on the band's axis, true to the shares, said in words."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from doughwright.publish.band import band_svg
from doughwright.publish.fan import (
    Fan,
    Landing,
    counts,
    fan_finding,
    fan_svg,
    fan_table,
    marks_finding,
    marks_svg,
    marks_words,
    share_finding,
)
from doughwright.publish.svg import picture_css
from tests.publish._example import SVG, band, parts, words
from tests.publish._many import fan

PICTURES = {
    "fan": lambda one: fan_svg(one),
    "fan on a phone": lambda one: fan_svg(one, width=350.0),
    "fan on paper": lambda one: fan_svg(one, width=469.0, for_paper=True),
    "marks": lambda one: marks_svg(one),
    "marks on a phone": lambda one: marks_svg(one, width=350.0),
    "marks on paper": lambda one: marks_svg(one, width=300.0, for_paper=True),
}
every = pytest.mark.parametrize("name", PICTURES)


@every
def test_it_is_well_formed_and_says_the_finding(name: str) -> None:
    """No style attribute; who does not see it hears what it shows; every class is known."""
    svg = PICTURES[name](fan())
    root = ElementTree.fromstring(svg)
    named, said = root.attrib["aria-labelledby"].split()
    texts = {one.attrib["id"]: one.text for one in root.iter() if "id" in one.attrib}
    finding = marks_finding(fan()) if name.startswith("marks") else fan_finding(fan())
    assert root.attrib["role"] == "img"
    assert texts[said] == finding
    assert texts[named]
    assert "style" not in svg
    used = {one for text in re.findall(r'class="([^"]+)"', svg) for one in text.split()} - {"pic"}
    assert {f".{one}" for one in used} <= set(re.findall(r"\.[a-z-]+", picture_css()))
    assert bool(used) != name.endswith("paper")


def test_ids_are_unique_on_a_page_that_holds_all_of_them() -> None:
    """Each picture has its prefix."""
    page = fan_svg(fan()) + marks_svg(fan()) + fan_svg(fan(), width=350.0, prefix="a") + band_svg(band())
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))


def test_the_fan_stands_on_the_bands_own_axis() -> None:
    """The eye drops straight down: each hour's figure and day's name stands at the same x in both."""

    def at_the_foot(svg: str) -> dict[str, str]:
        texts = [(one, "".join(one.itertext())) for one in parts(svg, "text")]
        low = max(float(one.attrib["y"]) for one, _ in texts)
        return {text: one.attrib["x"] for one, text in texts if float(one.attrib["y"]) > low - 4.0}

    short = replace(band(), stays=tuple(replace(one, place="room", temperature=20.0) for one in band().stays))
    shared = at_the_foot(fan_svg(fan()))
    days = [text for text in shared if text.isalpha()]
    assert days
    whole = {"".join(one.itertext()): one.attrib["x"] for one in parts(band_svg(short), "text")}
    assert {day: shared[day] for day in days} == {day: whole[day] for day in days}


def test_it_stops_when_the_dough_is_judged_with_its_ends_in_figures() -> None:
    """No edge goes on past the judging."""
    svg = fan_svg(fan())
    low, middle, high = fan().at_judging
    assert {f"{one:.2f}" for one in (low, middle, high)} <= set(words(svg))
    assert {"1 in 20 above", "middle kitchen", "1 in 20 below"} <= set(words(svg))
    inside = parts(svg, "polygon")
    reach = max(float(at.split(",")[0]) for one in inside for at in one.attrib["points"].split())
    ends = 34.0 + (fan().judged_at - fan().start) * (931.0 - 34.0) / (fan().end - fan().start)
    assert reach == pytest.approx(ends, abs=0.06)


@pytest.mark.parametrize("late", [0.0, 4.6])
def test_the_words_at_its_end_do_not_meet(late: float) -> None:
    """Also where the judging is late in the day, and where the three lie close together."""
    near = replace(
        fan(), end=fan().end - late,
        quantiles=tuple(tuple(1.0 + 0.02 * n for _ in fan().time) for n in range(5)),
    )  # fmt: skip
    for svg in (fan_svg(near), fan_svg(near, width=350.0)):
        lines = [
            float(one.attrib["y"])
            for one in parts(svg, "text")
            if re.search(r"1 in 20|middle", "".join(one.itertext()))
        ]
        assert len(lines) >= 3
        gaps = sorted(b - a for a, b in pairwise(sorted(set(lines))))
        assert gaps[0] >= 13.0


def test_there_are_a_hundred_marks_and_the_words_count_them() -> None:
    """Rings, discs and crosses as the shares say."""
    svg = marks_svg(replace(fan(), named=()))
    young, ripe, past = counts(fan())
    rings = [one for one in parts(svg, "circle") if "pic-edge" in one.attrib["class"]]
    discs = [one for one in parts(svg, "circle") if "pic-ink" in one.attrib["class"]]
    assert (len(rings), len(discs), len(parts(svg, "path"))) == (young, ripe, past)
    assert {f"{young} young", f"{ripe} ripe", f"{past} past"} <= set(words(svg))


def test_marks_stack_in_bins_of_a_tenth() -> None:
    """Every mark of a bin stands at one x, and the stacks are apart by the same step."""
    svg = marks_svg(replace(fan(), named=()))
    xs = sorted({float(one.attrib["cx"]) for one in parts(svg, "circle")})
    steps = [b - a for a, b in pairwise(xs)]
    assert steps == pytest.approx([min(steps)] * len(steps), abs=0.11)


@pytest.mark.parametrize(
    ("shares", "expected"),
    [
        ((15.4, 44.3, 40.3), (15, 44, 41)),
        ((33.3, 33.3, 33.4), (33, 33, 34)),
        ((0.0, 100.0, 0.0), (0, 100, 0)),
        ((0.5, 0.5, 99.0), (1, 0, 99)),
    ],
)
def test_counts_add_up_to_a_hundred(
    shares: tuple[float, float, float], expected: tuple[int, int, int]
) -> None:
    """The largest remainders are rounded up."""
    found = counts(replace(fan(), shares=shares))
    assert sum(found) == 100
    if shares != (15.4, 44.3, 40.3):
        assert found == expected


def test_a_state_that_volume_does_not_show_is_drawn_as_it_is() -> None:
    """A dough inside the range whose sugar is used up is past: its mark is a cross."""
    states = ("past",) * 100
    svg = marks_svg(replace(fan(), states=states, shares=(0.0, 0.0, 100.0), named=()))
    assert (len(parts(svg, "circle")), len(parts(svg, "path"))) == (0, 100)


def test_named_kitchens_hang_under_the_axis_the_rightmost_highest() -> None:
    """With their rise in figures; no leader crosses a name."""
    svg = marks_svg(fan())
    places = {"".join(one.itertext()): one for one in parts(svg, "text")}
    cabin, boathouse, student = (
        float(places[text].attrib["y"])
        for text in ("1.4 Mountain cabin", "1.6 Boathouse", "1.9 Student kitchen")
    )
    assert cabin > boathouse > student
    assert "2.7 Warm flat" in places


@pytest.mark.parametrize("width", [500.0, 350.0])
@pytest.mark.parametrize("rises", [(1.2, 1.25, 1.3, 1.35, 1.4, 1.45), (3.9, 3.95, 4.0), (1.5,), ()])
def test_no_leader_crosses_a_name(width: float, rises: tuple[float, ...]) -> None:
    """Whatever kitchens a cook has named, and wherever they land."""
    named = tuple(Landing(f"Kitchen of somebody {at}", rise, "ripe") for at, rise in enumerate(rises))
    svg = marks_svg(replace(fan(), named=named), width=width)
    texts = [one for one in parts(svg, "text") if "somebody" in "".join(one.itertext())]
    lines = [{name: float(one.attrib[name]) for name in ("x1", "x2", "y2")} for one in parts(svg, "line")
             if "stroke-dasharray" not in one.attrib]  # fmt: skip
    leaders = [one for one in lines if one["x1"] == one["x2"]]
    assert len(texts) == len(rises) or any(", " in "".join(one.itertext()) for one in texts)
    for one in texts:
        y, x = float(one.attrib["y"]), float(one.attrib["x"])
        left, right = (x - 150.0, x) if "end" in one.attrib["class"].split() else (x, x + 150.0)
        assert [line for line in leaders if left < line["x1"] < right and line["y2"] > y - 9.0] == []


def test_a_wide_spread_has_wider_bins_but_fits() -> None:
    """From 1 to 9 volumes there is still an axis that can be read."""
    wide = replace(fan(), percentiles=tuple(1.0 + 0.08 * at for at in range(100)), named=())
    for width in (500.0, 350.0):
        xs = [float(one.attrib["cx"]) for one in parts(marks_svg(wide, width=width), "circle")]
        assert min(xs) > 0.0
        assert max(xs) < width


def test_the_words_say_kitchens_and_shares() -> None:
    """The margin's sentence, the marks' legend."""
    head, strong, _ = share_finding(fan())
    assert head == "Made as written in 10,000 kitchens, when shaping begins the dough is ripe in"
    assert strong == f"{counts(fan())[1]} of 100"
    assert marks_words(fan()).startswith("One mark is 100\u00a0kitchens, placed by")


def test_the_table_has_the_quantiles_in_order() -> None:
    """From the mixer to the judging, a row every few hours, each row rising."""
    rows = fan_table(fan())
    assert len(rows) <= 18
    assert all(list(row[1:]) == sorted(row[1:]) for row in rows)
    assert rows[-1][0] == fan().clock.day_time(fan().judged_at)


def test_a_phone_keeps_the_last_day() -> None:
    """Friday is left out, Saturday is there."""
    shown = words(fan_svg(fan(), width=350.0))
    assert fan().clock.day(fan().judged_at) in " ".join(shown)
    assert not any("Friday" in one for one in shown)


def test_a_fan_of_little_is_drawn() -> None:
    """Two points are enough, and all kitchens alike are no trouble."""
    flat: Fan = replace(
        fan(), time=(0.0, fan().judged_at), quantiles=((1.0, 1.8),) * 5, percentiles=(1.8,) * 100, stays=()
    )
    for picture in PICTURES.values():
        assert ElementTree.fromstring(picture(flat)).tag == f"{SVG}svg"
