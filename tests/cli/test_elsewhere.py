"""The verb ``elsewhere``: the contract of its JSON, its text, its limits, and stopping it."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from doughwright.cli._elsewhere import read_limits
from doughwright.errors import InputError

FEW = ("elsewhere", "leek_and_rye.toml", "--kitchens", "600")


def test_json_has_every_key_of_the_contract(run):
    """DESIGN 4: kitchens, share, explained_by, quantiles, percentiles, seconds."""
    found = run(*FEW, "--json").json
    assert found["kitchens"] == 600
    assert {name: one["unit"] for name, one in found["share"].items()} == dict.fromkeys(
        ("young", "ripe", "past"), "percent"
    )
    assert all({"value", "low", "high"} <= one.keys() for one in found["share"].values())
    assert all({"input", "share"} <= one.keys() for one in found["explained_by"])
    assert set(found["quantiles"]) == {"time", "5", "25", "50", "75", "95"}
    assert {len(one["values"]) for one in found["quantiles"].values()} == {
        len(found["quantiles"]["time"]["values"])
    }
    assert len(found["percentiles"]["values"]) == 100
    assert found["seconds"]["unit"] == "s"
    assert found["full"] is None


def test_the_same_document_gives_the_same_answer(run):
    """The seed is the document's; a comment more is another document."""
    first, again = (run(*FEW, "--json").json for _ in range(2))
    for one in (first, again):
        del one["seconds"]
    assert first == again
    text = Path("leek_and_rye.toml").read_text(encoding="utf-8")
    Path("other.toml").write_text(text + "# another\n", encoding="utf-8")
    other = run("elsewhere", "other.toml", "--kitchens", "600", "--json").json
    assert other["seed"] != first["seed"]
    assert other["share"] != first["share"]


def test_the_text_says_shares_what_explains_them_and_what_to_tell(run):
    """Every part of the answer in words and columns no wider than a terminal."""
    text = run(*FEW).out.replace("\u00a0", " ")
    assert text.startswith(
        "dough in 600 kitchens, judged when shaping begins; 1.5 to 2.0 volumes are wanted."
    )
    for part in ("young", "ripe", "past", "what explains it", "Where it fails worst"):
        assert part in text
    assert "measure the fridge" in text
    assert "Assumed: fridges 4.8 ± 2.3 °C" in text
    assert max(len(line) for line in text.splitlines()) <= 110


def test_full_adds_a_table_of_its_own(run):
    """Alone and in all, for the rise and for being ripe."""
    text = run("elsewhere", "leek_and_rye.toml", "--kitchens", "100", "--full").out
    assert "on a base of 1,024" in text
    assert "the rise: alone" in text


def test_redesign_tells_changes_gain_and_cost(run):
    """From, to, the shares before and after, hours and sugar; the new document can be read."""
    words = ("elsewhere", "leek_and_rye.toml", "--redesign", "--tries", "32", "--within", "hours 0 h to 36 h")
    found = run(*words, "--json", "--out", "new.toml").json
    assert {"what", "from", "to"} <= found["changes"][0].keys()
    assert found["after"]["hours"]["value"] <= 36.0
    assert found["gain"]["value"] > 0.0
    assert found["document"] == Path("new.toml").read_text(encoding="utf-8")
    assert run("check", "new.toml").code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--kitchens", "0"), "0 is not in the range"),
        (("--season", "winter"), "winter"),
        (("--tries", "100"), "Add --redesign"),
        (("--redesign", "--within", "fridge"), "a limit"),
        (("--redesign", "--within", "fridgy 3 h to 4 h"), "fridge"),
        (("--redesign", "--within", "fridge 4 h to 3 h"), "4 h to 3 h"),
        (("--dough", "pie"), "no such dough"),
    ],
)
def test_what_cannot_be_meant_is_refused(run, words, said):
    """Exit 2, with what to write."""
    ran = run("elsewhere", "leek_and_rye.toml", *words)
    assert ran.code == 2
    assert said in ran.err


def test_limits_are_read_in_their_units():
    """Hours, grams and degrees, as a cook writes them."""
    texts = ("hours 1 day to 48 h", "yeast 0.5 g to 3 g", "dough 20 °C to 26 °C", "divide as written")
    found = read_limits(texts)
    assert found.total == pytest.approx((24.0, 48.0))
    assert found.yeast == pytest.approx((0.5, 3.0))
    assert found.dough_temperature == pytest.approx((20.0, 26.0))
    assert (found.divide, found.cold) == ("as written", None)
    with pytest.raises(InputError, match="one of hours, fridge, room, temper, yeast, dough"):
        read_limits(("time 3 h to 4 h",))


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="signals")
def test_ctrl_c_keeps_what_is_done(run):
    """A long run, in the folder of ``run``, ends with exit 0 and an answer from fewer kitchens."""
    words = [sys.executable, "-m", "doughwright", *FEW[:3], "5000000", "--json"]
    job = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    line = ""
    while "kitchens" not in line:
        line = job.stderr.readline()
    time.sleep(0.2)
    job.send_signal(signal.SIGINT)
    out, err = job.communicate(timeout=60)
    assert job.returncode == 0, err
    assert "Stopping; what is done is kept." in err
    found = json.loads(out)
    assert 0 < found["kitchens"] < found["asked"] == 5_000_000


def test_a_limit_that_cannot_be_read_is_told_by_its_name():
    """Not as "this quantity", and never "did you mean" what was written."""
    with pytest.raises(InputError, match=r"^the limit of yeast: needs a mass"):
        read_limits(("yeast 1 h to 2 h",))
    with pytest.raises(InputError, match=r'a range, found "hours"\. Write for example'):
        read_limits(("hours",))
