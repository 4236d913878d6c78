"""A kitchen's readings: pasted or uploaded, drawn, and refused with their line where they cannot be read."""

from __future__ import annotations

import pytest

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
    assert "3 readings of rise in the jar" in read_aloud(page)
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
    assert "3 readings of rise in the jar" in read_aloud(page)


def test_a_log_that_is_not_there_is_asked_for(client: TestClient) -> None:
    """By its name; what was typed is kept."""
    page = sent(client, WITH_LOG)
    assert "The log fridge.csv is not here" in read_aloud(page)
    assert "fridge.csv" in page[page.index("<textarea") :]


def test_a_fault_is_named_at_its_line(client: TestClient) -> None:
    """As in every document."""
    page = sent(client, JAR.replace('"36 mm"', '"36"'))
    assert "line 12" in read_aloud(page)
