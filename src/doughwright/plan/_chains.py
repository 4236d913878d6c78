"""From a recipe's steps to the chains of a plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import count
from math import ceil, floor

from doughwright.errors import Fault, InputError
from doughwright.plan import hands
from doughwright.plan._network import Chain, Node, Part, choices
from doughwright.plan._oven import Pass, oven_node
from doughwright.plan._words import carry_says, wait_says, work_says
from doughwright.recipe.model import BAKES, Recipe, Step
from doughwright.recipe.subjects import subjects
from doughwright.recipe.weigh import weigh

# How long [min] what is ready may stand before it is used; a sauce or a topping a day if it must.
STANDS = {
    "preferment": tuple(range(0, 16, 5)),
    "other": (*range(0, 121, 5), *range(150, 24 * 60 + 1, 30)),
    "oven": tuple(range(0, 61, 5)),
    "dough": tuple(range(0, 61, 5)),
}
# The number of a step that the document does not have: heating the oven.
UNSAID = -1

Numbered = tuple[int, Step]


@dataclass(frozen=True, slots=True)
class Owned:
    """The steps of one mix in order; ``mix`` is ``None`` for the oven's and for work on nothing named.

    ``before`` is the bake that an oven is heated for.
    """

    mix: str | None
    steps: tuple[Numbered, ...]
    kind: str
    before: int | None = None


def network(recipe: Recipe) -> Chain:
    """The whole recipe as one chain that ends at the meal; raises ``InputError`` where no step is planned."""
    if not any(step.do != "note" for step in recipe.steps):
        raise InputError(Fault("there is nothing to plan", wanted="at least one [[step]]", try_="Add a step"))
    return _Builder(recipe).meal()


def pieces_of(recipe: Recipe, dough: str | None = None) -> int:
    """How many pieces go to the oven: as the last divide says (of that dough), else as [makes] says."""
    named = dough is not None and len(recipe.doughs) > 1
    divides = [step for step in recipe.steps if step.do == "divide" and (step.of == dough or not named)]
    if divides and divides[-1].pieces:
        return divides[-1].pieces
    if divides and divides[-1].each and recipe.doughs:
        mass = weigh(recipe)[dough if named and dough else recipe.doughs[0].name].mass * (
            1.0 - recipe.makes.loss
        )
        return max(1, floor(mass / divides[-1].each + 1e-9))
    return recipe.makes.pieces


def one_by_one(recipe: Recipe) -> bool:
    """Whether pieces bake one after another: rounds and rectangles do, others where "between" is said."""
    said = any(step.between is not None for step in recipe.steps)
    return pieces_of(recipe) > 1 and (said or recipe.shape in ("round", "rectangle"))


class _Builder:
    def __init__(self, recipe: Recipe) -> None:
        self.recipe = recipe
        self.pieces = {mix.name: pieces_of(recipe, mix.name) for mix in recipe.doughs}
        self.all = pieces_of(recipe)
        self.keys = count()
        self.owned = list(_owned(recipe))
        self.into = _without_circles(self.owned, [self._goes_into(one) for one in self.owned])

    def meal(self) -> Chain:
        """All chains that nothing else uses, joined at the meal."""
        free = [one for one, into in zip(self.owned, self.into, strict=True) if into is None]
        doughs = [one for one in free if one.kind == "dough"]
        ends = tuple(self._chain(one, alone=len(free) == 1 or doughs == [one]) for one in free)
        return Chain((Node(next(self.keys), (0,), (), joins=ends),))

    def _goes_into(self, one: Owned) -> int | None:
        """The number of the step that takes up what a chain makes; ``None``: it is there at the meal."""
        if one.kind == "oven":
            return one.before
        own = dict(one.steps)
        for n, step in enumerate(self.recipe.steps):
            if one.mix is not None and one.mix in step.with_ and n not in own:
                return n
        user = next((m for m in self.recipe.mixes if any(li.mix == one.mix for li in m.ingredients)), None)
        if user is not None and one.mix is not None:
            return self._mixed_in(user.name, one.mix)
        return self._dressing() if one.kind == "other" else None

    def _mixed_in(self, user: str, mix: str) -> int | None:
        label = next(line.add for line in self.recipe.mix(user).ingredients if line.mix == mix)
        steps = [pair for one in self.owned if one.mix == user for pair in one.steps]
        labelled = [n for n, step in steps if label is not None and step.add == label]
        mixing = [n for n, step in steps if step.do in ("mix", "cook")]
        return next(iter(labelled + mixing + [n for n, _ in steps]), None)

    def _dressing(self) -> int | None:
        doughs = [pair for one in self.owned if one.kind == "dough" for pair in one.steps]
        dressing = [n for n, step in doughs if step.do in ("dress", "glaze")]
        return next(iter(dressing + [n for n, step in doughs if step.do in BAKES]), None)

    def _chain(self, one: Owned, *, alone: bool = False) -> Chain:
        own = dict(one.steps)
        joins: dict[int, list[Owned]] = {}
        for other, into in zip(self.owned, self.into, strict=True):
            if into is not None and into in own:
                joins.setdefault(into, []).append(other)
        gaps = (0,) if alone else STANDS[one.kind]
        return Chain(tuple(self._nodes(one, joins)), gaps, one.mix)

    def _nodes(self, one: Owned, joins: dict[int, list[Owned]]) -> Iterator[Node]:
        place, worked, mixed = "room", False, False
        for group in _groups(one.steps):
            number, step = group[0]
            joined = tuple(self._chain(other) for n, _ in group for other in joins.get(n, ()))
            if step.do == "preheat":
                yield from self._heating(number, step)
            elif step.waits:
                to = _place(step, "room" if worked else place)
                yield self._wait(number, step, one.mix, None if worked else place, to, joined)
                place, worked = to, False
            elif any(each.do in BAKES for _, each in group):
                yield oven_node(
                    next(self.keys),
                    Pass(self.recipe, group, self._pieces(one.mix), one_by_one(self.recipe), one.mix),
                    joined,
                )
                worked, place = True, "room"
            else:
                yield self._work(number, step, one.mix, joined, first=not mixed)
                worked, mixed = True, mixed or step.do == "mix"

    def _pieces(self, mix: str | None) -> int:
        return self.pieces.get(mix, self.all) if mix is not None else self.all

    def _work(
        self, number: int, step: Step, mix: str | None, joined: tuple[Chain, ...], *, first: bool
    ) -> Node:
        own, assumed = hands.minutes_of(step, self._pieces(mix), first=first)
        length = max(own, ceil(step.for_.middle / 60.0) if step.for_ is not None else 0)
        said = work_says(self.recipe, step, mix, self._pieces(mix))
        part = Part(said, 0, length, own, number, mix, "room", assumed=assumed)
        # What simmers or is kneaded by a machine leaves the hands free after their own minutes.
        busy, up = ((0, own),), ((0, length),)
        return Node(next(self.keys), (length,), (part,), busy=busy, up=up, joins=joined, step=number)

    def _wait(
        self,
        number: int,
        step: Step,
        mix: str | None,
        before: str | None,
        place: str,
        joined: tuple[Chain, ...],
    ) -> Node:
        lengths = choices(step.for_) if step.for_ is not None else (1,)
        said = wait_says(self.recipe, step, mix, place)
        carried = before is not None and before != place
        carry = min(hands.CARRY, lengths[0]) if carried else 0
        parts = [Part(said, carry, None, 0, number, mix, place)]
        if carry and before is not None:
            out = carry_says(self.recipe, mix, before, place)
            parts.insert(0, Part(out, 0, carry, carry, number, mix, place, assumed=True))
        span = ((0, carry),) if carry else ()
        return Node(
            next(self.keys), lengths, tuple(parts), wait=True, busy=span, up=span, joins=joined, step=number
        )

    def _heating(self, number: int, step: Step) -> Iterator[Node]:
        own, assumed = hands.minutes_of(step, 1)
        dial = f" at {step.at.text}" if step.at is not None else ""
        part = Part(f"Turn the oven on{dial}", 0, own, own, number, assumed=assumed)
        yield Node(next(self.keys), (own,), (part,), busy=((0, own),), up=((0, own),), step=number)
        lengths = choices(step.for_) if step.for_ is not None else (hands.HEATING[bool(step.on)],)
        heating = Part("The oven heats", 0, None, 0, number, assumed=step.for_ is None)
        yield Node(next(self.keys), lengths, (heating,), wait=True, step=number)


def _without_circles(owned: list[Owned], into: list[int | None]) -> list[int | None]:
    """The same links, but a link that would close a circle leads to the meal instead."""
    owner = {number: i for i, one in enumerate(owned) for number, _ in one.steps}
    kept = list(into)
    for i in range(len(owned)):
        seen, at = {i}, i
        while (to := kept[at]) is not None and to in owner:
            if owner[to] in seen:
                kept[at] = None
                break
            at = owner[to]
            seen.add(at)
    return kept


def _place(step: Step, stays: str) -> str:
    if step.at is None:
        return stays
    return step.at.name if step.at.degrees is None else step.at.text


def _groups(steps: Iterable[Numbered]) -> Iterator[list[Numbered]]:
    """Steps one by one, but all from one oven step to the last before a wait together."""
    held: list[Numbered] = []
    for number, step in steps:
        if held and (step.waits or step.do == "preheat"):
            yield from _let_go(held)
            held = []
        if held or step.do in BAKES:
            held.append((number, step))
        else:
            yield [(number, step)]
    if held:
        yield from _let_go(held)


def _let_go(held: list[Numbered]) -> Iterator[list[Numbered]]:
    last = max(i for i, (_, step) in enumerate(held) if step.do in BAKES)
    yield held[: last + 1]
    yield from ([one] for one in held[last + 1 :])


def _owned(recipe: Recipe) -> Iterator[Owned]:
    """The steps sorted by what they are about, each in the document's order; notes are left out."""
    by: dict[str | None, list[Numbered]] = {}
    subject_of = subjects(recipe)
    bakes = [number for number, step in enumerate(recipe.steps) if step.do in BAKES]
    heats = [number for number, step in enumerate(recipe.steps) if step.do == "preheat"]
    if bakes and not heats:
        first = recipe.steps[bakes[0]]
        yield Owned(None, ((UNSAID, Step(do="preheat", at=first.at, on=first.on)),), "oven", bakes[0])
    for number, step in enumerate(recipe.steps):
        if step.do == "preheat":
            yield Owned(None, ((number, step),), "oven", next((n for n in bakes if n > number), None))
        elif step.do != "note":
            by.setdefault(subject_of[number], []).append((number, step))
    for name, steps in by.items():
        yield Owned(name, tuple(steps), _kind(recipe, name))


def _kind(recipe: Recipe, name: str | None) -> str:
    if name is None:
        return "other"
    if name in [mix.name for mix in recipe.doughs]:
        return "dough"
    used = any(line.mix == name for mix in recipe.mixes for line in mix.ingredients)
    return "preferment" if used else "other"
