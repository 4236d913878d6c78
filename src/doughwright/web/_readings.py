"""A kitchen's readings: what a cook pastes or uploads, drawn; and what it teaches of the kitchen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from urllib.parse import quote

from doughwright.errors import DoughwrightError, Fault, InputError, UnknownNameError
from doughwright.forecast.calibrate import calibrate
from doughwright.forecast.calibrate.results import Calibrated
from doughwright.forecast.seed import seed_of
from doughwright.kitchen.read import read_kitchen
from doughwright.kitchen.readings.log import ThermometerLog, read_log
from doughwright.kitchen.readings.read import ReadingsDocument, hints, read_readings
from doughwright.kitchen.readings.taken import Taken, taken
from doughwright.publish.readings import Panel, Point, panel_finding, panel_svg
from doughwright.publish.render import capital
from doughwright.recipe.read import read_recipe
from doughwright.store import Bench
from doughwright.web._days import NARROW, WIDE
from doughwright.web._page import FaultLine, fault_lines
from doughwright.web._results import read_of
from doughwright.web._taught import TaughtPart, taught_part, with_bands
from doughwright.web._windows import Work

STARTING = """\
schema = 1
readings = "Jar of TODAY"
mixed = "18:05"              # when the dough was mixed; with its date where a log names dates

[[jar]]
name = "jar"
at = "room"                  # where it stands; left out: it goes where the dough goes
diameter = "7 cm"            # straight-sided
start = "30 mm"              # height just filled
heights = [
  { when = "1 h", height = "31 mm" },
  { when = "2 h", height = "36 mm" },
  { when = "3 h", height = "47 mm" },
]

[[temperature]]
when = "0 min"
temperature = "24 °C"        # of the dough, just mixed

# [[log]]                    # a thermometer's file, pasted or chosen below
# file = "fridge.csv"
# place = "fridge"
"""


@dataclass(frozen=True, slots=True)
class Given:
    """What the cook sends: the recipe's file, the readings' text, a pasted log, files by name."""

    recipe: str = ""
    text: str = ""
    log: str = ""
    files: Mapping[str, bytes] | None = None


@dataclass(frozen=True, slots=True)
class PanelPart:
    """Readings of one kind as a picture, and what it shows in words."""

    what: str
    wide: str
    narrow: str
    finding: str


@dataclass(frozen=True)
class ReadingsPage:
    """The page: what was typed, its faults, the readings drawn."""

    title: str
    path: str
    window: str
    digest: str
    base: int
    recipes: tuple[tuple[str, str], ...]
    given: Given
    faults: tuple[FaultLine, ...]
    why: str
    panels: tuple[PanelPart, ...]
    said: tuple[str, ...]
    taught: TaughtPart | None = None

    @property
    def text(self) -> str:
        """What stands in the field."""
        return self.given.text or STARTING

    @property
    def lines(self) -> int:
        """How many lines the field shows."""
        return max(self.text.count("\n") + 2, 12)


def readings_page(bench: Bench, work: Work, title: str, given: Given | None, today: str) -> ReadingsPage:
    """The page for what is given; empty where nothing is yet."""
    recipes = tuple(_recipes(bench, work))
    shown = replace(given, files=None) if given is not None else Given(text=STARTING.replace("TODAY", today))
    page = ReadingsPage(
        title=title, path=f"/kitchen/{quote(work.name)}", window=work.window, digest=work.digest,
        base=work.base.number, recipes=recipes, given=shown,
        faults=(), why="", panels=(), said=(),
    )  # fmt: skip
    if given is None:
        return page
    try:
        read = document_of(given)
        found = taken(read)
    except InputError as error:
        return replace(page, faults=fault_lines(error.faults))
    except DoughwrightError as error:
        return replace(page, why=capital(error.fault.sentence))
    page = replace(page, said=tuple(capital(one) for one in found.said))
    try:
        learnt = _learnt(bench, work, page, read, found)
    except DoughwrightError as error:
        said = " ".join(capital(one.sentence) for one in error.faults)
        return replace(page, panels=_drawn(panels_of(found)), why=said)
    names = [jar.name for jar in found.jars]
    panels = panels_of(found)
    bands = with_bands(panels[: len(names)], names, learnt)
    taught = taught_part(learnt)
    return replace(
        page, panels=_drawn([*bands, *panels[len(names) :]]), taught=taught, said=taught.said or page.said
    )


def _learnt(bench: Bench, work: Work, page: ReadingsPage, read: ReadingsDocument, found: Taken) -> Calibrated:
    """What the readings teach, of the dough that was chosen, else of the one that they name."""
    names = [name for name, _ in page.recipes]
    wanted = page.given.recipe or read.readings.recipe or (names[0] if names else "")
    name = next((one for one in names if one.casefold() == wanted.casefold()), None)
    if name is None:
        raise UnknownNameError(Fault("there is no recipe to learn from", try_="Choose the dough"))
    recipe = read_recipe(bench.head("recipe", name).text, name).recipe
    kitchen = read_kitchen(work.text, work.name)
    return calibrate(
        recipe, kitchen, found, called=read.readings.readings, dough=read.readings.dough,
        seed=seed_of(read.text),
    )  # fmt: skip


def _drawn(panels: list[Panel]) -> tuple[PanelPart, ...]:
    """Each panel that has something to show."""
    shown = [one for one in panels if len(one.points) > 1 or one.after is not None]
    return tuple(_panel(one, number) for number, one in enumerate(shown))


def document_of(given: Given) -> ReadingsDocument:
    """The readings with the logs that they name, from what was pasted and chosen."""
    read = read_readings(given.text)
    logs = tuple(_log(read, number, given) for number in range(len(read.readings.logs)))
    return ReadingsDocument(read.document, read.readings, read.notes, logs)


def _log(read: ReadingsDocument, number: int, given: Given) -> ThermometerLog:
    """A log by its file's name; the first one that was not chosen is the one that was pasted."""
    named = read.readings.logs[number]
    files = given.files or {}
    raw = files.get(named.file)
    if raw is None and len(files) == 1 and len(read.readings.logs) == 1:
        raw = next(iter(files.values()))
    missing = [one.file for one in read.readings.logs if one.file not in files]
    if raw is None and given.log.strip() and missing[:1] == [named.file]:
        raw = given.log.encode()
    if raw is None:
        fault = Fault(
            f"the log {named.file} is not here", wanted="its file, chosen or pasted",
            try_="Choose the file below, or paste what is in it",
        )  # fmt: skip
        raise InputError(fault)
    return read_log(raw, named.file, hints(read.readings, named))


def panels_of(found: Taken) -> list[Panel]:
    """A panel for each jar, each log and each thing whose temperature was read."""
    panels = [
        Panel(
            f"rise in the {jar.name}", "times its volume when filled",
            tuple(Point(time / 3600.0, rise) for time, rise in zip(jar.times, jar.rise, strict=True)),
            None, None, 1, "hours after mixing",
        )
        for jar in found.jars
    ]  # fmt: skip
    panels += [
        Panel(
            f"temperature of the {log.place}", "°C",
            tuple(Point(time / 3600.0, one) for time, one in zip(log.times, log.degrees, strict=True)),
            None, None, 0, "hours after mixing",
        )
        for log in found.logs
    ]  # fmt: skip
    for thing in dict.fromkeys(one.of for one in found.probes):
        points = tuple(Point(one.time / 3600.0, one.degrees) for one in found.probes if one.of == thing)
        panels.append(Panel(f"temperature of the {thing}", "°C", points, None, None, 0, "hours after mixing"))
    return panels


def _panel(panel: Panel, number: int) -> PanelPart:
    return PanelPart(
        what=capital(panel.what),
        wide=panel_svg(panel, width=WIDE, prefix=f"reading{number}"),
        narrow=panel_svg(panel, width=NARROW, prefix=f"reading-narrow{number}"),
        finding=panel_finding(panel),
    )


def _recipes(bench: Bench, work: Work) -> list[tuple[str, str]]:
    """The recipes of the bench, those made in this kitchen first."""
    found = []
    for head in bench.heads("recipe"):
        read = read_of(head.text, head.name)
        if read is not None:
            here = (read.recipe.kitchen or "").casefold() == work.name.casefold()
            found.append((not here, read.recipe.title, head.name))
    return [(name, title) for _, title, name in sorted(found)]
