"""The same dough in each of the cook's kitchens: what a fit changes, a row a kitchen."""

from __future__ import annotations

from dataclasses import dataclass

from doughwright.errors import InputError, NoAnswerError
from doughwright.forecast.fit import Fit, NoFitError, fit
from doughwright.forecast.printed import PrintedReading
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.fit_words import changes_words
from doughwright.publish.render import capital, rise, temperature
from doughwright.recipe.read import RecipeDocument
from doughwright.web._sampling import Watch

NOTHING = "–"


@dataclass(frozen=True, slots=True)
class FitRow:
    """A kitchen: its fridge and room, the dough as written, what the fit changes, the dough then."""

    file: str
    kitchen: str
    air: str
    before: tuple[str, str]
    changes: str
    after: tuple[str, str]


def fits_of(
    document: RecipeDocument, own: Surroundings, kitchens: tuple[tuple[str, str], ...], watch: Watch
) -> tuple[FitRow, ...]:
    """A fit for each kitchen (file and text) but the recipe's own; those with faults are left out."""
    rows = []
    for number, (file, text) in enumerate(kitchens):
        watch.says(number / max(len(kitchens), 1))
        if (document.recipe.kitchen or "").casefold() == file.casefold():
            continue
        try:
            here = surroundings(read_kitchen(text, file).kitchen)
        except InputError:
            continue
        rows.append(_row(document, own, here, file))
    return tuple(rows)


def _row(document: RecipeDocument, own: Surroundings, here: Surroundings, file: str) -> FitRow:
    air = f"{temperature(here.fridge.value)}, {temperature(here.room.value)}"
    try:
        found = fit(document, own, here, name=file)
    except NoFitError as error:
        nearest = error.nearest
        said = f"no fit within the hours awake; nearest {changes_words(nearest.changes)}"
        return _of(nearest, file, air, said)
    except NoAnswerError as error:
        return FitRow(file, here.name, air, (NOTHING, ""), capital(error.fault.message), (NOTHING, ""))
    return _of(found, file, air, changes_words(found.changes))


def _of(found: Fit, file: str, air: str, changes: str) -> FitRow:
    return FitRow(file, found.kitchen, air, _landed(found.before), changes, _landed(found.after))


def _landed(reading: PrintedReading) -> tuple[str, str]:
    """The rise and the state."""
    return rise(reading.rise.value or 0.0), reading.state
