"""A fit as text: the changes, the two kitchens side by side, which lever does what, and what to weigh."""

from __future__ import annotations

from collections.abc import Iterator

from doughwright.figures import Figure
from doughwright.forecast.fit import Changed, Does, Fit, Measure, Single
from doughwright.publish.render import (
    HELD,
    MINUS,
    capital,
    duration,
    figure,
    listed,
    number,
    temperature,
)
from doughwright.publish.terminal.columns import columns, indented, wrapped

NOTES = {
    "hours cold": "hours cold, counted at 4 °C",
    "hours warm": "hours warm, counted at 20 °C",
    "sugar left": "sugar left, of flour",
}
MOST_LEVERS = 4


def fit_text(fit: Fit) -> str:
    """The changes, the comparison, which lever does what, the best single change, and what to weigh."""
    lines = wrapped(_head(fit))
    if fit.changes:
        rows = [[_what(one), _shown(one.from_), _shown(one.to)] for one in fit.changes]
        lines += ["", *indented(columns([["change", "from", "to"], *rows], right=[False, True, True]))]
    lines += ["", *indented(columns(_rows(fit), right=[False, True, True, True])), ""]
    lines += [line for sentence in _sentences(fit) for line in wrapped(sentence)]
    return "\n".join(lines)


def _head(fit: Fit) -> str:
    where = f'{fit.dough} for the kitchen "{fit.kitchen}"'
    if not fit.reached:
        return f"{where}: no change gives the same dough; this comes nearest."
    if not fit.changes:
        return f"{where}: nothing has to change."
    count = len(fit.levers)
    moved = f"{count} {'lever' if count == 1 else 'levers'}: {listed(fit.levers)}" if count else "its places"
    return f"{where}: the same dough as in {fit.own}, by {moved}."


def _what(one: Changed) -> str:
    return one.what if one.step is None else f"{one.what} (step {one.step})"


def _shown(one: Figure | str) -> str:
    if isinstance(one, str):
        return one
    if one.unit == "degC" and one.value is not None:
        return temperature(one.value, decimals=1)
    return figure(one)


def _rows(fit: Fit) -> list[list[str]]:
    rows = [["", f"wanted ({fit.own})", "as written here", "fitted here"]]
    for one in fit.measures:
        cells = [_measured(one, each) for each in (one.wanted, one.before, one.after)]
        rows.append(
            [
                NOTES.get(one.what, one.what),
                cells[0],
                _marked(cells[1], one.same_before),
                _marked(cells[2], one.same),
            ]
        )
    return [*rows, ["state", fit.wanted.state, fit.before.state, fit.after.state]]


def _marked(text: str, same: bool) -> str:
    return text if same else f"! {text}"


def _measured(one: Measure, value: Figure) -> str:
    if value.value is None:
        return figure(value)
    if one.wanted.unit == "h":
        return f"{number(value.value, 1)}{HELD}h"
    return figure(value)


def _sentences(fit: Fit) -> Iterator[str]:
    for one in [one for one in fit.does if one.used or not fit.levers][:MOST_LEVERS]:
        yield _does(one)
    if fit.single is not None:
        yield _single(fit.single)
    for weigh in fit.weighing:
        if weigh.weighable is not True and weigh.instead:
            yield f"Weigh {weigh.item}, {figure(weigh.amount)}: {weigh.why}; {weigh.instead}."
    yield from (f"Careful: {one}.".replace("..", ".") for one in fit.warnings)
    if fit.said:
        yield capital(f"{'; '.join(fit.said)}.")


def _does(one: Does) -> str:
    shown = [(effect.what, _signed(effect.change)) for effect in one.effects]
    effects = listed(
        f"{what} {change}" for what, change in shown if any(one in "123456789" for one in change)
    )
    return capital(f"{one.lever}, {_stepped(one.step)}: {effects or 'next to nothing'}.")


def _stepped(step: Figure) -> str:
    value = step.value or 0.0
    if step.unit == "percent":
        return f"{number(value)}{HELD}% more"
    if step.unit == "degC":
        return f"{temperature(value)} warmer"
    return f"{duration(value)} more"


def _signed(change: Figure) -> str:
    value = change.value or 0.0
    sign = "+" if value > 0 else MINUS
    if change.unit == "h":
        return f"{sign}{duration(round(abs(value) * 60.0) / 60.0)}"
    text = number(abs(value), 2)
    return f"{sign}{text}{HELD}%" if change.unit == "percent" else f"{sign}{text}"


def _single(one: Single) -> str:
    changes = listed(
        f"{_what(change)} {_shown(change.from_)} to {_shown(change.to)}" for change in one.changes
    )
    wrong = [measure for measure in one.measures if not measure.same]
    left = [
        f"{each.what} {_measured(each, each.after)} where {_measured(each, each.wanted)} is wanted"
        for each in wrong
    ]
    left += [each for each in one.wrong if each not in {measure.what for measure in wrong}]
    return f"The best single change, {changes}, leaves {listed(left) or 'nothing'} wrong."
