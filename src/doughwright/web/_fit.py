"""A recipe fitted to a kitchen of the bench: what changes, the doughs side by side, a text to take over."""

from __future__ import annotations

from dataclasses import dataclass, replace
from urllib.parse import quote, urlencode

from doughwright import units
from doughwright.errors import DoughwrightError, Fault, InputError, NoAnswerError, UnknownNameError
from doughwright.forecast.fit import Fit, Limits, NoFitError, fit
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.band import band_of, band_svg, finding
from doughwright.publish.fit_words import (
    amount_words,
    does_sentence,
    fit_sentence,
    same_words,
    single_sentence,
    tolerance_words,
)
from doughwright.publish.render import capital
from doughwright.recipe.read import RecipeDocument
from doughwright.store import Bench
from doughwright.web._days import NARROW, WIDE
from doughwright.web._results import Results, kitchens_of
from doughwright.web._windows import Work

KEEP = ("yeast", "dough temperature")
LONGEST = 20


@dataclass(frozen=True, slots=True)
class Asked:
    """What the cook asks: for which kitchen, the longest wait and hours in all as typed, what stays."""

    kitchen: str
    longest: str = ""
    available: str = ""
    keep: tuple[str, ...] = ()

    def limits(self) -> Limits:
        """The limits; raises ``InputError`` where a time cannot be read."""
        longest, available = (_hours(one) for one in (self.longest, self.available))
        return Limits(longest_wait=longest, available=available, keep=self.keep)


@dataclass(frozen=True, slots=True)
class Compared:
    """A measure of the dough: as wanted, as written in this kitchen, as fitted; whether each is the same."""

    what: str
    wanted: str
    before: str
    before_same: str
    after: str
    after_same: str


@dataclass(frozen=True)
class FitPage:
    """A recipe fitted to a kitchen; ``text`` is what can be taken over, empty where there is nothing."""

    title: str
    path: str
    window: str
    digest: str
    base: int
    sheet: str
    kitchens: tuple[tuple[str, str], ...]
    asked: Asked
    kitchen: str
    own: str
    sentence: str
    reached: bool
    why: str
    changes: tuple[tuple[str, str, str], ...]
    compared: tuple[Compared, ...]
    states: tuple[str, str, str]
    wide: str
    narrow: str
    finding: str
    does: tuple[str, ...]
    single: str
    weighing: tuple[str, ...]
    said: tuple[str, ...]
    text: str

    @property
    def take(self) -> str:
        """What the button says that takes the fit over."""
        return f"Take it over, for the {self.kitchen}"


def fit_page(bench: Bench, work: Work, results: Results, asked: Asked) -> FitPage:
    """The page for what is asked; a limit that cannot be read, or no answer, is said on it."""
    file, here = kitchen_here(bench, asked.kitchen)
    found, why = _fitted(results.read, results.kitchen, here, file, asked)
    page = _empty(bench, work, results, asked, here, why)
    return page if found is None else _filled(page, found, results, here)


def kitchen_here(bench: Bench, name: str) -> tuple[str, Surroundings]:
    """The kitchen of a name; raises ``UnknownNameError`` where there is none, ``InputError`` on faults."""
    file = next((one for one in bench.names("kitchen") if one.casefold() == name.casefold()), None)
    if file is None:
        raise UnknownNameError(Fault(f'this bench has no kitchen "{name}"', try_="Choose one of the list"))
    return file, surroundings(read_kitchen(bench.head("kitchen", file).text, file).kitchen)


def address_of(work: Work, asked: Asked) -> str:
    """Where a fit is shown."""
    fields = {"window": work.window, "kitchen": asked.kitchen}
    return f"/recipe/{quote(work.name)}/fit?{urlencode(fields)}"


def _hours(text: str) -> float | None:
    return units.parse_time(text) / 3600.0 if text else None


def _fitted(
    document: RecipeDocument, own: Surroundings, here: Surroundings, file: str, asked: Asked
) -> tuple[Fit | None, str]:
    """The fit, or the nearest there is, and why there is no better one."""
    try:
        return fit(document, own, here, limits=asked.limits(), name=file), ""
    except NoFitError as error:
        return error.nearest, _said(error)
    except (NoAnswerError, InputError) as error:
        return None, _said(error)


def _said(error: DoughwrightError) -> str:
    return " ".join(capital(fault.sentence) for fault in error.faults)


def _empty(bench: Bench, work: Work, results: Results, asked: Asked, here: Surroundings, why: str) -> FitPage:
    path = f"/recipe/{quote(work.name)}"
    return FitPage(
        title=results.recipe.title, path=path, window=work.window, digest=work.digest, base=work.base.number,
        sheet=f"{path}?window={work.window}#others", kitchens=kitchens_of(bench), asked=asked,
        kitchen=here.name, own=results.kitchen.name, sentence="", reached=False, why=why, changes=(),
        compared=(), states=("", "", ""), wide="", narrow="", finding="", does=(), single="", weighing=(),
        said=(), text="",
    )  # fmt: skip


def _filled(page: FitPage, found: Fit, results: Results, here: Surroundings) -> FitPage:
    own, before, after = found.runs
    band = band_of(after, found.fitted.recipe, here, before=before, before_words="as written")
    changed = found.document != results.read.text
    return replace(
        page,
        sentence=fit_sentence(found),
        reached=found.reached,
        changes=tuple((one.what, amount_words(one.from_), amount_words(one.to)) for one in found.changes),
        compared=tuple(
            Compared(
                one.what,
                tolerance_words(one),
                amount_words(one.before),
                same_words(one.same_before),
                amount_words(one.after),
                same_words(one.same),
            )
            for one in found.measures
        ),
        states=(own.judged.state, before.judged.state, after.judged.state),
        wide=band_svg(band, width=WIDE, prefix="fitted"),
        narrow=band_svg(band, width=NARROW, prefix="fitted-narrow"),
        finding=finding(band),
        does=tuple(capital(does_sentence(one)) for one in found.does if one.effects),
        single=single_sentence(found.single) if found.single is not None else "",
        weighing=tuple(
            f"{capital(one.item)}, {amount_words(one.amount)}: {one.instead or one.why}"
            for one in found.weighing
            if one.weighable is False
        ),
        said=tuple(capital(one) for one in (*found.said, *found.warnings)),
        text=found.document if changed else "",
    )
