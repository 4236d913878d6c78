"""docs/document.md names every key, and every example in it loads."""

from __future__ import annotations

import dataclasses
import re
from pathlib import Path
from typing import Any, get_args

import pytest

from doughwright.errors import DocumentError
from doughwright.kitchen import assumed
from doughwright.kitchen.model import Kitchen
from doughwright.kitchen.read import BOUNDS, kitchen_schema, read_kitchen
from doughwright.recipe import faults
from doughwright.recipe.masses import MOST
from doughwright.recipe.model import OVEN, WAITS, Container, Recipe, Verb
from doughwright.recipe.notes import CUSTOMARY_RISE
from doughwright.recipe.read import read_recipe, recipe_schema
from doughwright.recipe.text import MOST_BYTES
from doughwright.recipe.validate import key_of
from doughwright.science.parameters import Parameters

pytestmark = pytest.mark.tree
ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "document.md").read_text(encoding="utf-8")
DATA = ROOT / "tests" / "recipe" / "data"
TITLES = {"At the top": "recipe:", "A kitchen's top": "kitchen:"}

Row = tuple[str, ...]


def tables() -> dict[str, list[Row]]:
    """The rows of each table of keys, by ``recipe:makes``, ``recipe:mix.ingredients``, ``kitchen:oven``."""
    found: dict[str, list[Row]] = {}
    part, name = "", None
    for line in PAGE.splitlines():
        if line.startswith("## "):
            part, name = ("kitchen" if "kitchen" in line else "recipe"), None
        elif line.startswith("### "):
            name = TITLES.get(line[4:]) or f"{part}:{dotted(line)}"
        elif name and line.startswith("| `"):
            found.setdefault(name, []).append(cells(line))
    return found


def dotted(heading: str) -> str:
    """``### `[[mix]]` `ingredients` `` as ``mix.ingredients``."""
    return ".".join(part.strip("[]") for part in re.findall(r"`([^`]+)`", heading))


def cells(line: str) -> Row:
    return tuple(cell.strip().strip("`") for cell in line.strip("|").split("|"))


TABLES = tables()
ROWS = [(name, row) for name, rows in TABLES.items() for row in rows]
KEYS = {f"recipe:{name}": keys for name, keys in recipe_schema().keys.items()} | {
    f"kitchen:{name}": keys for name, keys in kitchen_schema().keys.items()
}


@pytest.mark.parametrize("name", KEYS)
def test_every_key_is_there_once(name: str) -> None:
    """The page's tables hold the keys of the documents, no more and no fewer."""
    assert sorted(row[0] for row in TABLES[name]) == sorted(KEYS[name])


def test_there_is_no_other_table_of_keys() -> None:
    """A heading that moved would hide its table."""
    assert TABLES.keys() == KEYS.keys()


def required(kind: Any, table: str) -> dict[str, set[str]]:
    """The keys without a default, by table."""
    fields = kind.__pydantic_fields__
    found = {table: {key_of(name, info) for name, info in fields.items() if info.is_required()}}
    for name, info in fields.items():
        for inner in (info.annotation, *get_args(info.annotation)):
            if dataclasses.is_dataclass(inner) and hasattr(inner, "__pydantic_fields__"):
                key = key_of(name, info)
                found |= required(inner, f"{table}{'' if table.endswith(':') else '.'}{key}")
    return found


# Required by what the rest of the table says, not by the format alone.
BY_CHECKS = {"recipe:mix": {"ingredients"}, "recipe:mix.ingredients": {"amount"}}


@pytest.mark.parametrize("name", KEYS)
def test_what_is_required_is_said(name: str) -> None:
    """A key without a default says "required", and no other does."""
    wanted = (required(Recipe, "recipe:") | required(Kitchen, "kitchen:"))[name] | BY_CHECKS.get(name, set())
    assert {row[0] for row in TABLES[name] if row[2] == "required"} == wanted


LINES = 'ingredients = [ { item = "bread flour", amount = "400 g" }, { item = "water", amount = "260 g" } ]'
DOUGH = f'[[mix]]\nname = "dough"\n{LINES}\n'
OTHERS = DOUGH.replace("dough", "poolish") + DOUGH.replace("dough", "leeks")
HEAD = 'schema = 1\ntitle = "Plain"\n'
KITCHEN = 'schema = 1\nkitchen = "Plain"\n'

# What stands beside an example so that it is a document, by table, then by key.
BESIDE = {
    "recipe:mix": 'name = "m"',
    "recipe:mix.ingredients": 'item = "rye flour", amount = "20 g"',
    "recipe:step": 'do = "mix"\nmix = "dough"',
    "recipe:ingredient": 'name = "n"\nsource = "s"\nclass = "flour"',
    "kitchen:surface": 'name = "s"',
    "kitchen:place": 'name = "p"\ntemperature = "20 °C"',
}
BESIDE_KEY = {
    "do": 'of = "dough"\nfor = "1 h"', "of": 'do = "rest"\nfor = "1 h"', "for": 'do = "bulk"\nof = "dough"',
    "until": 'do = "bulk"\nof = "dough"\nfor = "8 h"',
    "at": 'do = "rest"\nof = "dough"\nfor = "1 h"', "pieces": 'do = "divide"\nof = "dough"',
    "each": 'do = "divide"\nof = "dough"', "with": 'do = "dress"', "degas": 'do = "ball"\nof = "dough"',
    "heat": 'do = "bake"\nof = "dough"', "rack": 'do = "bake"\nof = "dough"',
    "between": 'do = "bake"\nof = "dough"', "steam": 'do = "bake"\nof = "dough"',
    "lid": 'do = "bake"\nof = "dough"', "turn": 'do = "bake"\nof = "dough"', "mix": 'do = "mix"',
}  # fmt: skip
MAKES = {
    "length": 'shape = "rectangle"\nwidth = "20 cm"', "width": 'shape = "rectangle"\nlength = "20 cm"',
    "shape": "", "diameter": "",
}  # fmt: skip


def document(name: str, key: str, example: str) -> str:
    """A document with the example in it."""
    kind, table = name.split(":")
    if example.startswith("["):
        return example
    if kind == "kitchen":
        return kitchen_with(table, example, BESIDE.get(name, ""))
    if table == "":
        kept = "\n".join(line for line in HEAD.splitlines() if not line.startswith(key))
        return f"{kept}\n{example}\n{DOUGH}"
    if table == "mix.ingredients":
        return HEAD + DOUGH.replace(" ]", f", {{ {line_with(example, BESIDE[name], key)} }} ]") + OTHERS
    beside = MAKES.get(key, "") if table == "makes" else BESIDE.get(name, "")
    if table == "step":
        beside = BESIDE_KEY.get(key, beside)
    if table == "mix" and key != "ingredients":
        beside += "\n" + LINES
    header = f"[[{table}]]" if table in ("mix", "step", "ingredient") else f"[{table}]"
    body = header + "\n" + without(beside, example) + "\n" + example + "\n"
    return HEAD + labelled(DOUGH) + (OTHERS if table == "step" else "") + body


LEARNT = """[learnt]
[[learnt.quantity]]
of = "yeast"
value = "1.1"
low = "0.5"
high = "2"
[[learnt.quantity]]
of = "cold"
value = "1.1"
low = "0.5"
high = "2"
"""


def with_learnt(table: str, example: str) -> str:
    """A kitchen that has learnt two things, with the example among them."""
    if table == "learnt":
        return KITCHEN + LEARNT.replace("[learnt]", f"[learnt]\n{example}", 1)
    if table == "learnt.quantity":
        one = LEARNT.partition("[[")[2]
        key = example.split(" =")[0]
        line = re.search(rf"^{key} = .*$", one, re.M)
        changed = one.replace(line[0], example, 1) if line else one.replace("of =", f"{example}\nof =", 1)
        return f"{KITCHEN}[learnt]\n[[{changed}"
    pair = 'between = ["yeast", "cold"]\nvalue = "0.1"'
    return f"{KITCHEN}{LEARNT}[[learnt.correlation]]\n{without(pair, example)}\n{example}\n"


def kitchen_with(table: str, example: str, beside: str) -> str:
    """A kitchen with the example in one of its tables."""
    if table.startswith("learnt"):
        return with_learnt(table, example)
    if table == "":
        return without(KITCHEN, example) + "\n" + example + "\n"
    header = f"[[{table}]]" if table in ("surface", "place") else f"[{table}]"
    return f"{KITCHEN}{header}\n{without(beside, example)}\n{example}\n"


def without(lines: str, example: str) -> str:
    """The lines whose key the example does not give."""
    key = example.split(" =")[0]
    return "\n".join(line for line in lines.splitlines() if not line.startswith(f"{key} ="))


def line_with(example: str, beside: str, key: str) -> str:
    """The parts of an inline table; a mix in a mix takes the place of the item."""
    if key == "mix":
        return f'{example}, amount = "all"'
    return ", ".join([*(one for one in beside.split(", ") if not one.startswith(f"{key} =")), example])


def labelled(dough: str) -> str:
    """The dough with a line that goes in later, for the steps that say so."""
    return dough.replace(" ]", ', { item = "salt, fine", amount = "8 g", add = "later" } ]')


@pytest.mark.parametrize(("name", "row"), ROWS, ids=lambda one: one if isinstance(one, str) else one[0])
def test_every_keys_example_loads(name: str, row: Row) -> None:
    """The last column, put where the key stands, is read."""
    key, example = row[0], row[-1]
    text = document(name, key, example)
    if example.startswith("["):
        assert example in (f"[{key}]", f"[[{key}]]", f"[[learnt.{key}]]")
    elif name.startswith("kitchen"):
        read_kitchen(text)
    else:
        read_recipe(text)


BLOCKS = re.findall(r"```toml( fragment)?\n(.*?)```", PAGE, re.S)


@pytest.mark.parametrize(("fragment", "block"), BLOCKS, ids=range(len(BLOCKS)))
def test_every_block_loads(fragment: str, block: str) -> None:
    """A whole document as it stands, a fragment below a head and a dough."""
    if fragment:
        read_recipe(HEAD + DOUGH + block)
    elif "\nkitchen =" in block and "[[mix]]" not in block:
        read_kitchen(block)
    else:
        read_recipe(block)


def test_there_are_blocks_of_both_kinds() -> None:
    """The pattern found them."""
    assert len(BLOCKS) >= 4
    assert {bool(fragment) for fragment, _ in BLOCKS} == {True, False}


def test_the_two_full_examples_load_without_a_note() -> None:
    """The recipe and the kitchen that the format was drawn up with."""
    assert read_recipe((DATA / "leek_and_rye.toml").read_text(encoding="utf-8")).notes == ()
    assert read_kitchen((DATA / "boathouse.toml").read_text(encoding="utf-8")).kitchen.kitchen == "Boathouse"


def row_of(name: str, key: str) -> Row:
    return next(row for row in TABLES[name] if row[0] == key)


CHOICES = [
    ("recipe:", "cups", "cups"), ("recipe:makes", "shape", "shape"), ("recipe:mix", "kind", "kind"),
    ("recipe:mix", "per", "per"), ("recipe:mix", "use", "use"), ("recipe:step", "heat", "heat"),
    ("recipe:step", "rack", "rack"), ("recipe:target", "base", "base"), ("recipe:target", "rim", "rim"),
    ("kitchen:fridge", "shelf", "shelf"),
    ("kitchen:surface", "material", "material"), ("kitchen:mixer", "kind", "kind"),
]  # fmt: skip


@pytest.mark.parametrize(("name", "key", "wrong"), CHOICES)
def test_every_choice_is_named(name: str, key: str, wrong: str) -> None:
    """The words a key may have are those that the reader names when another is written."""
    text = document(name, key, f'{key} = "{wrong}"')
    with pytest.raises(DocumentError) as caught:
        read_kitchen(text) if name.startswith("kitchen") else read_recipe(text)
    wanted = next(fault.wanted for fault in caught.value.faults if fault.wanted and "one of" in fault.wanted)
    assert sorted(row_of(name, key)[1].split(", ")) == sorted(wanted.removeprefix("one of ").split(", "))


def test_verbs_and_containers_are_all_named() -> None:
    """Each verb in the line of its kind, each container in its list."""
    kinds = {cells(line)[0]: cells(line)[1].split(", ") for line in PAGE.splitlines()
             if line.startswith(("| work", "| waits", "| oven"))}  # fmt: skip
    assert sorted(kinds["waits"]) == sorted(WAITS)
    assert sorted(kinds["oven"]) == sorted(OVEN)
    assert sorted(kinds["work"]) == sorted(set(get_args(Verb)) - set(WAITS) - set(OVEN))
    containers = re.search(r"`in` is one of ([a-z, ]+)\.", PAGE)
    assert containers is not None
    assert sorted(containers[1].split(", ")) == sorted(get_args(Container))


def test_each_verbs_own_keys_are_named() -> None:
    """Which key belongs to which verb is what the reader holds to."""
    text = re.search(r"`add` belongs to .*? bake\.", PAGE)
    assert text is not None
    for key, verbs in faults.KEYS_OF.items():
        part = next(one for one in text[0].split(";") if f"`{key}`" in one)
        kinds = {OVEN: "oven steps", WAITS: "the waits"}
        assert all(verb in part for verb in verbs) or kinds.get(verbs, "no kind") in part, key


def test_the_figures_are_those_in_use() -> None:
    """Limits and defaults on the page are the ones in the code."""
    p = Parameters()
    degas = (p.degas_fold, p.degas_divide, p.degas_ball, p.degas_shape)
    said = [float(one) for one in re.findall(r"(\d+) %", row_of("recipe:step", "degas")[2])]
    assert said == pytest.approx([100 * one for one in degas])
    assert f"{MOST_BYTES:,} bytes" in PAGE
    assert f"above {faults.HOTTEST_WAIT:g} °C or below {faults.COLDEST_WAIT:g} °C" in PAGE
    assert f"over {faults.LONGEST_WAIT / 86400:g} days" in PAGE
    for shape, rise in CUSTOMARY_RISE.items():
        assert shape in row_of("recipe:target", "rise")[2]
        assert rise in row_of("recipe:target", "rise")[2]
    assert [f"{share * 100:.0f} %" in PAGE for share in MOST.values()] == [True] * len(MOST)
    assert f"{assumed.FRIDGE.middle:g} °C" in row_of("kitchen:", "fridge")[2]
    assert f"{assumed.ROOM.middle:g} °C" in row_of("kitchen:", "room")[2]


def test_the_bounds_of_a_kitchen_are_named() -> None:
    """Each value's range stands in its row."""
    missing = [
        where
        for where, (_, _, wanted, _) in BOUNDS.items()
        if wanted not in row_of("kitchen:" + ".".join(map(str, where[:-1])), str(where[-1]))[3]
    ]
    assert missing == []
