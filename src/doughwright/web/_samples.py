"""What is sampled for a sheet, piece by piece: how sure the days are, and the recipe in other kitchens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from doughwright.errors import DoughwrightError
from doughwright.forecast.bake import Bake, bake
from doughwright.forecast.days import days
from doughwright.forecast.doubt import with_doubt
from doughwright.forecast.elsewhere import Elsewhere, elsewhere
from doughwright.forecast.narrow import narrow
from doughwright.forecast.narrow_results import Narrow
from doughwright.forecast.results import Days, Run
from doughwright.forecast.seed import seed_of
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.read import read_kitchen
from doughwright.publish.fan import Landing, hundredths
from doughwright.recipe.model import Recipe
from doughwright.store import Bench
from doughwright.web._fits import FitRow, fits_of
from doughwright.web._results import Results
from doughwright.web._sampling import Sampled, Sampler, Watch
from doughwright.web._windows import Work, digest

KITCHENS = 10_000
PIECES = ("oven", "doubt", "measuring", "others", "fits")
"""What is sampled, the quickest first."""
CUT = 1
"""The piece that is cut through."""
# So many of the cook's own kitchens hang under the marks.
MOST_NAMED = 6


@dataclass(frozen=True)
class Others:
    """A recipe in many kitchens, and where the cook's own land."""

    found: Elsewhere
    named: tuple[Landing, ...]


@dataclass(frozen=True)
class Samples:
    """Each piece as far as it is there; ``mark`` names what they are of: the recipe as run, its kitchen.

    ``kitchens`` names the cook's own, in which it was run too.
    """

    mark: str
    kitchens: str
    oven: Sampled[Bake]
    doubt: Sampled[Days]
    measuring: Sampled[Narrow]
    others: Sampled[Others]
    fits: Sampled[tuple[FitRow, ...]]

    @property
    def there(self) -> tuple[str, ...]:
        """The pieces that are settled."""
        return tuple(name for name in PIECES if getattr(self, name).settled)

    @property
    def settled(self) -> bool:
        """Whether there is nothing to wait for."""
        return len(self.there) == len(PIECES)


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

    def ask(name: str, done: Callable[[Watch], Any], *of: str) -> Callable[[float], Sampled[Any]]:
        rank, key = PIECES.index(name), (name, mark, *of)
        return lambda wait: asking.sampler.ask(key, done, owner=owner, rank=rank, wait=wait)

    kitchens = digest(repr(own))
    asks = {
        "oven": ask("oven", lambda watch: bake(recipe, kitchen, seed=seed, section=CUT)),
        "doubt": ask("doubt", partial(_doubt, results.runs, recipe, kitchen, seed)),
        "measuring": ask("measuring", lambda watch: narrow(recipe, kitchen, seed=seed)),
        "others": ask("others", partial(_others, recipe, kitchen, own, seed), kitchens),
        "fits": ask(
            "fits", partial(fits_of, results.read, kitchen, own), digest(results.read.text), kitchens
        ),
    }
    found = Samples(mark, kitchens, **{name: one(0.0) for name, one in asks.items()})
    if asking.all:
        return Samples(mark, kitchens, **{name: one(asking.wait) for name, one in asks.items()})
    if found.settled or set(found.there) - set(asking.have) or not asking.wait:
        return found
    first = next(name for name in PIECES if name not in found.there)
    pieces = {name: getattr(found, name) for name in PIECES}
    return Samples(mark, kitchens, **{**pieces, first: asks[first](asking.wait)})


def ripe_of(asking: Asking, kitchens: str, results: Results) -> int | None:
    """In how many of a hundred kitchens a text is ripe, where that is known already."""
    found = asking.sampler.kept(("others", mark_of(results), kitchens))
    if not isinstance(found, Others):
        return None
    share = found.found.share
    return hundredths((share.young.value or 0.0, share.ripe.value or 0.0, share.past.value or 0.0))[1]


def measuring_of(asking: Asking, work: Work, results: Results) -> Sampled[Narrow]:
    """What would narrow a recipe's forecast most, for another page than its own."""
    seed, recipe, kitchen = seed_of(results.read.text), results.shown, results.kitchen
    return asking.sampler.ask(
        ("measuring", mark_of(results)),
        lambda watch: narrow(recipe, kitchen, seed=seed),
        owner=f"{work.kind} {work.name} {work.window}",
        rank=PIECES.index("measuring"),
        wait=asking.wait,
    )


def _doubt(runs: tuple[Run, ...], recipe: Recipe, kitchen: Surroundings, seed: int, watch: Watch) -> Days:
    """The days again, each reading with its interval."""
    watch.says(0.0)
    return with_doubt(Days(runs), recipe, kitchen, seed=seed)


def _others(
    recipe: Recipe, kitchen: Surroundings, own: tuple[tuple[str, str], ...], seed: int, watch: Watch
) -> Others:
    """The recipe in many kitchens, then in each of the cook's own."""
    found = elsewhere(
        recipe,
        kitchens=KITCHENS,
        seed=seed,
        own=kitchen,
        progress=lambda done, total, left: watch.says(0.95 * done / total),
        stop=lambda: watch.stopped,
    )
    watch.says(0.95)
    return Others(
        found, tuple(one for file, text in own if (one := _landing(recipe, file, text)) is not None)
    )


def _landing(recipe: Recipe, file: str, text: str) -> Landing | None:
    """Where the dough lands in a kitchen; ``None`` where that has faults, or no place that is asked for."""
    try:
        kitchen = surroundings(read_kitchen(text, file).kitchen)
        run = days(recipe, kitchen).runs[0]
    except DoughwrightError:
        return None
    return Landing(kitchen.name, run.judged.rise, run.judged.state)
