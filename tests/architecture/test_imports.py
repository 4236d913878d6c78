"""The layers of docs/architecture.md hold: nothing lower calls back up or reaches into another's insides."""

from __future__ import annotations

import ast
import importlib

import pytest

from tests.architecture._source import Import, Module, modules, target

# Each line may import from the lines above it; the first three from those left of them.
LAYERS = [
    ["errors"],
    ["figures"],
    ["units"],
    ["science"],
    ["ingredients"],
    ["recipe"],
    ["kitchen"],
    ["forecast"],
    ["plan"],
    ["trials"],
    ["publish"],
    ["store"],
    ["cli", "web"],
]
RANK = {layer: rank for rank, line in enumerate(LAYERS) for layer in line}
SERVE = "serve"


def layer_of(name: str) -> str:
    return name.split(".")[1] if "." in name else ""


def ours() -> list[Module]:
    return [module for module in modules().values() if module.layer]


def test_every_module_belongs_to_a_layer() -> None:
    """A new folder or file below the package has to be given its place in the order."""
    homeless = sorted({module.layer for module in ours()} - RANK.keys() - {"__main__"})
    assert homeless == []


def test_a_module_imports_only_from_layers_above_its_own() -> None:
    """The flow is one way: text, document, recipe, run, reading, screen."""
    wrong = [
        f"{module.name}:{one.line} imports {target(one)}"
        for module in ours()
        for one in module.imports()
        if not may_import(module, target(one))
    ]
    assert wrong == []


def may_import(module: Module, reached: str) -> bool:
    layer = layer_of(reached)
    if layer in ("", module.layer) or module.layer == "__main__":
        return True
    if module.layer == "cli" and layer == "web":
        return SERVE in module.name.rpartition(".")[2]
    return layer in RANK and module.layer in RANK and RANK[layer] < RANK[module.layer]


def test_only_the_serve_command_starts_the_web() -> None:
    """It does so inside the function, so that no other verb pays for loading the web."""
    starters = [
        (module, one)
        for module in ours()
        if module.layer == "cli"
        for one in module.imports()
        if layer_of(target(one)) == "web"
    ]
    at_the_top = [f"{module.name}:{one.line}" for module, one in starters if at_top(module, one)]
    elsewhere = [f"{module.name}:{one.line}" for module, one in starters if SERVE not in module.name]
    assert (at_the_top, elsewhere) == ([], [])


def at_top(module: Module, one: Import) -> bool:
    return any(
        node.lineno == one.line for node in module.tree.body if isinstance(node, ast.Import | ast.ImportFrom)
    )


def test_nothing_private_is_imported_from_another_package() -> None:
    """A module ``_x`` is for its own package, and a name ``_x`` for its own module's package."""
    wrong = [
        f"{module.name}:{one.line} takes {one.module}.{one.name or ''}"
        for module in ours()
        for one in module.imports()
        if is_private(one) and layer_of(one.module) != module.layer
    ]
    assert wrong == []


def is_private(one: Import) -> bool:
    parts = [*one.module.split("."), one.name or ""]
    return any(part.startswith("_") and not part.startswith("__") for part in parts)


@pytest.mark.parametrize("name", [name for name, module in modules().items() if module.is_package])
def test_the_public_surface_is_what_all_says(name: str) -> None:
    """Each package that gives out names lists them, and others take no name that is not listed."""
    listed = names_in_all(modules()[name])
    taken = {
        one.name
        for module in ours()
        if not module.name.startswith(name + ".") and module.name != name
        for one in module.imports()
        if one.module == name and one.name and target(one) == name
    }
    assert sorted(taken - listed) == []


def test_every_listed_name_is_there() -> None:
    """``__all__`` lists nothing that the module does not have."""
    absent = [
        f"{name}.{one}"
        for name, module in modules().items()
        for one in sorted(names_in_all(module))
        if not hasattr(importlib.import_module(name), one)
    ]
    assert absent == []


def names_in_all(module: Module) -> set[str]:
    for node in module.tree.body:
        targets = node.targets if isinstance(node, ast.Assign) else []
        if isinstance(node, ast.AnnAssign):
            targets = [node.target]
        if any(isinstance(one, ast.Name) and one.id == "__all__" for one in targets):
            return set(ast.literal_eval(node.value))
    return set()
