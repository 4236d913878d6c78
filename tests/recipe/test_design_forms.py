"""Every form of quantity and every ingredient name that schema 1 promises, read out of a whole document."""

from __future__ import annotations

import csv
from importlib.resources import files

import pytest

from doughwright.errors import DocumentError
from doughwright.ingredients import Class
from doughwright.recipe.edit import literal
from doughwright.recipe.model import Interval, Recipe
from doughwright.recipe.read import read_recipe
from doughwright.recipe.resolve import resolution
from doughwright.recipe.types import Eating
from doughwright.recipe.weigh import weigh
from doughwright.units import AmountKind

DOCUMENT = """schema = 1
title = "Forms"
{head}
[makes]
diameter = "{diameter}"

[[mix]]
name = "dough"
ingredients = [
  {{ item = "bread flour", amount = "500 g" }},
  {{ item = "water", amount = "62 %" }},
  {{ item = "instant yeast", amount = "1 g" }},
  {{ item = "salt, fine", amount = "10 g" }},
]

[[mix]]
name = "rest of it"
kind = "topping"
ingredients = [ {{ item = "{item}", amount = "{amount}" }} ]

[[step]]
do = "mix"
mix = "dough"
[[step]]
do = "bulk"
for = "{time}"
at = "{place}"
[[step]]
do = "bake"
at = "{dial}"
"""
DEFAULTS = {
    "head": "", "diameter": "30 cm", "item": "leeks", "amount": "180 g", "time": "1 h", "place": "room",
    "dial": "250 °C",
}  # fmt: skip


def read(**parts: str) -> Recipe:
    """The recipe of the document with these parts."""
    return read_recipe(DOCUMENT.format(**(DEFAULTS | parts)), "forms.toml").recipe


def mass(**parts: str) -> float | None:
    """The mass [kg] of the one line of the second mix."""
    return weigh(read(**parts))["rest of it"].lines[0].mass


@pytest.mark.parametrize(
    ("amount", "kilograms"),
    [
        ("420 g", 0.420),
        ("1.5 kg", 1.5),
        ("1,5 kg", 1.5),
        ("14 oz", 0.39689332375),
        ("1 lb 4 oz", 0.5669904625),
    ],
)
def test_an_amount_by_mass(amount: str, kilograms: float) -> None:
    """Grams, kilograms with either decimal sign, ounces and pounds (NIST SP 811: 1 lb = 0.45359237 kg)."""
    assert mass(amount=amount) == pytest.approx(kilograms, rel=1e-12)


@pytest.mark.parametrize(
    ("item", "amount", "cubic_metres", "grams"),
    [
        # The household measures are those of USDA SR28: a teaspoon of table salt is 6.0 g, a tablespoon of
        # canola oil 14.0 g, a cup of granulated sugar 200 g, a cup of whole milk 244 g.
        ("salt, table", "1 1/2 tsp", 7.393382390625e-6, 9.0),
        ("rapeseed oil", "2 tbsp", 2.95735295625e-5, 28.0),
        ("sugar, granulated", "½ cup", 1.1829411825e-4, 100.0),
        ("milk, whole", "8 fl oz", 2.365882365e-4, 244.0),
    ],
)
def test_an_amount_by_volume(item: str, amount: str, cubic_metres: float, grams: float) -> None:
    """Spoons, cups and fluid ounces, with fractions both ways, by the ingredient's own measure."""
    line = read(item=item, amount=amount).mix("rest of it").ingredients[0]
    assert line.amount is not None
    assert line.amount.volume == pytest.approx(cubic_metres, rel=1e-9)
    assert mass(item=item, amount=amount) == pytest.approx(grams / 1000, rel=0.01)


def test_a_count_where_the_ingredient_has_that_measure() -> None:
    """Two large eggs are 100 g without shell (USDA SR28: 50 g each); a large flour is refused."""
    assert mass(item="egg, whole", amount="2 large") == pytest.approx(0.100)
    with pytest.raises(DocumentError, match="a measure it has"):
        read(item="rye flour, medium", amount="2 large")


def test_a_pinch_has_a_mass_and_to_taste_has_none() -> None:
    """A pinch of table salt is its dash (USDA SR28: 0.4 g); what is to taste is not weighed."""
    assert mass(item="salt, table", amount="1 pinch") == pytest.approx(0.4e-3)
    assert mass(item="sugar, granulated", amount="1 pinch") == pytest.approx(0.26e-3, rel=0.05)
    assert mass(item="salt, table", amount="to taste") is None


def test_a_percentage_is_of_all_flour_of_its_dough() -> None:
    """62 % of 500 g of flour."""
    lines = weigh(read())["dough"].lines
    assert lines[1].mass == pytest.approx(0.310)


def test_percentages_alone_are_allowed_with_a_piece_mass() -> None:
    """Two pieces of 260 g at 100, 62, 2 and 1 per cent: 520 g / 1.65."""
    recipe = read_recipe("""schema = 1
title = "Per cent"
[makes]
pieces = 2
piece_mass = "260 g"
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "100 %" },
  { item = "water", amount = "62 %" },
  { item = "salt, fine", amount = "2 %" },
  { item = "fresh yeast", amount = "1 %" },
]
""").recipe
    weighed = weigh(recipe)["dough"]
    assert weighed.flour == pytest.approx(0.3151515, rel=1e-6)
    assert weighed.mass == pytest.approx(0.520)


@pytest.mark.parametrize(
    ("dial", "degrees"),
    [("250 degC", 250.0), ("250 °C", 250.0), ("475 °F", 246.1111), ("gas 8", 232.2222)],
)
def test_a_dial(dial: str, degrees: float) -> None:
    """Degrees of both kinds and gas marks (gas 8 is 450 °F)."""
    at = read(dial=dial).steps[2].at
    assert at is not None
    assert at.degrees == pytest.approx(degrees, abs=5e-5)


@pytest.mark.parametrize(
    ("place", "degrees"), [("room", None), ("fridge", None), ("proofing box", None), ("24 degC", 24.0)]
)
def test_a_place_is_a_name_or_a_temperature(place: str, degrees: float | None) -> None:
    """fridge, room, a temperature, or a place of the kitchen."""
    at = read(place=place).steps[1].at
    assert at is not None
    assert at.name == place.casefold()
    assert at.degrees == degrees


@pytest.mark.parametrize(
    ("time", "low", "high"),
    [
        ("90 min", 5400.0, 5400.0),
        ("1 h 30 min", 5400.0, 5400.0),
        ("2 days", 172800.0, 172800.0),
        ("10 h to 14 h", 36000.0, 50400.0),
    ],
)
def test_a_time(time: str, low: float, high: float) -> None:
    """Minutes, hours and minutes, days, and a range."""
    assert read(time=time).steps[1].for_ == Interval(low, high)


@pytest.mark.parametrize(("diameter", "metres"), [("30 cm", 0.30), ("12 in", 0.3048)])
def test_a_length(diameter: str, metres: float) -> None:
    """Centimetres and inches (1 in = 2.54 cm exactly)."""
    assert read(diameter=diameter).makes.diameter == pytest.approx(metres, rel=1e-12)


@pytest.mark.parametrize(
    ("cups", "cubic_metres"), [("US", 2.365882365e-4), ("metric", 2.5e-4), ("imperial", 2.84130625e-4)]
)
def test_whose_cup_is_meant(cups: str, cubic_metres: float) -> None:
    """``cups`` says whose measures the whole document uses; US where it says nothing."""
    line = read(head=f'cups = "{cups}"', item="water", amount="1 cup").mix("rest of it").ingredients[0]
    assert line.amount is not None
    assert line.amount.volume == pytest.approx(cubic_metres, rel=1e-9)


def test_a_comma_before_three_digits_is_refused_with_both_readings() -> None:
    """1,500 g is 1500 g or 1.5 g: the cook says which."""
    with pytest.raises(DocumentError) as caught:
        read(amount="1,500 g")
    assert "1500 g or 1.5 g" in str(caught.value)


def test_an_ounce_of_a_liquid_is_a_mass_and_is_noted() -> None:
    """``oz`` is always mass; for what is poured the note says so."""
    document = read_recipe(DOCUMENT.format(**(DEFAULTS | {"item": "water", "amount": "7 oz"})))
    assert document.recipe.mix("rest of it").ingredients[0].amount.kind is AmountKind.MASS
    assert any("read as a mass" in note.message for note in document.notes)


@pytest.mark.parametrize(
    ("eat", "eating"),
    [
        ("Saturday 19:00", Eating("Saturday 19:00", 5, None, "19:00")),
        ("Monday 7:05", Eating("Monday 7:05", 0, None, "7:05")),
        ("sat 9:30", Eating("sat 9:30", 5, None, "9:30")),
        ("2026-11-28 19:00", Eating("2026-11-28 19:00", None, "2026-11-28", "19:00")),
        ("19:00", Eating("19:00", None, None, "19:00")),
    ],
)
def test_when_it_is_eaten(eat: str, eating: Eating) -> None:
    """A weekday, a date or neither, and a time of the day."""
    text = DOCUMENT.format(**DEFAULTS).replace("[makes]", f'[makes]\neat = "{eat}"')
    assert read_recipe(text).recipe.makes.eat == eating


@pytest.mark.parametrize("eat", ["Monkey 19:00", "2026-13-45 19:00", "2026-02-30 19:00", "Sat 24:30", "7 pm"])
def test_a_day_that_is_none_is_refused(eat: str) -> None:
    """A day's name is whole or its first letters, and a date is in the calendar."""
    text = DOCUMENT.format(**DEFAULTS).replace("[makes]", f'[makes]\neat = "{eat}"')
    with pytest.raises(DocumentError, match="a day and a time"):
        read_recipe(text)


NAMES = [
    ("bread flour", "bread flour", Class.FLOUR),
    ("plain flour", "plain flour", Class.FLOUR),
    ("wholemeal flour", "wholemeal flour", Class.FLOUR),
    ("rye flour", "rye flour, medium", Class.FLOUR),
    ("rye flour, light", "rye flour, light", Class.FLOUR),
    ("rye flour, medium", "rye flour, medium", Class.FLOUR),
    ("rye flour, dark", "rye flour, dark", Class.FLOUR),
    ("semolina", "semolina", Class.FLOUR),
    ("gluten", "wheat gluten", Class.FLOUR),
    ("malt flour", "malt flour", Class.FLOUR),
    ("water", "water", Class.LIQUID),
    ("milk", "milk, whole", Class.MILK),
    ("milk, whole", "milk, whole", Class.MILK),
    ("milk, skimmed", "milk, skimmed", Class.MILK),
    ("milk powder", "milk powder, skimmed", Class.DAIRY),
    ("egg", "egg, whole", Class.EGG),
    ("egg, whole", "egg, whole", Class.EGG),
    ("egg, yolk", "egg yolk", Class.EGG),
    ("egg yolk", "egg yolk", Class.EGG),
    ("butter", "butter, unsalted", Class.FAT),
    ("butter, salted", "butter, salted", Class.FAT),
    ("butter, unsalted", "butter, unsalted", Class.FAT),
    ("olive oil", "olive oil", Class.FAT),
    ("rapeseed oil", "rapeseed oil", Class.FAT),
    ("sugar", "sugar, granulated", Class.SUGAR),
    ("sugar, granulated", "sugar, granulated", Class.SUGAR),
    ("sugar, brown", "sugar, brown", Class.SUGAR),
    ("honey", "honey", Class.SUGAR),
    ("malt syrup", "malt syrup", Class.SUGAR),
    ("salt, fine", "salt, fine", Class.SALT),
    ("salt, table", "salt, table", Class.SALT),
    ("instant yeast", "instant yeast", Class.YEAST),
    ("active dry yeast", "active dry yeast", Class.YEAST),
    ("fresh yeast", "fresh yeast", Class.YEAST),
    ("leeks", "leeks", Class.VEGETABLE),
    ("onions", "onions", Class.VEGETABLE),
    ("mozzarella", "mozzarella, low moisture, part-skim", Class.CHEESE),
    ("mozzarella, fresh", "mozzarella, fresh", Class.CHEESE),
    ("tomato puree", "tomato puree", Class.VEGETABLE),
    # Everyday synonyms of some of them.
    ("strong white flour", "bread flour", Class.FLOUR),
    ("all-purpose flour", "plain flour", Class.FLOUR),
    ("whole wheat flour", "wholemeal flour", Class.FLOUR),
    ("canola oil", "rapeseed oil", Class.FAT),
    ("quick yeast", "instant yeast", Class.YEAST),
    ("Leek", "leeks", Class.VEGETABLE),
    ("eggs", "egg, whole", Class.EGG),
    ("skimmed milk", "milk, skimmed", Class.MILK),
    ("unsalted butter", "butter, unsalted", Class.FAT),
    ("table salt", "salt, table", Class.SALT),
]


@pytest.mark.parametrize(("written", "meant", "kind"), NAMES)
def test_a_name_that_is_promised(written: str, meant: str, kind: Class) -> None:
    """Each name loads in a document, and means what a cook would expect."""
    recipe = read(item=written, amount="50 g")
    found = resolution(recipe, recipe.mix("rest of it").ingredients[0]).ingredient
    assert (found.name, found.class_) == (meant, kind)


def descriptions() -> list[str]:
    """The descriptions of the public table."""
    table = files("doughwright.ingredients") / "data" / "sr_subset.csv"
    with table.open(encoding="utf-8", newline="") as rows:
        return [row["description"] for row in csv.DictReader(rows)]


def test_every_description_of_the_public_table_is_a_name() -> None:
    """A description means its own row, word for word."""
    lines = ",\n".join(f'{{ item = {literal(one)}, amount = "5 g" }}' for one in descriptions())
    recipe = read_recipe(DOCUMENT.format(**DEFAULTS) + own_mix(lines)).recipe
    meant = [resolution(recipe, line).ingredient for line in recipe.mix("many").ingredients]
    wrong = [
        (text, found.description)
        for text, found in zip(descriptions(), meant, strict=True)
        if found.description != text
    ]
    assert wrong == []
    assert len(meant) > 200


def test_a_description_is_known_without_its_first_word_unless_that_says_nothing() -> None:
    """ "Nuts, almonds" is "almonds"; what is left must be the start of nobody else ("raw", "brown")."""
    shorter = [text.split(", ", 1)[1] for text in descriptions() if ", " in text]
    nothing_said = {"raw", "fresh", "brown", "crude", "cream", "whole-grain, yellow"}
    names = [one for one in shorter if one not in nothing_said]
    lines = ",\n".join(f'{{ item = {literal(one)}, amount = "5 g" }}' for one in names)
    assert len(read_recipe(DOCUMENT.format(**DEFAULTS) + own_mix(lines)).recipe.mix("many").ingredients) > 150
    for one in sorted(nothing_said - {"cream"}):
        with pytest.raises(DocumentError, match="an ingredient that is known"):
            read(item=one)


def own_mix(lines: str) -> str:
    return f'\n[[mix]]\nname = "many"\nkind = "other"\ningredients = [\n{lines}\n]\n'


def test_an_ingredient_carries_its_own_figures_with_their_source() -> None:
    """Water, protein, density... beside the ingredient win over the table, and its source is named."""
    line = (
        '{ item = "bread flour", amount = "50 g", water = "13 %", protein = "12.4 %", fat = "1.4 %", '
        'sugar = "0.5 %", salt = "0.1 %", density = "0.55 g/ml", source = "the bag" }'
    )
    recipe = read_recipe(DOCUMENT.format(**DEFAULTS) + own_mix(line)).recipe
    found = resolution(recipe, recipe.mix("many").ingredients[0]).ingredient
    assert (found.water, found.protein, found.fat, found.sugars) == pytest.approx((13.0, 12.4, 1.4, 0.5))
    assert found.density == pytest.approx(550.0)
    assert "the bag" in found.source


def test_a_dry_yeast_may_be_woken() -> None:
    """``woken = true`` beside a dry yeast; false where nothing is said."""
    line = '{ item = "active dry yeast", amount = "2 g", woken = true }'
    recipe = read_recipe(DOCUMENT.format(**DEFAULTS) + own_mix(line)).recipe
    assert recipe.mix("many").ingredients[0].woken
    assert not recipe.mix("dough").ingredients[2].woken


@pytest.mark.parametrize(("written", "value"), [("true", True), ("false", False), ('"10 min"', 600.0)])
@pytest.mark.parametrize("key", ["steam", "lid", "turn"])
def test_steam_lid_and_turn_are_keys_of_a_bake(key: str, written: str, value: bool | float) -> None:
    """Whether at all, or for how long (turn: after how long)."""
    text = DOCUMENT.format(**DEFAULTS) + f"{key} = {written}\n"
    assert getattr(read_recipe(text).recipe.steps[2], key) == value


def test_steam_of_a_size_is_refused() -> None:
    """A bare number says neither whether nor how long."""
    with pytest.raises(DocumentError, match="true, false or a time"):
        read_recipe(DOCUMENT.format(**DEFAULTS) + "steam = 3\n")
