"""The verb ``fit``: its JSON, its files, its exit codes."""

from __future__ import annotations

import re
from pathlib import Path

READING = {"rise", "core", "edge", "gas", "sugar", "state", "state_why"}

RECIPE = """
schema = 1
title = "Supper round"
kitchen = "home.toml"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
[[mix]]
name = "dough"
kind = "dough"
ingredients = [
  { item = "bread flour", amount = "400 g" },
  { item = "water", amount = "256 g" },
  { item = "instant yeast", amount = "0.8 g" },   # a trace
  { item = "salt, fine", amount = "8 g" },
]
[[step]]
do = "mix"
for = "8 min"
[[step]]
do = "bulk"
for = "1 h"
at = "room"
in = "covered bowl"
[[step]]
do = "divide"
[[step]]
do = "ball"
[[step]]
do = "retard"
for = "24 h"
at = "fridge"
in = "lidded tub"
[[step]]
do = "temper"
for = "2 h 30 min"
at = "room"
in = "lidded tub"
[[step]]
do = "shape"
[[step]]
do = "bake"
for = "8 min"
at = "250 °C"
[target]
dough_temperature = "24 °C"
rise = "1.6 to 2.2"
"""

KITCHEN = """
schema = 1
kitchen = "{name}"
[fridge]
temperature = "{fridge} °C"
[room]
temperature = "{room} °C"
[scale]
step = "0.01 g"
"""


def written(folder: Path) -> None:
    """The recipe and its two kitchens, in a folder."""
    (folder / "supper.toml").write_text(RECIPE, encoding="utf-8")
    (folder / "home.toml").write_text(KITCHEN.format(name="Home", fridge=5, room=21), encoding="utf-8")
    (folder / "flat.toml").write_text(KITCHEN.format(name="Flat", fridge=7, room=23), encoding="utf-8")


def test_fit_gives_every_key_of_the_contract(run, tmp_path):
    """DESIGN 4: changes, before, after, document, and what moved."""
    written(tmp_path)
    fit = run("fit", "supper.toml", "--kitchen", "flat.toml", "--json").json
    assert {"what", "from", "to"} <= fit["changes"][0].keys()
    assert (fit["before"].keys() >= READING, fit["after"].keys() >= READING) == (True, True)
    assert (fit["before"]["state"], fit["after"]["state"]) == ("past", "ripe")
    assert {"what", "how", "now", "before"} <= fit["moved"][0].keys()
    assert (fit["own"], fit["kitchen"], fit["reached"]) == ("Home", "Flat", True)
    assert {one["what"] for one in fit["measures"]} == {
        "rise", "sugar left", "hours cold", "hours warm", "tightness",
    }  # fmt: skip
    assert fit["single"]["wrong"] != []


def test_the_document_of_a_fit_is_ripe_where_it_is_for(run, tmp_path):
    """It is written, it names its kitchen, and the days of the new file say what the fit said."""
    written(tmp_path)
    fit = run("fit", "supper.toml", "--kitchen", "flat.toml", "--out", "for-flat.toml", "--json").json
    text = (tmp_path / "for-flat.toml").read_text(encoding="utf-8")
    assert text == fit["document"]
    assert 'kitchen = "flat.toml"' in text
    assert "# a trace" in text
    days = run("days", "for-flat.toml", "--json").json
    assert days["kitchen"] == "Flat"
    assert days["judged"]["state"] == "ripe"
    assert abs(days["judged"]["rise"]["value"] - fit["after"]["rise"]["value"]) < 1e-4


def test_there_and_back_by_files_is_the_recipe_again(run, tmp_path):
    """To the flat and home again: yeast within 5 %, every wait within 15 min."""
    written(tmp_path)
    assert run("fit", "supper.toml", "--kitchen", "flat.toml", "--out", "there.toml").code == 0
    back = run("fit", "there.toml", "--kitchen", "home.toml", "--json").json["document"]
    assert 'kitchen = "home.toml"' in back
    (tmp_path / "back.toml").write_text(back, encoding="utf-8")
    before, after = (run("formula", one, "--json").json for one in ("supper.toml", "back.toml"))
    was, now = (one["doughs"][0]["yeast_as_fresh"]["value"] for one in (before, after))
    assert abs(now / was - 1.0) < 0.05
    before, after = (run("days", one, "--json").json for one in ("supper.toml", "back.toml"))
    for old, new in zip(before["events"], after["events"], strict=True):
        assert abs(lasts(new) - lasts(old)) <= 0.25


def lasts(event):
    """Hours from the start of an event to its end."""
    return event["end"]["value"] - event["start"]["value"]


def test_fitting_at_home_changes_nothing(run, tmp_path):
    """Without another kitchen the text comes out as it went in."""
    written(tmp_path)
    done = run("fit", "supper.toml")
    assert (done.code, done.out) == (0, RECIPE)
    assert "nothing has to change" in done.err


def test_fit_says_the_comparison_beside_the_text(run, tmp_path):
    """The new text is standard output's alone; the comparison, the levers and the single change beside it."""
    written(tmp_path)
    done = run("fit", "supper.toml", "--kitchen", "flat.toml")
    assert done.out.lstrip().startswith("schema = 1")
    for words in ("wanted (Home)", "as written here", "fitted here", "best single change", "more: "):
        assert words in done.err


def test_no_fit_is_exit_3_with_what_comes_nearest(run, tmp_path):
    """Nothing but the dough's temperature is left free: understood, and there is no answer."""
    written(tmp_path)
    keep = ("--keep", "yeast", "--keep", "fridge", "--keep", "room")
    done = run("fit", "supper.toml", "--kitchen", "flat.toml", *keep, "--out", "none.toml")
    assert done.code == 3
    assert "this comes nearest" in done.err
    assert not (tmp_path / "none.toml").exists()
    fault = run("fit", "supper.toml", "--kitchen", "flat.toml", *keep, "--json")
    assert (fault.code, "nearest" in fault.json["error"]["message"]) == (3, True)


def test_what_is_asked_wrongly_is_exit_2(run, tmp_path):
    """A kitchen that is not there, a dough that is not there, a time that is none."""
    written(tmp_path)
    assert run("fit", "supper.toml", "--kitchen", "none.toml").code == 2
    assert run("fit", "supper.toml", "--kitchen", "flat.toml", "--dough", "cake").code == 2
    assert run("fit", "supper.toml", "--kitchen", "flat.toml", "--longest-wait", "soon").code == 2


def test_a_meal_that_is_past_is_refused(run):
    """It would be millions of minutes outside the limits of time."""
    found = run("fit", "leek_and_rye.toml", "--eat", "2020-01-01 19:00", "--zone", "UTC", "--json")
    assert found.code == 2
    assert found.json["error"]["wanted"] == "a time to come"


def test_a_zone_without_a_meal_is_refused(run):
    """It would be read and forgotten."""
    assert run("fit", "leek_and_rye.toml", "--zone", "UTC").code == 2


def test_no_fit_is_said_in_hours_and_minutes(run):
    """As in the comparison above it: never "1.17 h"."""
    found = run("fit", "leek_and_rye.toml", "--eat", "23:59", "--zone", "UTC", "--longest-wait", "3 h")
    assert found.code == 3
    assert not re.search(r"\d\.\d\d h", found.err)
