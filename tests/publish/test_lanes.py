"""The two lanes: the dough on the clock, the cook's minutes end to end."""

from __future__ import annotations

import re
from datetime import datetime
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree
from zoneinfo import ZoneInfo

import pytest

from doughwright.kitchen.types import Hours
from doughwright.plan.model import Plan
from doughwright.plan.timeline import plan
from doughwright.publish.lanes import blocks_of, lanes_sentence, lanes_svg, lanes_table
from doughwright.publish.lanes._blocks import Block, asleep, lane_clock, waits_of
from doughwright.publish.lanes._picture import GAP, _names, _places
from doughwright.publish.svg import picture_css
from tests.publish._example import PIE, kitchen, recipe, words

AWAKE = Hours(7 * 3600.0, 23 * 3600.0)


@cache
def example() -> Plan:
    text = PIE.replace('for = "24 h"', 'for = "24 h to 30 h"').replace('for = "12 h"', 'for = "10 h to 14 h"')
    eat = datetime(2026, 11, 28, 19, 0, tzinfo=ZoneInfo("Europe/London"))
    return plan(recipe(text), kitchen(), eat=eat)


def pictures() -> list[str]:
    return [lanes_svg(example(), AWAKE), lanes_svg(example(), AWAKE, width=350.0, prefix="phone")]


@pytest.mark.parametrize("upright", [False, True])
def test_it_is_well_formed_with_classes_of_the_style_sheet(upright: bool) -> None:
    """No style attribute; title and description; every class is known."""
    svg = pictures()[upright]
    root = ElementTree.fromstring(svg)
    named, said = root.attrib["aria-labelledby"].split()
    texts = {one.attrib["id"]: one.text for one in root.iter() if "id" in one.attrib}
    assert (texts[named], texts[said]) == ("The plan in two lanes", lanes_sentence(example()))
    assert "style=" not in svg
    used = {name for one in re.findall(r'class="([^"]+)"', svg) for name in one.split()} - {"pic"}
    assert {f".{name}" for name in used} <= set(re.findall(r"\.[a-z-]+", picture_css()))


@pytest.mark.property
def test_the_cooks_minutes_are_all_there() -> None:
    """Blocks add up to the plan's hands-on time."""
    assert sum(block.minutes for block in blocks_of(example())) == pytest.approx(
        example().hands_on_total.value or 0.0
    )


@pytest.mark.property
def test_the_lower_lane_has_one_scale_end_to_end() -> None:
    """Each block is as wide as its minutes, with the same gap between."""
    blocks = blocks_of(example())
    places = _places(blocks, 50.0, 931.0)
    scales = [(end - left) / block.minutes for block, (left, end) in zip(blocks, places, strict=True)]
    assert scales == pytest.approx([scales[0]] * len(scales))
    assert places[-1][1] == pytest.approx(931.0)
    assert all(later[0] - one[1] == pytest.approx(GAP) for one, later in pairwise(places))


def test_work_that_follows_at_once_is_one_block() -> None:
    """Mixing and what is added later need one name."""
    found = [block.words for block in blocks_of(example())]
    assert any(one.startswith("mix dough, add salt") for one in found)
    assert len(found) < len(lanes_table(example()))


def test_waits_are_the_doughs_and_do_not_overlap() -> None:
    """The poolish, then the dough; toppings stand elsewhere."""
    waits = waits_of(example())
    assert all(one.end <= later.start + 1e-6 for one, later in pairwise(waits))
    assert any(wait.place == "fridge" for wait in waits)


def test_every_block_has_its_time_in_the_picture() -> None:
    """In both layouts."""
    for svg in pictures():
        text = " ".join(words(svg))
        assert all(block.time in text for block in blocks_of(example()))


@pytest.mark.parametrize(
    "minutes", [(15, 7, 2, 1, 31), (60, 1, 1, 1, 1, 1, 60), (1, 1, 1, 60), (60, 1, 1, 1)]
)
def test_no_name_stands_on_another_or_on_its_leader(minutes: tuple[int, ...]) -> None:
    """Short work close together: each name has a place of its own."""
    blocks = [Block(0.0, one / 60.0, float(one), "15:59", "take dough out of fridge") for one in minutes]
    names = _names(blocks, _places(blocks, 50.0, 931.0), 931.0)
    assert [one.time for one in names] == ["15:59"] * len(minutes)
    assert not any(one.meets(other) for n, one in enumerate(names) for other in names[:n])
    assert all(one.left >= 0.0 and one.right <= 931.0 for one in names)


def test_the_hours_asleep_are_those_the_kitchen_does_not_name() -> None:
    """Two nights of eight hours between Thursday evening and Saturday midnight."""
    clock = lane_clock(example())
    nights = [high - low for low, high in asleep(clock, AWAKE, -1.0, clock.midnight_after(40.0))]
    assert nights.count(pytest.approx(8.0)) >= 1
    assert all(night <= 8.0 + 1e-9 for night in nights)


def test_somebody_awake_over_midnight_sleeps_by_day() -> None:
    """Awake from 20:00 to 12:00 is eight hours of sleep from noon."""
    clock = lane_clock(example())
    nights = list(asleep(clock, Hours(20 * 3600.0, 12 * 3600.0), 0.0, 48.0))
    assert {clock.time(low) for low, _ in nights[1:]} == {"12:00"}
