"""What an ingredient is: its class, its composition and its household measures, each with a source."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

# Salt as a card counts it: sodium times the ratio of the molar masses, 58.44 / 22.99.
SALT_PER_SODIUM = 2.54


class Class(StrEnum):
    """What an ingredient is to a baker; ``FLOUR`` decides what baker's percentages are of."""

    FLOUR = "flour"
    GRAIN = "grain"
    LIQUID = "liquid"
    MILK = "milk"
    DAIRY = "dairy"
    CHEESE = "cheese"
    EGG = "egg"
    FAT = "fat"
    SALT = "salt"
    SUGAR = "sugar"
    YEAST = "yeast"
    CULTURE = "culture"
    RAISING = "chemical raising"
    VEGETABLE = "vegetable"
    FRUIT = "fruit"
    MEAT = "meat"
    FISH = "fish"
    SEED = "seed or nut"
    SEASONING = "herb or spice"
    BAKED = "baked"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Measure:
    """One household measure: ``grams`` to one of it, with what one standard deviation is worth."""

    name: str
    unit: str
    packing: str
    volume: bool
    grams: float
    spread_grams: float
    source: str
    how: str


@dataclass(frozen=True, slots=True)
class Ingredient:
    """An ingredient with its facts; composition is grams per 100 g edible; ``None`` is unknown, never 0.

    ``per_fresh`` is the grams of this yeast that do the work of one gram of fresh yeast, ``per_fresh_spread``
    its relative standard deviation. ``density`` is in kg/m3, from the household measures where there is one.
    """

    key: str
    name: str
    description: str
    class_: Class
    source: str
    water: float | None = None
    protein: float | None = None
    fat: float | None = None
    saturates: float | None = None
    trans: float | None = None
    monounsaturates: float | None = None
    polyunsaturates: float | None = None
    carbohydrate: float | None = None
    fibre: float | None = None
    sugars: float | None = None
    starch: float | None = None
    ash: float | None = None
    alcohol: float | None = None
    cholesterol_mg: float | None = None
    sodium_mg: float | None = None
    potassium_mg: float | None = None
    calcium_mg: float | None = None
    iron_mg: float | None = None
    vitamin_d_ug: float | None = None
    energy_kcal: float | None = None
    energy_kj: float | None = None
    nitrogen_factor: float | None = None
    kcal_per_g_protein: float | None = None
    kcal_per_g_fat: float | None = None
    kcal_per_g_carbohydrate: float | None = None
    refuse_percent: float | None = None
    poured: bool = False
    milk_sugar: bool = False
    allergens_us: tuple[str, ...] = ()
    allergens_eu: tuple[str, ...] = ()
    check_label: str | None = None
    out_of_scope: str | None = None
    caution: str | None = None
    measures: tuple[Measure, ...] = ()
    density: float | None = None
    density_source: str | None = None
    per_fresh: float | None = None
    per_fresh_spread: float | None = None

    @property
    def flour_fraction(self) -> float:
        """The share that counts as flour: all of a flour, half of a sourdough culture of equal weights."""
        return {Class.FLOUR: 1.0, Class.CULTURE: 0.5}.get(self.class_, 0.0)

    @property
    def water_not_of_flour(self) -> float | None:
        """Water per 100 g that counts to hydration: none of a flour's own, half of a sourdough culture."""
        return self.water if self.flour_fraction == 0.0 else 100.0 * (1.0 - self.flour_fraction)

    @property
    def edible(self) -> float | None:
        """The share of what is bought that is eaten; composition and measures are of the edible part."""
        return None if self.refuse_percent is None else 1.0 - self.refuse_percent / 100.0

    @property
    def sugar_without_lactose(self) -> float | None:
        """Sugars per 100 g with milk sugar left out: yeast does not take it."""
        return 0.0 if self.milk_sugar else self.sugars

    @property
    def salt(self) -> float | None:
        """Salt per 100 g: all of a salt, else sodium times 2.54; ``None`` where the sodium is unknown."""
        if self.class_ is Class.SALT:
            return 100.0
        return None if self.sodium_mg is None else self.sodium_mg * SALT_PER_SODIUM / 1000.0

    @property
    def to_fresh(self) -> float | None:
        """Grams of fresh yeast that one gram of this yeast stands for; ``None`` for what is no yeast."""
        return None if self.per_fresh is None else 1.0 / self.per_fresh

    @property
    def unknown(self) -> tuple[str, ...]:
        """The parts of a nutrition label that the source leaves blank."""
        parts = (
            "water",
            "protein",
            "fat",
            "saturates",
            "trans",
            "carbohydrate",
            "fibre",
            "sugars",
            "sodium_mg",
        )
        return tuple(part for part in parts if getattr(self, part) is None)
