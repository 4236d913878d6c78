"""What is sampled for a sheet, piece by piece: how sure the days are, and the recipe in other kitchens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeVar

from doughwright.errors import InputError
from doughwright.forecast.days import days
from doughwright.forecast.doubt import with_doubt
from doughwright.forecast.elsewhere import Elsewhere, elsewhere
from doughwright.forecast.results import Days, Run
from doughwright.forecast.seed import seed_of
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.fan import Landing
from doughwright.recipe.model import Recipe
from doughwright.store import Bench
from doughwright.web._fits import FitRow, fits_of
from doughwright.web._results import Results
from doughwright.web._sampling import Sampled, Sampler, Watch
from doughwright.web._windows import Work, digest

T = TypeVar("T")
KITCHENS = 10_000
# So many of the cook's own kitchens hang under the marks.
MOST_NAMED = 6


@dataclass(frozen=True)
class Others:
    """A recipe in many kitchens, and where the cook's own land."""

    found: Elsewhere
    named: tuple[Landing, ...]


@dataclass(frozen=True)
class Samples:
    """Each piece as far as it is there; ``mark`` names what they are of: the recipe as run, its kitchen."""

    mark: str
    doubt: Sampled[Days]
    others: Sampled[Others]
    fits: Sampled[tuple[FitRow, ...]]

    @property
    def there(self) -> tuple[str, ...]:
        """The pieces that are settled."""
        pieces = {"doubt": self.doubt.settled, "others": self.others.settled, "fits": self.fits.settled}
        return tuple(name for name, settled in pieces.items() if settled)

    @property
    def settled(self) -> bool:
        """Whether there is nothing to wait for."""
        return self.doubt.settled and self.others.settled and self.fits.settled


@dataclass(frozen=True, slots=True)
class Asking:
    """How a page asks: at once, or so long [s] until there is more than ``have``, or all of it."""

    sampler: Sampler
    wait: float = 0.0
    have: tuple[str, ...] = ()
    all: bool = False


def mark_of(results: Results) -> str:
    """A short name for what is sampled: the same recipe in the same kitchen has the same."""
    return digest(repr((seed_of(results.read.text), results.shown, results.kitchen)))


def samples_of(asking: Asking, bench: Bench, work: Work, results: Results) -> Samples | None:
    """What there is; ``None`` where the days are not modelled."""
    if results.run is None:
        return None
    own = tuple((head.name, head.text) for head in bench.heads("kitchen")[:MOST_NAMED])
    mark = mark_of(results)
    owner = f"{work.kind} {work.name} {work.window}"
    recipe, kitchen, seed = results.shown, results.kitchen, seed_of(results.read.text)

    def ask(rank: int, key: tuple[str, ...], done: Callable[[Watch], T], wait: float = 0.0) -> Sampled[T]:
        return asking.sampler.ask(key, done, owner=owner, rank=rank, wait=wait)

    doubt = partial(ask, 0, ("doubt", mark), partial(_doubt, results.runs, recipe, kitchen, seed))
    others = partial(ask, 2, ("others", mark, digest(repr(own))), partial(_others, recipe, own, seed))
    fits = partial(
        ask, 3, ("fits", digest(results.read.text), mark, digest(repr(own))),
        partial(fits_of, results.read, kitchen, own),
    )  # fmt: skip
    found = Samples(mark, doubt(), others(), fits())
    if asking.all:
        return Samples(mark, doubt(asking.wait), others(asking.wait), fits(asking.wait))
    if found.settled or set(found.there) - set(asking.have) or not asking.wait:
        return found
    if not found.doubt.settled:
        return replace(found, doubt=doubt(asking.wait))
    if not found.others.settled:
        return replace(found, others=others(asking.wait))
    return replace(found, fits=fits(asking.wait))


def _doubt(runs: tuple[Run, ...], recipe: Recipe, kitchen: Surroundings, seed: int, watch: Watch) -> Days:
    """The days again, each reading with its interval."""
    watch.says(0.0)
    return with_doubt(Days(runs), recipe, kitchen, seed=seed)


def _others(recipe: Recipe, own: tuple[tuple[str, str], ...], seed: int, watch: Watch) -> Others:
    """The recipe in many kitchens, then in each of the cook's own."""
    found = elsewhere(
        recipe,
        kitchens=KITCHENS,
        seed=seed,
        progress=lambda done, total, left: watch.says(0.95 * done / total),
        stop=lambda: watch.stopped,
    )
    watch.says(0.95)
    return Others(
        found, tuple(one for file, text in own if (one := _landing(recipe, file, text)) is not None)
    )


def _landing(recipe: Recipe, file: str, text: str) -> Landing | None:
    """Where the dough lands in a kitchen; ``None`` where its document has faults."""
    try:
        kitchen = surroundings(read_kitchen(text, file).kitchen)
    except InputError:
        return None
    run = days(recipe, kitchen).runs[0]
    return Landing(kitchen.name, run.judged.rise, run.judged.state)
