"""A document of 300 ingredients and 100 steps: read and validated, beside plain tomlkit in the same run.

Its 300 lines name over 200 different ingredients, no amount comes twice, and each run reads a text with
amounts of its own: nothing that a reader remembers from one line or run makes it look faster than it is.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator
from importlib.resources import files
from itertools import count

import tomlkit
from _measure import Claim, arguments, timed, told

from doughwright.recipe.edit import literal
from doughwright.recipe.read import read_recipe

READ, PEER = "read_recipe: parse, validate, check", "tomlkit.parse"


def names() -> list[str]:
    """The names of the public table, every one of which a recipe may use."""
    table = files("doughwright.ingredients") / "data" / "sr_subset.csv"
    with table.open(encoding="utf-8", newline="") as rows:
        return [row["description"] for row in csv.DictReader(rows)]


def document(salt: int = 0, ingredients: int = 300, steps: int = 100) -> str:
    """A recipe of that many ingredients and steps; ``salt`` makes its amounts its own."""
    known, per_mix = names(), 20
    lines = ["schema = 1", f'title = "A feast, {salt}"', "[makes]", 'diameter = "30 cm"', "pieces = 4"]
    for number in range(ingredients):
        if number % per_mix == 0:
            lines += ["", "[[mix]]", f'name = "mix {number // per_mix}"', 'kind = "topping"']
            lines += ["ingredients = ["]
        item = literal(known[number % len(known)])
        lines += [f'  {{ item = {item}, amount = "{number + 1}.{salt:04d} g" }},']
        if number % per_mix == per_mix - 1:
            lines += ["]"]
    lines += ["", "[[mix]]", 'name = "dough"', 'ingredients = [ { item = "bread flour", amount = "1 kg" } ]']
    for step in range(steps):
        lines += ["", "[[step]]", f'do = "{"fold" if step % 2 else "bulk"}"', f'for = "{step + 10} min"']
        lines += ['at = "room"']
    return "\n".join(lines) + "\n"


def each(read: Callable[[str], object], texts: list[str]) -> Callable[[], object]:
    """A thing to time that reads the next text each time it is called."""
    turns: Iterator[int] = count()
    return lambda: read(texts[next(turns) % len(texts)])


def main() -> None:
    """Time both, and keep the result."""
    given = arguments(__doc__ or "")
    texts = [document(salt) for salt in range(given.runs + 1)]
    timings = timed({READ: each(read_recipe, texts), PEER: each(tomlkit.parse, texts)}, given.runs)
    ratio = timings[READ].median / timings[PEER].median
    told("parse_large", timings, [Claim("times plain tomlkit", ratio, "times", 2.5)], given.keep)


if __name__ == "__main__":
    main()
