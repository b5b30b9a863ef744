"""The plan of the house: doors, crowded rooms, one name for one thing. The order of the rooms is in
`.importlinter`."""

from __future__ import annotations

import ast
import tomllib
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
MOST_FILES = 15
"""A dozen or so: what a stranger reads in one look."""
MOST_THINGS = 7
"""What a function may be handed; more than that is one request value that says what its parts are."""


@cache
def trees() -> dict[str, tuple[ast.Module, bool]]:
    """Every module of the product: its tree, and whether it is a package's face."""
    found = {}
    for top in ("quoting", "scheduler"):
        for path in sorted((ROOT / top).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            face = parts[-1] == "__init__"
            found[".".join(parts[:-1] if face else parts)] = (ast.parse(path.read_text("utf-8")), face)
    return found


@cache
def nodes(name: str) -> list[ast.AST]:
    """The imports and functions of a module, wherever they stand in it."""
    wanted = (ast.ImportFrom, ast.FunctionDef, ast.AsyncFunctionDef)
    return [node for node in ast.walk(trees()[name][0]) if isinstance(node, wanted)]


@cache
def imports(name: str) -> list[tuple[str, str]]:
    """Every (module, name) that a module of the product imports from the product."""
    return [
        (node.module, alias.name)
        for node in nodes(name)
        if isinstance(node, ast.ImportFrom)
        and node.module
        and node.module.split(".")[0] in {"quoting", "scheduler"}
        for alias in node.names
    ]


def door(importer: str, target: str) -> str:
    """Return what a module may import to reach another: the door of the first room that they do not share."""
    inside = importer.split(".") if trees()[importer][1] else importer.split(".")[:-1]
    path = target.split(".")
    shared = 0
    while shared < min(len(inside), len(path) - 1) and inside[shared] == path[shared]:
        shared += 1
    return ".".join(path[: max(shared + 1, 2)])


def test_nobody_imports_past_a_door() -> None:
    past = [
        f"{name} imports {module}.{what}"
        for name in trees()
        for module, what in imports(name)
        if module != door(name, f"{module}.{what}" if f"{module}.{what}" in trees() else module)
        and door(name, module) != module
    ]
    assert not past


def test_what_a_door_offers_is_used_behind_it() -> None:
    used = {pair for name in trees() for pair in imports(name)}
    idle = []
    for name, (tree, face) in trees().items():
        if not face:
            continue
        offered = [
            str(constant.value)
            for node in tree.body
            if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
            for constant in ast.walk(node.value)
            if isinstance(constant, ast.Constant)
        ]
        idle += [f"{name}.{what}" for what in offered if (name, what) not in used and what != "main"]
    assert not idle


def test_no_room_is_crowded() -> None:
    files = Counter(name if face else name.rpartition(".")[0] for name, (_, face) in trees().items())
    assert {room: count for room, count in files.items() if count > MOST_FILES} == {}


def test_one_public_class_name_means_one_thing() -> None:
    where = defaultdict(list)
    for name, (tree, _) in trees().items():
        for node in tree.body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                where[node.name].append(name)
    assert {what: places for what, places in where.items() if len(places) > 1} == {}


def test_relative_imports_do_not_hide_a_door() -> None:
    assert [
        name for name in trees() for node in nodes(name) if isinstance(node, ast.ImportFrom) and node.level
    ] == []


def is_kernel(name: str) -> bool:
    """Whether a module is compiled: such code takes numbers and arrays, not values of our own."""
    return "kernel" in name.rpartition(".")[2] or name.startswith("quoting.nesting.compiled.")


def handed(function: ast.FunctionDef | ast.AsyncFunctionDef) -> list[str]:
    """Return what a function is handed, without the thing or class that a method belongs to."""
    every = function.args
    named = [*every.posonlyargs, *every.args, *every.kwonlyargs, *filter(None, (every.vararg, every.kwarg))]
    return [one.arg for one in named if one.arg not in {"self", "cls"}]


def test_a_function_is_handed_no_more_than_seven_things() -> None:
    assert {
        f"{name}.{node.name}": len(handed(node))
        for name in trees()
        if not is_kernel(name)
        for node in nodes(name)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and len(handed(node)) > MOST_THINGS
    } == {}


def test_an_install_carries_every_file_that_the_product_reads() -> None:
    wanted = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    patterns = wanted["tool"]["setuptools"]["package-data"]["*"]
    files = [
        path
        for top in ("quoting", "scheduler")
        for path in (ROOT / top).rglob("*")
        if path.is_file() and path.suffix != ".py" and "__pycache__" not in path.parts
    ]
    assert files
    assert [path.name for path in files if not any(path.match(pattern) for pattern in patterns)] == []
