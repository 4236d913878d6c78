"""A recipe in many kitchens, and its redesign, as text."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from doughwright.figures import Figure
from doughwright.forecast.elsewhere.results import LEVELS, Elsewhere, Explained, Full, Shares, Told
from doughwright.forecast.redesign.results import Changed, Outcome, Redesign
from doughwright.publish.failing import failing_words
from doughwright.publish.others import Share, explained_sentence
from doughwright.publish.render import (
    HELD,
    MINUS,
    SIGNS,
    duration,
    figure,
    interval,
    number,
    share,
    temperature,
)
from doughwright.publish.terminal.columns import columns, indented, wrapped

ROWS = 10
"""About so many rows of the rise over time."""
BAR = 40
LEAST = 0.5
"""A share below this [%] is not told."""


def elsewhere_text(found: Elsewhere) -> str:
    """Shares, the rise over time, what explains it, how it fails, and what to tell the reader."""
    lines = wrapped(_head(found))
    lines += ["", *indented(_share_rows(found.share)), "", *wrapped(_spread(found)), ""]
    lines += [*indented(_fan(found)), "", *_explained(found)]
    if found.full is not None:
        lines += ["", *_full(found.full)]
    for group in found.failing:
        lines += ["", *wrapped(failing_words(group, found.judged_at.value))]
    if found.readers:
        lines += ["", "If readers did as they are told:", "", *indented(_told(found.readers))]
    return "\n".join([*lines, "", *wrapped(f"Assumed: {'; '.join(found.said)}.")])


def _head(found: Elsewhere) -> str:
    kitchens = f"{found.kitchens:,} kitchens" if found.kitchens > 1 else "1 kitchen"
    stopped = f" (stopped; {found.asked:,} were asked for)" if found.kitchens < found.asked else ""
    season = " in summer" if found.season == "summer" else ""
    target = interval(*found.target)
    return (
        f"{found.dough} in {kitchens}{season}{stopped}, judged {found.judged}; {target} volumes are wanted."
    )


def _share_rows(shares: Shares) -> list[str]:
    rows = []
    for name in ("young", "ripe", "past"):
        one: Figure = getattr(shares, name)
        value = one.value or 0.0
        rows.append([name, f"{number(value, 1)}{HELD}%", SIGNS[name] * round(value / 100.0 * BAR)])
    return columns(rows, right=[False, True])


def _spread(found: Elsewhere) -> str:
    rise, dough = number(found.rise.value or 0.0, 2), temperature(found.dough_temperature.value or 0.0)
    return (
        f"{rise} volumes in the middle kitchen, {_range(found.rise, 2)} in nine of ten; mixed to {dough} "
        f"({_range(found.dough_temperature)}); sugar left {_range(found.sugar, 1)}{HELD}% of flour."
    )


def _range(one: Figure, decimals: int = 0) -> str:
    low, high = one.low, one.high
    if low is None or high is None:
        return number(one.value or 0.0, decimals)
    return f"{number(low, decimals)} to {number(high, decimals)}"


def _fan(found: Elsewhere) -> list[str]:
    """The volumes that so many per cent of the kitchens stay below, at some hours and when judged."""
    times = found.quantiles["time"].values
    step = max(times[-1] / ROWS, 0.25)
    wanted = [number * step for number in range(ROWS)]
    picked = sorted(
        {min(range(len(times)), key=lambda at: abs(times[at] - one)) for one in wanted} | {len(times) - 1}
    )
    head = ["hour", *(f"{level}{HELD}%" for level in LEVELS)]
    body = [
        [number(times[at], 1), *(number(found.quantiles[str(level)].values[at], 2) for level in LEVELS)]
        for at in picked
    ]
    return columns([head, *body], right=[True] * len(head))


def _explained(found: Elsewhere) -> list[str]:
    rise, ripe = _shares(found.explained_by), _shares(found.ripe_explained_by)
    if not rise and not ripe:
        return wrapped(f"What explains it: not known, {found.explained_by[0].share.why}.")
    by_input = {one.input: one for one in found.ripe_explained_by}
    rows = [["what explains it", "the rise", "being ripe"]]
    for one in found.explained_by:
        other = by_input[one.input].share
        if max(one.share.value or 0.0, other.value or 0.0) >= LEAST:
            rows.append([one.input, _part(one.share), _part(other)])
    return [*wrapped(explained_sentence(rise, ripe)), "", *indented(columns(rows, right=[False, True, True]))]


def _shares(rows: Sequence[Explained]) -> list[Share]:
    return [Share(one.input, one.share.value) for one in rows if one.share.value is not None]


def _part(one: Figure) -> str:
    """A share with how far it may be off: "39 % ± 1"."""
    if one.value is None:
        return "not known"
    far = (one.high - one.low) / 2.0 if one.high is not None and one.low is not None else 0.0
    return f"{number(one.value)}{HELD}% ±{HELD}{number(far, 0 if far >= 1.0 else 1)}"


def _full(full: Full) -> list[str]:
    head = ["", "the rise: alone", "in all", "being ripe: alone", "in all"]
    ripe = {one.input: one for one in full.ripe}
    rows = [
        [one.input, *(_part(part) for part in (one.first, one.total)),
         *(_part(part) for part in (ripe[one.input].first, ripe[one.input].total))]
        for one in full.rise
        if max(one.total.value or 0.0, ripe[one.input].total.value or 0.0) >= LEAST
    ]  # fmt: skip
    said = f"By a design of its own, {full.runs:,} kitchens on a base of {full.base:,}:"
    return [*wrapped(said), "", *indented(columns([head, *rows], right=[False, True, True, True, True]))]


def _told(readers: Sequence[Told]) -> list[str]:
    rows = [["", "ripe", "", "if"]]
    for one in readers:
        change = one.change.value or 0.0
        sign = MINUS if change < 0.0 else "+"
        rows.append(
            [
                one.what,
                f"{number(one.ripe.value or 0.0)}{HELD}%",
                f"{sign}{number(abs(change), 1)}",
                one.means,
            ]
        )
    return columns(rows, right=[False, True, True])


def redesign_text(found: Redesign) -> str:
    """What to change, what it gains in fresh kitchens, and what it costs."""
    gain = found.gain
    lines = wrapped(
        f"{found.dough}: {found.tried:,} designs tried in {found.kitchens:,} kitchens each; the best and the "
        f"recipe as written judged in {found.fresh:,} others. Free were: {', '.join(found.free)}."
    )
    if not found.changes:
        return "\n".join([*lines, "", "Nothing does better than the recipe as it is written."])
    changed = [
        ["change", "from", "to"],
        *([one.what, _value(one, one.from_), _value(one, one.to)] for one in found.changes),
    ]
    lines += ["", *indented(columns(changed)), ""]
    rows = [["", "as written", "changed"]]
    rows += [[name, cell(found.before), cell(found.after)] for name, cell in _CELLS]
    lines += [*indented(columns(rows, right=[False, True, True])), ""]
    sign = MINUS if (gain.value or 0.0) < 0.0 else "+"
    lines += wrapped(
        f"{sign}{number(abs(gain.value or 0.0), 1)} of 100 kitchens ripe ({_range(gain, 1)}). "
        f"Assumed: {'; '.join(found.said)}."
    )
    return "\n".join(lines)


def _value(one: Changed, value: Figure | str) -> str:
    if isinstance(value, str):
        return value
    if value.unit == "h" and value.value is not None:
        return duration(value.value)
    return figure(value, 1 if value.unit == "degC" else 2)


def _percent(one: Figure) -> str:
    return share((one.value or 0.0) / 100.0)


_CELLS: tuple[tuple[str, Callable[[Outcome], str]], ...] = (
    ("young", lambda one: _percent(one.share.young)),
    ("ripe", lambda one: _percent(one.share.ripe)),
    ("past", lambda one: _percent(one.share.past)),
    ("volumes, middle kitchen", lambda one: number(one.rise.value or 0.0, 2)),
    ("volumes, nine of ten", lambda one: _range(one.rise, 2)),
    ("hours in all", lambda one: duration(one.hours.value or 0.0)),
    ("hours in the fridge", lambda one: duration(one.cold_hours.value or 0.0)),
    ("sugar left, % of flour", lambda one: number(one.sugar.value or 0.0, 1)),
)
