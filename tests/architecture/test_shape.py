"""Modules and functions stay small, say what they do, and hide no mistakes."""

from __future__ import annotations

import ast

from tests.architecture._source import Function, Module, modules

MODULE_LINES = 400
BODY_LINES = 50


def test_a_module_has_at_most_400_lines_of_code() -> None:
    """Past that it has more than one subject, and becomes a package."""
    sizes = {module.name: len(module.code_lines()) for module in modules().values()}
    assert {name: size for name, size in sizes.items() if size > MODULE_LINES} == {}


def test_a_function_body_has_at_most_50_lines_of_code() -> None:
    """What is longer does more than one thing."""
    long = {
        f"{module.name}.{name}": size
        for module in modules().values()
        for name, function in module.functions()
        if (size := body_size(module, function)) > BODY_LINES
    }
    assert long == {}


def body_size(module: Module, function: Function) -> int:
    first = function.body[0].lineno
    return sum(first <= line <= (function.end_lineno or first) for line in lines_of(module))


def lines_of(module: Module) -> set[int]:
    if module.name not in _LINES:
        _LINES[module.name] = module.code_lines()
    return _LINES[module.name]


_LINES: dict[str, set[int]] = {}


def test_every_public_function_has_a_docstring() -> None:
    """A name without an underscore promises something, and says what."""
    silent = [
        f"{module.name}.{name}"
        for module in modules().values()
        for name, function in module.functions()
        if not any(part.startswith("_") for part in name.split("."))
        and not is_alembic(module)
        and ast.get_docstring(function) is None
    ]
    assert silent == []


def is_alembic(module: Module) -> bool:
    return ".migrations.versions." in module.name


def test_every_module_has_a_docstring() -> None:
    """The first line says what the module's one subject is."""
    silent = [name for name, module in modules().items() if ast.get_docstring(module.tree) is None]
    assert silent == []


def test_the_source_has_no_assert_and_no_bare_except() -> None:
    """An assert goes away with -O; a bare except swallows what nobody thought of."""
    found = [
        f"{module.name}:{node.lineno}"
        for module in modules().values()
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Assert) or (isinstance(node, ast.ExceptHandler) and node.type is None)
    ]
    assert found == []


def test_dataclasses_are_frozen() -> None:
    """A change makes a new one."""
    thawed = [
        f"{module.name}.{node.name}"
        for module in modules().values()
        for node in ast.walk(module.tree)
        if isinstance(node, ast.ClassDef)
        for decorator in node.decorator_list
        if "dataclass" in ast.unparse(decorator) and "frozen=True" not in ast.unparse(decorator)
    ]
    assert thawed == []


def test_nothing_in_the_source_calls_food_safe() -> None:
    """The tool says set, done, or at the temperature the Food Code names; never that word."""
    said = [
        f"{module.name}:{node.lineno}"
        for module in modules().values()
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and "safe" in node.value.lower().replace("-", " ").split()
    ]
    assert said == []
