"""``narrow`` and ``calibrate`` from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

PIE = """\
schema = 1
title = "Plain flat pie"
kitchen = "flat.toml"
[makes]
pieces = 2
shape = "round"
diameter = "30 cm"
[[mix]]
name = "dough"
ingredients = [
  { item = "bread flour", amount = "500 g" }, { item = "water", amount = "310 g" },
  { item = "salt, fine", amount = "10 g" }, { item = "instant yeast", amount = "2 g" },
]
[[step]]
do = "mix"
mix = "dough"
for = "10 min"
[[step]]
do = "bulk"
for = "4 h"
at = "room"
[[step]]
do = "shape"
"""
FLAT = 'schema = 1\nkitchen = "Flat"\n# ours\n[scale]\nstep = "0.1 g"\n'
READINGS = """\
schema = 1
readings = "Pie, 28 November"
recipe = "pie.toml"
kitchen = "flat.toml"
mixed = "2026-11-28 18:05"
[[jar]]
name = "shelf"
at = "room"
mass = "40 g"
diameter = "4.5 cm"
start = "22 mm"
heights = [
  { when = "1 h", height = "24 mm" }, { when = "2 h", height = "33 mm" },
  { when = "21:05", height = "44 mm" }, { when = "4 h", height = "55 mm" },
]
[[temperature]]
when = "0 min"
temperature = "23 °C"
[[log]]
file = "room.csv"
place = "room"
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    texts = {"pie.toml": PIE, "flat.toml": FLAT, "readings.toml": READINGS}
    rows = [f"2026-11-28 {18 + hour:02d}:{minute:02d},{20.5 + 0.1 * hour}" for hour in range(5)
            for minute in range(0, 60, 10)]  # fmt: skip
    texts["room.csv"] = "Time,Temp C\n" + "\n".join(rows)
    for name, text in texts.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def test_narrow_ranks_measurements(run, folder):
    """With the width now and after, the reduction and the minutes."""
    found = run("narrow", str(folder / "pie.toml"), "--json").json
    gains = [one["reduction"]["value"] for one in found["measures"]]
    assert gains == sorted(gains, reverse=True)
    assert {"what", "how", "width", "reduction", "minutes"} <= found["measures"][0].keys()
    assert found["rise"]["low"] < found["rise"]["value"] < found["rise"]["high"]
    said = run("narrow", str(folder / "pie.toml")).out
    assert found["measures"][0]["what"] in said
    assert "your minutes" in said


def test_calibrate_learns_and_writes_the_kitchen(run, folder):
    """The recipe and the kitchen are those that the readings name; the new kitchen is a new file."""
    out = folder / "new.toml"
    found = run("calibrate", "--readings", str(folder / "readings.toml"), "--out", str(out), "--json").json
    assert {"yeast", "room"} <= {one["of"] for one in found["learnt"]}
    assert found["rhat"] < 1.01
    assert found["effective"] >= 400
    text = out.read_text(encoding="utf-8")
    assert text.startswith(FLAT)
    assert text == found["document"]
    assert "room at" not in run("days", str(folder / "pie.toml"), "--kitchen", str(out)).out
    said = run("calibrate", "--readings", str(folder / "readings.toml")).out
    assert "Learnt:" in said
    assert 'jar "shelf"' in said


def test_calibrate_says_what_is_wrong(run, folder):
    """A fault in the readings is exit 2 with its place; no kitchen to write in is exit 2 too."""
    path = folder / "readings.toml"
    path.write_text(READINGS.replace('"24 mm"', '"24"'), encoding="utf-8")
    wrong = run("calibrate", "--readings", str(path))
    assert wrong.code == 2
    assert ":13:28: jar 1, height 1" in wrong.err
    path.write_text(READINGS.replace('kitchen = "flat.toml"\n', ""), encoding="utf-8")
    (folder / "pie.toml").write_text(PIE.replace('kitchen = "flat.toml"\n', ""), encoding="utf-8")
    none = run("calibrate", "--readings", str(path), "--out", str(folder / "n.toml"))
    assert none.code == 2
    assert "no kitchen document to write in" in none.err


def test_readings_in_place_of_a_recipe_are_told(run, folder):
    """With the verb that takes them."""
    wrong = run("days", str(folder / "readings.toml"))
    assert wrong.code == 2
    assert "doughwright calibrate --readings" in wrong.err


@pytest.mark.parametrize(
    ("written", "slip", "line"),
    [('at = "room"', 'at = "attic"', 8), ('place = "room"', 'place = "attic"', 21)],
)
def test_a_place_of_the_readings_is_told_by_its_line(run, folder, written, slip, line):
    """The kitchen has no attic: the fault points at the readings, not at nothing."""
    path = folder / "readings.toml"
    path.write_text(READINGS.replace(written, slip, 1), encoding="utf-8")
    found = run("calibrate", "--readings", str(path), "--json")
    assert found.code == 2
    assert (found.json["error"]["line"], found.json["error"]["found"]) == (line, '"attic"')
