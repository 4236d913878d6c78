"""What measuring buys, in words."""

from __future__ import annotations

from doughwright.publish.measuring._model import Measure, Measuring
from doughwright.publish.render import HELD, capital, duration, number, rise

# Less than this share of the width is not worth a walk to the fridge.
LEAST_GAIN = 0.03


def width_words(width: float) -> str:
    """Half a width with its sign: "± 0.21"."""
    return f"±{HELD}{number(width / 2.0, 2)}"


def buys_words(measuring: Measuring, measure: Measure) -> str:
    """What one measurement buys: "± 0.21 becomes ± 0.12"; or next to nothing."""
    if measuring.gain(measure) < LEAST_GAIN:
        return "next to nothing"
    return f"{width_words(measuring.width)} becomes {width_words(measure.width)}"


def next_words(measuring: Measuring) -> tuple[str, str, str]:
    """What to measure next as a sentence in three parts, the middle one strong."""
    best = _best(measuring)
    if best is None:
        return "No single measurement would narrow the rise much", "", "."
    takes = f"{duration(best.minutes / 60.0)} of your time, and " if best.minutes else ""
    tail = (
        f": {takes}the rise {measuring.judged_word} is known to within {width_words(best.width)}, "
        f"not {width_words(measuring.width)}."
    )
    return "The next thing worth measuring is", best.name, tail


def measuring_finding(measuring: Measuring) -> str:
    """What the picture shows, in one or two sentences."""
    low, high = rise(measuring.low), rise(measuring.high)
    now = f"{capital(measuring.judged_word)} the rise lies between {low} and {high}"
    best = _best(measuring)
    if best is None:
        return f"{now}, nine times in ten; no single measurement would narrow that much."
    share = f"{number(100.0 * measuring.gain(best))}{HELD}%"
    return f"{now}, nine times in ten; {best.name} would narrow that most, by {share}."


def _best(measuring: Measuring) -> Measure | None:
    found = max(measuring.measures, key=measuring.gain, default=None)
    return found if found is not None and measuring.gain(found) >= LEAST_GAIN else None
