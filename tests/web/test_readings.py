"""A kitchen's readings: pasted or uploaded, drawn, and refused with their line where they cannot be read."""

from __future__ import annotations

import re
from html import unescape

import pytest

from doughwright.errors import Fault, NoAnswerError
from doughwright.store import Bench
from doughwright.web import _readings
from doughwright.web._readings import STARTING
from tests.web.window import TestClient, Window, read_aloud

PATH = "/kitchen/boathouse.toml/readings"
JAR = STARTING.replace("TODAY", "25 November")
LOG = "time,temperature (°C)\n2026-11-25 18:05,5.1\n2026-11-25 18:35,5.4\n2026-11-25 19:05,4.9\n"
WITH_LOG = (
    JAR.replace('mixed = "18:05"', 'mixed = "2026-11-25 18:05"')
    .replace("# [[log]]                    # a thermometer's file, pasted or chosen below\n", "[[log]]\n")
    .replace('# file = "fridge.csv"\n# place', 'file = "fridge.csv"\nplace')
)


def sent(client: TestClient, text: str, log: str = "", files: dict[str, bytes] | None = None) -> str:
    """The answer to readings that are sent."""
    page = Window(client, "/kitchen/boathouse.toml")
    data = {name: page.state(name) for name in ("window", "digest", "base")}
    data |= {"token": client.cookies["bench"], "text": text, "log": log}
    given = [("files", (name, raw, "text/csv")) for name, raw in (files or {}).items()]
    answer = client.post(PATH, data=data, files=given or None)
    assert answer.status_code == 200
    return str(answer.text)


def test_a_kitchen_leads_to_its_readings(client: TestClient) -> None:
    """The page begins from a text that can be read, and lists the recipes made here first."""
    assert "/readings?window=" in Window(client, "/kitchen/boathouse.toml").page
    page = client.get(PATH).text
    assert "Jar of 25 November" in page
    assert page.index("Leek and rye flat pie") < page.index("</select>")


def test_a_jar_is_drawn(client: TestClient) -> None:
    """Each height as a disc, the finding in words."""
    page = sent(client, JAR)
    assert "2 readings of rise in the jar" in read_aloud(page)
    assert page.count("<circle cx=") >= 6


@pytest.mark.parametrize("how", ["pasted", "chosen"])
def test_a_log_is_pasted_or_chosen(client: TestClient, how: str) -> None:
    """Found by the name that the document gives it."""
    given = {"log": LOG} if how == "pasted" else {"files": {"fridge.csv": LOG.encode()}}
    page = sent(client, WITH_LOG, **given)  # type: ignore[arg-type]
    assert "3 readings of temperature of the fridge" in read_aloud(page)


def test_readings_kept_as_a_file_can_be_chosen(client: TestClient) -> None:
    """They go before what stands in the field."""
    page = sent(client, "", files={"jar.toml": JAR.encode()})
    assert "2 readings of rise in the jar" in read_aloud(page)


def test_a_log_that_is_not_there_is_asked_for(client: TestClient) -> None:
    """By its name; what was typed is kept."""
    page = sent(client, WITH_LOG)
    assert "The log fridge.csv is not here" in read_aloud(page)
    assert "fridge.csv" in page[page.index("<textarea") :]


def test_what_they_teach_is_said_and_drawn(client: TestClient) -> None:
    """Told alone with the interval, told only together, what does not fit; the bands before and after."""
    page = sent(client, JAR)
    said = read_aloud(page)
    assert "The yeast’s strength 1.20 1.10 to 1.30 1.00 (0.70 to 1.40) times the usual" in said
    assert "A warm fridge or a hardy yeast. What would tell them apart: a thermometer." in said
    assert 'Jar "jar": its last height is far higher than the rest.' in said
    assert "1 reading does not fit the others." in said
    assert "R-hat 1.004" in said
    assert page.count("pic-fan-outer") >= 2


def test_it_is_taken_into_the_kitchen_as_unsaved_work(client: TestClient, bench: Bench) -> None:
    """Its document gains [learnt], and nothing else changes; the page shows it, unsaved."""
    page = sent(client, JAR)
    text = re.search(r"<textarea name=\"text\" hidden>\n(.*?)</textarea>", page, re.S)
    assert text is not None
    fields = re.findall(r'<input type="hidden" name="(window|digest|base|token)" value="([^"]*)"', page)
    data = dict(fields) | {"view": "form", "text": unescape(text[1])}
    after = client.post("/kitchen/boathouse.toml", data=data)
    assert "Learnt from readings: Jar of 25 November" in read_aloud(after.text)
    assert "[learnt]" not in bench.head("kitchen", "boathouse.toml").text
    old = bench.head("kitchen", "boathouse.toml").text
    assert unescape(text[1]).startswith(old.rstrip("\n"))


def test_readings_that_do_not_settle_are_still_drawn(
    client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """With what to do about it."""

    def unsettled(*_: object, **__: object) -> None:
        raise NoAnswerError(Fault("the readings do not settle on an answer", try_="Read the jar more often"))

    monkeypatch.setattr(_readings, "calibrate", unsettled)
    said = read_aloud(sent(client, JAR))
    assert "The readings do not settle on an answer. Read the jar more often." in said
    assert "3 readings of rise in the jar" in said


@pytest.mark.parametrize("given", ["", "nobody.toml"])
def test_without_a_dough_of_its_own_the_first_is_meant(client: TestClient, given: str) -> None:
    """A recipe that is not on the bench is said."""
    page = Window(client, "/kitchen/boathouse.toml")
    data = {name: page.state(name) for name in ("window", "digest", "base")}
    data |= {"token": client.cookies["bench"], "text": JAR, "recipe": given}
    said = read_aloud(client.post(PATH, data=data).text)
    assert ("There is no recipe to learn from" in said) == bool(given)


def test_a_fault_is_named_at_its_line(client: TestClient) -> None:
    """As in every document."""
    page = sent(client, JAR.replace('"36 mm"', '"36"'))
    assert "line 12" in read_aloud(page)
