"""Names: what a cook writes leads to the ingredient meant, and to nothing else."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.errors import UnknownNameError
from doughwright.ingredients import find, resolve, search
from doughwright.ingredients._names import known_names
from doughwright.ingredients._rows import rows_of
from doughwright.ingredients._tables import catalogue
from doughwright.ingredients._words import words_of

REQUIRED = {
    "bread flour": "flour_bread_enriched",
    "plain flour": "flour_ap_unbleached_enriched",
    "all-purpose flour": "flour_ap_unbleached_enriched",
    "wholemeal flour": "flour_whole_wheat",
    "rye flour, light": "flour_rye_light",
    "rye flour, medium": "flour_rye_medium",
    "medium rye flour": "flour_rye_medium",
    "rye flour, dark": "flour_rye_dark",
    "semolina": "semolina_enriched",
    "water": "water_tap_municipal",
    "milk": "milk_whole",
    "whole milk": "milk_whole",
    "skimmed milk": "milk_nonfat",
    "milk, skimmed": "milk_nonfat",
    "milk powder": "milk_dry_nonfat",
    "milk, powder": "milk_dry_nonfat",
    "egg": "egg_whole",
    "eggs": "egg_whole",
    "egg, whole": "egg_whole",
    "egg yolk": "egg_yolk",
    "egg, yolk": "egg_yolk",
    "egg yolks": "egg_yolk",
    "butter, salted": "butter_salted",
    "butter, unsalted": "butter_unsalted",
    "butter": "butter_unsalted",
    "olive oil": "oil_olive",
    "rapeseed oil": "oil_canola",
    "sugar": "sugar_granulated",
    "sugar, granulated": "sugar_granulated",
    "sugar, brown": "sugar_brown",
    "honey": "honey",
    "malt syrup": "syrup_malt",
    "salt, fine": "salt_fine",
    "salt, table": "salt_table",
    "salt": "salt_fine",
    "instant yeast": "yeast_instant",
    "active dry yeast": "yeast_active_dry",
    "fresh yeast": "yeast_compressed_fresh",
    "leeks": "leeks",
    "onions": "onion_raw",
    "mozzarella": "mozzarella_lmps",
    "fresh mozzarella": "mozzarella_fresh",
    "mozzarella, fresh": "mozzarella_fresh",
    "tomato puree": "tomato_paste_no_salt",
    "hard cheese, grated": "parmesan_grated",
    "cream": "cream_heavy_whipping",
    "potatoes": "potato_raw",
    "garlic": "garlic_raw",
    "basil": "basil_fresh",
    "sesame seeds": "sesame_seeds_whole",
    "sunflower seeds": "sunflower_kernels",
    "sourdough starter": "sourdough_starter",
    "baking powder": "baking_powder_sas",
    "00 flour": "flour_00",
    "cornflour": "cornstarch",
    "corn flour": "flour_corn_whole",
    "ice": "ice",
}


# Several foods of the public table share these; "cream" is cream to a cook, not cream cheese.
SHARED_RESTS = {"whole-grain, yellow", "brown", "raw", "fresh"}
EVERYDAY_RESTS = {"cream"}


@pytest.mark.parametrize(("name", "key"), REQUIRED.items())
def test_everyday_names_are_known(name: str, key: str) -> None:
    """The names that the document promises."""
    assert find(name).key == key


@pytest.mark.parametrize(
    "name", ["  Bread   FLOUR ", "Bread-Flour", "flour, bread", "bread flours", "BREAD,FLOUR"]
)
def test_case_spaces_commas_plurals_and_order_do_not_matter(name: str) -> None:
    """A cook is not a database."""
    assert find(name).key == "flour_bread_enriched"


def test_accents_and_apostrophes_do_not_matter() -> None:
    """Typed on any keyboard."""
    assert find("tomato purée").key == find("tomato puree").key
    assert find("bakers yeast").key == find("baker’s yeast").key == "yeast_compressed_fresh"
    assert find("jalapeño").key == "pepper_jalapeno_raw"


def test_every_synonym_leads_to_an_ingredient() -> None:
    """No synonym of a key that is gone."""
    assert [row for row in rows_of("names") if row["key"] not in catalogue()] == []


def test_every_name_and_synonym_leads_where_it_says() -> None:
    """An earlier name never hides a later one."""
    wanted = {row["name"]: row["key"] for row in rows_of("names")}
    wanted |= {row["name"]: row["key"] for row in rows_of("facts")}
    assert {name: find(name).key for name in wanted} == wanted


def test_no_two_ingredients_share_a_name() -> None:
    """In order: two rows of the same words with two keys would be a coin toss."""
    pairs = {(words_of(row["name"]), row["key"]) for table in ("names", "facts") for row in rows_of(table)}
    counts = Counter(words for words, _ in pairs)
    assert [words for words, count in counts.items() if count > 1] == []


def test_no_synonym_stands_twice() -> None:
    """The second one would be read by nobody."""
    counts = Counter(row["name"] for row in rows_of("names"))
    assert [name for name, count in counts.items() if count > 1] == []


def test_every_description_of_the_public_table_is_a_name() -> None:
    """As it stands there, in any case."""
    wrong = [one.description for key, one in catalogue().items() if find(one.description.upper()).key != key]
    assert wrong == []


def test_a_description_is_known_without_its_first_word() -> None:
    """Of "Cheese, mozzarella, part skim milk" the last four words do; what several foods share is no name."""
    rests = [(row["description"].partition(" ")[2], row["key"]) for row in rows_of("sr_subset")]
    wrong = [(rest, found) for rest, key in rests if rest and (found := key_of(rest)) != key]
    assert {rest for rest, found in wrong if found is None} == SHARED_RESTS
    assert {rest for rest, found in wrong if found is not None} == EVERYDAY_RESTS


def key_of(name: str) -> str | None:
    try:
        return find(name).key
    except UnknownNameError:
        return None


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("mozzarella", "low moisture, part-skim"),
        ("milk", "whole milk"),
        ("salt", "fine salt"),
        ("yeast", "instant yeast"),
        ("rye flour", "medium rye"),
        ("butter", "unsalted"),
        ("tomato puree", "British"),
        ("corn flour", "starch"),
    ],
)
def test_a_name_that_leaves_a_choice_says_what_was_taken(name: str, said: str) -> None:
    """The tool does not choose in silence."""
    assert said in (resolve(name).note or "")


def test_a_name_that_leaves_none_has_no_note() -> None:
    """Nothing to say."""
    assert resolve("mozzarella, low moisture, part-skim").note is None


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("bred flour", "bread flour"),
        ("instnt yeast", "instant yeast"),
        ("olive oyl", "olive oil"),
        ("leak", "leek"),
    ],
)
def test_a_slip_of_the_pen_is_answered(typed: str, meant: str) -> None:
    """With the name that was meant first."""
    with pytest.raises(UnknownNameError) as caught:
        find(typed)
    assert (caught.value.fault.try_ or "").startswith(f'Did you mean "{meant}')
    assert typed in (caught.value.fault.found or "")


def test_a_part_of_a_name_is_answered_with_names_that_hold_it() -> None:
    """A word that means several things is no ingredient, but leads to them."""
    with pytest.raises(UnknownNameError, match="Did you mean"):
        find("pork")


@pytest.mark.parametrize("name", ["", "   ", "unicorn hair", "%", "\0", "x" * 10_000])
def test_nonsense_is_an_unknown_name_and_says_what_to_do(name: str) -> None:
    """No guess where there is none, and no message a page long."""
    with pytest.raises(UnknownNameError) as caught:
        find(name)
    assert caught.value.fault.try_
    assert len(str(caught.value)) < 500


@pytest.mark.property
@given(st.text(max_size=60))
def test_only_an_unknown_name_comes_out(name: str) -> None:
    """Whatever is typed."""
    try:
        assert find(name).key in catalogue()
    except UnknownNameError as error:
        assert error.fault.sentence


@pytest.mark.property
@given(st.sampled_from(sorted(known_names())), st.sampled_from([str.upper, str.title, str.casefold]))
def test_a_known_name_is_known_in_any_case(name: str, change: object) -> None:
    """Whole or capital letters."""
    assert callable(change)
    assert find(change(name)).key == find(name).key


@pytest.mark.property
@given(st.text(max_size=40), st.integers(0, 20))
def test_a_search_gives_at_most_what_is_asked_for(word: str, limit: int) -> None:
    """Each ingredient once."""
    found = search(word, limit)
    assert len(found) <= limit
    assert len({one.key for one in found}) == len(found)


@pytest.mark.parametrize(
    ("word", "first"),
    [
        ("leek", "leeks"),
        ("rye", "rye flour, medium"),
        ("yeast", "instant yeast"),
        ("moz", "mozzarella"),
        ("butter salted", "butter, salted"),
        ("leak", "leeks"),
        ("passata", "sieved tomatoes"),
    ],
)
def test_a_search_puts_the_likeliest_first(word: str, first: str) -> None:
    """Whole words before beginnings, names before synonyms before descriptions, short before long."""
    assert search(word)[0].name.startswith(first)


def test_a_search_for_nothing_finds_nothing() -> None:
    """Not everything."""
    assert search("") == search("zzzzz") == []


def test_names_load_without_numpy() -> None:
    """The formula is printed before NumPy would have loaded."""
    code = "import sys, doughwright.ingredients as i; i.find('salt'); print('numpy' in sys.modules)"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "False"
