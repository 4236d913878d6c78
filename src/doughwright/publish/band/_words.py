"""The finding as sentences, and the words that stand in the picture."""

from __future__ import annotations

from doughwright.publish.band._model import Band
from doughwright.publish.render import capital, duration, interval, rise, temperature

NUMBERS = ("", "one", "two", "three", "four")


def finding(band: Band) -> str:
    """What the band shows, in one or two sentences: how the dough is when judged, and when it is ripe."""
    clock, judged = band.clock, band.judged_at
    volumes = rise(band.rise_when_judged)
    at = f"{capital(band.judged_word)}, on {clock.day(judged)} at {clock.time(judged)},"
    spread = ""
    if band.whisker is not None:
        low, high = band.whisker
        spread = f", between {rise(low)} and {rise(high)} nine times in ten"
    return f"{at} the dough is {band.state}: {volumes} times its volume{spread}. {ripe_sentence(band)}"


def ripe_sentence(band: Band) -> str:
    """When the dough is ripe, and how early or late the judging may be."""
    if band.ripe_from is None:
        return f"It does not come to {interval(*band.target)} times its volume in the time shown."
    start = band.clock.day_time(band.ripe_from)
    if band.ripe_to is None:
        return f"It is ripe from {start} and still at {band.clock.day_time(band.course.time[-1])}."
    said = f"It is ripe from {band.clock.span(band.ripe_from, band.ripe_to)}"
    if not band.ripe_from <= band.judged_at <= band.ripe_to:
        return f"{said}."
    return f"{said}; you may be {duration(band.ripe_to - band.judged_at)} late."


def course_sentence(band: Band) -> str:
    """Where the dough has been: how warm it starts, and how it stands at the end of each wait in the cold."""
    clock, course = band.clock, band.course
    begins = max(course.time[0], 0.0)
    when = f"on {clock.day(begins)} at {clock.time(begins)}"
    said = [f"The dough leaves the mixer at {temperature(course.at(begins)[0], band.system)} {when}"]
    cold = [stay for stay in band.stays if stay.ground == "fridge" and begins <= stay.start < band.judged_at]
    if cold:
        core, _, volumes = course.at(min(cold[-1].end, band.judged_at), before=True)
        said.append(
            f"leaves the {cold[-1].place} at {temperature(core, band.system)}"
            f" and {rise(volumes)} times its volume"
        )
    return f"{', '.join(said)}."


def description(band: Band) -> str:
    """What somebody who does not see the picture should know of it."""
    return f"{course_sentence(band)} {finding(band)}"


def strand_words(band: Band, strand: int) -> str:
    """What stands in a strand: "round two", or "two of 12" where there are more pieces than strands."""
    if band.pieces > band.strands:
        return f"{NUMBERS[strand + 1]} of {band.pieces}"
    return f"{band.piece_word} {NUMBERS[strand + 1]}"


def opened_words(band: Band, start: float) -> str:
    """The heading of the opened-out part: "Saturday, 13:00 to midnight, opened out"."""
    return f"{band.clock.day(start)}, {band.clock.time(start)} to midnight, opened out"
