"""The examples in ``docs/store.md`` do what they say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

DOCS = Path(__file__).parents[2] / "docs" / "store.md"


@pytest.mark.tree
def test_the_example_prints_what_its_remarks_say(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each ``print`` carries what it prints as a remark."""
    monkeypatch.chdir(tmp_path)
    (example,) = re.findall(r"```python\n(.*?)```", DOCS.read_text(encoding="utf-8"), re.DOTALL)
    exec(compile(example, str(DOCS), "exec"), {})
    said = re.findall(r"print\(.*\)  # (.*)", example)
    assert len(said) == 3
    assert capsys.readouterr().out.splitlines() == said
    assert (tmp_path / "saltmarsh-copy" / "bench.json").exists()
