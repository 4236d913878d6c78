"""A thermometer's log, as loggers write it: found, told apart, or refused with what to write."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import DocumentError, InputError
from doughwright.kitchen.readings.log import Hints, ThermometerLog, load_log, read_log

T0 = datetime(2026, 11, 28, 18, 0, tzinfo=UTC).timestamp()


GERMAN = """\
Kühlschrank;;
Serie;123;

Datum;Uhrzeit;Temperatur [°C];Feuchte [%]
28.11.2026;18:00:00;4,5;80
28.11.2026;18:10:00;5,0;81
"""


def log(text: str, **known: object) -> ThermometerLog:
    return read_log(text.encode(), "x.csv", Hints(**known))


@pytest.mark.parametrize(
    "text",
    [
        "Time,Temp (°C)\n2026-11-28 18:00,4.5\n2026-11-28 18:10,5\n",
        GERMAN,
        "Date\tHeure\tTempérature (°C)\n28/11/2026\t18:00\t4,5\n28/11/2026\t18:10\t5\n",
        "fecha;temperatura\n28/11/2026 18h00;4,5 °C\n28/11/2026 18h10;5 °C\n",
        "date,temp_f\n11/28/2026 6:00:00 PM,40.1\n11/28/26 6:10 PM,41\n",
        '"Date Time, GMT+00:00","Temp, °C"\n"11/28/26 06:00:00 PM","4.5"\n"11/28/26 06:10:00 PM","5.0"\n',
        "2026-11-28T18:00:00Z,4.5 °C\n2026-11-28T19:10:00+01:00,5.0 °C\n",
        "timestamp|celsius\n1795888800|4.5\n1795889400|5\n",
        "timestamp,temp_c,battery\n1795888800000,4.5,98\n1795889400000,5,98\n",
        "no,time,temperature,unit\n1,28 Nov 2026 18:00,277.65,K\n2,28-Nov-26 18:10,278.15,K\n",
        "Unit: °C\nTime;Temperature\n46354,75;4,5\n46354.756944;5\n",
        "Time,Temperature (°C),Temperature (°F)\n2026/11/28 18:00,4.5,40.1\n2026/11/28 18:10,5,41\n",
        "Time,Temperature (°C),Dew point (°C)\r\n2026-11-28 18:00,4.5,1\r\n2026-11-28 18:10,5,1\r\n",
    ],
)
def test_each_logger_says_the_same(text: str) -> None:
    """Two rows, 18:00 and 18:10, 4.5 and 5 °C: delimiters, decimals, headers, units, languages, epochs."""
    found = log(text)
    assert found.degrees == pytest.approx((4.5, 5.0))
    assert found.times == pytest.approx((T0, T0 + 600.0), abs=1.0)


def test_bytes_of_other_encodings_are_read():
    """A byte order mark, UTF-16 and an old Windows page all hold a degree sign."""
    text = "Time;Temp (°C)\n2026-11-28 18:00;4,5\n"
    for encoding in ("utf-8-sig", "utf-16", "cp1252"):
        assert read_log(text.encode(encoding)).degrees == (4.5,)


def test_a_failing_sensor_is_left_out_and_said():
    """NaN, dashes, -127, 999.9, an open loop, and 85 °C before the first measurement."""
    bad = ["nan", "---", "-127.00", "999.9", "OL", "", "Err", "85.0"]
    rows = [f"2026-11-28 18:{minute:02d},{4.0 + minute / 100}" for minute in range(10)]
    rows += [f"2026-11-28 18:{10 + minute:02d},{one}" for minute, one in enumerate(bad)]
    found = log("Time,Temp C\n" + "\n".join(rows))
    assert len(found.times) == 10
    assert any("7 rows that have no temperature left out, the first on line 12" in one for one in found.notes)
    assert any("85 °C exactly" in one for one in found.notes)


def test_rows_out_of_order_doubles_and_gaps_are_put_right_and_said():
    """Sorted; the same moment twice is one row at their mean; a silence is told."""
    text = "Time,Temp C\n2026-11-28 18:10,5\n2026-11-28 18:00,4\n2026-11-28 18:20,5\n2026-11-28 18:20,7\n"
    text += "2026-11-28 18:30,6\n2026-11-28 18:40,6\n2026-11-28 23:40,6\n"
    found = log(text)
    assert found.degrees == (4.0, 5.0, 6.0, 6.0, 6.0, 6.0)
    said = " ".join(found.notes)
    assert "put in order" in said
    assert "2.0 K apart" in said
    assert "a gap in the log, the longest of 5 h" in said


def test_a_log_with_the_newest_row_first_is_turned_round():
    """Some loggers write so."""
    assert log("Time,Temp C\n2026-11-28 18:10,5\n2026-11-28 18:00,4\n").degrees == (4.0, 5.0)


@pytest.mark.parametrize(
    ("first", "second", "known", "day"),
    [
        ("13/04/2026", "14/04/2026", {}, "2026-04-13"),
        ("04/13/2026", "04/14/2026", {}, "2026-04-13"),
        ("03/04/2026", "04/04/2026", {}, "2026-04-03"),
        ("03/04/2026", "03/05/2026", {}, "2026-03-04"),
        ("03/04/2026", "03/04/2026", {"order": "day first"}, "2026-04-03"),
        ("03/04/2026", "03/04/2026", {"near": datetime(2026, 3, 4, tzinfo=UTC).timestamp()}, "2026-03-04"),
        ("04/04/2026", "04/04/2026", {}, "2026-04-04"),
    ],
)
def test_the_order_of_day_and_month_is_told_by_the_data(first, second, known, day):
    """By a number over twelve, by how the log hangs together, by the document, by when it was mixed."""
    found = log(f"Time,Temp C\n{first} 10:00,4\n{second} 10:10,5\n", **known)
    assert datetime.fromtimestamp(found.times[0], UTC).date().isoformat() == day


def local(moment: float, zone: str, step: str = "%Y-%m-%d %H:%M") -> str:
    return datetime.fromtimestamp(moment, ZoneInfo(zone)).strftime(step)


@pytest.mark.parametrize("day", ["2026-10-25", "2026-03-29"])
@pytest.mark.parametrize("turned", [False, True])
def test_a_log_over_a_change_of_clocks_keeps_its_hours(day: str, turned: bool) -> None:
    """Every ten minutes for six hours in London, on the nights when clocks change, in either order."""
    start = datetime.fromisoformat(f"{day}T00:00+00:00").timestamp() - 7200.0
    moments = [start + 600.0 * index for index in range(36)]
    rows = [f"{local(one, 'Europe/London')},4.5" for one in moments]
    found = log("Time,Temp C\n" + "\n".join(rows[::-1] if turned else rows), zone="Europe/London")
    assert found.times == tuple(moments)
    assert found.clock == "utc"


@pytest.mark.parametrize("day", ["2026-10-25", "2026-03-29"])
def test_a_logger_that_does_not_change_its_clock_is_told(day: str) -> None:
    """No hour comes twice and none is missing: its clock stayed as it was at the start, and that is said."""
    zone = ZoneInfo("Europe/London")
    start = datetime.fromisoformat(f"{day}T00:00+00:00").timestamp() - 7200.0
    offset = datetime.fromtimestamp(start, zone).utcoffset()
    moments = [start + 600.0 * index for index in range(36)]
    rows = [
        f"{datetime.fromtimestamp(one + offset.total_seconds(), UTC):%Y-%m-%d %H:%M},4.5" for one in moments
    ]
    found = log("Time,Temp C\n" + "\n".join(rows), zone="Europe/London")
    assert found.times == tuple(moments)
    assert any("did not change its clock" in one for one in found.notes)


def test_a_time_of_day_alone_goes_on_over_midnight():
    """With the date of the first row given."""
    found = log("Time,Temp C\n23:50,4\n00:10,5\n", starts=T0)
    assert found.times == (T0 + 5 * 3600.0 + 3000.0, T0 + 6 * 3600.0 + 600.0)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "the log is empty"),
        ("just a note\nabout my fridge\n", "columns between semicolons, commas or tabs"),
        ("Time,Temp\n2026-11-28 18:00,4.5\n", 'Write unit = "°C"'),
        ("Time,Temp C\n", "rows below the headings"),
        ("Time,Top temp C,Door temp C\n2026-11-28 18:00,4,6\n", 'column = "Top temp C"'),
        ("Time,Humidity %\n2026-11-28 18:00,80\n", 'none among "Humidity %"'),
        ("Time,Temp C\n03/04/2026 18:00,4\n", "3 April 2026 or 4 March 2026"),
        ("Time,Temp C\n13/04/2026 18:00,4\n04/14/2026 18:00,4\n", 'order = "day first"'),
        ("Time,Temp C\nyesterday,4\ntoday,5\n", "times that can be read"),
        ("Time,Temp C\n2026-11-28 18:00,err\n2026-11-28 18:10,---\n", "in at least half of the rows"),
        ("Time,Temp C\n18:00,4\n18:10,5\n", 'starts = "2026-11-28 18:00"'),
        ("Time,Temp C\n2026-11-28 18:00,4,5\n2026-11-28 18:10,4,7\n", "with a decimal point"),
        (
            "Time,Temp C\n" + "".join(f"2026-10-25 0{h}:{m}0,4\n" for h in (0, 1, 1, 2) for m in range(6)),
            'zone = "Europe/London"',
        ),
        ("Time,Temp C\n2026-11-28 18:00,4\n18:10,5\n2026-11-28 18:20,5\n", "of one kind"),
    ],
)
def test_what_cannot_be_told_is_refused_with_what_to_write(text: str, says: str) -> None:
    """Line and column of the cell, what is wanted, what was found, what to write."""
    with pytest.raises(DocumentError) as caught:
        log(text)
    fault = caught.value.fault
    assert says in str(fault)
    assert fault.file == "x.csv"
    assert (fault.line or 0) >= 1
    assert fault.try_


def test_a_fault_points_at_its_cell():
    """The second cell of line 3."""
    with pytest.raises(DocumentError) as caught:
        log("A\nTime,Temp C\n2026-11-28 18:00,err\n")
    assert (caught.value.fault.line, caught.value.fault.column) == (3, 18)


def test_no_text_and_no_file_are_refused(tmp_path):
    """A picture, and a name that nothing has."""
    with pytest.raises(DocumentError, match="not text"):
        read_log(b"\x89PNG\x00\x01\x02", "x.png")
    with pytest.raises(InputError, match="cannot read it"):
        load_log(tmp_path / "none.csv")


STYLES = ["%Y-%m-%d %H:%M:%S", "%d.%m.%Y %H:%M:%S", "%d %b %Y %H:%M:%S", "%Y/%m/%dT%H:%M:%S"]


@pytest.mark.property
@given(
    start=st.integers(1_600_000_000, 1_900_000_000),
    steps=st.lists(st.integers(1, 7200), min_size=1, max_size=40),
    degrees=st.lists(st.integers(-200, 400), min_size=41, max_size=41),
    style=st.sampled_from(STYLES),
    mark=st.sampled_from(";\t|"),
    comma=st.booleans(),
    before=st.integers(0, 5),
)
def test_what_was_written_is_read_back(start, steps, degrees, style, mark, comma, before) -> None:
    """Any moments and tenths of degrees, in any of these forms, come back as they were."""
    moments = [start]
    for step in steps:
        moments.append(moments[-1] + step)
    lines = ["a line before the table"] * before + [f"Time{mark}Temp (°C)"]
    for moment, tenths in zip(moments, degrees, strict=False):
        number = f"{tenths / 10:.1f}".replace(".", "," if comma else ".")
        lines.append(f"{datetime.fromtimestamp(moment, UTC).strftime(style)}{mark}{number}")
    found = log("\n".join(lines))
    assert found.times == tuple(map(float, moments))
    assert found.degrees == pytest.approx([one / 10 for one in degrees[: len(moments)]])


@pytest.mark.property
@given(
    zone=st.sampled_from(["Europe/London", "America/New_York", "Australia/Sydney", "Asia/Tokyo", "UTC"]),
    start=st.integers(1_767_225_600, 1_798_000_000),
    minutes=st.sampled_from([5, 10, 15, 30]),
)
def test_local_times_come_back_as_moments(zone, start, minutes) -> None:
    """Two days of regular rows that begin on any hour of the year, in a zone with or without a change."""
    start -= start % 3600
    moments = [float(start + minutes * 60 * index) for index in range(2 * 24 * 60 // minutes)]
    first = datetime.fromtimestamp(start, ZoneInfo(zone))
    if first.utcoffset() != (first + timedelta(hours=2)).utcoffset() or first.fold:
        return
    rows = [f"{local(one, zone)},4.5" for one in moments]
    assert log("Time,Temp C\n" + "\n".join(rows), zone=zone).times == tuple(moments)


@pytest.mark.property
@given(raw=st.binary(max_size=300))
def test_any_bytes_are_read_or_refused(raw: bytes) -> None:
    """No other error than one of ours."""
    try:
        read_log(raw, "x.csv")
    except DocumentError as error:
        assert error.faults


@pytest.mark.property
@given(text=st.text(alphabet="0123456789:-/., ;\tTimeTemp°CFnaN\n\"'", max_size=300))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nearly tables, too."""
    for body in (text, "Time,Temp C\n" + text, "Time;Temp (F)\n" + text):
        try:
            log(body)
        except DocumentError as error:
            assert error.faults
