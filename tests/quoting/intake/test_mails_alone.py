"""160 mails and data sheets and what their parts are, written before the reader saw any of them.

Both halves have been looked into; what it reads unseen is in `test_unseen_lists.py`.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from quoting.core import InputError, Order, OrderLine, State
from quoting.intake.lines.line_or_questions import NOT_ROLLED
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY
from tests.quoting.intake.test_tables_alone import _as_wanted, _grade, _lines_of

_MAILS = Path(__file__).parents[2] / "data" / "texts_alone" / "mails.json"


def _wanted(one: Any) -> Any:
    """Return the part that is wanted, or that it is to be asked about or declined."""
    return one["want"] if isinstance(one, dict) and one.get("want") in ("ask", "decline") else one


def _of_mail(order: Order, want: dict[str, Any]) -> Counter[str]:
    """Return how the lines of a mail are read by their rows; one that is no part and is priced is missed."""
    found: Counter[str] = Counter()
    for number, one in want.items():
        rows = [row for row in order.rows if row.place.row == int(number)]
        declined = any(row.state is State.NO_QUOTE and row.reason in NOT_ROLLED.values() for row in rows)
        lines = [] if declined else [line for row in rows for line in _lines_of(order, row)]
        found[_grade(_wanted(one), lines)] += 1
    more = [row for row in order.rows if str(row.place.row) not in want and _lines_of(order, row)]
    return found + Counter(missed=len(more))


def _of_data_sheet(order: Order, want: list[Any]) -> Counter[str]:
    """Return how the parts of a data sheet are read; they stand anywhere in it."""
    pool = list(order.lines)
    parts = [_wanted(one) for one in want]
    groups: list[list[OrderLine]] = []
    for part in parts:
        hit = next((line for line in pool if isinstance(part, dict) and _as_wanted(line, part)), None)
        groups.append([hit] if hit is not None else [])
        if hit is not None:
            pool.remove(hit)
    for group in groups:
        if pool and not group:
            group.append(pool.pop(0))
    return Counter(_grade(part, group) for part, group in zip(parts, groups, strict=True))


def _graded(text: dict[str, Any], path: Path) -> Counter[str]:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in text["cells"]:
        sheet.append(row)
    book.save(path)
    want = text["want"]
    try:
        order = read_orders(path, grading_shop(), today=TODAY)
    except InputError:
        return Counter(refused=len(want["parts"] if text["kind"] == "datasheet" else want))
    return _of_data_sheet(order, want["parts"]) if text["kind"] == "datasheet" else _of_mail(order, want)


@pytest.mark.parametrize(
    ("half", "kind", "least"),
    [(0, "mail", 125), (1, "mail", 128), (0, "datasheet", 32), (1, "datasheet", 35)],
    ids=["opened mails", "mails opened later", "opened data sheets", "data sheets opened later"],
)
def test_mails_and_data_sheets_are_read_or_asked_about(
    half: int, kind: str, least: int, tmp_path: Path
) -> None:
    texts = json.loads(_MAILS.read_text(encoding="utf-8"))[half::2]
    own = [text for text in texts if text["kind"] == kind]
    found = sum((_graded(text, tmp_path / "order.xlsx") for text in own), Counter[str]())
    assert found["missed"] == found["wrong"] == 0
    assert found["fine"] >= least
