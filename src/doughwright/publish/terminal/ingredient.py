"""An ingredient as text: what it is, what is in it, what its measures weigh, and from where we know."""

from __future__ import annotations

from doughwright.ingredients import Ingredient
from doughwright.publish.render import listed, number
from doughwright.publish.terminal.columns import columns, indented, wrapped

PARTS = ("water", "protein", "fat", "carbohydrate", "fibre", "sugars", "salt")


def ingredients_text(found: list[Ingredient], word: str) -> str:
    """The first in full, the others by name."""
    lines = _whole(found[0])
    if found[1:]:
        rows = [[one.name, one.class_.value, one.source] for one in found[1:]]
        lines += ["", f'Also found for "{word}":', *indented(columns(rows))]
    return "\n".join(lines)


def _whole(one: Ingredient) -> list[str]:
    lines = [f"{one.name} ({one.class_.value})", *wrapped(one.description, "  "), "", "  per 100 g"]
    rows = [[part, _grams(getattr(one, part))] for part in PARTS]
    lines += indented(columns(rows, right=[False, True]), "    ")
    if one.to_fresh is not None:
        lines += wrapped(f"1 g does the work of {number(one.to_fresh, 2)} g of fresh yeast.", "  ")
    if one.refuse_percent:
        lines.append(f"  {number(one.refuse_percent)} % of it as bought is not used")
    if one.measures:
        rows = [
            [f"1 {m.name}", f"{number(m.grams, 1)} g", f"give or take {number(m.spread_grams, 1)} g", m.how]
            for m in one.measures
        ]
        lines += ["", "  measures", *indented(columns(rows, right=[False, True]), "    ")]
    lines += ["", *_said(one), *wrapped(f"Source: {one.source}.", "  ")]
    return lines


def _grams(value: float | None) -> str:
    return "not known" if value is None else f"{number(value, 1)} g"


def _said(one: Ingredient) -> list[str]:
    said = []
    for where, allergens in (("USA", one.allergens_us), ("EU", one.allergens_eu)):
        said.append(
            f"Allergens ({where}): {listed(allergens) if allergens else 'none known for the plain food'}."
        )
    said += [f"{text}." for text in (one.check_label, one.caution, one.out_of_scope) if text]
    return [line for text in said for line in wrapped(text.replace("..", "."), "  ")]
