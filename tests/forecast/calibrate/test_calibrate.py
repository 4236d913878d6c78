"""What a cook's readings teach, alone or together, and which of them do not fit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from doughwright.errors import InputError, NoAnswerError, UnknownNameError
from doughwright.figures import jsonable
from doughwright.forecast.calibrate import calibrate
from doughwright.forecast.calibrate.results import Calibrated
from doughwright.kitchen.read import read_kitchen
from doughwright.kitchen.readings.taken import Taken
from tests.forecast.calibrate._cooks import COLD, PROBES, RECIPE, ROOM, cook, jar

KITCHEN = read_kitchen('schema = 1\nkitchen = "Flat"   # ours\n\n[scale]\nstep = "0.1 g"\n')


def learnt(readings: Taken, kitchen=KITCHEN, called: str = "Test one") -> Calibrated:
    return calibrate(RECIPE, kitchen, readings, called=called, seed=7)


@pytest.fixture(scope="module")
def without_thermometer() -> Calibrated:
    """Two jars, one in the fridge, and no thermometer."""
    return learnt(cook(4, [ROOM, COLD])[0])


@pytest.fixture(scope="module")
def room_only() -> Calibrated:
    """One jar in the room."""
    return learnt(cook(4, [ROOM])[0])


@pytest.fixture(scope="module")
def with_thermometer() -> Calibrated:
    """The same, with the dough, the room and the fridge read; the kitchen knows its fridge well."""
    document = (
        KITCHEN.text + '[fridge]\ntemperature = { value = "3.4 °C", how = "measured", spread = "0.2 °C" }\n'
    )
    return learnt(cook(4, [ROOM, COLD], PROBES)[0], read_kitchen(document))


def test_it_settles(without_thermometer: Calibrated) -> None:
    """R-hat under 1.01 and 400 effective samples."""
    assert without_thermometer.rhat < 1.01
    assert without_thermometer.effective >= 400


def test_a_warm_fridge_is_not_told_from_hardy_yeast_without_a_thermometer(
    without_thermometer: Calibrated,
) -> None:
    """They stand together, with what would tell them apart, and neither of them alone."""
    assert ("fridge", "cold") in [one.of for one in without_thermometer.together]
    assert {"fridge", "cold"} & {one.of for one in without_thermometer.learnt} == set()
    (pair,) = [one for one in without_thermometer.together if one.of == ("fridge", "cold")]
    assert "cannot tell the fridge from" in pair.says
    assert pair.would_tell == "a thermometer where the dough stands"
    colder, warmer = pair.ways
    assert colder.if_.value < warmer.if_.value
    assert colder.then.value > warmer.then.value


def test_the_kitchen_document_says_so_too(without_thermometer: Calibrated) -> None:
    """Values, intervals, correlations, the source, and what each is mixed with; all else as it was."""
    text = without_thermometer.document
    assert text is not None
    assert text.startswith(KITCHEN.text)
    taught = read_kitchen(text).kitchen.learnt
    assert taught is not None
    assert taught.from_ == ("Test one",)
    assert "cold" in taught.get("fridge").mixed_with
    assert taught.correlation("fridge", "cold") < -0.5


def test_a_thermometer_tells_them_apart(with_thermometer: Calibrated) -> None:
    """With the fridge known, how the yeast works in the cold is learnt by itself."""
    assert "cold" in {one.of for one in with_thermometer.learnt}
    assert "room" in {one.of for one in with_thermometer.learnt}
    (cold,) = [one for one in with_thermometer.learnt if one.of == "cold"]
    assert cold.now.high - cold.now.low < 0.85 * (cold.before.high - cold.before.low)


def test_what_the_readings_say_little_of_is_said(without_thermometer: Calibrated) -> None:
    """With what would tell it."""
    said = {one.of: one.would_tell for one in without_thermometer.not_learnt}
    assert said["film"] == "a thermometer in the dough as it cools"
    told = {one.of for one in without_thermometer.learnt}
    told |= {name for one in without_thermometer.together for name in one.of}
    assert told & set(said) == set()


def test_bands_narrow_and_readings_lie_in_them(without_thermometer: Calibrated) -> None:
    """The forecast of each jar before and after; each reading beside the model."""
    for one in without_thermometer.bands:
        before, after = one.before.high[-1] - one.before.low[-1], one.after.high[-1] - one.after.low[-1]
        assert after < before
    assert len(without_thermometer.seen) == 10
    assert not any(one.odd for one in without_thermometer.seen)
    assert without_thermometer.odd == ()


def test_one_wild_reading_is_survived_and_pointed_out(room_only: Calibrated) -> None:
    """A rise read 1.6 times too high: told, and what is learnt stays where it was."""
    readings, _ = cook(4, [ROOM])
    (read,) = readings.jars
    wild = replace(read, rise=(*read.rise[:3], 1.6 * read.rise[3], *read.rise[4:]))
    good, bad = room_only, learnt(replace(readings, jars=(wild,)))
    (odd,) = bad.odd
    assert odd.of == 'jar "room"'
    assert "at 4 h" in odd.says
    assert "counts for little" in odd.says
    assert [one.odd for one in bad.seen] == [False, False, False, True, False, False]
    at_good, at_bad = (one.update.get("yeast") for one in (good, bad))
    assert at_bad.value == pytest.approx(at_good.value, rel=0.1)


@pytest.mark.parametrize(("factor", "unit"), [(1 / 2.54, "inches"), (2.54, "centimetres")])
def test_a_jar_in_another_unit_is_survived_and_pointed_out(
    factor: float, unit: str, without_thermometer: Calibrated
) -> None:
    """A start in one unit and heights in the other: the jar is taken as it fits, and that is said."""
    readings, _ = cook(4, [ROOM, COLD])
    first, second = readings.jars
    other = replace(first, rise=tuple(factor * one for one in first.rise),
                    spread=tuple(factor * one for one in first.spread))  # fmt: skip
    found = learnt(replace(readings, jars=(other, second)))
    (odd,) = found.odd
    assert unit in odd.says
    good = without_thermometer.update.get("yeast").value
    assert found.update.get("yeast").value == pytest.approx(good, rel=0.1)


def test_readings_add_to_what_was_learnt_before(without_thermometer: Calibrated) -> None:
    """A second set begins where the first ended; the same set again is learnt anew, not twice."""
    kitchen = read_kitchen(without_thermometer.document)
    readings, _ = cook(4, [jar("second", "room", (2, 4, 6))])
    more = learnt(readings, kitchen, "Test two")
    assert more.update.from_ == ("Test one", "Test two")
    assert set(more.update.names) >= set(kitchen.kitchen.learnt.names)
    again = learnt(cook(4, [ROOM, COLD])[0], kitchen)
    assert any("learnt anew" in one for one in again.said)
    assert again.update.get("cold").value == pytest.approx(
        without_thermometer.update.get("cold").value, rel=0.1
    )
    with pytest.raises(InputError, match="has learnt from"):
        learnt(readings, read_kitchen(more.document), "Test two")


def test_the_same_readings_teach_the_same(room_only: Calibrated) -> None:
    """To the last digit."""
    assert jsonable(learnt(cook(4, [ROOM])[0])) == jsonable(room_only)


def test_what_cannot_be_learnt_from_is_refused() -> None:
    """No readings, a dough that is not there or has no yeast, a place that is not there."""
    bare = replace(RECIPE, mixes=tuple(replace(m, ingredients=m.ingredients[:2]) for m in RECIPE.mixes))
    with pytest.raises(NoAnswerError, match="has no yeast"):
        calibrate(bare, None, cook(1, [ROOM])[0], called="r")
    with pytest.raises(NoAnswerError, match="no readings"):
        learnt(Taken((), (), (), ()))
    with pytest.raises(UnknownNameError, match="no such dough"):
        calibrate(RECIPE, None, cook(1, [ROOM])[0], called="r", dough="poolish")
    with pytest.raises(UnknownNameError, match="no such place"):
        learnt(Taken((jar("j", "cellar", (1, 2)),), (), (), ()))


def test_a_jar_that_goes_with_the_dough_and_one_filled_later_are_read() -> None:
    """Along room and fridge; and from the dough after its bulk, its rise over what it was when filled."""
    along, later = jar("along", None, (1, 2, 8, 24)), jar("later", "fridge", (6, 12, 24), filled=2.0)
    readings, _ = cook(6, [along, later])
    rises = [one.rise for one in readings.jars]
    assert rises[0][1] > rises[0][0]
    assert all(0.8 < one < 4.0 for rise in rises for one in rise)
    assert learnt(readings).odd == ()
