"""Writes docs/evidence.md from the tests marked ``outside``; ``--check`` only says whether it is current.

A file below tests/outside/ may add a part of its own: a function ``evidence_section() -> str`` (or
``common_practice_table``) that gives Markdown, made by running the real thing.
"""

from __future__ import annotations

import contextlib
import importlib
import inspect
import io
import re
import sys
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "evidence.md"
PARTS = ("evidence_section", "common_practice_table")

HEAD = """\
# Evidence

Made by `make docs` from the tests marked `outside`; do not edit. Each row is a check of what Doughwright
says against something outside it: a published value, a second library, a fact of the trade. All of them run
with `make test`. **How** says what the agreement is worth: *tuned* means a parameter was chosen with this
value in view, so that it proves little; *predicted* means that nothing was; *identity* means that it follows
from definitions, and proves the code. "From memory" and "common practice, no source" are said where true.
"""


@dataclass(frozen=True, order=True)
class Check:
    """One outside check: where it is, what holds, against what, and how far that goes."""

    file: str
    line: int
    what: str
    source: str
    how: str
    note: str


class Collector:
    """A pytest plugin that keeps what is collected."""

    def __init__(self) -> None:
        self.checks: Counter[Check] = Counter()
        self.headings: dict[str, str] = {}

    def pytest_collection_finish(self, session: pytest.Session) -> None:
        """Keep every outside check, counting the cases of one test together."""
        for item in session.items:
            for marker in item.iter_markers("outside"):
                self.keep(item, marker)

    def keep(self, item: pytest.Item, marker: pytest.Mark) -> None:
        """Keep one check and its file's first sentence."""
        function = inspect.unwrap(item.obj)
        file = item.path.relative_to(ROOT).as_posix()
        self.headings[file] = sentence(inspect.getdoc(item.getparent(pytest.Module).obj) or file)
        said = [str(marker.kwargs.get(key, "")) for key in ("source", "how", "note")]
        what = sentence(inspect.getdoc(function) or function.__name__.removeprefix("test_").replace("_", " "))
        self.checks[Check(file, function.__code__.co_firstlineno, what, *said)] += 1


def sentence(text: str) -> str:
    """The first paragraph on one line."""
    return " ".join(text.split("\n\n")[0].split())


def cell(text: str) -> str:
    """Text as a cell of a Markdown table."""
    return re.sub(r"(?<!\\)\|", r"\\|", " ".join(text.split()))


def collect() -> Collector:
    """Collect the tests without running any."""
    collector, said = Collector(), io.StringIO()
    options = [
        "--collect-only",
        "-q",
        "-p",
        "no:cacheprovider",
        "-p",
        "no:xdist",
        "-c",
        str(ROOT / "pyproject.toml"),
    ]
    with contextlib.redirect_stdout(said):
        code = pytest.main([*options, str(ROOT / "tests")], plugins=[collector])
    if code != pytest.ExitCode.OK:
        raise SystemExit(f"evidence: the tests could not be collected:\n{said.getvalue()[-3000:]}")
    return collector


def page(collector: Collector) -> str:
    """The whole page."""
    return "\n".join([HEAD, *summary(collector.checks), *tables(collector), *parts()]).rstrip() + "\n"


def summary(checks: Counter[Check]) -> list[str]:
    """How many checks there are of each kind."""
    kinds = Counter[str]()
    for check, cases in checks.items():
        kinds[re.split(r"[:;,]| \(", check.how)[0]] += cases
    rows = [f"| {cell(how)} | {number} |" for how, number in sorted(kinds.items())]
    return ["| how | cases |", "|---|---:|", *rows, f"| all | {kinds.total()} |", ""]


def tables(collector: Collector) -> list[str]:
    """A table for each file, in the order of the file."""
    lines: list[str] = []
    for file, heading in sorted(collector.headings.items()):
        lines += [f"## {heading.rstrip('.')}", "", f"`{file}`", ""]
        lines += ["| what holds | against | how | cases |", "|---|---|---|---:|"]
        for check, cases in sorted(collector.checks.items()):
            if check.file == file:
                how = check.how + (f" ({check.note})" if check.note else "")
                lines.append(f"| {cell(check.what)} | {cell(check.source)} | {cell(how)} | {cases} |")
        lines.append("")
    return lines


def parts() -> list[str]:
    """What files below tests/outside/ add by running the real thing."""
    found = []
    for path in sorted((ROOT / "tests" / "outside").rglob("*.py")):
        if any(f"def {name}(" in path.read_text(encoding="utf-8") for name in PARTS):
            module = importlib.import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))
            found += [getattr(module, name)().strip() + "\n" for name in PARTS if hasattr(module, name)]
    return found


def main() -> int:
    """Write the page, or say whether the one on disk is what would be written."""
    sys.path.insert(0, str(ROOT))
    text = page(collect())
    if "--check" not in sys.argv[1:]:
        PAGE.write_text(text, encoding="utf-8")
        print(f"wrote {PAGE.relative_to(ROOT)}")
        return 0
    if not PAGE.exists() or PAGE.read_text(encoding="utf-8") != text:
        print("docs/evidence.md is not what the tests say; write it anew: make docs")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
