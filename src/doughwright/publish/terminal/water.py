"""The dough's water as text: both ways of working it out, side by side."""

from __future__ import annotations

from doughwright.forecast.water import FrictionLearnt, Water
from doughwright.publish.render import HELD, capital, mass, temperature
from doughwright.publish.terminal.columns import columns, indented, wrapped


def water_text(water: Water) -> str:
    """What to pour, the two methods, and why they differ."""
    wanted, poured = temperature(water.desired, decimals=1), _degrees(water.water_temperature)
    lines = [f"{water.dough}: for a dough of {wanted}, pour {_liquid(water)} of {poured}."]
    if water.ice > 0:
        rest = mass(water.poured - water.ice)
        lines.append(
            f"The tap is too warm: {mass(water.ice)} of the {mass(water.poured)} as ice, {rest} from the tap."
        )
    rows = [["", _liquid(water), "the dough then"]]
    for one in water.methods:
        chosen = "*" if one.method == water.method else ""
        rows.append([f"{one.method}{chosen}", _degrees(one.water_temperature), _degrees(one.gives)])
    lines += ["", *indented(columns(rows, right=[False, True, True])), ""]
    lines += [line for one in water.methods for line in wrapped(f"{one.how}.".replace("..", "."), "  ")]
    lines += ["", *wrapped(capital(f"{water.why_they_differ}.".replace("..", ".")))]
    lines += [line for text in water.warnings for line in wrapped(f"Careful: {text}.".replace("..", "."))]
    if water.said:
        lines += ["", *wrapped("Assumed: " + "; ".join(water.said) + ".")]
    return "\n".join(lines)


def _liquid(water: Water) -> str:
    """What is poured in a word: "milk, whole" is milk."""
    return water.liquid.partition(",")[0]


def friction_text(learnt: FrictionLearnt) -> str:
    """The friction that a dough just mixed has taught, and what to write in the kitchen."""
    figure = _degrees(learnt.friction).replace(HELD, " ")
    return "\n".join(
        [
            f"Friction of this mixer, on the trade's sum of three: {_degrees(learnt.friction)}.",
            f"The dough itself warmed by {_degrees(learnt.rise)} in mixing.",
            "",
            "Write in the kitchen document:",
            "",
            "  [mixer]",
            f'  friction = {{ value = "{figure}", how = "measured" }}',
        ]
    )


def _degrees(value: float) -> str:
    return temperature(value, decimals=1)
