"""150 small tables of orders and what their rows mean, written before the reader saw any of them.

Both halves have been looked into.
"""

from __future__ import annotations

import json
from collections import Counter
from math import isclose
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, InputError, Order, OrderLine, SheetRow, State
from quoting.intake.lines.line_or_questions import NOT_ROLLED
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY

_TABLES = Path(__file__).parents[2] / "data" / "texts_alone" / "tables.json"
_OUT = {Basis.INSIDE: -1, Basis.MEAN: 0, Basis.OUTSIDE: 1}
"""How many plates a diameter on one side is wider than the one along the middle."""


def _sizes(line: OrderLine, basis: Basis | None) -> dict[str, float]:
    """Return the sizes of a line in mm and degrees, diameters on the side that is asked for."""
    shape = line.shape
    own = getattr(shape, "basis", None)
    wider = (_OUT[basis] - _OUT[own]) * line.thickness_mm if basis and own else 0.0
    sizes = {"t": line.thickness_mm, "n": float(line.quantity)}
    if isinstance(shape, Cylinder):
        return sizes | {"d": shape.diameter_mm + wider, "length": shape.length_mm}
    if isinstance(shape, Arc):
        own_radius = shape.radius_mm + wider / 2
        return sizes | {"radius": own_radius, "angle": shape.angle_deg, "length": shape.length_mm}
    assert isinstance(shape, Cone)
    return sizes | {
        "large": shape.large_mm + wider,
        "small": shape.small_mm + wider,
        "height": shape.height_mm,
    }


def _as_wanted(line: OrderLine, want: dict[str, Any]) -> bool:
    kind = {"cylinder": Cylinder, "arc": Arc, "cone": Cone}[want["shape"]]
    if not isinstance(line.shape, kind):
        return False
    sizes = _sizes(line, Basis(want["basis"]) if want.get("basis") else None)
    return all(
        isclose(float(want[name]), size, rel_tol=0.006, abs_tol=0.06)
        for name, size in sizes.items()
        if name in want
    )


def _grade(want: Any, lines: list[OrderLine]) -> str:
    """Return fine, asked needlessly, wrong, or missed: what should have been asked or left out is priced."""
    if not isinstance(want, dict):
        return "missed" if lines else "fine"
    if len(lines) != 1:
        return "asked"
    return "fine" if _as_wanted(lines[0], want) else "wrong"


def _lines_of(order: Order, row: SheetRow) -> list[OrderLine]:
    ids = {draft.id for draft in order.drafts if (draft.place, draft.number) == (row.place, row.number)}
    return [line for line in order.lines if line.id in ids]


def graded(table: dict[str, Any], path: Path) -> Counter[str]:
    """Return how many rows of a table are fine, asked about, wrong, missed, or refused with it."""
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    titles, notes = ([[text] for text in table[part]] for part in ("title", "notes"))
    for row in (*titles, table["heads"], *table["rows"], *notes):
        sheet.append(row)
    book.save(path)
    try:
        order = read_orders(path, grading_shop(), today=TODAY)
    except InputError:
        return Counter(refused=len(table["want"]))
    first = len(titles) + 2
    found: Counter[str] = Counter()
    for at, want in enumerate(table["want"]):
        rows = [row for row in order.rows if row.place.row == first + at]
        declined = any(row.state is State.NO_QUOTE and row.reason in NOT_ROLLED.values() for row in rows)
        lines = [] if declined else [line for row in rows for line in _lines_of(order, row)]
        found[_grade(want, lines)] += 1
    return found


@pytest.mark.parametrize(("half", "least"), [(0, 166), (1, 164)], ids=["even", "odd"])
def test_tables_are_read_or_asked_about_and_never_priced_wrong(half: int, least: int, tmp_path: Path) -> None:
    tables = json.loads(_TABLES.read_text(encoding="utf-8"))[half::2]
    found = sum((graded(table, tmp_path / "order.xlsx") for table in tables), Counter[str]())
    assert found["wrong"] == found["missed"] == 0
    assert found["fine"] >= least
