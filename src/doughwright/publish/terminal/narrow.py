"""What measuring would buy, as text."""

from __future__ import annotations

from doughwright.forecast.narrow_results import Narrow
from doughwright.publish.measuring import Measure, Measuring, buys_words, measuring_finding
from doughwright.publish.render import HELD, number
from doughwright.publish.terminal.columns import columns, indented, wrapped


def measuring_of(found: Narrow) -> Measuring:
    """The measurements as they are drawn."""
    measures = tuple(Measure(one.what, one.width.value or 0.0, one.minutes.value) for one in found.measures)
    rise = found.rise
    low, high = rise.low or 0.0, rise.high or 0.0
    return Measuring(rise.value or 0.0, low, high, measures, found.judged)


def narrow_text(found: Narrow) -> str:
    """What the forecast hangs on, each measurement with what it buys, and how each is made."""
    drawn = measuring_of(found)
    rows = [["", "narrower by", "the rise is known to", "your minutes"]]
    for one, measure in zip(found.measures, drawn.measures, strict=True):
        gain = f"{number(one.reduction.value or 0.0)}{HELD}%"
        rows.append([one.what, gain, buys_words(drawn, measure), number(one.minutes.value or 0.0)])
    lines = [*wrapped(f"{found.dough}: {measuring_finding(drawn)}"), ""]
    lines += [*indented(columns(rows, right=[False, True, False, True])), ""]
    for one in found.measures:
        lines += wrapped(f"{one.what}: {one.how}.", "  ")
    left = [f"{one.what} ({one.why})" for one in found.not_measured]
    if left:
        lines += ["", *wrapped(f"Left out: {'; '.join(left)}.")]
    lines += ["", *wrapped(f"Assumed: {'; '.join(found.said)}.")]
    return "\n".join(lines)
