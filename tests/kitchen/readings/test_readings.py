"""A cook's readings: the document, its faults, and what they are by the time of mixing."""

from __future__ import annotations

from pathlib import Path

import pytest

from doughwright.errors import DocumentError
from doughwright.kitchen.readings.jar import cap_share
from doughwright.kitchen.readings.read import load_readings, read_readings
from doughwright.kitchen.readings.taken import taken

TEXT = """\
schema = 1
readings = "Leek pie, 28 November"
recipe = "pie.toml"
kitchen = "boathouse.toml"
mixed = "2026-11-28 18:05"
zone = "Europe/London"

[[jar]]
name = "on the shelf"
at = "room"
mass = "40 g"
diameter = "4.5 cm"
start = "22.5 mm"
heights = [
  { when = "1 h 30 min", height = "26 mm", crown = "3 mm" },
  { when = "21:05", height = "1 1/2 in" },
  { when = "2026-11-29 00:05", height = "52 mm" },
  { when = "07:05", rise = "2.5" },
]

[[temperature]]
when = "0 min"
temperature = "24.5 °C"
[[temperature]]
when = "19:05"
temperature = "41 °F"
of = "fridge"
spread = "1 °C"
"""


def faults_of(text: str) -> list[str]:
    with pytest.raises(DocumentError) as caught:
        read_readings(text, "r.toml")
    return [str(fault) for fault in caught.value.faults]


def test_readings_are_put_beside_the_time_of_mixing():
    """Times after mixing, times of day and dates all become seconds; Fahrenheit and inches become SI."""
    found = taken(read_readings(TEXT))
    (jar,) = found.jars
    assert jar.times == (5400.0, 10800.0, 21600.0, 46800.0)
    assert (jar.mass, jar.filled, jar.place.name) == (0.04, 0.0, "room")
    assert [(one.time, one.of, one.spread) for one in found.probes] == [
        (0.0, "dough", 0.5),
        (3600.0, "fridge", 1.0),
    ]
    assert found.probes[1].degrees == pytest.approx(5.0)


def test_a_crown_adds_its_mean_height():
    """26 mm at the edge under a crown of 3 mm, in a jar 45 mm wide: half the crown and a little more."""
    (jar,) = taken(read_readings(TEXT)).jars
    assert jar.rise[0] == pytest.approx((26.0 + 1.50889) / 22.5, abs=1e-4)
    assert jar.rise[3] == 2.5


def test_a_cap_has_the_volume_of_a_cap():
    """A half ball in a jar as wide as it: two thirds of its radius, on the mean."""
    assert cap_share(3.0, 6.0) == pytest.approx(2.0)


def test_a_top_is_read_above_the_mean_and_an_edge_below_it():
    """The same dough: 30 mm at the edge and 34 at the top of a 4 mm crown are the same rise."""
    edge = TEXT.replace('height = "52 mm"', 'height = "30 mm", crown = "4 mm"')
    top = TEXT.replace('height = "52 mm"', 'height = "34 mm", crown = "4 mm"')
    top = top.replace('mass = "40 g"', 'mass = "40 g"\nread = "top"')
    rises = [taken(read_readings(one)).jars[0].rise[2] for one in (edge, top)]
    assert rises[0] == pytest.approx(rises[1])


def test_an_assumed_crown_widens_what_a_reading_says():
    """A crown that was measured leaves a smaller shared error than one that is assumed."""
    (jar,) = taken(read_readings(TEXT)).jars
    assert jar.common[1] > jar.common[0]
    assert jar.spread[0] == pytest.approx(0.001 / 0.0225)
    assert any("crown of 8 %" in one for one in taken(read_readings(TEXT)).said)


def test_a_clock_put_back_in_the_night_adds_an_hour():
    """From 23:00 to 07:00 over the last Sunday of October in London are nine hours."""
    text = TEXT.replace("2026-11-28 18:05", "2026-10-24 23:00")
    text = text.replace("2026-11-29 00:05", "2026-10-25 07:00")
    text = text.replace('{ when = "07:05", rise = "2.5" }', '{ when = "08:00", rise = "2.5" }')
    text = text.replace('when = "21:05"', 'when = "01:30"').replace('when = "19:05"', 'when = "08:00"')
    found = taken(read_readings(text))
    assert found.jars[0].times == (5400.0, 2.5 * 3600.0, 9 * 3600.0, 10 * 3600.0)
    assert found.probes[1].time == 10 * 3600.0


def test_without_a_date_a_time_of_day_is_the_first_after_the_reading_before_it():
    """Mixed at 18:05, read at 17:00 and again at 17:00: one and two days on."""
    text = 'schema = 1\nreadings = "r"\nmixed = "18:05"\n[[jar]]\nname = "j"\nheights = ['
    text += '{ when = "17:00", rise = "1.2" }, { when = "16:59", rise = "1.3" } ]\n'
    assert taken(read_readings(text)).jars[0].times == (82_500.0, 82_500.0 + 86_340.0)


def test_a_mass_is_told_by_start_and_width_or_assumed_and_said():
    """Where the jar does not say its mass."""
    by_size = taken(read_readings(TEXT.replace('mass = "40 g"\n', "")))
    assert by_size.jars[0].mass == pytest.approx(0.04008, abs=1e-4)
    bare = TEXT.replace('mass = "40 g"\ndiameter = "4.5 cm"\n', "")
    assert any("40 g of dough (assumed)" in one for one in taken(read_readings(bare)).said)


@pytest.mark.parametrize(
    ("old", "new", "place", "says"),
    [
        ('height = "26 mm"', 'height = "26"', "15:35", "a length with its unit"),
        ('height = "26 mm"', 'height = "26 g"', "15:35", "a length"),
        ('when = "1 h 30 min"', 'when = "soon"', "15:12", 'Write for example "1 h 30 min"'),
        ('when = "1 h 30 min"', 'when = "25:10"', "15:12", "a time of day"),
        ('when = "1 h 30 min"', 'when = "2026-02-30 10:00"', "15:12", "a date and a time"),
        ('when = "2026-11-29 00:05"', 'when = "2026-11-28 17:05"', "17:12", "1 h before mixing"),
        ('when = "2026-11-29 00:05"', 'when = "2 h"', "17:12", "put the readings in order"),
        ('start = "22.5 mm"\n', "", "8:1", '"start" is missing'),
        ('rise = "2.5"', 'rise = "25"', "18:28", "0.2 to 12 volumes"),
        ('rise = "2.5"', 'rise = "2.5", height = "5 cm"', "18:3", 'either "height" or "rise"'),
        ('mixed = "2026-11-28 18:05"\nzone = "Europe/London"\n', "", "14:12", "the time of mixing"),
        ('"Europe/London"', '"Europe/Londn"', "6:8", 'Did you mean "Europe/London"'),
        ('mass = "40 g"', 'mas = "40 g"', "11:1", 'Did you mean "mass"?'),
        ('temperature = "24.5 °C"', 'temperature = "245 °C"', "23:15", "-30 to 70 °C"),
        ("[[jar]]", "[jar]", "8:1", "a table [[jar]]"),
        ('readings = "Leek pie, 28 November"', 'readings = " "', "2:12", "what these readings are called"),
    ],
)  # fmt: skip
def test_a_fault_says_where_and_what_to_write(old, new, place, says):
    """As for a recipe: file, line, column, what is wanted, what was found, what to write."""
    assert old in TEXT
    found = faults_of(TEXT.replace(old, new, 1))
    assert any(one.startswith(f"r.toml:{place}: ") and says in one for one in found), found


def test_all_faults_are_told_at_once():
    """Two bad values are two faults."""
    assert len(faults_of(TEXT.replace('"26 mm"', '"26"').replace('"40 g"', '"40"'))) == 2


def test_nothing_read_and_another_document_are_refused():
    """A readings document without a reading, and a kitchen in its place."""
    assert "nothing was read" in faults_of('schema = 1\nreadings = "r"\n')[0]
    assert "this is a kitchen" in faults_of('schema = 1\nkitchen = "k"\n')[0]


def test_a_jar_in_the_wrong_unit_is_noted():
    """22.5 mm written as 0.886 cm (it is 0.886 in): 40 g do not fit in so little."""
    document = read_readings(TEXT.replace('start = "22.5 mm"', 'start = "0.886 cm"'))
    assert any("in inches" in (note.try_ or "") for note in document.notes)
    assert taken(document).jars[0].looks_like == "in"
    assert read_readings(TEXT).notes == ()


def test_a_log_beside_the_document_is_read_with_it(tmp_path: Path):
    """Its times are put beside the time of mixing; its correction is added."""
    log = '\n[[log]]\nfile = "fridge.csv"\nplace = "fridge"\ncorrection = "-0.5 °C"\n'
    (tmp_path / "r.toml").write_text(TEXT + log, encoding="utf-8")
    (tmp_path / "fridge.csv").write_text(
        "Time,Temp (°C)\n2026-11-28 18:05,5.0\n2026-11-28 18:15,5.5\n", encoding="utf-8"
    )
    (log_taken,) = taken(load_readings(tmp_path / "r.toml")).logs
    assert (log_taken.place, log_taken.times, log_taken.degrees) == ("fridge", (0.0, 600.0), (4.5, 5.0))


def test_a_log_of_time_elapsed_has_to_say_when_it_began(tmp_path: Path):
    """Minutes since it began, and began when the dough was mixed."""
    text = TEXT + '\n[[log]]\nfile = "dough.csv"\nplace = "dough"\n'
    (tmp_path / "dough.csv").write_text("Elapsed (min);Temp (C)\n0;24\n10;23,5\n", encoding="utf-8")
    (tmp_path / "r.toml").write_text(text, encoding="utf-8")
    with pytest.raises(DocumentError, match="when the log began"):
        taken(load_readings(tmp_path / "r.toml"))
    (tmp_path / "r.toml").write_text(text + 'starts = "30 min"\n', encoding="utf-8")
    assert taken(load_readings(tmp_path / "r.toml")).logs[0].times == (1800.0, 2400.0)
