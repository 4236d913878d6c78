"""What the project says it needs is what it uses, and the lock holds every one to its hash."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions

import pytest

from tests.architecture._source import PACKAGE, ROOT, modules

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
# Parts of a named package that it holds to one version itself.
COMPANIONS = {"pydantic_core": "pydantic"}
PIN = re.compile(r"^([\w.-]+)==([\w.]+)(?: ;[^\\]*)? \\$", re.M)
LOCKS = ["run", "test", "dev", "build", "wasm"]


def plain(name: str) -> str:
    """A package's name as the index compares it."""
    return re.sub(r"[-_.]+", "-", re.split(r"[\[<>=!~; ]", name, maxsplit=1)[0]).lower()


def lock(name: str) -> str:
    return (ROOT / "requirements" / f"{name}.txt").read_text(encoding="utf-8")


def pins(name: str) -> dict[str, str]:
    return {plain(one): version for one, version in PIN.findall(lock(name))}


def test_the_source_imports_only_what_the_project_needs() -> None:
    """A package used but not named would be missing from a plain install."""
    named = {plain(one) for one in PROJECT["dependencies"]}
    named |= {plain(one) for extra in ("plan", "postgres", "cluster", "photo", "intl")
              for one in PROJECT["optional-dependencies"][extra]}  # fmt: skip
    owners = packages_distributions()
    used = {top for module in modules().values() for top in tops(module.tree)}
    foreign = {COMPANIONS.get(one, one) for one in used - set(sys.stdlib_module_names) - {PACKAGE}}
    assert (
        sorted(one for one in foreign if not {plain(name) for name in owners.get(one, [one])} & named) == []
    )


def test_the_tests_import_only_what_is_locked() -> None:
    """A package that happens to lie on one machine would be missing on the next."""
    owners = packages_distributions()
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in (ROOT / "tests").rglob("*.py")]
    foreign = (
        {top for tree in trees for top in tops(tree)} - set(sys.stdlib_module_names) - {PACKAGE, "tests", ""}
    )
    locked = pins("test").keys()
    assert (
        sorted(one for one in foreign if not {plain(name) for name in owners.get(one, [one])} & locked) == []
    )


def tops(tree: ast.Module) -> set[str]:
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {one.name.partition(".")[0] for one in node.names}
        elif isinstance(node, ast.ImportFrom) and not node.level:
            found.add((node.module or "").partition(".")[0])
    return found


def test_the_parser_library_is_held_to_one_version() -> None:
    """Line and column come from private names of tomlkit: a new version has to be looked at first."""
    assert [one for one in PROJECT["dependencies"] if plain(one) == "tomlkit"] == ["tomlkit==0.15.2"]


@pytest.mark.parametrize("name", LOCKS)
def test_every_locked_version_has_its_hashes(name: str) -> None:
    """Nothing but pins and hashes: no address, no path of a machine."""
    lines = lock(name).splitlines()
    odd = [
        line for line in lines if not (PIN.match(line) or re.match(r"    --hash=sha256:[0-9a-f]{64}", line))
    ]
    assert [line for line in odd if line and not line.startswith("#")] == []
    assert len(pins(name)) == len([line for line in lines if "==" in line])


@pytest.mark.parametrize("name", ["run", "test", "build", "wasm"])
def test_the_locks_agree(name: str) -> None:
    """What runs is what was tested."""
    everything = pins("dev")
    assert {one: (version, everything[one]) for one, version in pins(name).items()
            if everything.get(one, version) != version} == {}  # fmt: skip


def test_the_lock_holds_all_that_the_project_names() -> None:
    """A package added to pyproject.toml has to be locked: make lock."""
    extras = PROJECT["optional-dependencies"]
    assert {plain(one) for one in PROJECT["dependencies"]} - pins("run").keys() == set()
    assert {plain(one) for one in extras["test"]} - pins("test").keys() == set()
    assert {plain(one) for one in extras["dev"]} - pins("dev").keys() == set()
    assert {plain(one) for one in extras["wasm"]} - pins("wasm").keys() == set()
