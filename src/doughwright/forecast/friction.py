"""What a mixer's friction, once learnt, looks like in the kitchen's document."""

from __future__ import annotations

from doughwright.kitchen.read import KitchenDocument, read_kitchen
from doughwright.recipe.edit import Change, edit
from doughwright.recipe.text import parse
from doughwright.units import format_temperature

_WHERE = ("mixer", "friction")


def kitchen_with_friction(kitchen: KitchenDocument, friction: float) -> str:
    """The kitchen's text with its mixer's friction [K, on a sum of three] measured; all else is as it was."""
    document, file = kitchen.document, kitchen.document.file
    shown = format_temperature(friction, difference=True)
    written = f'{{ value = "{shown}", how = "measured" }}'
    if "mixer" not in document.data:
        newline = "\r\n" if "\r\n" in document.text else "\n"
        gap = "" if document.text.endswith("\n") else newline
        text = f"{document.text}{gap}{newline}[mixer]{newline}friction = {written}{newline}"
    else:
        placed = parse(edit(document, [Change(_WHERE, "")]), file)
        span = placed.values[_WHERE]
        text = placed.text[: span.start] + written + placed.text[span.end :]
    read_kitchen(text, file)
    return text
