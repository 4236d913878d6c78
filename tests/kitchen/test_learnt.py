"""What readings have taught, in a kitchen's document: read, used, written without losing anything."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from doughwright.errors import DocumentError, InputError
from doughwright.kitchen.assumed import surroundings
from doughwright.kitchen.learning import as_learnt, learnt_of, minimum_for, with_learnt
from doughwright.kitchen.learnt import QUANTITIES, Learnt, LearntQuantity, is_factor
from doughwright.kitchen.read import read_kitchen
from doughwright.kitchen.types import Known
from doughwright.science.parameters import Parameters
from doughwright.science.yeast import relative_gassing_slator_1906

KITCHEN = (Path(__file__).parents[1] / "recipe" / "data" / "boathouse.toml").read_text(encoding="utf-8")
LEARNT = """
[learnt]
from = ["jar of 2026-11-20", "log of 2026-11-21"]

[[learnt.quantity]]
of = "yeast"
value = "1.12"
low = "0.98"
high = "1.28"

[[learnt.quantity]]
of = "cold"
value = "0.8"
low = "0.5"
high = "1.28"
mixed_with = ["fridge"]

[[learnt.quantity]]
of = "fridge"
value = "5.6 °C"
low = "4.8 °C"
high = "6.4 °C"
mixed_with = ["cold"]

[[learnt.correlation]]
between = ["fridge", "cold"]
value = "-0.9"
"""


def learnt_in(text: str) -> Learnt:
    """What a kitchen's text says was learnt."""
    found = read_kitchen(text).kitchen.learnt
    assert found is not None
    return found


def test_it_is_read_with_intervals_and_correlations() -> None:
    """Factors are normal in their logarithm, temperatures as they are."""
    learnt = learnt_in(KITCHEN + LEARNT)
    assert learnt.names == ("yeast", "cold", "fridge")
    assert learnt.from_ == ("jar of 2026-11-20", "log of 2026-11-21")
    fridge = learnt.get("fridge")
    assert fridge is not None
    assert fridge.middle == pytest.approx(5.6)
    assert fridge.spread == pytest.approx(0.8 / 1.6449, rel=1e-4)
    yeast = learnt.get("yeast")
    assert yeast is not None
    assert yeast.middle == pytest.approx(math.log(1.12))
    assert yeast.spread == pytest.approx(math.log(1.28 / 0.98) / 3.2897, rel=1e-4)
    assert learnt.correlation("cold", "fridge") == learnt.correlation("fridge", "cold") == -0.9
    assert learnt.correlation("yeast", "cold") == 0.0
    covariance = learnt.covariance()
    assert covariance[1][2] == pytest.approx(-0.9 * math.sqrt(covariance[1][1] * covariance[2][2]))
    lower = learnt.factor()
    assert sum(lower[2][k] * lower[1][k] for k in range(3)) == pytest.approx(covariance[2][1])


def test_a_learnt_temperature_takes_the_place_of_what_is_assumed_or_written() -> None:
    """As good as measured, where the dough stood: no shelf is added."""
    used = surroundings(
        read_kitchen(KITCHEN.replace("[fridge]", '[fridge]\nshelf = "door"') + LEARNT).kitchen
    )
    assert used.place("fridge").value == 5.6
    assert used.fridge.how == "measured"
    assert used.room == Known(19.0)
    assert used.learnt is not None
    assert surroundings(None).learnt is None


def test_a_learnt_fridge_holds_what_its_openings_add() -> None:
    """It is the mean of whole days; only the sine of the day is left."""
    text = KITCHEN.replace("[fridge]", '[fridge]\nopenings = "20 a day"') + LEARNT
    air = surroundings(read_kitchen(text).kitchen).air("fridge")
    assert air.mean == 5.6
    assert air.daily > 0.0


def test_learnt_factors_change_the_parameters() -> None:
    """The usual ones where nothing is learnt."""
    standard = Parameters()
    assert as_learnt(standard, None) == standard
    used = as_learnt(standard, learnt_in(KITCHEN + LEARNT))
    assert used.gassing_30 == pytest.approx(1.12 * 120.0)
    assert used.growth_optimum_rate == standard.growth_optimum_rate
    assert used.film_still == standard.film_still
    text = LEARNT.replace('"yeast"', '"film"').replace('"cold"', '"lag"')
    other = as_learnt(standard, learnt_in(KITCHEN + text))
    assert other.film_lidded == pytest.approx(1.12 * 4.0)
    assert other.gassing_lag_dry == pytest.approx(0.8 * 0.6)
    assert other.gassing_minimum == pytest.approx(standard.gassing_minimum)


@pytest.mark.outside(
    source="science notes, prior of gassing at 4 °C: x 1.5 there is x 1.18 at 10, x 1.05 at 20 °C",
    how="identity",
)
def test_colder_gassing_carries_less_to_warmer_dough() -> None:
    """One standard deviation up; 30 °C stays."""
    p = Parameters()
    up = minimum_for(1.5, p.gassing_minimum)
    assert up == pytest.approx((4.0 - 30.0 * 0.1824 * 1.5**0.5) / (1.0 - 0.1824 * 1.5**0.5), abs=2e-3)

    def at(degrees: float, minimum: float) -> float:
        return float(
            relative_gassing_slator_1906(temperature=degrees, parameters=replace(p, gassing_minimum=minimum))
        )

    ratios = [at(t, up) / at(t, p.gassing_minimum) for t in (4.0, 10.0, 20.0, 30.0)]
    assert ratios == pytest.approx([1.5, 1.18, 1.05, 1.0], abs=0.006)


BAD = [
    ('of = "yeast"', 'of = "yaest"', 'Did you mean "yeast"'),
    ('value = "1.12"', 'value = "1.12 °C"', "a plain number"),
    ('value = "1.12"', "value = 1.12", 'found 1.12. Write for example "1.12"'),
    ('value = "5.6 °C"', 'value = "5.6"', "a temperature"),
    ('low = "0.98"', 'low = "1.3"', "a value between its low and its high"),
    ('low = "0.98"', 'low = "0"', "0.05 to 20"),
    ('high = "6.4 °C"', 'high = "64 °C"', "-5 to 20 °C"),
    ('high = "1.28"\n\n', "\n", '"high" is missing'),
    ('value = "-0.9"', 'value = "-1"', "a number between -1 and 1"),
    ('value = "-0.9"', "value = -0.9", "a number between -1 and 1"),
    ('between = ["fridge", "cold"]', 'between = ["fridge", "fridge"]', "two quantities learnt here"),
    ('between = ["fridge", "cold"]', 'between = ["fridge", "room"]', "two quantities learnt here"),
    ('between = ["fridge", "cold"]', 'between = ["fridge"]', "between"),
    ('of = "cold"', 'of = "yeast"', '"yeast" twice'),
    ('mixed_with = ["cold"]', 'mixed_with = ["room"]', "another quantity learnt here"),
    ("[learnt]\nfrom", "[learnt]\nform", 'Did you mean "from"'),
]


@pytest.mark.parametrize(("old", "new", "says"), BAD)
def test_a_fault_says_where_and_what_to_write(old: str, new: str, says: str) -> None:
    """As everywhere: file, line, column."""
    assert old in LEARNT
    with pytest.raises(DocumentError) as caught:
        read_kitchen(KITCHEN + LEARNT.replace(old, new, 1), "k.toml")
    faults = [str(fault) for fault in caught.value.faults]
    assert any(says in fault for fault in faults), faults
    assert all(fault.startswith("k.toml:") and int(fault.split(":")[1]) > 30 for fault in faults)


def test_correlations_that_cannot_hold_together_are_refused() -> None:
    """A near b and c, b far from c."""
    pairs = [("yeast", "cold", 0.9), ("yeast", "fridge", 0.9)]
    more = "".join(
        f'[[learnt.correlation]]\nbetween = ["{a}", "{b}"]\nvalue = "{value}"\n' for a, b, value in pairs
    )
    with pytest.raises(DocumentError, match="correlations that can hold together"):
        read_kitchen(KITCHEN + LEARNT + more)


FACTORS = [name for name in QUANTITIES if is_factor(name)]


@st.composite
def taught(draw: st.DrawFn) -> Learnt:
    """Some quantities with a covariance that can be."""
    names = draw(st.lists(st.sampled_from(list(QUANTITIES)), min_size=1, max_size=5, unique=True))
    middles = [draw(st.floats(-0.7, 0.7) if is_factor(name) else st.floats(0.5, 8.0)) for name in names]
    rows = [[draw(st.floats(-0.3, 0.3)) for _ in names] for _ in names]
    covariance = [
        [
            sum(a * b for a, b in zip(x, y, strict=True)) + (0.02 if i == j else 0.0)
            for j, y in enumerate(rows)
        ]
        for i, x in enumerate(rows)
    ]
    sources = draw(
        st.lists(st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=20), max_size=3)
    )
    mixed = {names[0]: names[1:2]} if len(names) > 1 and draw(st.booleans()) else {}
    return learnt_of(names, middles, covariance, readings=sources, mixed_with=mixed)


@pytest.mark.property
@settings(max_examples=60, deadline=None)
@given(taught(), st.sampled_from(["", LEARNT]), st.booleans())
def test_what_is_written_is_read_again_and_nothing_else_changes(learnt: Learnt, old: str, crlf: bool) -> None:
    """Values to four digits, the rest to the character; twice is as once; taken out, it is gone."""
    text = KITCHEN + old
    text = text.replace("\n", "\r\n") if crlf else text
    written = with_learnt(text, learnt)
    found = learnt_in(written)
    assert found.from_ == learnt.from_
    assert found.names == learnt.names
    for name in learnt.names:
        one, other = found.get(name), learnt.get(name)
        assert one is not None and other is not None
        assert (one.value, one.low, one.high) == pytest.approx((other.value, other.low, other.high), rel=1e-3)
        assert one.mixed_with == other.mixed_with
        for second in learnt.names:
            assert found.correlation(name, second) == pytest.approx(
                learnt.correlation(name, second), abs=0.02
            )
    assert with_learnt(written, learnt) == written
    assert with_learnt(written, None) == (KITCHEN.replace("\n", "\r\n") if crlf else KITCHEN)
    assert ("\r\n" in written) == crlf and "\n\n\r" not in written


def test_it_is_written_where_the_old_one_stood() -> None:
    """What is said above the next table stays with it; what looks like a header in a text is none."""
    head = 'schema = 1\nkitchen = "Plain"\nnotes = """\n[learnt]\n"""\n'
    tail = "\n# the room\n[room] # in winter\ntemperature = '19 °C'\n"
    learnt = Learnt(("a jar",), (LearntQuantity("yeast", 1.1, 1.0, 1.2),))
    written = with_learnt(head + LEARNT + tail, learnt)
    assert written.startswith(head + "\n[learnt]   # from readings")
    assert written.endswith('high = "1.2"\n' + tail)
    assert "cold" not in written
    assert with_learnt(head + tail, None) == head + tail


def test_blocks_apart_are_gathered_at_the_first() -> None:
    """TOML lets them stand apart."""
    apart = LEARNT.replace(
        "[[learnt.correlation]]", "[room]\ntemperature = '19 °C'\n[[learnt.correlation]]", 1
    )
    head = 'schema = 1\nkitchen = "Plain"\n'
    learnt = Learnt(("a jar",), (LearntQuantity("yeast", 1.1, 1.0, 1.2),))
    written = with_learnt(head + apart, learnt)
    assert learnt_in(written).names == ("yeast",)
    assert written.count("learnt") == 2
    assert "[room]\ntemperature = '19 °C'\n" in written


def test_an_inline_one_is_not_overwritten() -> None:
    """It says what to do."""
    with pytest.raises(InputError, match="not a table of its own"):
        with_learnt('schema = 1\nkitchen = "Plain"\nlearnt = { from = ["a jar"] }\n', None)
