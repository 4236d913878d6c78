"""The section: layers in the one temperature scale, true to the bake, legible at both widths, in words."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from xml.etree import ElementTree

import pytest

from doughwright.figures import Figure
from doughwright.forecast.bake import Bake, bake
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.palette import temperature_colour
from doughwright.publish.section import (
    HEADINGS,
    Cut,
    cut_of,
    finding,
    margin,
    preheat_sentence,
    seconds_words,
    section_svg,
    section_table,
    swatch_svg,
)
from doughwright.publish.svg import picture_css, text_width
from tests.publish._example import BOATHOUSE, PIE, parts, recipe, words

KITCHEN = (
    BOATHOUSE
    + """\
[oven]
error = { value = "-8 °C", how = "measured" }
fan = true
[[surface]]
name = "steel"
material = "carbon steel"
thickness = "6 mm"
"""
)
LOAF = PIE.replace('shape = "round"\ndiameter = "30 cm"', 'shape = "ball"')
SIZES = {"page": (932.0, False), "phone": (350.0, False), "paper": (469.0, True)}
every = pytest.mark.parametrize("name", SIZES)


@cache
def baked(text: str = PIE, draws: int = 16) -> Bake:
    return bake(recipe(text), surroundings(read_kitchen(KITCHEN).kitchen), draws=draws, section=1)


def cut(text: str = PIE) -> Cut:
    found = cut_of(baked(text))
    assert found is not None
    return found


def drawn(name: str, text: str = PIE) -> str:
    width, for_paper = SIZES[name]
    return section_svg(cut(text), width=width, for_paper=for_paper)


@every
def test_it_is_well_formed_and_says_the_finding(name: str) -> None:
    """No style attribute; who does not see it hears what it shows; every class is known."""
    svg = drawn(name)
    root = ElementTree.fromstring(svg)
    named, said = root.attrib["aria-labelledby"].split()
    texts = {one.attrib["id"]: one.text for one in root.iter() if "id" in one.attrib}
    assert root.attrib["role"] == "img"
    assert texts[named] == "Piece 1 in the oven, cut through"
    assert texts[said] == finding(baked())
    assert "style" not in svg
    used = {one for text in re.findall(r'class="([^"]+)"', svg) for one in text.split()} - {"pic"}
    assert {f".{one}" for one in used} <= set(re.findall(r"\.[a-z-]+", picture_css()))
    assert bool(used) != (name == "paper")


@every
@pytest.mark.parametrize("text", [PIE, LOAF], ids=["pie", "ball"])
def test_no_word_leaves_the_picture(name: str, text: str) -> None:
    """At every width; words that run left are counted from their end."""
    width, svg = SIZES[name][0], drawn(name, text)
    for one in parts(svg, "text"):
        wide, x = text_width("".join(one.itertext())), float(one.attrib["x"])
        anchor = one.attrib.get("text-anchor", "") + one.attrib.get("class", "")
        left = x - wide if "end" in anchor else x - wide / 2.0 if "mid" in anchor else x
        assert left >= -4.0, one.text
        assert left + wide <= width + 4.0, one.text


def test_ids_are_unique_and_used() -> None:
    """Each width has its prefix; every gradient that is named is there."""
    page = section_svg(cut(), prefix="a") + section_svg(cut(), width=350.0, prefix="b")
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(ids)


def test_the_layers_are_the_models_own_nodes() -> None:
    """Every cell of a phase is a polygon, and dough swells with the dough: the table has the heights."""
    phases = cut().phases
    cells = sum(len(phase.moments[0].food) for phase in phases) + len(phases[0].moments[0].surface)
    # The key under the picture is one polygon more.
    assert len(parts(drawn("page"), "polygon")) == cells + 1
    moment = phases[0].moments[0]
    assert len(moment.faces) == len(moment.food) + 1
    assert list(moment.faces) == sorted(moment.faces)
    assert phases[0].moments[-1].top > 1.2 * moment.top


def test_a_colour_is_its_temperature() -> None:
    """The steel's face begins and ends in the colour of the one scale for its temperature."""
    first, last = cut().phases[0].moments[0], cut().phases[-1].moments[-1]
    svg = drawn("page")
    for moment in (first, last):
        assert temperature_colour(round(moment.surface[-1], 1)) in svg
    assert f"{first.surface[-1]:.0f}°" in words(svg)


def test_off_the_steel_the_piece_is_lifted_and_the_ground_shows() -> None:
    """It is dressed outside: no oven behind it then, and none of its phases boils there."""
    assert [(one.do, one.in_oven, one.lifted) for one in cut().phases] == [
        ("par-bake", True, False),
        ("dress", False, True),
        ("bake", True, False),
    ]
    ovens = [one for one in parts(drawn("page"), "rect") if one.attrib.get("class") == "pic-oven"]
    assert len(ovens) == 2


def test_the_words_name_phases_layers_and_setting() -> None:
    """On a page outside, on a phone on the layers themselves."""
    for name in ("page", "phone"):
        said = words(drawn(name))
        for one in ("dough", "toppings", "bake, 5\u00a0min"):
            assert one in said
        assert any(one.startswith("crumb set, ") for one in said)
        assert "steel, 6\u00a0mm" in said


def test_where_the_crumb_never_sets_no_dot_is_drawn() -> None:
    """It is said in words instead."""
    piece = replace(cut().piece, set_at=Figure(None, "s", why="it is lifted too soon"))
    raw = replace(cut(), piece=piece)
    assert not parts(section_svg(raw), "circle")
    whole = replace(baked(), pieces=(piece, *baked().pieces[1:]))
    assert "the crumb is not all set" in finding(whole)
    assert "The crumb is not all set in this bake" in " ".join(margin(whole))


def test_without_a_section_there_is_nothing_to_draw() -> None:
    """It has to be asked for."""
    assert cut_of(replace(baked(), section=None)) is None


def test_the_table_holds_the_ends_of_every_phase() -> None:
    """Beside the picture, for those who do not see it."""
    rows = section_table(cut())
    assert {len(row) for row in rows} == {len(HEADINGS)}
    ends = {(f"{phase.end:.1f}", phase.do) for phase in cut().phases}
    assert ends <= {(row[0], row[1]) for row in rows}
    assert len(rows) < 32


def test_the_margin_tells_colour_shares_set_and_the_second_piece() -> None:
    """Three sentences; a first piece that comes out as hot as the second is told so."""
    first, second, third = margin(baked())
    assert re.match(r"Base \w+, rim \w+; of 100 kitchens like this one it comes out \d+ ", first)
    assert re.match(r"The crumb is set (\d+\smin\s)?\d+\s\w+ after it goes in; \d+\.\d\s% of", second)
    assert re.match(r"The second piece meets the \w+ \d+\s°C cooler; its base comes out \w+\.", third)
    one = baked().pieces[0]
    same = replace(baked(), pieces=(one, replace(one, number=2)))
    assert "as hot as the first" in list(margin(same))[2]
    alone = replace(baked(), pieces=(replace(one, share=None),))
    assert len(list(margin(alone))) == 2
    assert next(margin(alone)).endswith(f": {one.state}.")


def test_times_carry_their_interval_or_how_often_they_never_come() -> None:
    """Seconds below ten minutes, then minutes."""
    assert seconds_words(Figure(109.2, "s", 79.0, 158.0)) == (
        "1\u00a0min\u00a049\u00a0s (1\u00a0min\u00a019\u00a0s to 2\u00a0min\u00a038\u00a0s)"
    )
    assert seconds_words(Figure(120.0, "s", why="never in 18 % of kitchens")) == (
        "2\u00a0min (never in 18 % of kitchens)"
    )
    assert seconds_words(Figure(24.9, "min")) == "25\u00a0min"
    assert seconds_words(Figure(None, "s", why="not baked through")) == "not baked through"
    assert "From cold, the" in preheat_sentence(baked())


def test_a_swatch_has_its_light_and_its_dark_end() -> None:
    """Light, as forecast, dark; one colour alone where no interval was asked for."""
    colour = baked().pieces[0].base
    fills = [one.attrib["fill"] for one in parts(swatch_svg(colour, width=300, height=52), "polygon")]
    assert fills == [colour.srgb_high, colour.srgb, colour.srgb_low]
    sure = replace(colour, low=colour.lab, high=colour.lab)
    assert len(parts(swatch_svg(sure, width=300, height=52), "polygon")) == 1


def test_a_bun_has_a_top_and_no_rim() -> None:
    """What is not flat is told by its top."""
    assert baked(LOAF).form != "flat"
    assert ", top " in next(margin(baked(LOAF)))
