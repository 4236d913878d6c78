"""A recipe's sheet: everything the page shows, as one dataclass made from a window's work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from urllib.parse import quote

from doughwright.errors import Fault, InputError
from doughwright.publish.band import all_events, run_clock
from doughwright.publish.explain import makes_words
from doughwright.publish.render import capital, counted, duration, interval, rise
from doughwright.store import Bench
from doughwright.web._days import DaysPart, days_part
from doughwright.web._form import form_of
from doughwright.web._goes import GoesPart, goes_part
from doughwright.web._moved import MovedPart, edits_between, moved_part, rows_between, sentence
from doughwright.web._results import Results, results_of
from doughwright.web._windows import Work


@dataclass(frozen=True, slots=True)
class FaultLine:
    """A fault of the text: its line, where it has one, and the sentence."""

    line: int | None
    column: int | None
    sentence: str


@dataclass(frozen=True)
class SheetPage:
    """All that a recipe's sheet shows. ``stale``: the pictures are of the last text that could be read."""

    title: str
    name: str
    window: str
    digest: str
    view: str
    text: str
    faults: tuple[FaultLine, ...]
    stale: bool
    notices: tuple[str, ...]
    saved: str
    unsaved: bool
    version: int
    head: int
    kitchen: str
    kitchen_file: str | None
    lead: str
    state: str
    lead_end: str
    goes: GoesPart | None
    days: DaysPart | None
    notes: tuple[FaultLine, ...]
    moved: MovedPart | None
    said: tuple[str, str]
    put_back: str

    @property
    def path(self) -> str:
        """Where the form is sent."""
        return f"/recipe/{quote(self.name)}"

    @property
    def address(self) -> str:
        """The page's own address, its window and view named."""
        return f"{self.path}?window={self.window}&view={self.view}"

    @property
    def text_address(self) -> str:
        """Where the text is shown."""
        return f"{self.path}?window={self.window}&view=text#text"

    @property
    def lines(self) -> int:
        """How many lines the text has."""
        return self.text.count("\n") + 1

    @property
    def line_numbers(self) -> str:
        """The numbers beside the text, one a line."""
        return "\n".join(str(number + 1) for number in range(self.lines))

    @property
    def faults_said(self) -> str:
        """How many faults there are."""
        return counted(len(self.faults), "fault")

    @property
    def notes_said(self) -> str:
        """How many notes there are."""
        return f"{counted(len(self.notes), 'thing')} to know of this recipe"

    @property
    def contents(self) -> tuple[tuple[str, str], ...]:
        """The parts of the sheet that are there, by id and name."""
        parts = [("goes", "What goes in", True), ("days", "The days", self.days is not None)]
        return tuple((mark, name) for mark, name, there in parts if there)


def sheet_page(bench: Bench, work: Work, view: str) -> SheetPage:
    """The sheet of a window's work; where its text cannot be read, of the last one that could be."""
    results, faults = _readable(bench, work)
    before = _results(bench, work.base.text, work.name) if work.unsaved else None
    form = form_of(results.read.document, work.text, work.base.text, faults) if results is not None else None
    moved, said, back = _moves(bench, work, results, before)
    lead, state, end = _lead(results) if results is not None else ("", "", "")
    return SheetPage(
        title=results.recipe.title if results is not None else work.name,
        name=work.name,
        window=work.window,
        digest=work.digest,
        view=view,
        text=work.text,
        faults=tuple(FaultLine(one.line, one.column, one.sentence) for one in faults),
        stale=bool(faults) and results is not None,
        notices=tuple(_notices(work, results)),
        saved=f"Version {work.base.number}, saved by {work.base.who}",
        unsaved=work.unsaved,
        version=work.base.number,
        head=work.head.number,
        kitchen=results.kitchen.name if results is not None else "",
        kitchen_file=results.kitchen_file if results is not None else None,
        lead=lead,
        state=state,
        lead_end=end,
        goes=goes_part(results, form, bench.names("kitchen"))
        if results is not None and form is not None
        else None,
        days=days_part(results, form, before) if results is not None and form is not None else None,
        notes=tuple(_notes(results)) if results is not None else (),
        moved=moved,
        said=said,
        put_back=back,
    )


def _readable(bench: Bench, work: Work) -> tuple[Results | None, tuple[Fault, ...]]:
    """The results of the window's text, else of the last text of it that could be read, with its faults."""
    try:
        return results_of(work.text, work.name, bench), ()
    except InputError as error:
        faults = error.faults
    for text in (work.good, work.before, work.base.text, work.head.text):
        found = _results(bench, text, work.name) if text is not None else None
        if found is not None:
            return found, faults
    return None, faults


def _results(bench: Bench, text: str, name: str) -> Results | None:
    try:
        return results_of(text, name, bench)
    except InputError:
        return None


def _moves(
    bench: Bench, work: Work, results: Results | None, saved: Results | None
) -> tuple[MovedPart | None, tuple[str, str], str]:
    """The part "What moved" against the saved version; what the last edit moved, in one line; how to go back."""
    if not work.unsaved or work.before is None:
        return None, ("", ""), ""
    edits = edits_between(work.before, work.text)
    strong = capital(f"{edits[0].words}:") if len(edits) == 1 else ""
    back = f"Put {edits[0].before} back" if len(edits) == 1 and edits[0].before else "Put it back"
    if results is None or saved is None or results.read.text != work.text:
        return None, (strong, "The text cannot be read now."), back
    part = moved_part(work.base.text, work.text, saved, results)
    last = _results(bench, work.before, work.name)
    said = sentence(rows_between(last, results)) if last is not None else "The text can be read again."
    return part, (strong, said), back


def _notices(work: Work, results: Results | None) -> Iterator[str]:
    if work.overtaken:
        yield (
            f"Meanwhile {work.head.who} saved version {work.head.number}. "
            "Saving this window’s work shows you both."
        )
    if results is not None and results.kitchen_fault is not None:
        yield capital(f"{results.kitchen_fault.sentence} The middle of the published population is meant.")


def _notes(results: Results) -> Iterator[FaultLine]:
    for one in results.read.notes:
        yield FaultLine(one.line, one.column, capital(one.sentence))


def _lead(results: Results) -> tuple[str, str, str]:
    """The lead sentence: before the state of the dough, the state, and after it."""
    recipe, run = results.recipe, results.run
    made = capital(makes_words(recipe))
    if run is None:
        return f"{made}.", "", ""
    clock = run_clock(run, recipe)
    events = all_events(run, recipe)
    meal, first = max(one.end for one in events), min(one.start for one in events)
    when = f"on the table on {clock.day(meal)} at {clock.time(meal)}"
    lead = f"{made}, {when}; {duration(meal - first)} from the first stir. "
    lead += f"{capital(run.target.judged)} the dough is"
    wanted = interval(run.target.low, run.target.high)
    asked = "usual" if run.target.assumed else "wanted"
    end = f": {rise(run.judged.rise)} times its volume, where {wanted} is {asked}."
    return lead, run.judged.state, end
