"""What moves the air of a fridge and a room, and what is assumed of it."""

from __future__ import annotations

import math

import pytest

from doughwright.errors import DocumentError
from doughwright.kitchen.air import PlaceAir
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.kitchen.types import Known

HEAD = 'schema = 1\nkitchen = "Plain"\n'


def with_fridge(lines: str, head: str = HEAD) -> Surroundings:
    """A kitchen whose fridge says this."""
    return surroundings(read_kitchen(f"{head}[fridge]\n{lines}\n").kitchen)


def with_room(lines: str) -> Surroundings:
    """A kitchen whose room says this."""
    return surroundings(read_kitchen(f"{HEAD}[room]\n{lines}\n").kitchen)


def test_a_kitchen_that_says_nothing_has_no_swing_no_cycle_and_no_load() -> None:
    """A run in one kitchen is then at one temperature, as before."""
    middle = surroundings(None)
    assert middle.air("fridge") == PlaceAir(4.8)
    assert middle.air("room") == PlaceAir(21.0)
    assert middle.place("fridge") == middle.fridge
    assert middle.cold.offset == Known(0.0, "assumed", 1.0)


@pytest.mark.parametrize(
    ("shelf", "degrees"), [("top", 5.2), ("middle", 4.7), ("bottom", 5.0), ("door", 7.6)]
)
def test_a_shelf_is_warmer_or_colder_than_the_fridge(shelf: str, degrees: float) -> None:
    """Each with a spread of its own, less than that of a place nobody names; and it is said."""
    used = with_fridge(f'temperature = "5 °C"\nshelf = "{shelf}"')
    assert used.air("fridge").mean == pytest.approx(degrees)
    assert used.place("Fridge").value == pytest.approx(degrees)
    assert used.fridge.value == 5.0
    assert used.cold.offset.spread is not None
    assert 0.7 <= used.cold.offset.spread <= 1.0
    assert any(shelf in said for said in used.assumed)


@pytest.mark.outside(
    source="Evans et al. 2014 (UK): mean 4.4, above 5 °C 38 % of the time; top 58, middle 32, bottom 26 %",
    how="identity",
)
def test_the_shelves_of_one_survey_come_out_of_its_shares() -> None:
    """Shares of a normal with the sd that 4.4 °C and 38 % give make shelves of 5.4, 4.1 and 3.7 °C."""
    sd = (5.0 - 4.4) / 0.3055
    shelves = [5.0 - sd * z for z in (-0.2019, 0.4677, 0.6433)]
    assert sum(shelves) / 3.0 == pytest.approx(4.4, abs=0.05)
    mean = sum(shelves) / 3.0
    other = {"top": 1.9 - 2.6, "bottom": 3.3 - 2.6}
    offsets = {
        name: with_fridge(f'shelf = "{name}"').cold.offset.value for name in ("top", "middle", "bottom")
    }
    assert offsets["top"] == pytest.approx((shelves[0] - mean + other["top"]) / 2.0, abs=0.06)
    assert offsets["middle"] == pytest.approx(shelves[1] - mean, abs=0.06)
    assert offsets["bottom"] == pytest.approx((shelves[2] - mean + other["bottom"]) / 2.0, abs=0.06)
    assert with_fridge('shelf = "door"').cold.offset.value == pytest.approx(5.2 - 2.6)


def test_a_measured_fridge_is_that_of_the_doughs_own_place() -> None:
    """The thermometer stood there: the shelf adds nothing and spreads nothing."""
    measured = 'temperature = { value = "5 °C", how = "measured", spread = "0.5 °C" }\nshelf = "door"'
    used = with_fridge(measured)
    assert used.place("fridge") == Known(5.0, "measured", 0.5)
    assert used.cold.offset == Known(0.0, "measured", 0.0)


def test_openings_warm_the_mean_in_the_hours_awake() -> None:
    """20 of them, from 07:00 to 23:00: 0.4 °C in the mean, most at 15:00, and the sine that carries it."""
    used = with_fridge('temperature = "5 °C"\nopenings = "20 a day"')
    air = used.air("fridge")
    assert air.mean == pytest.approx(5.4)
    assert air.warmest == 15 * 3600.0
    # The first harmonic of 0.6 °C for 16 of 24 h.
    assert air.daily == pytest.approx(2.0 * 0.6 / math.pi * math.sin(math.pi * 16.0 / 24.0))
    assert "20 openings a day: each opening a day warms the fridge by 0.02 °C" in used.assumed


def test_the_surveys_mean_already_holds_20_openings() -> None:
    """Where the temperature is left out, only what differs from them counts in the mean."""
    assert with_fridge('openings = "20 a day"').air("fridge").mean == pytest.approx(4.8)
    assert with_fridge('openings = "70 times a day"').air("fridge").mean == pytest.approx(5.8)
    assert with_fridge('openings = "0 per day"').air("fridge").mean == pytest.approx(4.4)
    assert with_fridge('openings = "0 per day"').air("fridge").daily == 0.0


def test_who_is_awake_over_midnight_opens_it_at_night() -> None:
    """The peak is in the middle of the hours awake."""
    used = with_fridge('openings = "20 a day"', HEAD + 'awake = "18:00 to 10:00"\n')
    assert used.air("fridge").warmest == 2 * 3600.0


def test_a_cycle_has_its_length_and_swing() -> None:
    """45 min where only the swing is given, 1 °C where only the cycle is."""
    assert with_fridge('swing = "2 °C"').air("fridge") == PlaceAir(4.8, 2.0, 0.75)
    used = with_fridge('cycle = "30 min"')
    assert (used.air("fridge").swing, used.air("fridge").period) == (1.0, 0.5)
    assert "a fridge that swings by 1 °C" in used.assumed
    both = with_fridge('cycle = { value = "1 h", how = "measured", spread = "5 min" }\nswing = "0.5 °C"')
    assert (both.air("fridge").swing, both.air("fridge").period) == (0.5, 1.0)
    assert both.cold.cycle.spread == 300.0


def test_how_far_dough_warms_it_gives_its_grip() -> None:
    """1 kg, 20 K warmer, gives off 8 W at first: a ball, skin times 1.2, film 7.5."""
    volume = 1.0 / 1120.0
    skin = (36.0 * math.pi * volume**2) ** (1.0 / 3.0)
    grip = with_fridge('warms = { value = "1.6 °C", how = "measured", spread = "0.4 °C" }').cold.grip
    assert grip is not None
    assert grip.value == pytest.approx(20.0 * 7.5 * 1.2 * skin / 1.6, rel=2e-3)
    assert grip.spread == pytest.approx(grip.value / 4.0)
    assert with_fridge('warms = "1.6 °C"').air("fridge").grip == pytest.approx(grip.value)


def test_a_room_is_warmest_at_its_hour() -> None:
    """With its own swing, or the usual one; without an hour nobody knows when."""
    assert with_room('swing = "2 °C"\nwarmest = "16:30"').air("room") == PlaceAir(
        21.0, daily=2.0, warmest=59_400.0
    )
    assert with_room('warmest = "17:00"').air("room") == PlaceAir(21.0, daily=1.5, warmest=61_200.0)
    assert with_room('swing = "2 °C"').air("room") == PlaceAir(21.0, daily=2.0)
    assert "a room that swings by 1.5 °C over the day" in with_room('warmest = "17:00"').assumed


def test_another_place_has_its_swing() -> None:
    """A proofing box cycles as a fridge does."""
    text = HEAD + '[[place]]\nname = "box"\ntemperature = "28 °C"\nswing = "1 °C"\n'
    assert surroundings(read_kitchen(text).kitchen).air("Box") == PlaceAir(28.0, 1.0)


@pytest.mark.parametrize(
    ("table", "line", "says"),
    [
        ("fridge", 'shelf = "attic"', "top, middle, bottom, door"),
        ("fridge", 'shelf = "botom"', 'Did you mean "bottom"'),
        ("fridge", 'openings = "20"', 'Write for example "20 a day"'),
        ("fridge", "openings = 20", 'Write for example "20 a day"'),
        ("fridge", 'openings = "400 a day"', "at most 300 a day"),
        ("fridge", 'openings = "-2 a day"', "how often it is opened"),
        ("fridge", 'cycle = "10 s"', "5 min to 6 h"),
        ("fridge", 'cycle = "45"', "a time"),
        ("fridge", 'warms = "0 °C"', "0.1 to 20 °C"),
        ("fridge", 'warms = "2"', "a temperature difference"),
        ("room", 'warmest = "25:00"', 'Write for example "17:00"'),
        ("room", 'warmest = "noon"', "a time of day"),
        ("room", "warmest = 17:00:00", "a time of day"),
        ("room", 'shelf = "top"', "a key that is known"),
    ],
)
def test_a_fault_says_where_and_what_to_write(table: str, line: str, says: str) -> None:
    """As everywhere: the place, what is wanted, what was found, what to write."""
    with pytest.raises(DocumentError) as caught:
        read_kitchen(f"{HEAD}[{table}]\n{line}\n", "k.toml")
    faults = [str(fault) for fault in caught.value.faults]
    assert len(faults) == 1
    assert faults[0].startswith("k.toml:4:")
    assert says in faults[0]


def test_a_fan_moves_the_air_of_the_fridge_only() -> None:
    """Moving air cools bare dough about twice as fast; nobody has a fan who does not say so."""
    assert with_fridge("fan = true").air("fridge") == PlaceAir(4.8, fan=True)
    assert not with_fridge("fan = true").air("room").fan
    with pytest.raises(DocumentError, match="fan"):
        with_fridge('fan = "yes"')
