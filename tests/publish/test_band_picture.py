"""The swelling band as a picture: well formed, said in words, and true to the run."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from doughwright.publish.band import Band, Course, band_svg, description
from doughwright.publish.band._body import layer_temperature
from doughwright.publish.band._frame import Frame
from doughwright.publish.svg import picture_css
from tests.publish._example import PIE, SVG, band, parts, run, words

WIDTHS = [(932.0, False), (350.0, False), (469.0, True)]
OVERVIEW_FOOT = 1


def pictures() -> list[str]:
    return [band_svg(band(), width=width, for_paper=paper) for width, paper in WIDTHS]


def steady(rise: float, **changes: object) -> Band:
    """A band whose dough stands at one volume from the mixer on."""
    times = tuple(float(hour) for hour in range(-1, 40))
    course = Course(times[1:], (20.0,) * 40, (20.0,) * 40, (rise,) * 40)
    return replace(band(), course=course, preferments=(), divided_at=None, **changes)


@pytest.mark.parametrize("svg", pictures(), ids=["page", "phone", "paper"])
def test_it_is_well_formed_and_has_no_style_of_its_own(svg: str) -> None:
    """A strict content policy forbids style attributes and elements."""
    root = ElementTree.fromstring(svg)
    assert root.tag == f"{SVG}svg"
    assert [one for one in root.iter() if "style" in one.attrib or one.tag == f"{SVG}style"] == []


@pytest.mark.parametrize("svg", pictures(), ids=["page", "phone", "paper"])
def test_title_and_description_say_the_finding(svg: str) -> None:
    """Who does not see it hears how the dough is, when, and when it is ripe."""
    root = ElementTree.fromstring(svg)
    named, said = (root.attrib["aria-labelledby"]).split()
    texts = {one.attrib["id"]: one.text or "" for one in root.iter() if "id" in one.attrib}
    assert root.attrib["role"] == "img"
    assert texts[named] == "The days as a band"
    assert f"the dough is {band().state}" in texts[said]
    assert "It is ripe from" in texts[said]


def test_ids_are_unique_on_a_page_that_holds_several() -> None:
    """The prefix keeps two pictures apart, and every gradient that is used is there."""
    page = band_svg(band(), prefix="one") + band_svg(band(), width=350.0, prefix="two")
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(ids)


def test_on_paper_every_colour_is_written_out() -> None:
    """No class, no custom property: Typst knows no style sheet of ours."""
    svg = band_svg(band(), width=469.0, for_paper=True)
    assert "class=" not in svg
    assert "var(" not in svg


def test_on_screen_every_class_is_in_the_style_sheet() -> None:
    """And no colour is fixed but those of temperatures, which both schemes share."""
    svg = band_svg(band())
    used = {name for one in re.findall(r'class="([^"]+)"', svg) for name in one.split()}
    assert {f".{name}" for name in used - {"pic"}} <= set(re.findall(r"\.[a-z-]+", picture_css()))


def test_coordinates_are_rounded_to_a_tenth() -> None:
    """A picture of both widths stays small."""
    assert re.findall(r'(?:points|x|y|x1|x2|y1|y2|d)="[^"]*\d\.\d\d', band_svg(band())) == []


def test_it_is_small() -> None:
    """Under 100 kB at each width, before packing."""
    assert max(len(svg) for svg in pictures()) < 100_000


@pytest.mark.property
@pytest.mark.parametrize("rise", [1.0, 1.3, 1.9])
def test_the_foot_is_flat_and_the_height_is_the_rise(rise: float) -> None:
    """Like dough in a straight jar: the whole polygon reaches from the foot to rise times the unit."""
    flat = band_svg(steady(rise, target=(1.6, 2.0), state="young", ripe_from=None, ripe_to=None))
    corners = [corner(one) for one in parts(flat, "polygon")]
    foot, height = corners[0][1], corners[0][1] - corners[0][0]
    assert height == pytest.approx(58.0 * rise, abs=0.1)
    assert all(low == foot for _, low in corners[:7])


def corner(polygon: ElementTree.Element) -> tuple[float, float]:
    """The highest and the lowest y of a polygon."""
    ys = [float(pair.split(",")[1]) for pair in polygon.attrib["points"].split()]
    return min(ys), max(ys)


@pytest.mark.property
def test_the_axis_is_linear() -> None:
    """A frame puts an hour where its share of the span lies."""
    frame = Frame(-12.0, 36.0, 34.0, 931.0, 200.0, 58.0, 2.6)
    assert frame.x(12.0) == pytest.approx((34.0 + 931.0) / 2.0)
    assert frame.y(2.0) - frame.y(1.0) == pytest.approx(-58.0)


@pytest.mark.property
def test_cold_creeps_in_from_both_faces() -> None:
    """The outer layers are nearer to the edge, the middle one is the core, above as below."""
    layers = [layer_temperature(24.0, 5.0, layer, 7) for layer in range(7)]
    assert layers[3] == pytest.approx(24.0)
    assert layers == pytest.approx(layers[::-1])
    assert layers[0] < layers[1] < layers[2] < layers[3]


def test_a_divided_dough_is_drawn_in_as_many_strands() -> None:
    """Named by their pieces; over four pieces two strands say "of 12"."""
    assert {"round one", "round two"} <= set(words(band_svg(band())))
    many = words(band_svg(replace(band(), pieces=12)))
    assert {"one of 12", "two of 12"} <= set(many)


def test_the_deciding_hours_are_opened_out_from_an_hour_before_the_cold_ends() -> None:
    """The fridge ends at 16:51, so from 15:51 to midnight."""
    assert band().opened_from() == pytest.approx(24.0)
    assert "Saturday, 15:51 to midnight, opened out" in words(band_svg(band()))


def test_a_short_day_is_not_opened_out() -> None:
    """Nothing is gained by drawing it twice."""
    text = PIE.replace('for = "24 h"', 'for = "10 min"').replace('for = "12 h"', 'for = "1 h"')
    assert band(text).opened_from() is None
    assert not any("opened out" in word for word in words(band_svg(band(text))))


def test_a_phone_gets_a_row_a_day() -> None:
    """Each day is headed by its name."""
    found = words(band_svg(band(), width=350.0))
    assert [word for word in found if word in ("Friday", "Saturday")] == ["Friday", "Saturday"]


def test_every_state_on_the_rail_has_its_word() -> None:
    """Young, ripe and past are never only drawn."""
    found = " ".join(words(band_svg(band())))
    assert all(state in found for state in ("young", "ripe", "past"))


def test_the_preferment_is_seen_to_join_the_dough() -> None:
    """It is named, ends when the dough is mixed, and starts at its share of the dough's mass."""
    part = band().preferments[0]
    assert part.name in words(band_svg(band()))
    assert part.course.time[-1] == pytest.approx(-11.0 / 60.0)
    assert part.course.rise[0] == pytest.approx(180.1 / 748.1, rel=0.02)


def test_before_the_change_is_drawn_only_when_there_was_one() -> None:
    """A dashed line in the accent, which means what moved."""
    plain, ghost = band_svg(band()), band_svg(replace(band(), before=band().course))
    assert "pic-move" not in plain
    assert "pic-move" in ghost


def test_words_from_a_document_stay_words() -> None:
    """A preferment called by a tag is written, not obeyed."""
    evil = '<script>"&'
    part = replace(band().preferments[0], name=evil)
    assert evil in words(band_svg(replace(band(), preferments=(part,))))


def test_fahrenheit_where_it_is_asked_for() -> None:
    """Figures in the picture and in its description."""
    us = replace(band(), system="US")
    assert any("41\u00a0°F" in word for word in words(band_svg(us)))
    assert "°C" not in description(us)


@pytest.mark.property
def test_every_word_lies_within_the_picture() -> None:
    """Nothing is cut off on paper, where nothing may stand over."""
    svg = band_svg(band(), width=469.0, for_paper=True)
    for one in parts(svg, "text"):
        x, size = float(one.attrib["x"]), 6.0 * len("".join(one.itertext()))
        anchor = one.attrib.get("text-anchor", "start")
        left = x - {"start": 0.0, "middle": size / 2.0, "end": size}[anchor]
        assert left >= -1.0, "".join(one.itertext())
        assert left + size <= 475.0, "".join(one.itertext())


@pytest.mark.parametrize(
    "text",
    [
        PIE[: PIE.index("[[step]]")] + PIE[PIE.index("[target]") :],
        PIE.replace('for = "24 h"', 'for = "10 days"'),
        PIE.replace('eat = "Saturday 19:00"\n', ""),
        PIE.replace('at = "fridge"', 'at = "12 °C"'),
        PIE.replace('"0.4 g"', '"15 g"'),
        PIE.replace('shape = "round"\ndiameter = "30 cm"', 'shape = "ball"'),
    ],
    ids=["no steps", "ten days", "no meal", "a place by its temperature", "far past", "balls"],
)
@pytest.mark.parametrize("width", [932.0, 550.0, 350.0])
def test_every_kind_of_recipe_can_be_drawn(text: str, width: float) -> None:
    """Whatever can be run can be drawn, at every width."""
    assert ElementTree.fromstring(band_svg(band(text), width=width)).tag == f"{SVG}svg"


def test_the_ripe_zone_belongs_to_the_dough_that_is_judged() -> None:
    """Its lines begin where the dough last lost volume to work: here when it is divided."""
    assert band().judged_from == pytest.approx(band().divided_at or 0.0)


def test_what_is_judged_is_said_as_the_days_say_it() -> None:
    """A ball is judged after its shaping has knocked gas out, so the course before that is not its rise."""
    text = PIE.replace('shape = "round"\ndiameter = "30 cm"', 'shape = "ball"')
    assert f"{run(text).judged.rise:.2f} times its volume" in description(band(text))
