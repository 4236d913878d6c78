"""The source read as trees: its modules, what each imports, and how long things are."""

from __future__ import annotations

import ast
import io
import tokenize
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src"
PACKAGE = "doughwright"

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Import:
    """One ``from module import name`` (``name`` is None for ``import module``), and its line."""

    module: str
    name: str | None
    line: int


@dataclass(frozen=True)
class Module:
    """One file of the source."""

    name: str
    path: Path
    is_package: bool

    @cached_property
    def text(self) -> str:
        return self.path.read_text(encoding="utf-8")

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text, str(self.path))

    @property
    def layer(self) -> str:
        """The first name below the package: ``doughwright.recipe.read`` is of the layer ``recipe``."""
        parts = self.name.split(".")
        return parts[1] if len(parts) > 1 else ""

    @property
    def package(self) -> str:
        """The package this module lives in (itself, for a package)."""
        return self.name if self.is_package else self.name.rpartition(".")[0]

    def imports(self) -> list[Import]:
        """What it imports from our own package, at the top or inside a function."""
        found = []
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                found += [Import(one.name, None, node.lineno) for one in node.names]
            elif isinstance(node, ast.ImportFrom):
                base = self._absolute(node)
                found += [Import(base, one.name, node.lineno) for one in node.names]
        return [one for one in found if one.module.split(".")[0] == PACKAGE]

    def _absolute(self, node: ast.ImportFrom) -> str:
        if not node.level:
            return node.module or ""
        parts = self.package.split(".")
        base = parts[: len(parts) - node.level + 1]
        return ".".join(base + ([node.module] if node.module else []))

    def functions(self) -> Iterator[tuple[str, Function]]:
        """Every function and method with its dotted name, those inside functions left out."""
        yield from _functions(self.tree, "")

    def code_lines(self) -> set[int]:
        """The lines that hold code: no blank ones, no comments, no docstrings."""
        ignored = {tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT}
        lines: set[int] = set()
        for token in tokenize.generate_tokens(io.StringIO(self.text).readline):
            if token.type not in ignored and token.type != tokenize.ENDMARKER:
                lines |= set(range(token.start[0], token.end[0] + 1))
        return lines - self._text_lines()

    def _text_lines(self) -> set[int]:
        """Lines of strings that stand alone: docstrings, and the notes below a constant."""
        alone = [
            node
            for node in ast.walk(self.tree)
            if isinstance(node, ast.Expr)
            and isinstance(node.value, ast.Constant)
            and isinstance(node.value.value, str)
        ]
        return {line for node in alone for line in range(node.lineno, (node.end_lineno or node.lineno) + 1)}


def _functions(node: ast.AST, prefix: str) -> Iterator[tuple[str, Function]]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, Function):
            yield prefix + child.name, child
        elif isinstance(child, ast.ClassDef):
            yield from _functions(child, f"{prefix}{child.name}.")


@cache
def modules() -> dict[str, Module]:
    """Every module of the source by its dotted name."""
    found = {}
    for path in sorted((SOURCE / PACKAGE).rglob("*.py")):
        parts = list(path.relative_to(SOURCE).with_suffix("").parts)
        is_package = parts[-1] == "__init__"
        name = ".".join(parts[:-1] if is_package else parts)
        found[name] = Module(name, path, is_package)
    return found


def target(one: Import) -> str:
    """The module an import reaches: ``from doughwright import units`` reaches ``doughwright.units``."""
    below = f"{one.module}.{one.name}"
    return below if one.name and below in modules() else one.module
