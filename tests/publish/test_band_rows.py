"""The band as a table, in letters, and in sentences."""

from __future__ import annotations

from dataclasses import replace

import pytest

from doughwright.publish.band import HEADINGS, band_table, band_text, description, finding, ripe_sentence
from tests.publish._example import band, run


def test_the_table_has_the_dough_at_every_change() -> None:
    """Mixed, into the fridge, out of it, at shaping; the state is the rail's."""
    rows = {row.time.replace("\u00a0", " "): row for row in band_table(band())}
    assert len(HEADINGS) == len(next(iter(rows.values())).cells)
    assert rows["Fri 16:51"].place == "fridge"
    assert rows["Sat 16:51"].place == "room"
    assert rows["Sat 18:51"].volume == f"{run().judged.rise:.2f}"
    assert rows["Sat 18:51"].state == "ripe"


def test_the_table_is_in_time_order_and_short() -> None:
    """A row every few hours at the most."""
    rows = band_table(band())
    assert 8 <= len(rows) <= 40


def test_in_letters_it_keeps_to_its_width() -> None:
    """For a terminal of 72 columns, and for one of 100."""
    for width in (72, 100):
        assert all(len(line) <= width for line in band_text(band(), width=width).splitlines())


def test_plain_letters_are_ascii_but_for_the_degree() -> None:
    """A log that knows no more still shows the dough."""
    text = band_text(band(), plain=True).replace("°", "")
    assert text.isascii()
    assert "#" in text


def test_in_letters_the_states_are_words() -> None:
    """Young and ripe are written in the rail, and the days under the clock."""
    text = band_text(band())
    assert all(word in text for word in ("young", "ripe", "Fri", "Sat"))


@pytest.mark.property
def test_in_letters_columns_are_as_high_as_the_rise() -> None:
    """Twice the volume, twice the rows."""
    course = band().course.between(0.0, band().judged_at)
    assert course is not None
    low = replace(band(), course=course, preferments=(), target=(1.0, 3.9))
    tall = replace(low, course=course.scaled(2.0))
    high = max(column_heights(band_text(tall, plain=True)))
    assert high == pytest.approx(2 * max(column_heights(band_text(low, plain=True))), abs=1)


def column_heights(text: str) -> list[int]:
    rows = [line for line in text.splitlines() if "|" in line]
    return [sum(row[at : at + 1] == "#" for row in rows) for at in range(72)]


def test_the_finding_says_state_rise_and_time() -> None:
    """One sentence for the margin."""
    said = finding(band()).replace("\u00a0", " ")
    assert said.startswith("When shaping begins, on Saturday at 18:51, the dough is ripe: 1.7")
    assert "you may be" in said


def test_a_dough_that_never_comes_to_it_says_so() -> None:
    """No window, no times."""
    never = replace(band(), ripe_from=None, ripe_to=None)
    assert ripe_sentence(never) == "It does not come to 1.5 to 2.0 times its volume in the time shown."


def test_a_dough_still_ripe_at_the_end_says_so() -> None:
    """Its end is not known."""
    assert "still at" in ripe_sentence(replace(band(), ripe_to=None))


def test_the_interval_goes_with_the_number() -> None:
    """Where there is a 90 % interval it is said."""
    assert "between 1.50 and 2.00 nine times in ten" in finding(replace(band(), whisker=(1.5, 2.0)))


def test_the_description_tells_the_course() -> None:
    """From the mixer, through the cold, to its judging."""
    said = description(band()).replace("\u00a0", " ")
    assert said.startswith(
        "The dough leaves the mixer at 24 °C on Friday at 15:51, leaves the fridge at 5 °C"
    )
