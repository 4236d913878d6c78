"""Names, keys, units and exit codes of the commands, as scripts rely on them."""

from __future__ import annotations

import itertools
import re
from pathlib import Path

import pytest

READING = {"rise", "core", "edge", "gas", "sugar", "state", "state_why"}
SERIES = {
    "time": "h", "core": "degC", "edge": "degC", "mean": "degC", "rise": "ratio", "gas": "ml/g",
    "dissolved": "ml/g", "sugar": "percent", "tightness": "ratio",
}  # fmt: skip


def test_formula_gives_every_key_of_the_contract(run):
    """DESIGN 4: a dough's figures, each with its unit, and its ingredients."""
    dough = run("formula", "leek_and_rye.toml", "--json").json["doughs"][0]
    units = {
        "flour": "g", "water": "g", "hydration": "percent", "hydration_poured": "percent", "salt": "percent",
        "sugar": "percent", "fat": "percent", "yeast_as_fresh": "percent", "mass": "g", "piece_mass": "g",
        "loading": "g/cm2",
    }  # fmt: skip
    assert {name: dough[name]["unit"] for name in units} == units
    assert dough["name"] == "dough"
    for entry in dough["ingredients"]:
        assert {"item", "mass", "percent", "weighable", "why", "instead"} <= entry.keys()
    assert {str(entry["weighable"]) for entry in dough["ingredients"]} == {"True", "False", "measured"}


def test_formula_of_the_design_document_agrees_with_a_hand_calculation(run):
    """390 g and 45 g of flour, 290 g of water, 9 g of salt: 66.7 % and 2.07 % (by hand)."""
    dough = run("formula", "leek_and_rye.toml", "--json").json["doughs"][0]
    assert dough["flour"]["value"] == pytest.approx(435.0)
    assert dough["hydration_poured"]["value"] == pytest.approx(290 / 435 * 100)
    assert dough["salt"]["value"] == pytest.approx(9 / 435 * 100, abs=0.01)
    assert dough["piece_mass"]["value"] == pytest.approx(dough["mass"]["value"] * 0.99 / 2)


def test_days_gives_every_key_of_the_contract(run):
    """DESIGN 4: series with their units, preferments, events, readings and the window."""
    days = run("days", "leek_and_rye.toml", "--json").json
    assert {name: days["series"][name]["unit"] for name in SERIES} == SERIES
    times = days["series"]["time"]["values"]
    assert all(len(days["series"][name]["values"]) == len(times) for name in SERIES)
    assert max(after - before for before, after in itertools.pairwise(times)) <= 5 / 60 + 1e-6
    assert times[-1] == pytest.approx(days["judged_at"]["value"] + 12.0)
    assert days["at_shaping"].keys() >= READING
    assert days["at_bake"].keys() >= READING
    assert days["at_shaping"]["state"] in ("young", "ripe", "past")
    assert {"from", "to"} <= days["ripe_window"].keys()
    assert {"step", "start", "end", "place"} <= days["events"][0].keys()
    assert days["preferments"][0]["name"] == "poolish"
    assert days["preferments"][0]["series"]["rise"]["values"][-1] > 1.0


def test_water_gives_both_methods(run):
    """DESIGN 4: the water's temperature, ice, the method and both beside one another."""
    water = run("water", "leek_and_rye.toml", "--json").json
    assert water["water_temperature"]["unit"] == "degC"
    assert water["ice"]["unit"] == "g"
    assert len(water["methods"]) == 2
    assert water["method"] in [one["method"] for one in water["methods"]]


def test_plan_gives_entries_in_time_order(run):
    """DESIGN 4: start and end in ISO 8601 with offset, what, and minutes of work."""
    words = ("plan", "leek_and_rye.toml", "--eat", "2020-11-28 15:15", "--zone", "Europe/London", "--json")
    entries = run(*words).json["entries"]
    assert [entry["start"] for entry in entries] == sorted(entry["start"] for entry in entries)
    assert all(entry["start"].endswith("+00:00") for entry in entries)
    assert all(entry["hands_on"]["unit"] == "min" for entry in entries)
    assert any(entry["hands_on"]["value"] == 0 for entry in entries)


def test_scale_gives_the_new_document_and_what_moved(run):
    """DESIGN 4: the document, and moved with what, how, now, before."""
    scaled = run("scale", "leek_and_rye.toml", "--pieces", "4", "--json").json
    assert 'amount = "600 g"' in scaled["document"]
    assert {"what", "how", "now", "before"} <= scaled["moved"][0].keys()


def test_check_says_what_moved_against_another_version(run, tmp_path):
    """Against the same text nothing moves; with less yeast the yeast does."""
    words = ("check", "leek_and_rye.toml", "--against")
    assert run(*words, "leek_and_rye.toml", "--json").json["moved"] == []
    text = (tmp_path / "leek_and_rye.toml").read_text(encoding="utf-8")
    (tmp_path / "before.toml").write_text(text.replace('"0.8 g"', '"0.9 g"'), encoding="utf-8")
    moved = run(*words, "before.toml", "--json").json["moved"]
    assert any("yeast" in one["what"] for one in moved)


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("formula", "leek_and_rye.toml"), 0),
        (("days", "leek_and_rye.toml"), 0),
        (("check", "boathouse.toml"), 0),
        (("--version",), 0),
        (("formula", "nix.toml"), 2),
        (("formula", "boathouse.toml"), 2),
        (("fomula", "leek_and_rye.toml"), 2),
        (("formula", "leek_and_rye.toml", "--kitchen", "nix.toml"), 2),
        (("scale", "leek_and_rye.toml"), 2),
        (("scale", "leek_and_rye.toml", "--flour", "nan kg"), 2),
        (("find", "xyzzyx"), 2),
        (("plan", "leek_and_rye.toml", "--eat", "someday"), 2),
        (("plan", "leek_and_rye.toml", "--zone", "Europe/Londn", "--eat", "2020-11-28 15:15"), 2),
        (("plan", "leek_and_rye.toml", "--eat", "2020-11-28 19:00", "--zone", "Europe/London"), 3),
    ],
)
def test_exit_codes(run, words, code):
    """0 done, 2 the input is wrong, 3 understood but there is no answer."""
    ran = run(*words)
    assert ran.code == code, ran
    assert (ran.err == "") == (code == 0)


def test_a_fault_is_told_with_its_line_and_a_caret(run, tmp_path):
    """At the terminal: place, sentence, the line, and a caret under the column."""
    text = (tmp_path / "leek_and_rye.toml").read_text(encoding="utf-8")
    (tmp_path / "bad.toml").write_text(text.replace('"300 g"', '"300"'), encoding="utf-8")
    lines = run("formula", "bad.toml").err.split("\n")
    assert lines[0].startswith('bad.toml:26:36: mix 2, ingredient 1 "amount": needs an amount')
    assert lines[1].strip() == '{ item = "bread flour", amount = "300", protein = "12.4 %" },'
    assert lines[2].index("^") == lines[1].index('"300"')


def test_with_json_a_fault_goes_to_standard_output_too(run, tmp_path):
    """DESIGN 4: error and faults, each with message, file, line, column, wanted, found, try."""
    text = (tmp_path / "leek_and_rye.toml").read_text(encoding="utf-8")
    bad = text.replace('"300 g"', '"300"').replace('"9 g"', '"salty"')
    (tmp_path / "bad.toml").write_text(bad, encoding="utf-8")
    ran = run("days", "bad.toml", "--json")
    assert ran.code == 2
    assert ran.json["error"] == ran.json["faults"][0]
    assert ran.json["error"].keys() == {"message", "file", "line", "column", "wanted", "found", "try"}
    assert [fault["line"] for fault in ran.json["faults"]] == [26, 31]
    assert "bad.toml:26" in ran.err


def test_no_plan_says_what_is_in_the_way_and_the_nearest_meal(run):
    """Exit 3: the work in the night by name, and a meal that works."""
    words = ("plan", "leek_and_rye.toml", "--eat", "2020-11-28 19:00", "--zone", "Europe/London", "--json")
    ran = run(*words)
    assert ran.code == 3
    assert "Mix the poolish" in ran.json["error"]["found"]
    assert ran.json["nearest"] == "2020-11-28T15:15:00+00:00"


def test_every_verb_works_without_its_kitchen(run, tmp_path):
    """Where the recipe's kitchen is not there, the middle of the population is meant, and it is said."""
    (tmp_path / "boathouse.toml").unlink()
    for verb in ("check", "formula", "water", "days"):
        ran = run(verb, "leek_and_rye.toml", "--json")
        assert ran.code == 0
        assert "middle of the published population" in ran.err
        assert ran.json


def test_a_recipe_may_come_on_standard_input(run, tmp_path):
    """``-`` is standard input; what is no text is refused."""
    text = (tmp_path / "leek_and_rye.toml").read_text(encoding="utf-8")
    assert run("formula", "-", "--json", stdin=text).json["doughs"]
    assert run("formula", "-", stdin=b"\xff\xfe\x00").code == 2


def test_the_only_recipe_of_a_folder_needs_no_name(run):
    """One recipe here: it is meant."""
    assert run("formula", "--json").json["doughs"][0]["name"] == "dough"


def test_water_learns_the_friction_of_a_mixer(run):
    """``--measured`` turns a dough just mixed into a line for the kitchen document."""
    learnt = run("water", "leek_and_rye.toml", "--measured", "26 °C", "--used", "15 °C", "--json").json
    assert learnt["friction"]["unit"] == "degC"
    ran = run("water", "leek_and_rye.toml", "--measured", "26 °C", "--used", "15 °C")
    assert 'how = "measured"' in ran.out


def test_new_writes_nothing_over(run, tmp_path):
    """A starting document loads; a second one of the same name is refused and the first is untouched."""
    assert run("new", "mine.toml", "--shape", "tin").code == 0
    before = (tmp_path / "mine.toml").read_bytes()
    assert run("formula", "mine.toml").code == 0
    assert run("new", "mine.toml").code == 2
    assert (tmp_path / "mine.toml").read_bytes() == before


def test_scale_writes_a_new_file_and_nothing_over(run, tmp_path):
    """``--out`` takes a new file."""
    assert run("scale", "leek_and_rye.toml", "--pieces", "3", "--out", "three.toml").code == 0
    assert "pieces = 3" in (tmp_path / "three.toml").read_text(encoding="utf-8")
    assert run("scale", "leek_and_rye.toml", "--pieces", "3", "--out", "three.toml").code == 2


def test_find_shows_and_sources(run):
    """An ingredient with its composition, its measures and its source."""
    ran = run("find", "rye flour")
    assert "USDA SR28 NDB 20064" in ran.out
    assert run("find", "rye flour", "--json").json["ingredients"][0]["class"] == "flour"


def test_the_bench_keeps_what_is_imported(run, tmp_path):
    """Import a plain folder, look a recipe up by name, edit, undo, export: lossless."""
    folder = tmp_path / "plain"
    folder.mkdir()
    for name in ("leek_and_rye.toml", "boathouse.toml"):
        (tmp_path / name).rename(folder / name)
    assert run("import", "plain", "--bench", "b", "--json").code == 0
    assert run("formula", "leek_and_rye", "--bench", "b", "--json").json["kitchen"] == "Boathouse"
    text = (folder / "leek_and_rye.toml").read_text(encoding="utf-8")
    (folder / "leek_and_rye.toml").write_text(text.replace('"0.8 g"', '"0.5 g"'), encoding="utf-8")
    assert run("import", "plain", "--bench", "b").code == 0
    assert run("undo", "leek_and_rye", "--bench", "b", "--json").json["origin"] == 1
    assert run("export", "out", "--bench", "b").code == 0
    kept = [path.read_text(encoding="utf-8") for path in (tmp_path / "out").rglob("*.toml") if path.is_file()]
    assert text in kept


MEAL = ("leek_and_rye.toml", "--eat", "2020-11-28 15:15", "--zone", "Europe/London")


@pytest.mark.parametrize("words", [("plan", *MEAL, "--ics"), ("card", *MEAL, "--out")])
def test_a_calendar_or_a_card_takes_the_place_of_nothing_but_its_like(run, tmp_path, words):
    """Made again it replaces the older one; a recipe of that name stays as it is."""
    before = (tmp_path / "leek_and_rye.toml").read_bytes()
    refused = run(*words, "leek_and_rye.toml")
    assert refused.code == 2
    assert "another file of that name" in refused.err
    assert (tmp_path / "leek_and_rye.toml").read_bytes() == before
    assert [run(*words, "made").code for _ in range(2)] == [0, 0]


def test_a_plan_says_how_the_dough_will_be(run, tmp_path):
    """Ripe, not ripe, or not modelled: the plan is run through the days and says which."""
    assert "The dough will be " in run("plan", *MEAL).out
    path = tmp_path / "leek_and_rye.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("instant yeast", "baking powder"), "utf-8")
    assert "How the dough will be is not known: " in run("plan", *MEAL).out


def test_check_warns_of_a_place_the_kitchen_does_not_have(run, tmp_path):
    """With its line and what was meant; the days cannot tell how warm it is."""
    path = tmp_path / "leek_and_rye.toml"
    path.write_text(path.read_text(encoding="utf-8").replace('at = "fridge"', 'at = "frigde"'), "utf-8")
    checked = run("check", path.name, "--json")
    assert checked.code == 0
    warning = next(one for one in checked.json["warnings"] if one["found"] == '"frigde"')
    assert (warning["line"], warning["try"]) == (85, 'Did you mean "fridge"?')
    assert run("days", path.name).code == 2


def test_check_tells_pieces_that_do_not_come_out(run, tmp_path):
    """Divided by weight there are more or fewer than [makes] says: so says the formula, and check too."""
    path = tmp_path / "leek_and_rye.toml"
    text = path.read_text(encoding="utf-8").replace('do = "divide" ', 'do = "divide"\neach = "100 g" ')
    path.write_text(text, "utf-8")
    said = [one["message"] for one in run("check", path.name, "--json").json["warnings"]]
    assert any("but [makes] says 2" in one for one in said)
    assert any("into pieces of 100" in one for one in run("check", path.name, "--json").json["says"])


def test_water_answers_for_every_dough(run, tmp_path):
    """The first dough's answer stands at the top, all of them under doughs."""
    text = (tmp_path / "leek_and_rye.toml").read_text(encoding="utf-8")
    one = "\n".join(line for line in text.split("[[step]]")[0].split("\n"))
    second = one[one.index('[[mix]]\nname = "dough"') : one.index('[[mix]]\nname = "leeks"')]
    (tmp_path / "two.toml").write_text(one + second.replace('"dough"', '"other"', 1), encoding="utf-8")
    water = run("water", "two.toml", "--json").json
    assert [each["dough"] for each in water["doughs"]] == ["dough", "other"]
    assert water["water_temperature"] == water["doughs"][0]["water_temperature"]


def without(name: str, *verbs: str) -> str:
    """The design's recipe without steps of these verbs, in a file of its own."""
    text = Path("leek_and_rye.toml").read_text(encoding="utf-8")
    head, *steps = re.split(r"(?m)^(?=\[\[step\]\])", text)
    tail = "[target]" + steps[-1].partition("[target]")[2]
    steps[-1] = steps[-1].partition("[target]")[0]
    kept = [one for one in steps if not any(f'do = "{verb}"' in one for verb in verbs)]
    Path(name).write_text(head + "".join(kept) + tail, encoding="utf-8")
    return name


@pytest.mark.parametrize("verb", ["days", "elsewhere", "fit", "narrow"])
def test_a_place_that_is_not_there_is_told_by_its_line(run, verb):
    """DESIGN 4: a fault says file, line and column."""
    text = Path("leek_and_rye.toml").read_text(encoding="utf-8")
    line = next(n for n, one in enumerate(text.splitlines(), 1) if one.startswith('at = "fridge"'))
    Path("slip.toml").write_text(text.replace('at = "fridge"', 'at = "fredge"', 1), encoding="utf-8")
    found = run(verb, "slip.toml", "--json")
    assert found.code == 2
    error = found.json["error"]
    assert (error["file"], error["line"], error["column"]) == ("slip.toml", line, 6)
    assert error["try"] == 'Did you mean "fridge"?'


def test_a_dough_that_is_neither_shaped_nor_baked_is_read_after_its_last_wait(run):
    """The text says what ``judged`` says in JSON."""
    name = without("bare.toml", "shape", "par-bake", "bake", "dress")
    judged = run("days", name, "--json").json["judged"]
    text = " ".join(run("days", name).out.replace("\u00a0", " ").split())
    assert "Judged after its last wait" in text
    assert re.search(rf"After its last wait, .*: {judged['rise']['value']:.2f} .*{judged['state']} \(", text)


@pytest.mark.parametrize("verb", ["fit", "elsewhere", "narrow"])
def test_every_verb_refuses_a_dough_that_is_not_there_alike(run, verb):
    """Exit 2, with the names there are."""
    found = run(verb, "leek_and_rye.toml", "--dough", "dohg", "--json")
    assert found.code == 2
    assert found.json["error"]["message"] == "no such dough"
    assert found.json["error"]["try"] == 'Did you mean "dough"?'
