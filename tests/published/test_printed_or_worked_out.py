"""A value called printed stands in the check as a number; what is reckoned there is called worked out."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.published.forming_table import MODULES, table

FILES = sorted(Path(__file__).parent.glob("test_*.py"))


def reckoned(call: ast.Call) -> bool:
    """Return whether the expected value of a check is anything but a number as it is printed."""
    expected = call.args[1]
    return not (isinstance(expected, ast.Constant) and isinstance(expected.value, int | float))


def said_to_be_worked_out(call: ast.Call) -> bool:
    return any(word.arg == "worked_out" for word in call.keywords)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_reckoned_value_is_not_called_printed(path: Path) -> None:
    calls = [
        node
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "PublishedCheck"
    ]
    assert [
        ast.unparse(call.args[0]) for call in calls if reckoned(call) and not said_to_be_worked_out(call)
    ] == []


def test_the_contributor_guide_shows_the_table_as_it_is_printed() -> None:
    guide = (Path(__file__).resolve().parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert table() in guide
    assert sum(check.worked_out for _, checks in MODULES for check in checks) == 8
