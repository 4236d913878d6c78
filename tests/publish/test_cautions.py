"""Each caution is said where its rule finds something, and not where it does not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from doughwright.forecast.days import days
from doughwright.kitchen.assumed import Surroundings, surroundings
from doughwright.kitchen.model import Surface
from doughwright.kitchen.types import Known
from doughwright.publish.cautions import FINDERS, Caution, cautions
from doughwright.publish.cautions._table import CODE, MAKER, RULES
from doughwright.recipe.model import Recipe
from doughwright.recipe.read import read_recipe

SURFACES = (
    Surface(name="plate", material="carbon steel"),
    Surface(name="slab", material="cordierite"),
)


def kitchen(fridge: float = 4.0, how: str = "measured") -> Surroundings:
    cold = Known(fridge, how, 0.5)  # type: ignore[arg-type]
    return replace(surroundings(None), fridge=cold, surfaces=SURFACES)


def mix(name: str, kind: str, *items: str, more: str = "") -> str:
    lines = ", ".join(
        one if one.startswith("{") else f'{{ item = "{one}", amount = "50 g" }}' for one in items
    )
    return f'[[mix]]\nname = "{name}"\nkind = "{kind}"\n{more}\ningredients = [ {lines} ]\n'


def steps(*lines: str) -> str:
    """Each as "bulk 1 h room" or "bake 8 min slab": verb, time, then the rest of the keys."""
    return "".join(f"[[step]]\n{line}\n" for line in lines)


DOUGH = ("bread flour", "bread flour", "water", '{ item = "instant yeast", amount = "0.5 g" }')
MIX, BAKE = 'do = "mix"\nmix = "dough"\nfor = "10 min"', 'do = "bake"\nfor = "20 min"\nat = "220 °C"'
COLD = 'do = "retard"\nfor = "20 h"\nat = "fridge"'


def wait(hours: str, at: str = "room", of: str = "dough") -> str:
    return f'do = "rest"\nof = "{of}"\nfor = "{hours}"\nat = "{at}"'


def recipe(*parts: str, head: str = "") -> Recipe:
    return read_recipe(f'schema = 1\ntitle = "Trial"\n{head}\n' + "".join(parts)).recipe


def said(one: Recipe, rule: str, **more: object) -> list[Caution]:
    where = more.pop("kitchen", kitchen())
    return [caution for caution in cautions(one, where, **more) if caution.rule == rule]  # type: ignore[arg-type]


PLAIN = recipe(mix("dough", "dough", *DOUGH), steps(MIX, wait("3 h"), BAKE))
MILKY = (*DOUGH, "milk, whole")
SAUCE = mix("sauce", "sauce", "tomato puree", "onions")
COOK = 'do = "cook"\nmix = "sauce"\nfor = "20 min"'


def baked(*items: str, after: str = BAKE, head: str = "", waits: str = wait("1 h")) -> Recipe:
    return recipe(mix("dough", "dough", *items), steps(MIX, waits, after), head=head)


# For each rule: a recipe that meets it, and the like of it that does not.
BOTH = {
    "raw-flour": (PLAIN, recipe(SAUCE, steps(COOK))),
    "warm-animal-food": (baked(*MILKY, waits=wait("3 h")), baked(*MILKY, waits=wait("2 h"))),
    "food-waiting": (
        recipe(
            SAUCE, mix("dough", "dough", *DOUGH), steps(COOK, wait("3 h", of="sauce"), MIX, wait("1 h"), BAKE)
        ),
        recipe(
            SAUCE,
            mix("dough", "dough", *DOUGH),
            steps(COOK, wait("3 h", of="sauce", at="fridge"), MIX, wait("1 h"), BAKE),
        ),
    ),
    "garlic-in-oil": (
        recipe(mix("oil", "topping", "garlic", "olive oil"), mix("dough", "dough", *DOUGH)),
        recipe(mix("oil", "topping", "garlic powder", "olive oil"), mix("dough", "dough", *DOUGH, "garlic")),
    ),
    "raw-animal-food": (
        recipe(mix("dough", "dough", *DOUGH), mix("top", "topping", "chicken breast")),
        recipe(mix("dough", "dough", *DOUGH), mix("top", "topping", "chicken breast, roast")),
    ),
    "hot-surface": (baked(*DOUGH, after=BAKE + '\non = "plate"'), baked(*DOUGH)),
    "stone-shock": (
        baked(*DOUGH, after=BAKE + '\non = "slab"'),
        baked(*DOUGH, after=BAKE + '\non = "plate"'),
    ),
    "steam": (baked(*DOUGH, after=BAKE + "\nsteam = true"), baked(*DOUGH, after=BAKE + "\nsteam = false")),
    "boiling": (recipe(SAUCE, steps(COOK)), PLAIN),
    "glass-shock": (
        baked(*DOUGH, head='equipment = ["glass dish with a lid"]'),
        baked(*DOUGH, head='equipment = ["hourglass", "steel dish"]'),
    ),
    "dark-crust": (
        recipe(mix("dough", "dough", *DOUGH), '[target]\nbase = "dark"\n'),
        recipe(mix("dough", "dough", *DOUGH), '[target]\nbase = "golden"\nrim = "brown"\n'),
    ),
    "allergens-us": (PLAIN, recipe(mix("dough", "dough", "rye flour, medium", "water"))),
    "allergens-eu": (
        recipe(mix("dough", "dough", "rye flour, medium", "water")),
        recipe(mix("top", "topping", "leeks", "olive oil")),
    ),
    "allergens-label": (
        recipe(mix("dough", "dough", *DOUGH), mix("top", "topping", "parmesan")),
        recipe(mix("dough", "dough", *DOUGH), mix("top", "topping", "mozzarella, fresh")),
    ),
}


@pytest.mark.parametrize("rule", BOTH)
def test_a_rule_speaks_where_it_should_and_is_silent_where_it_should(rule: str) -> None:
    """One recipe that meets it, and one just like it that does not."""
    meets, does_not = BOTH[rule]
    assert len(said(meets, rule)) == 1
    assert said(does_not, rule) == []


FRIDGE = recipe(mix("dough", "dough", *DOUGH), steps(MIX, COLD, BAKE))


def test_a_fridge_above_five_degrees_is_named_where_it_is_used() -> None:
    """8 °C with a dough in it: yes. 5 °C, or no dough in it: no."""
    (caution,) = said(FRIDGE, "warm-fridge", kitchen=kitchen(8.0))
    assert "8 °C" in caution.what
    assert said(FRIDGE, "warm-fridge", kitchen=kitchen(5.0)) == []
    assert said(PLAIN, "warm-fridge", kitchen=kitchen(8.0)) == []


def test_a_fridge_that_nobody_measured_is_said_and_a_measured_one_is_not() -> None:
    """The assumed 4.8 °C is no measurement."""
    assert len(said(FRIDGE, "unknown-fridge", kitchen=surroundings(None))) == 1
    assert said(FRIDGE, "unknown-fridge", kitchen=kitchen(4.0)) == []
    assert said(PLAIN, "unknown-fridge", kitchen=surroundings(None)) == []


def test_every_rule_of_the_table_is_tested_both_ways() -> None:
    """No row without a finder, none without its two recipes here."""
    ids = [rule.id for rule in RULES]
    assert len(set(ids)) == len(ids)
    assert set(ids) == set(FINDERS) == {*BOTH, "warm-fridge", "unknown-fridge"}


def test_every_rule_says_what_to_do_names_its_source_and_gives_way() -> None:
    """To the local code for food, to the maker for things; the word nobody may use is not used."""
    for rule in RULES:
        assert rule.do.endswith((CODE, MAKER))
        assert rule.source.strip()
        assert rule.gravity in (1, 2, 3)
        assert "safe" not in f"{rule.what} {rule.do} {rule.source}".casefold()


@pytest.mark.parametrize(
    "item", ["egg, whole", "milk powder, whole", "mozzarella", "ham", "anchovies in oil", "yoghurt"]
)
def test_food_of_animal_origin_in_a_warm_dough_is_named(item: str) -> None:
    """Egg, milk as liquid or powder, cheese, meat, fish: each three hours in the room."""
    (caution,) = said(baked(*DOUGH, item, waits=wait("3 h")), "warm-animal-food")
    assert caution.lines == (item,)
    assert caution.steps == (2,)


@pytest.mark.parametrize("item", ["butter, unsalted", "lard", "honey", "olive oil"])
def test_fat_with_little_water_is_not_counted(item: str) -> None:
    """Butter and lard in a dough that stands three hours: no caution; said in docs/cautions.md."""
    assert said(baked(*DOUGH, item, waits=wait("3 h")), "warm-animal-food") == []


def test_a_milk_dough_in_the_cold_is_not_named_and_in_a_warm_fridge_it_is() -> None:
    """20 h at 4 °C do not count; at 8 °C they do."""
    one = recipe(mix("dough", "dough", *MILKY), steps(MIX, COLD, BAKE))
    assert said(one, "warm-animal-food") == []
    (caution,) = said(one, "warm-animal-food", kitchen=kitchen(8.0))
    assert "20 h" in caution.what


def test_the_longest_that_a_range_allows_counts() -> None:
    """1 h to 3 h may be 3 h."""
    assert len(said(baked(*MILKY, waits=wait("1 h to 3 h")), "warm-animal-food")) == 1


def test_above_32_degrees_one_hour_is_the_limit() -> None:
    """90 minutes: in the room no, in a box at 35 °C yes."""
    assert said(baked(*MILKY, waits=wait("90 min")), "warm-animal-food") == []
    assert len(said(baked(*MILKY, waits=wait("90 min", at="35 °C")), "warm-animal-food")) == 1


def test_waiting_after_the_bake_is_not_counted_to_the_dough() -> None:
    """Bread cools for hours, and is baked by then."""
    one = recipe(mix("dough", "dough", *MILKY), steps(MIX, wait("1 h"), BAKE, 'do = "cool"\nfor = "6 h"'))
    assert said(one, "warm-animal-food") == []


def test_milk_in_a_preferment_stands_with_it_and_then_with_the_dough() -> None:
    """90 min as a preferment and 90 min as a dough are 3 h."""
    text = mix(
        "sponge", "preferment", "plain flour", "milk, whole", '{ item = "instant yeast", amount = "0.2 g" }'
    )
    text += mix("dough", "dough", *DOUGH, '{ mix = "sponge", amount = "all" }')
    one = recipe(
        text, steps('do = "mix"\nmix = "sponge"', wait("90 min", of="sponge"), MIX, wait("90 min"), BAKE)
    )
    (caution,) = said(one, "warm-animal-food")
    assert "In the sponge: milk, whole. It stands 3 h" in caution.what


def test_with_its_days_the_dough_counts_by_its_own_core() -> None:
    """A big milk dough put straight into the fridge takes hours to cool: the air alone hides it."""
    big = tuple(f'{{ item = "{item}", amount = "{amount}" }}' for item, amount in (
        ("bread flour", "1 kg"), ("milk, whole", "650 g"), ("instant yeast", "2 g"), ("salt, fine", "20 g"),
    ))  # fmt: skip
    one = recipe(mix("dough", "dough", *big), steps(MIX, COLD, BAKE))
    assert said(one, "warm-animal-food") == []
    assert len(said(one, "warm-animal-food", run=days(one, kitchen()))) == 1


def test_dressed_food_that_waits_is_named() -> None:
    """Dressed and left three hours in the room; an hour is within the two."""
    for hours, count in (("3 h", 1), ("1 h", 0)):
        one = recipe(
            SAUCE,
            mix("dough", "dough", *DOUGH),
            steps(MIX, wait("1 h"), 'do = "shape"', 'do = "dress"\nwith = ["sauce"]', wait(hours), BAKE),
        )
        assert len(said(one, "food-waiting")) == count


def test_garlic_in_a_sauce_that_oil_does_not_cover_is_not_named() -> None:
    """A tomato sauce with a little oil is not garlic in oil; herbs under oil are as garlic."""
    sauce = mix("sauce", "sauce", "garlic", "olive oil", "tomato puree", "tomato puree")
    herbs = mix("oil", "topping", "rosemary", "olive oil")
    dough = mix("dough", "dough", *DOUGH)
    assert said(recipe(sauce, dough), "garlic-in-oil") == []
    assert len(said(recipe(herbs, dough), "garlic-in-oil")) == 1


def test_the_probe_is_told_by_what_is_raw() -> None:
    """Mince and egg have their own temperatures; poultry the highest."""
    one = recipe(mix("dough", "dough", *DOUGH), mix("top", "topping", "beef mince, 20 % fat", "egg, whole"))
    (caution,) = said(one, "raw-animal-food")
    assert "68 °C for 17 s for mince; 63 °C for 15 s" in caution.do
    assert "poultry" not in caution.do


def test_allergens_of_both_lists_count_what_is_dusted() -> None:
    """Semolina on the peel is wheat; rye is on the EU list only; pine nuts on the US list only."""
    one = recipe(
        mix("dough", "dough", "rye flour, medium", "water"),
        mix("dusting", "other", "semolina", more='use = "dusting"'),
        mix("top", "topping", "pine nuts"),
    )
    (american,), (european,) = said(one, "allergens-us"), said(one, "allergens-eu")
    assert "wheat" in american.what and "pine nut" in american.what and "rye" not in american.what
    assert "rye" in european.what and "wheat" in european.what and "pine nut" not in european.what
    assert "semolina" in american.lines


def test_an_ingredient_of_the_cooks_own_without_allergens_is_unknown_not_free_of_them() -> None:
    """Nothing said is not nothing there."""
    own = '[[ingredient]]\nname = "spread"\nsource = "label"\nclass = "other"\nwater = "20 %"\n'
    one = recipe(mix("dough", "dough", *DOUGH), mix("top", "topping", "spread"), own)
    (caution,) = said(one, "allergens-label")
    assert "spread" in caution.what


def test_the_gravest_come_first() -> None:
    """What makes ill or burns before what breaks, before what is good to know."""
    found = cautions(baked(*MILKY, after=BAKE + '\non = "slab"\nsteam = true', waits=wait("3 h")), kitchen())
    assert [one.gravity for one in found] == sorted(one.gravity for one in found)
    assert found[0].rule == "warm-animal-food"


def test_a_dough_that_has_cooled_to_its_fridge_does_not_count_on() -> None:
    """In a fridge at 5 °C the core stays a little above for days: only the hours of cooling count."""
    one = recipe(
        mix("dough", "dough", *MILKY), steps(MIX, 'do = "retard"\nfor = "60 h"\nat = "fridge"', BAKE)
    )
    at_five = kitchen(5.0)
    for caution in said(one, "warm-animal-food", kitchen=at_five, run=days(one, at_five)):
        assert "60 h" not in caution.what
