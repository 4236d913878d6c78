"""The oven end to end: the model's own bands through a recipe and a kitchen, and what moves them."""

from __future__ import annotations

import json
from dataclasses import replace
from itertools import pairwise

import pytest

from doughwright.errors import NoAnswerError
from doughwright.forecast.bake import bake
from doughwright.forecast.bake.results import Bake
from doughwright.recipe.model import Makes
from tests.forecast.bake._pies import (
    ROUND,
    STEEL,
    STONE,
    TIN,
    TOPPINGS,
    TRAY,
    bare,
    in_two,
    kitchen,
    one_go,
    recipe,
    steel_bake,
    value,
)


def baked(steps: str, surface: str = STEEL, **more: object) -> Bake:
    """The middle of what is known, without intervals."""
    return bake(recipe(steps, **more), kitchen(surface), draws=0)  # type: ignore[arg-type]


@pytest.mark.pin
@pytest.mark.parametrize(
    ("made", "loss", "base"),
    [
        pytest.param(lambda: steel_bake(), 11.6, 66.0, id="steel 250 °C, 7 min"),
        pytest.param(lambda: baked(one_go(6, 275)), 11.7, 60.0, id="steel 275 °C, 6 min"),
        pytest.param(
            lambda: baked(one_go(6, 275, on="stone"), STONE), 11.3, 65.0, id="cordierite 275 °C, 6 min"
        ),
        pytest.param(lambda: baked(in_two()), 12.8, 59.0, id="steel 250 °C, 5 + 4 min"),
    ],
)
def test_a_recipe_comes_to_the_bands_the_model_was_fitted_to(made, loss, base):
    """Fitted, not evidence: a document goes to the same figures as the model by itself."""
    piece = made().pieces[0]
    assert value(piece.weight_loss) == pytest.approx(loss, abs=0.5)
    assert value(piece.base_lightness) == pytest.approx(base, abs=1.5)


@pytest.mark.pin
def test_a_tin_loaf_comes_to_its_bands():
    """Fitted, not evidence: 500 g, 35 min at 210 °C: loss 10.6 %, top L* 47, core 97 °C."""
    loaf = baked(bare(35, 210), makes=TIN, scale=2.0, toppings="")
    piece = loaf.pieces[0]
    assert loaf.form == "loaf"
    assert value(piece.weight_loss) == pytest.approx(10.6, abs=0.4)
    assert value(piece.rim_lightness) == pytest.approx(47.0, abs=1.5)
    assert value(piece.core_peak) == pytest.approx(97.1, abs=1.0)


@pytest.mark.pin
def test_a_bun_comes_to_its_bands():
    """Fitted, not evidence: 80 g, 15 min at 200 °C without fan: loss 8.3 %, top L* 76, core 93 °C."""
    bun = baked(bare(15, 200), makes='shape = "ball"', scale=0.32, toppings="")
    piece = bun.pieces[0]
    assert (bun.form, bun.surface.name) == ("bun", "tray")
    assert value(piece.weight_loss) == pytest.approx(8.3, abs=0.4)
    assert value(piece.rim_lightness) == pytest.approx(76.0, abs=1.5)
    assert value(piece.core_peak) == pytest.approx(93.4, abs=1.0)


def test_longer_and_hotter_darken_the_base_and_dry_it():
    """The trend a cook expects, from pale to dark."""
    pieces = [baked(one_go(m, d)).pieces[0] for m, d in ((5, 230), (7, 250), (9, 270))]
    for before, after in pairwise(pieces):
        assert value(after.base_lightness) < value(before.base_lightness) - 2.0
        assert value(after.weight_loss) > value(before.weight_loss) + 0.5


def test_a_second_piece_finds_a_colder_surface_and_comes_out_paler():
    """With 3 min between: much colour, little loss."""
    first, second = baked(one_go(), pieces=2).pieces
    assert value(first.surface_after) < value(second.surface_before) < value(first.surface_before)
    assert value(second.base_lightness) > value(first.base_lightness) + 2.0
    assert abs(value(second.weight_loss) - value(first.weight_loss)) < 1.5


def test_a_longer_wait_gives_the_surface_back_its_heat():
    """Ten minutes between two pieces bring them closer together."""
    short = baked(one_go(more='between = "1 min"'), pieces=2).pieces[1]
    long = baked(one_go(more='between = "10 min"'), pieces=2).pieces[1]
    assert value(long.surface_before) > value(short.surface_before) + 10.0
    assert value(long.base_lightness) < value(short.base_lightness)


def test_steel_browns_more_than_stone_and_a_thin_tray_least():
    """The same minutes and degrees on each."""
    tones = [value(baked(one_go(), one).pieces[0].base_lightness) for one in (STEEL, STONE, TRAY)]
    assert tones[0] < tones[1] < tones[2]


def test_height_cools_the_crumb_and_sets_it_later():
    """At 1800 m plain water boils at 94 °C."""
    high = bake(recipe(one_go()), kitchen(more='altitude = "1800 m"'), draws=0).pieces[0]
    low = steel_bake().pieces[0]
    assert value(high.core_peak) < value(low.core_peak) - 2.0
    assert value(high.set_at) > value(low.set_at)


def test_the_broiler_dries_the_top_and_hardly_colours_the_base():
    """Its heat comes from above."""
    with_it = baked(one_go(more='heat = "broil"')).pieces[0]
    without = steel_bake().pieces[0]
    assert value(with_it.weight_loss) > value(without.weight_loss) + 0.5
    rim = value(without.rim_lightness) - value(with_it.rim_lightness)
    base = value(without.base_lightness) - value(with_it.base_lightness)
    assert rim > 5.0
    assert abs(base) < 0.3 * rim


def test_preheating_warms_the_surface_from_the_room():
    """Twenty minutes leave a stone short of its oven, and it is warned of; two hours do not."""
    heat = '[[step]]\ndo = "preheat"\nfor = "{} min"\nat = "250 °C"\n'
    short = baked(heat.format(20) + one_go(on="stone"), STONE)
    long = baked(heat.format(120) + one_go(on="stone"), STONE)
    assert value(short.pieces[0].surface_before) < 210.0
    assert value(long.pieces[0].surface_before) == pytest.approx(250.0, abs=3.0)
    assert any("short of its oven" in one for one in short.warnings)
    assert not long.warnings
    assert value(long.oven.preheat) == pytest.approx(33.0, abs=2.0)


def test_the_series_has_one_clock_for_all_pieces():
    """Time never runs backwards; toppings have no temperature before they are on."""
    two = baked(in_two(), pieces=2)
    series = two.series
    times = [one for one in series.time.values if one is not None]
    assert times == sorted(times)
    assert len({len(times), len(series.piece), len(series.base.values), len(series.loss.values)}) == 1
    assert series.sauce.values[0] is None
    assert series.sauce.values[-1] is not None
    assert [event.do for event in two.events] == ["par-bake", "dress", "bake"] * 2
    assert two.events[3].start.value == pytest.approx(10.5 + 3.0)
    assert [event.in_oven for event in two.events[:3]] == [True, False, True]


def test_a_section_shows_layers_and_how_far_boiling_has_come():
    """Dough springs up from 7 mm, its base boils first; sauce and cheese lie on it."""
    cut = bake(recipe(one_go()), kitchen(), draws=0, section=1).section
    assert cut is not None
    first, last = cut.frames[0], cut.frames[-1]
    assert [one.name for one in first.layers] == ["surface", "dough", "sauce", "cheese"]
    assert value(first.layers[1].thickness) == pytest.approx(0.707, abs=0.01)
    assert value(last.layers[1].thickness) == pytest.approx(0.707 * 1.75, abs=0.02)
    assert value(first.from_base) == 0.0
    assert 0.1 < value(last.from_base) < 0.6
    assert value(last.from_top) == 0.0
    depths = [one for one in last.depth.values if one is not None]
    assert depths == sorted(depths)
    assert depths[0] < 0.0


def test_intervals_hold_the_middle_and_come_from_the_seed():
    """The same seed draws the same kitchens."""
    one = bake(recipe(one_go(3)), kitchen(), draws=16, seed=5).pieces[0]
    again = bake(recipe(one_go(3)), kitchen(), draws=16, seed=5).pieces[0]
    assert one == again
    for figure in (one.base_lightness, one.weight_loss, one.core_peak, one.surface_after):
        assert figure.low is not None
        assert figure.high is not None
        assert figure.low < value(figure) < figure.high
    assert one.share is not None
    shares = [getattr(one.share, name).value for name in ("raw", "pale", "right", "dark", "burnt")]
    assert sum(shares) == pytest.approx(100.0)
    assert one.base.low[0] < one.base.lab[0] < one.base.high[0]


def test_what_the_kitchen_knows_of_its_oven_narrows_the_interval():
    """A dial measured to 2 °C against one that nobody has checked."""
    known = kitchen(oven='error = { value = "0 °C", how = "measured", spread = "2 °C" }')
    unknown = kitchen(oven="fan = true")
    wide = bake(recipe(one_go(3)), unknown, draws=64).pieces[0].surface_before
    narrow = bake(recipe(one_go(3)), known, draws=64).pieces[0].surface_before
    assert wide.low is not None
    assert wide.high is not None
    assert narrow.low is not None
    assert narrow.high is not None
    assert narrow.high - narrow.low < 0.75 * (wide.high - wide.low)


def test_states_follow_the_target_and_golden_where_there_is_none():
    """L* 66 is golden: right unless something else is asked for."""
    assert steel_bake().pieces[0].state == "right"
    assert steel_bake().wanted.assumed
    asked = {
        word: baked(one_go(), end=f'[target]\nbase = "{word}"\nrim = "brown"').pieces[0]
        for word in ("pale", "brown")
    }
    assert (asked["pale"].state, asked["brown"].state) == ("dark", "pale")
    assert asked["pale"].state_why == (
        "the base is at L* 66; pale is asked for, L* 72 to 100; the rim is pale, brown is asked for"
    )


def test_a_short_bake_is_raw_and_says_how_far_it_came():
    """Its crumb has not set."""
    piece = baked(one_go(1)).pieces[0]
    assert piece.state == "raw"
    assert piece.set_at.value is None
    assert piece.set_at.why is not None
    assert piece.set_at.why.startswith("not in this bake: its coldest dough comes to")


def test_a_cool_line_under_wet_toppings_is_not_a_raw_pie():
    """Under a thick wet sauce alone the top of the dough stays below 80 °C: said, while the crumb has set."""
    wet = TOPPINGS[: TOPPINGS.index('[[mix]]\nname = "cheese"')].replace("84.8 g", "250 g")
    piece = baked(one_go(7).replace(', "cheese"', ""), toppings=wet, scale=1.3).pieces[0]
    assert piece.state != "raw"
    assert piece.set_at.value is None
    assert piece.set_at.why is not None
    assert piece.set_at.why.startswith("a line under the toppings comes only to 7")


def test_no_sugar_left_and_a_young_dough_brown_as_a_plain_one():
    """Under 3 h old the browning factor is 1, not 1.6."""
    young = baked(one_go(), rest="2 h").pieces[0]
    assert value(young.base_lightness) > value(steel_bake().pieces[0].base_lightness) + 3.0


def test_what_goes_in_is_what_the_days_made_of_it():
    """Mass, loading and water of the dough, its warmth and sugar, and how that browns."""
    bake_ = steel_bake()
    piece = bake_.goes_in
    assert value(piece.mass) == pytest.approx(250.0, abs=0.5)
    assert value(piece.toppings) == pytest.approx(169.6, abs=0.1)
    assert value(piece.loading) == pytest.approx(0.354, abs=0.002)
    assert value(piece.water) == pytest.approx(46.6, abs=1.0)
    assert value(piece.core) == pytest.approx(22.0, abs=1.0)
    assert value(piece.sugar) > 1.0
    assert value(piece.browning) == pytest.approx(1.6)


def test_the_json_has_the_keys_of_the_contract():
    """DESIGN's names, units and intervals; it is JSON all through."""
    result = bake(recipe(one_go(3)), kitchen(), draws=4, section=1).to_json()
    text = json.loads(json.dumps(result, allow_nan=False))
    assert {"series", "pieces", "section", "oven", "surface", "said"} <= text.keys()
    piece = text["pieces"][0]
    for name, unit in (
        ("base_lightness", "L*"), ("rim_lightness", "L*"), ("weight_loss", "percent"), ("core_peak", "degC"),
        ("surface_before", "degC"), ("surface_after", "degC"),
    ):  # fmt: skip
        assert piece[name]["unit"] == unit
        assert piece[name]["low"] <= piece[name]["value"] <= piece[name]["high"]
    assert {"lab", "low", "high"} <= piece["base"].keys()
    assert piece["state"] in ("raw", "pale", "right", "dark", "burnt")


def test_a_piece_without_a_size_has_no_thickness():
    """A document cannot leave it out; a recipe made in Python can."""
    made = replace(recipe(bare(5, 250)), makes=Makes(shape="round"))
    with pytest.raises(NoAnswerError, match="without a size"):
        bake(made, kitchen(), draws=0)


@pytest.mark.parametrize(
    ("steps", "more", "words"),
    [
        ("", {}, "no step bakes"),
        ('[[step]]\ndo = "bake"\nat = "250 °C"\n', {}, "has to say how long"),
        ('[[step]]\ndo = "bake"\nfor = "5 min"\n', {}, "says no temperature"),
        (bare(5, 250), {"scale": 8.0, "makes": ROUND}, "so flat or so deep"),
        (bare(5, 250), {"yeast": "baking powder"}, "no yeast"),
        (
            '[[step]]\ndo = "par-bake"\nfor = "3 min"\nat = "250 °C"\n[[step]]\ndo = "cool"\nfor = "2 h"\n'
            + bare(5, 250),
            {},
            "at most 30 min",
        ),
    ],
)
def test_what_is_not_modelled_has_no_answer_and_says_why(steps, more, words):
    """Exit 3, never a guess."""
    with pytest.raises(NoAnswerError, match=words):
        baked(steps, **more)


def test_a_section_is_that_of_the_middle_whatever_is_drawn():
    """Its last frame ends where the series of its piece does."""
    result = bake(recipe(one_go(2)), kitchen(), draws=4, section=1)
    alone = bake(recipe(one_go(2)), kitchen(), draws=0, section=1)
    assert result.section == alone.section
    assert result.section is not None
    assert min(one for one in result.section.frames[-1].temperature.values[2:26] if one) == pytest.approx(
        result.series.core.values[-1], abs=0.01
    )
