"""A fit in words for the page: what changes, what each change does, what one alone leaves wrong."""

from __future__ import annotations

from collections.abc import Sequence

from doughwright.figures import Figure
from doughwright.forecast.fit.results import Changed, Does, Effect, Fit, Measure, Single
from doughwright.publish.render import (
    HELD,
    MINUS,
    capital,
    duration,
    listed,
    mass,
    number,
    rise,
    temperature,
)


def amount_words(one: Figure | str) -> str:
    """What a lever or a measure stands at: "0.22 g", "20 h", "24.0 °C", "1.80"."""
    if isinstance(one, str):
        return one
    if one.value is None:
        return one.why or "not known"
    if one.unit == "g":
        return mass(one.value / 1000.0)
    if one.unit == "h":
        return duration(round(one.value * 60.0) / 60.0)
    if one.unit == "degC":
        return temperature(one.value, decimals=1)
    if one.unit == "percent":
        return f"{number(one.value, 1)}{HELD}%"
    return rise(one.value)


def change_words(one: Changed) -> str:
    """One change: "instant yeast 0.45 g to 0.22 g"."""
    return f"{one.what} {amount_words(one.from_)} to {amount_words(one.to)}"


def changes_words(changes: Sequence[Changed]) -> str:
    """All of them in one row; "nothing" where there are none."""
    return listed(change_words(one) for one in changes) or "nothing"


def fit_sentence(one: Fit) -> str:
    """What the fit comes to: what changes, and that it is the same dough, or what stays wrong."""
    if one.reached and not one.changes:
        return f"As written it is the same dough in the {one.kitchen}: nothing has to change."
    if one.reached:
        return f"{capital(changes_words(one.changes))}: then it is the same dough in the {one.kitchen}."
    wrong = [measure.what for measure in one.measures if not measure.same]
    state = (
        f" leaves the dough {one.after.state}" if one.after.state != "ripe" else " passes the limits of time"
    )
    left = f" leaves wrong: {listed(wrong)}" if wrong else state
    nearest = changes_words(one.changes)
    return f"No change within the limits gives the same dough. Nearest comes {nearest}; it{left}."


def does_sentence(one: Does) -> str:
    """What a step of a lever does: "yeast, 10 % more: rise +0.08 and sugar left −0.2 %"."""
    shown = [effect_words(effect) for effect in one.effects]
    effects = listed(words for words in shown if words) or "next to nothing"
    return f"{one.lever}, {_step_words(one.step)} more: {effects}"


def _step_words(step: Figure) -> str:
    """A step without needless noughts: "10 %", "1 °C", "15 min"."""
    return amount_words(step).replace(f".0{HELD}", HELD)


def effect_words(one: Effect) -> str:
    """A change with its sign: "rise +0.08"; empty where it does not show."""
    value = one.change.value or 0.0
    if not any(digit in "123456789" for digit in amount_words(one.change)):
        return ""
    sign = MINUS if value < 0 else "+"
    return f"{one.what} {sign}{amount_words(Figure(abs(value), one.change.unit))}"


def single_sentence(one: Single) -> str:
    """The best single change, with what it leaves wrong."""
    wrong = listed(one.wrong)
    left = f"it leaves wrong: {wrong}" if wrong else "it leaves nothing wrong"
    return f"{capital(changes_words(one.changes))} alone: {left}."


def same_words(same: bool) -> str:
    """Whether a measure is near enough."""
    return "the same" if same else "not the same"


def tolerance_words(one: Measure) -> str:
    """What is wanted, with what still counts as the same: "1.80 ± 0.05"."""
    return f"{amount_words(one.wanted)} ±{HELD}{amount_words(one.tolerance)}"
