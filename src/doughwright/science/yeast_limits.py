"""What water does to each form of yeast: a table of limits with sources."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

YeastForm = Literal["fresh", "instant", "active dry", "active dry, woken"]
YEAST_FORMS: tuple[YeastForm, ...] = ("fresh", "instant", "active dry", "active dry, woken")


@dataclass(frozen=True, slots=True)
class YeastLimit:
    """Water that hurts a form of yeast: from ``above`` up, or under ``below`` [degC]; and what to do.

    ``refuse`` is true where the yeast would be lost, false where a warning does.
    """

    form: YeastForm
    above: float | None
    below: float | None
    refuse: bool
    why: str
    instead: str
    source: str


_HOT = "yeast dies at about 55 to 60 degC (Gisslen, Professional Cooking; a yeast maker); ruled at 52"
_WARM = "best recovery of dry yeast 40 to 43 degC (Gisslen; a yeast maker)"
_COLD = "dry yeast wetted under 15 degC loses 20 to 50 % of its gassing (Ponte 1960s, trade; from memory)"

YEAST_LIMITS: tuple[YeastLimit, ...] = (
    *(
        YeastLimit(
            form,
            52.0,
            None,
            True,
            "water this hot kills yeast",
            "Use water under 43 °C; warm the flour or the bowl instead",
            _HOT,
        )
        for form in YEAST_FORMS
    ),
    *(
        YeastLimit(
            form,
            43.0,
            None,
            False,
            "water this warm is above what yeast likes",
            "Stir it into the flour first",
            _WARM,
        )
        for form in YEAST_FORMS
    ),
    YeastLimit(
        "active dry",
        None,
        15.0,
        True,
        "active dry yeast put dry into water this cold loses up to half of its gassing",
        "Wake it in a little of the water at 40 °C and say woken = true",
        _COLD,
    ),
    YeastLimit(
        "instant",
        None,
        15.0,
        False,
        "instant yeast is hurt by water this cold if it meets it bare",
        "Mix it into the flour before the water goes in",
        _COLD,
    ),
)
"""Limits by form; the first that a temperature meets for a form is the one that counts."""


def yeast_limit_met(*, form: str, water: float) -> YeastLimit | None:
    """The limit that this water breaks for this form of yeast, if any.

    The first row of the table with water >= above or water < below.

    Parameters
    ----------
    form : str
        form of the yeast [no unit]
    water : float
        temperature of the water it meets [degC], scalar

    Returns
    -------
    YeastLimit or None
        the row that is broken
    """
    for row in YEAST_LIMITS:
        hot = row.above is not None and water >= row.above
        cold = row.below is not None and water < row.below
        if row.form == form and (hot or cold):
            return row
    return None
