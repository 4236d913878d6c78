"""What is sampled of a sheet, as it is shown: there, or said to be on its way."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from doughwright.publish.band import band_of
from doughwright.publish.render import HELD, capital, duration, number
from doughwright.web._fits import FitRow
from doughwright.web._measuring import MeasuringPart, measuring_part
from doughwright.web._others import OthersPart, others_part
from doughwright.web._oven import OvenPart, oven_part
from doughwright.web._results import Occasion, Results
from doughwright.web._samples import KITCHENS, Samples
from doughwright.web._sampling import Sampled
from doughwright.web._windows import Work

# Kitchens of the bench: file and name.
Kitchens = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class SampledPart:
    """What is sampled of a sheet; ``waiting`` says how far other kitchens are, else ``why`` there are none.

    ``mark`` names what it is of; ``address`` asks for more of it, empty where there is no more; ``page`` is
    the sheet with all of it; ``earlier`` says that what is shown is of the text before the last change.
    """

    mark: str
    address: str
    page: str
    there: tuple[str, ...]
    waiting: str
    why: str
    earlier: bool
    measuring: MeasuringPart | None
    others: OthersPart | None
    fits: tuple[FitRow, ...] | None
    fit_address: str
    redesign: str
    fit_to: tuple[tuple[str, str], ...]


def sampled_part(
    samples: Samples, kitchens: Kitchens, work: Work, results: Results, occasion: Occasion
) -> SampledPart | None:
    """The pieces that are there, and how to ask for the others."""
    run = results.run
    if run is None:
        return None
    state = samples.others
    found = state.result or state.earlier
    part = None
    if found is not None:
        band = band_of(run, results.shown, results.kitchen, results.clock(run))
        part = others_part(found.found, band, found.named, wide_only=occasion.wide_only)
    eat = f"&eat={quote(occasion.eat)}" if occasion.eat else ""
    path = f"/recipe/{quote(work.name)}"
    have = ",".join(samples.there)
    asked = f"window={work.window}&digest={work.digest}&mark={samples.mark}&have={have}{eat}"
    return SampledPart(
        mark=samples.mark,
        address="" if samples.settled else f"{path}/sampled?{asked}",
        page=f"{path}?window={work.window}&sampled=1{eat}#others",
        there=samples.there,
        waiting="" if state.settled else waiting_words(state),
        why=capital(state.why.fault.sentence) if state.why is not None else "",
        earlier=state.result is None and part is not None,
        measuring=_measuring(samples, occasion),
        others=part,
        fits=samples.fits.result,
        fit_address=f"{path}/fit?window={work.window}&kitchen=",
        redesign=f"{path}/redesign?window={work.window}",
        fit_to=_fit_to(kitchens, results),
    )


def oven_of(samples: Samples, work: Work, occasion: Occasion) -> OvenPart:
    """The oven, sampled as all of this is, but a part of the sheet by itself."""
    eat = f"&eat={quote(occasion.eat)}" if occasion.eat else ""
    page = f"/recipe/{quote(work.name)}?window={work.window}&sampled=1{eat}#oven"
    return oven_part(samples.oven, page, wide_only=occasion.wide_only)


def _fit_to(kitchens: Kitchens, results: Results) -> Kitchens:
    """The kitchens that a fit can be asked for: all but the recipe's own."""
    own = (results.recipe.kitchen or "").casefold()
    return tuple(one for one in kitchens if one[0].casefold() != own)


def _measuring(samples: Samples, occasion: Occasion) -> MeasuringPart | None:
    """What would narrow the forecast most, once it is there."""
    found = samples.measuring.result
    return measuring_part(found, wide_only=occasion.wide_only) if found is not None else None


def waiting_words(state: Sampled[Any], head: str = f"Working out {KITCHENS:,} kitchens") -> str:
    """How far it is: "Working out 10,000 kitchens: 40 % done, about 2 s left."."""
    if state.left is None:
        return f"{head} …"
    left = duration(max(round(state.left), 1.0) / 3600.0)
    return f"{head}: {number(100.0 * state.done)}{HELD}% done, about {left} left."
