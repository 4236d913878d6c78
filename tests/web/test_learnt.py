"""What readings have taught stands on the kitchen's page, never alone where it is mixed with something."""

from __future__ import annotations

from doughwright.store import Bench
from doughwright.web._learnt import learnt_part, mixed_words
from tests.web.window import TestClient, Window

LEARNT = """
[learnt]
from = ["jar of 20 November"]

[[learnt.quantity]]
of = "yeast"
value = "1.12"
low = "0.98"
high = "1.28"
mixed_with = ["fridge"]

[[learnt.quantity]]
of = "fridge"
value = "6.1 °C"
low = "5.2 °C"
high = "7.0 °C"
mixed_with = ["yeast"]
"""


def test_what_was_learnt_is_shown_with_its_doubt(client: TestClient, bench: Bench) -> None:
    """Value, interval, the readings it came from, and that two of them hang together."""
    head = bench.head("kitchen", "warm-flat.toml")
    lines = [line for line in head.text.splitlines() if not line.startswith("temperature")]
    bench.save("kitchen", head.name, "\n".join(lines) + "\n" + LEARNT, expected=head.number)
    page = Window(client, "/kitchen/warm-flat.toml").page
    assert "Learnt from readings: jar of 20 November" in page
    assert "1.12\u00a0times" in page
    assert "5.2\u00a0°C to 7.0\u00a0°C" in page
    assert mixed_words(("fridge",)) in page
    assert "6.1\u00a0°C" in page


def test_a_kitchen_of_which_nothing_was_learnt_has_no_such_table() -> None:
    """No empty table."""
    assert learnt_part(None) is None
