"""What the recipe's author could do: what is free searched for the most ripe kitchens, worked out apart."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from urllib.parse import quote, urlencode

from doughwright import units
from doughwright.errors import InputError
from doughwright.figures import Figure
from doughwright.forecast.redesign import Limits, Redesign, redesign
from doughwright.forecast.redesign.results import Outcome
from doughwright.forecast.seed import seed_of
from doughwright.publish.fit_words import amount_words
from doughwright.publish.render import HELD, capital, listed, number, rise
from doughwright.web._results import Results
from doughwright.web._sampled import waiting_words
from doughwright.web._sampling import Sampler, Watch
from doughwright.web._windows import Work, digest

LONGEST = 40
RANK = 4


@dataclass(frozen=True, slots=True)
class CostRow:
    """What the redesign changes in the dough and for the cook: as written, and then."""

    what: str
    before: str
    after: str


@dataclass(frozen=True)
class RedesignPage:
    """The search as far as it is; ``text`` is what can be taken over, empty where there is nothing."""

    title: str
    path: str
    window: str
    digest: str
    base: int
    sheet: str
    address: str
    hours: str
    waiting: str
    why: str
    sentence: str
    changes: tuple[tuple[str, str, str], ...]
    costs: tuple[CostRow, ...]
    tried: str
    free: str
    note: str
    said: tuple[str, ...]
    text: str


def redesign_page(sampler: Sampler, work: Work, results: Results, hours: str, wait: float) -> RedesignPage:
    """The page after at most ``wait`` seconds; a limit that cannot be read is said on it."""
    path = f"/recipe/{quote(work.name)}"
    asked = urlencode({"window": work.window, "hours": hours})
    page = RedesignPage(
        title=results.recipe.title, path=path, window=work.window, digest=work.digest, base=work.base.number,
        sheet=f"{path}?window={work.window}#others", address=f"{path}/redesign?{asked}", hours=hours,
        waiting="", why="", sentence="", changes=(), costs=(), tried="", free="", note="", said=(), text="",
    )  # fmt: skip
    try:
        limits = limits_of(hours)
    except InputError as error:
        return replace(page, why=capital(error.fault.sentence))
    state = sampler.ask(
        ("redesign", digest(results.read.text), digest(repr((results.kitchen, limits)))),
        partial(_searched, results, limits),
        owner=f"redesign {work.name} {work.window}",
        rank=RANK,
        wait=wait,
    )
    if state.why is not None:
        return replace(page, why=" ".join(capital(one.sentence) for one in state.why.faults))
    if state.result is None:
        return replace(page, waiting=waiting_words(state, "Trying designs"))
    return _filled(page, state.result, results)


def limits_of(hours: str) -> Limits:
    """The limits of "24 h to 48 h", or of "48 h" at most; raises ``InputError`` where that is no time."""
    if not hours:
        return Limits()
    if " to " not in hours:
        return Limits(total=(0.0, units.parse_time(hours) / 3600.0))
    low, high = units.parse_range(hours, units.parse_time)
    return Limits(total=(low / 3600.0, high / 3600.0))


def _searched(results: Results, limits: Limits, watch: Watch) -> Redesign:
    return redesign(
        results.recipe,
        limits=limits,
        seed=seed_of(results.read.text),
        own=results.kitchen,
        document=results.read,
        progress=lambda done, total, left: watch.says(done / total),
        stop=lambda: watch.stopped,
    )


def _filled(page: RedesignPage, found: Redesign, results: Results) -> RedesignPage:
    text = found.document or ""
    return replace(
        page,
        sentence=_sentence(found),
        changes=tuple(
            (capital(one.what), amount_words(one.from_), amount_words(one.to)) for one in found.changes
        ),
        costs=tuple(_costs(found.before, found.after)),
        tried=(
            f"{found.tried:,} designs, each in {found.kitchens} kitchens; judged in {found.fresh:,} others."
        ),
        free=listed(found.free),
        note=capital(found.why) if found.why else "",
        said=tuple(capital(one) for one in found.said),
        text=text if text != results.read.text else "",
    )


def _sentence(found: Redesign) -> str:
    """How many more are ripe, and that the kitchens are new to the search."""
    before, after = (round(_share(one, "ripe")) for one in (found.before, found.after))
    gain = found.gain
    if not found.changes:
        return f"As written it is ripe in {before} of 100 kitchens, and no design that was tried does better."
    width = ""
    if gain.low is not None and gain.high is not None:
        width = f" ({number(gain.low)} to {number(gain.high)})"
    more = f"{after - before}{width} more of 100"
    return f"Changed as below it is ripe in {after} of 100 kitchens, not {before}: {more}."


def _costs(before: Outcome, after: Outcome) -> list[CostRow]:
    rows = [
        CostRow(f"{name} in", *(f"{number(_share(one, name))} of 100" for one in (before, after)))
        for name in ("young", "ripe", "past")
    ]
    rows += [
        CostRow("volume when judged, middle kitchen", _rise(before.rise), _rise(after.rise)),
        CostRow("sugar left, of flour", _percent(before.sugar), _percent(after.sugar)),
        CostRow("hours in all", amount_words(before.hours), amount_words(after.hours)),
        CostRow("hours in the cold", amount_words(before.cold_hours), amount_words(after.cold_hours)),
    ]
    return rows


def _share(one: Outcome, name: str) -> float:
    found: Figure = getattr(one.share, name)
    return found.value or 0.0


def _rise(one: Figure) -> str:
    return rise(one.value or 0.0)


def _percent(one: Figure) -> str:
    return f"{number(one.value or 0.0, 1)}{HELD}%"
