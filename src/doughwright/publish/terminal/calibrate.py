"""What readings teach, as text."""

from __future__ import annotations

from doughwright.figures import Figure
from doughwright.forecast.calibrate.results import Calibrated
from doughwright.publish.render import capital, figure, listed, number
from doughwright.publish.terminal.columns import columns, indented, wrapped


def calibrate_text(found: Calibrated) -> str:
    """What is learnt alone and together, what is not, the readings beside the model, and what is odd."""
    lines = [found.readings, ""]
    lines += _alone(found)
    for pair in found.together:
        lines += [*wrapped(capital(f"{pair.says}. What would tell: {pair.would_tell}.")), ""]
    if found.not_learnt:
        said = "; ".join(f"{one.of} ({one.would_tell})" for one in found.not_learnt)
        lines += [*wrapped(f"The readings say little of these (in brackets what would): {said}."), ""]
    for odd in found.odd:
        lines += [*wrapped(capital(f"{odd.of}: {odd.says}.")), ""]
    lines += [*indented(_seen(found)), "", *_settled(found)]
    if found.said:
        lines += ["", *wrapped(f"Said of the readings: {'; '.join(found.said)}.")]
    return "\n".join(lines)


def _alone(found: Calibrated) -> list[str]:
    if not found.learnt:
        return ["No quantity is told by itself.", ""]
    rows = [["", "now", "before", ""]]
    rows += [[one.of, _value(one.now), _value(one.before), one.what] for one in found.learnt]
    return ["Learnt:", "", *indented(columns(rows)), ""]


def _value(one: Figure) -> str:
    return figure(one, 1 if one.unit == "degC" else 2)


def _seen(found: Calibrated) -> list[str]:
    rows = [["", "at", "read", "the model now", ""]]
    for one in found.seen:
        when = f"{number(one.time.value or 0.0, 1)} h" if one.time.value else ""
        rows.append([one.of, when, _value(one.read), _value(one.model), "does not fit" if one.odd else ""])
    return columns(rows)


def _settled(found: Calibrated) -> list[str]:
    names = [one.of for one in found.update.quantities]
    said = f"{found.draws:,} draws worth {found.effective:,.0f}, R-hat {number(found.rhat, 3)}."
    how = "with their correlations" if len(names) > 1 else "with its interval"
    kept = f" The kitchen keeps {listed(names)} {how}." if names else ""
    return wrapped(said + kept)
