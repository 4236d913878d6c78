"""A recipe's sheet: everything the page shows, as one dataclass made from a window's work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from doughwright.errors import Fault, InputError
from doughwright.forecast.results import Run
from doughwright.publish.band import all_events
from doughwright.publish.cautions import Caution
from doughwright.publish.explain import makes_words
from doughwright.publish.render import capital, counted, duration, figure, interval, rise
from doughwright.store import Bench
from doughwright.web._days import DaysPart, days_part
from doughwright.web._form import form_of
from doughwright.web._goes import GoesPart, goes_part
from doughwright.web._moved import MovedPart, moved_part, moved_sentence, put_back_words, with_others
from doughwright.web._oven import OvenPart, without_days
from doughwright.web._page import DocumentView, Edited, FaultLine, document_view, fault_lines
from doughwright.web._plan import PlanPart, plan_part
from doughwright.web._results import Occasion, Results, kitchens_of, results_of
from doughwright.web._sampled import SampledPart, oven_of, sampled_part
from doughwright.web._samples import Asking, ripe_of, samples_of
from doughwright.web._sure import between_words
from doughwright.web._windows import Work

# So many saved versions are looked at for one that can be read.
MOST_VERSIONS = 20


@dataclass(frozen=True, slots=True)
class Lead:
    """The sheet in a sentence or two: what comes before the dough's state, the state, and what after it."""

    start: str
    state: str = ""
    end: str = ""


@dataclass(frozen=True)
class SheetParts:
    """What follows from a recipe that can be read; ``moved`` only where the window has unsaved work."""

    kitchen: str
    kitchen_file: str | None
    lead: Lead
    moved: MovedPart | None
    goes: GoesPart
    days: DaysPart
    oven: OvenPart
    plan: PlanPart
    cautions: tuple[Caution, ...]
    notes: tuple[FaultLine, ...]

    @property
    def notes_said(self) -> str:
        """How many notes there are."""
        return f"{counted(len(self.notes), 'thing')} to know of this recipe"


@dataclass(frozen=True)
class SheetPage:
    """A recipe's sheet: the document in its window, and its parts where any text of it can be read.

    ``sampled`` is worked out apart.
    """

    doc: DocumentView
    parts: SheetParts | None
    sampled: SampledPart | None = None

    @property
    def contents(self) -> tuple[tuple[str, str], ...]:
        """The parts of the sheet that are there, by id and name."""
        if self.parts is None:
            return ("goes", "What goes in"), ("history", "History")
        cautions = counted(len(self.parts.cautions), "caution")
        others = (("others", "Other kitchens"),) if self.sampled is not None else ()
        worked = ("days", "The days"), ("oven", "The oven"), *others
        between = *worked, ("plan", "The plan"), ("cautions", cautions)
        return ("goes", "What goes in"), *between, ("card", "Card"), ("history", "History")


def sheet_page(bench: Bench, work: Work, view: str, occasion: Occasion, asking: Asking) -> SheetPage:
    """The sheet of a window's work; where its text cannot be read, of the last one that could be."""
    results, faults = _readable(bench, work, occasion)
    title = results.recipe.title if results is not None else None
    doc = document_view(
        bench, work, view, occasion,
        title=title, faults=faults, edited=_edited(bench, work, occasion, results),
        notices=tuple(_notices(results)),
    )  # fmt: skip
    if results is None:
        return SheetPage(doc, None)
    saved = _results(bench, work.base.text, work.name, occasion) if work.unsaved else None
    form = form_of(results.read.document, work.text, work.base.text, faults)
    samples = samples_of(asking, bench, work, results)
    sure = samples.doubt.result.runs if samples is not None and samples.doubt.result is not None else ()
    kitchens = kitchens_of(bench)
    moved = moved_part(saved, results) if saved is not None and not faults else None
    if moved is not None and saved is not None and samples is not None:
        moved = with_others(moved, *(ripe_of(asking, samples.kitchens, one) for one in (saved, results)))
    parts = SheetParts(
        kitchen=results.kitchen.name,
        kitchen_file=results.kitchen_file,
        lead=_lead(results, sure),
        moved=moved,
        goes=goes_part(results, form, kitchens),
        days=days_part(results, form, saved, sure=sure, wide_only=occasion.wide_only),
        oven=oven_of(samples, work, occasion) if samples is not None else _no_oven(results),
        plan=plan_part(results, occasion),
        cautions=results.cautions,
        notes=fault_lines(results.read.notes),
    )
    sampled = sampled_part(samples, kitchens, work, results, occasion) if samples is not None else None
    return SheetPage(doc, parts, sampled)


def _no_oven(results: Results) -> OvenPart:
    """The oven begins from the days: where these have no answer it has none, and says theirs."""
    return without_days(results.missing.get("days"))


def _edited(bench: Bench, work: Work, occasion: Occasion, now: Results | None) -> Edited | None:
    """What the window's last edit did."""
    last = _results(bench, work.before, work.name, occasion) if work.before is not None else None
    if now is None:
        return None
    if last is None:
        return Edited("The text can be read again.")
    return Edited(moved_sentence(last, now), put_back_words(last, now))


def _readable(bench: Bench, work: Work, occasion: Occasion) -> tuple[Results | None, tuple[Fault, ...]]:
    """The results of the window's text, else of the last text of it that could be read, with its faults."""
    try:
        return results_of(work.text, work.name, bench, occasion), ()
    except InputError as error:
        faults = error.faults
    for text in _earlier(bench, work):
        found = _results(bench, text, work.name, occasion) if text is not None else None
        if found is not None:
            return found, faults
    return None, faults


def _earlier(bench: Bench, work: Work) -> Iterator[str | None]:
    """The window's texts before this one, then the saved versions from the newest."""
    yield from (work.good, work.before, work.base.text, work.head.text)
    for number in range(work.head.number - 1, max(work.head.number - MOST_VERSIONS, 0), -1):
        yield bench.version(work.kind, work.name, number).text


def _results(bench: Bench, text: str, name: str, occasion: Occasion) -> Results | None:
    try:
        return results_of(text, name, bench, occasion)
    except InputError:
        return None


def _notices(results: Results | None) -> Iterator[str]:
    if results is not None and results.kitchen_fault is not None:
        yield capital(f"{results.kitchen_fault.sentence} The middle of the published population is meant.")


def _lead(results: Results, sure: tuple[Run, ...]) -> Lead:
    recipe, run, planned = results.recipe, results.run, results.plan
    made = capital(makes_words(recipe))
    if run is None:
        return Lead(f"{made}.")
    clock, events = results.clock(run), all_events(run, results.shown)
    meal, first = max(one.end for one in events), min(one.start for one in events)
    when = f"on the table on {clock.day(meal)} at {clock.time(meal)}"
    long = duration(meal - first)
    if planned is not None:
        when = f"on the table on {clock.day(clock.hours(planned.eats))} at {planned.eats:%H:%M}"
        long = f"{figure(planned.length)} from the first stir, {figure(planned.hands_on_total)} of them yours"
    else:
        long = f"{long} from the first stir"
    wanted = interval(run.target.low, run.target.high)
    asked = "usual" if run.target.assumed else "wanted"
    return Lead(
        f"{made}, {when}. {capital(long)}. {capital(run.target.judged)} the dough is ",
        run.judged.state,
        f": {rise(run.judged.rise)} times its volume{between_words(sure[0]) if sure else ''}, "
        f"where {wanted} is {asked}.",
    )
