"""What every page of a document holds: whose it is, its text and faults, what is unsaved, its history."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from doughwright.errors import Fault
from doughwright.publish.render import capital, counted
from doughwright.store import Bench, Kind
from doughwright.web._history import HistoryPart, history_part
from doughwright.web._results import Occasion
from doughwright.web._windows import Work
from doughwright.web._words import when_words


@dataclass(frozen=True, slots=True)
class FaultLine:
    """A fault of the text: its line, where it has one, and the sentence."""

    line: int | None
    column: int | None
    sentence: str


@dataclass(frozen=True, slots=True)
class Edited:
    """What the window's last edit did, in one sentence, and the words of the button that takes it back."""

    said: str
    put_back: str = "Put it back"


@dataclass(frozen=True)
class DocumentView:
    """A document in a window. ``stale``: what is shown is of the last text that could be read.

    ``digest`` and ``base`` say of which text the page is, so that an old page changes nothing.
    """

    kind: Kind
    name: str
    window: str
    digest: str
    base: int
    view: str
    query: str
    title: str
    text: str
    faults: tuple[FaultLine, ...]
    stale: bool
    notices: tuple[str, ...]
    saved: str
    unsaved: bool
    said: str
    put_back: str
    history: HistoryPart

    @property
    def path(self) -> str:
        """Where the form is sent."""
        return f"/{self.kind}/{quote(self.name)}"

    @property
    def address(self) -> str:
        """The page's own address, its window and view named."""
        return f"{self.path}?window={self.window}&view={self.view}{self.query}"

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


def document_view(
    bench: Bench,
    work: Work,
    view: str,
    occasion: Occasion,
    *,
    title: str | None,
    faults: tuple[Fault, ...] = (),
    edited: Edited | None = None,
    notices: tuple[str, ...] = (),
) -> DocumentView:
    """A window's document; ``title`` is ``None`` where no text of the window could be read."""
    said = edited or Edited("")
    if faults:
        count = counted(len(faults), "fault")
        said = Edited(f"The text has {count}; nothing is lost, it is kept as it stands.", said.put_back)
    return DocumentView(
        kind=work.kind,
        name=work.name,
        window=work.window,
        digest=work.digest,
        base=work.base.number,
        view=view,
        query=f"&eat={quote(occasion.eat)}" if occasion.eat else "",
        title=title if title is not None else work.name,
        text=work.text,
        faults=fault_lines(faults),
        stale=bool(faults) and title is not None,
        notices=(*_overtaken(work), *notices),
        saved=_saved(work, occasion),
        unsaved=work.unsaved,
        said=said.said if work.unsaved else "",
        put_back=said.put_back,
        history=history_part(bench, work, occasion.now, occasion.zone),
    )


def fault_lines(faults: tuple[Fault, ...]) -> tuple[FaultLine, ...]:
    """Faults as the page lists them."""
    return tuple(FaultLine(one.line, one.column, capital(one.sentence)) for one in faults)


def _saved(work: Work, occasion: Occasion) -> str:
    """Which version the window began from: "Version 14, saved 08:12 by Ida"."""
    when = when_words(work.base.when, occasion.now, occasion.zone)
    return f"Version {work.base.number}, saved {when} by {work.base.who}"


def _overtaken(work: Work) -> tuple[str, ...]:
    """What to say where another window has saved meanwhile."""
    if not work.overtaken:
        return ()
    saved = f"Meanwhile {work.head.who} saved version {work.head.number}."
    return (f"{saved} Saving this window’s work will show you both.",)
