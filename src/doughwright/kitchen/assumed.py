"""A kitchen as it is used: what its document gives, and the middle of a population for the rest."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from doughwright.errors import Fault, UnknownNameError, did_you_mean
from doughwright.kitchen.air import COLD, FridgeAir, PlaceAir, fridge_air, room_swing
from doughwright.kitchen.learnt import Learnt
from doughwright.kitchen.model import Kitchen, Surface
from doughwright.kitchen.types import Assumption, Hours, Known

# Middles and spreads of the population: Doughwright's own reading of the surveys listed in the science notes.
FRIDGE = Assumption(
    4.8, 2.3, "a fridge at 4.8 °C", "surveys of home fridges in New Zealand, France, England, USA"
)
ROOM = Assumption(21.0, 2.3, "a room at 21 °C", "surveys of rooms in Leicester, Japan, Portugal, USA")
WATER = Assumption(0.0, 1.0, "tap water as warm as the room", "assumed")
GRAIN = Assumption(0.0, 1.0, "flour as warm as the room", "assumed")
ALTITUDE = Assumption(0.0, 300.0, "sea level", "assumed")
OVEN_ERROR = Assumption(3.0, 14.0, "an oven 3 °C above its dial", "service tolerances of domestic ovens")
SCALE = Assumption(0.001, 0.0, "a scale that shows 1 g", "consumer glossaries: 1 g steps are typical")
AWAKE = Hours(7 * 3600.0, 23 * 3600.0)

# Friction on the trade's sum of three, by mixer: middle and spread [K].
FRICTION = {
    "hand": Assumption(2.8, 1.5, "friction of 2.8 °C by hand", "a cookery magazine: 5 °F"),
    "stand": Assumption(
        11.1, 3.0, "friction of 11 °C in a stand mixer", "a cookery magazine: 20 °F; a miller: 22-24 °F"
    ),
    "spiral": Assumption(
        14.0, 3.0, "friction of 14 °C in a spiral mixer", "from memory, a bread handbook: 24-28 °F"
    ),
    "processor": Assumption(13.9, 4.0, "friction of 14 °C in a food processor", "a cookery magazine: 25 °F"),
}


@dataclass(frozen=True, slots=True)
class Surroundings:
    """A kitchen in which every value is there: what is not known or measured is assumed, and said."""

    name: str
    altitude: Known
    fridge: Known
    fridge_swing: Known | None
    room: Known
    room_swing: Known | None
    tap: Known
    flour_temperature: Known
    flour_protein: Known | None
    mixer: str
    friction: Known
    scale: float
    scale_known: bool
    awake: Hours
    hottest: Known | None
    oven_error: Known
    fan: bool | None
    surfaces: tuple[Surface, ...]
    cold: FridgeAir = COLD
    room_warmest: Known | None = None
    learnt: Learnt | None = None
    places: dict[str, Known] = field(default_factory=dict)
    place_swings: dict[str, Known] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()

    def place(self, name: str) -> Known:
        """The mean [degC] where a dough stands; raises ``UnknownNameError`` where there is no such place.

        Of the fridge it is that of the dough's shelf, with what its openings add.
        """
        shelf = replace(
            self.fridge, value=self.fridge.value + self.cold.offset.value + self.cold.opened.value
        )
        found = {"fridge": shelf, "room": self.room, **self.places}.get(name.casefold())
        if found is None:
            names = ["fridge", "room", *self.places]
            near = (
                did_you_mean(name, names)
                or f"Add it to the kitchen as a [[place]], or write one of: {', '.join(names)}"
            )
            raise UnknownNameError(
                Fault(f'the kitchen "{self.name}" has no such place', wanted="a place of the kitchen",
                      found=f'"{name}"', try_=near)
            )  # fmt: skip
        return found

    def swing(self, name: str) -> Known | None:
        """The swing [K] of a place, plus or minus, where its document gives one."""
        own = {"fridge": self.fridge_swing, "room": self.room_swing}
        return own.get(name.casefold(), self.place_swings.get(name.casefold()))

    def air(self, name: str) -> PlaceAir:
        """The air where a dough stands, with all that moves it; raises as ``place`` does."""
        mean, swing = self.place(name).value, self.swing(name)
        wide = swing.value if swing is not None else 0.0
        if name.casefold() == "fridge":
            cold = self.cold
            return PlaceAir(
                mean, wide, cold.cycle.value / 3600.0, cold.daily.value, cold.warmest,
                cold.grip.value if cold.grip is not None else None, cold.fan,
            )  # fmt: skip
        if name.casefold() == "room":
            warmest = self.room_warmest.value if self.room_warmest is not None else None
            return PlaceAir(mean, daily=wide, warmest=warmest)
        return PlaceAir(mean, wide, self.cold.cycle.value / 3600.0)


MIDDLE = "middle of the published population"


def surroundings(kitchen: Kitchen | None) -> Surroundings:
    """The kitchen as it is used; ``None`` is the middle of the published population."""
    given = kitchen or Kitchen(schema=1, kitchen=MIDDLE)
    said: list[str] = []
    learnt = given.learnt
    room = _learnt(learnt, "room") or _or(given.room.temperature, ROOM, said)
    fridge = _learnt(learnt, "fridge") or _or(given.fridge.temperature, FRIDGE, said)
    cold = fridge_air(
        given.fridge, fridge.how, awake=given.awake or AWAKE, said=said,
        learnt=learnt is not None and learnt.get("fridge") is not None,
    )  # fmt: skip
    kind = given.mixer.kind or "hand"
    if given.mixer.kind is None:
        said.append("mixing by hand")
    return Surroundings(
        name=given.kitchen,
        altitude=_or(given.altitude, ALTITUDE, said),
        fridge=fridge,
        fridge_swing=cold.swing,
        room=room,
        room_swing=room_swing(given.room, said),
        tap=_or(given.tap.temperature, WATER, said, room.value),
        flour_temperature=_or(given.flour.temperature, GRAIN, said, room.value),
        flour_protein=given.flour.protein,
        mixer=kind,
        friction=_or(given.mixer.friction, FRICTION[kind], said),
        scale=given.scale.step or SCALE.middle,
        scale_known=given.scale.step is not None,
        awake=given.awake or AWAKE,
        hottest=given.oven.hottest,
        oven_error=given.oven.error or Known(OVEN_ERROR.middle, "assumed", OVEN_ERROR.spread),
        fan=given.oven.fan,
        surfaces=given.surfaces,
        cold=cold,
        learnt=learnt,
        room_warmest=Known(given.room.warmest) if given.room.warmest is not None else None,
        places={place.name.casefold(): place.temperature for place in given.places},
        place_swings={place.name.casefold(): place.swing for place in given.places if place.swing},
        assumed=tuple(said + ([] if given.scale.step else [SCALE.said])),
    )


def _learnt(learnt: Learnt | None, name: str) -> Known | None:
    """A temperature that readings have taught: as good as measured, where the dough stood."""
    found = learnt.get(name) if learnt is not None else None
    return None if found is None else Known(found.value, "measured", found.spread)


def _or(value: Known | None, assumption: Assumption, said: list[str], base: float = 0.0) -> Known:
    if value is not None:
        return value
    said.append(assumption.said)
    return Known(base + assumption.middle, "assumed", assumption.spread)
