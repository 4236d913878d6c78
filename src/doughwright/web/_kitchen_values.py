"""The values of a kitchen in groups: what each is called, where it stands, what others have."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from doughwright.kitchen.assumed import (
    ALTITUDE,
    FRICTION,
    FRIDGE,
    GRAIN,
    OVEN_ERROR,
    ROOM,
    SCALE,
    WATER,
    Surroundings,
)
from doughwright.kitchen.types import Assumption, Known
from doughwright.publish.render import capital, length, mass, share, temperature
from doughwright.recipe.text import Where
from doughwright.web._fields import Field
from doughwright.web._form import Form
from doughwright.web._known import NINETY, known_picture
from doughwright.web._next import mark_of_value

Say = Callable[[float], str]
LEARNT = "Learnt from readings"


def degrees_words(value: float) -> str:
    """A temperature to a tenth, without a needless nought."""
    return temperature(value, decimals=0 if abs(value - round(value)) < 0.05 else 1)


@dataclass(frozen=True, slots=True)
class ValueRow:
    """A value: its field, how it is known (a field where the document says it), its picture and its doubt."""

    what: str
    value: Field
    how: Field | None
    known: str
    picture: str
    doubt: str
    note: str
    mark: str


@dataclass(frozen=True, slots=True)
class ValueGroup:
    """Values that belong together."""

    name: str
    rows: tuple[ValueRow, ...]


@dataclass(frozen=True, slots=True)
class _Value:
    """What is asked of a kitchen: the words, the path, the value as used, the population, how it is said."""

    what: str
    where: Where
    used: Known | None
    others: Assumption | None = None
    say: Say = degrees_words
    hint: str = ""
    options: tuple[str, ...] = ()


def value_groups(used: Surroundings, form: Form) -> tuple[ValueGroup, ...]:
    """All values of a kitchen."""
    groups = (
        ("Cold and room", _air(used)),
        ("Flour and water", _flour(used)),
        ("Mixing and weighing", _mixing(used)),
        ("Oven", _oven(used)),
        ("The cook and the place", _around(used)),
    )
    return tuple(ValueGroup(name, tuple(_row(one, form) for one in values)) for name, values in groups)


def _row(one: _Value, form: Form) -> ValueRow:
    where, what = one.where, one.what
    hint = one.hint or (one.say(one.used.value) if one.used is not None else "not said")
    field = form.field(where, what, hint=hint, size=max(len(hint), 10), options=one.options)
    known = one.used
    if known is None and field.value:
        known = Known(0.0, "known")
    elif not field.value and known is not None and known.how != "measured":
        known = replace(known, how="assumed")
    mark = "known-" + "-".join(str(part) for part in where)
    how = f"How the {what} is known"
    return ValueRow(
        what=what,
        value=field,
        how=form.how(where, f"how the {what} is known") if _can_doubt(where) else None,
        known=known.how if known is not None else "not said",
        picture=known_picture(known, one.others, mark, how) if known is not None else "",
        doubt=_doubt(known, one) if known is not None else "",
        note=LEARNT
        if not field.value and known is not None and known.how == "measured"
        else _note(one, known),
        mark=mark_of_value(where),
    )


def _can_doubt(where: Where) -> bool:
    """Whether the document can say how a value is known."""
    return where[-1] in ("temperature", "swing", "friction", "protein", "hottest", "error", "altitude")


def _doubt(known: Known, one: _Value) -> str:
    """The 90 % interval: of the measurement, or of all kitchens."""
    spread = known.spread
    if known.how == "assumed" and one.others is not None:
        spread = one.others.spread
    if known.how == "known" or not spread:
        return ""
    return f"{one.say(known.value - NINETY * spread)} to {one.say(known.value + NINETY * spread)}"


def _note(one: _Value, known: Known | None) -> str:
    if known is None or known.how != "assumed" or one.others is None or one.others.source == "assumed":
        return ""
    return capital(one.others.source)


def _air(used: Surroundings) -> Iterator[_Value]:
    yield _Value("fridge, where the dough stands", ("fridge", "temperature"), used.fridge, FRIDGE)
    yield _Value("its swing, plus or minus", ("fridge", "swing"), used.fridge_swing, hint="none")
    shelves = ("top", "middle", "bottom", "door")
    yield _Value("the dough’s shelf", ("fridge", "shelf"), None, options=shelves)
    yield _Value("its door is opened", ("fridge", "openings"), None, hint="20 a day")
    yield _Value("room", ("room", "temperature"), used.room, ROOM)
    yield _Value("the room’s swing, plus or minus", ("room", "swing"), used.room_swing, hint="none")
    yield _Value("the room is warmest at", ("room", "warmest"), None)
    for number, (name, known) in enumerate(used.places.items()):
        yield _Value(name, ("place", number, "temperature"), known)


def _flour(used: Surroundings) -> Iterator[_Value]:
    yield _Value("flour, protein", ("flour", "protein"), used.flour_protein, say=share, hint="the recipe’s")
    grain = replace(GRAIN, middle=used.room.value)
    yield _Value("flour, temperature", ("flour", "temperature"), used.flour_temperature, grain)
    water = replace(WATER, middle=used.room.value)
    yield _Value("tap water", ("tap", "temperature"), used.tap, water)


def _mixing(used: Surroundings) -> Iterator[_Value]:
    kinds = ("hand", "stand", "spiral", "processor")
    yield _Value("mixer", ("mixer", "kind"), None, hint=used.mixer, options=kinds)
    others = FRICTION[used.mixer]
    yield _Value("mixer’s friction, on the trade’s sum", ("mixer", "friction"), used.friction, others)
    scale = Known(used.scale, "known" if used.scale_known else "assumed")
    yield _Value("scale shows", ("scale", "step"), scale, SCALE, say=mass)


def _oven(used: Surroundings) -> Iterator[_Value]:
    yield _Value("hottest setting", ("oven", "hottest"), used.hottest)
    yield _Value("oven, true minus dial", ("oven", "error"), used.oven_error, OVEN_ERROR)
    yield _Value("fan", ("oven", "fan"), None, options=("yes", "no"))
    for number, surface in enumerate(used.surfaces):
        yield _Value(f"{surface.name}, material", ("surface", number, "material"), None)
        yield _Value(f"{surface.name}, thickness", ("surface", number, "thickness"), None)


def _around(used: Surroundings) -> Iterator[_Value]:
    yield _Value("altitude", ("altitude",), used.altitude, ALTITUDE, say=_height)
    start, end = (clock_words(seconds) for seconds in (used.awake.start, used.awake.end))
    yield _Value("hours awake", ("awake",), None, hint=f"{start} to {end}")


def clock_words(seconds: float) -> str:
    """Seconds after midnight as a time of day."""
    return f"{int(seconds // 3600):02d}:{int(seconds % 3600 // 60):02d}"


def _height(metres: float) -> str:
    return length(metres)
