"""Every kind of doubt an order sheet can hold, on the command: its cell, its choices, its text."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
import xlsxwriter

from tests.scheduler.commands.test_run_job import run

HEAD = [
    "Line",
    "Qty",
    "Description",
    "Dia (in)",
    "ID/OD",
    "Thk (in)",
    "Length (in)",
    "Material",
    "Ends",
    "Need by",
]
_TURNED = datetime(2026, 1, 4)  # what a spreadsheet makes of 1/4
_SOON, _PAST = "2026-12-18", "2026-11-02"
ROWS: list[list[Any]] = [
    [1, 2, "no side", 24, "", 0.25, 48, "A36", "pre-bend", _SOON],
    [2, 2, "fraction", 24, "OD", _TURNED, 48, "A36", "pre-bend", _SOON],
    [3, 2, "gauge", 24, "OD", "10 ga", 48, "", "pre-bend", _SOON],
    [4, 2, "family", 24, "OD", 0.25, 48, "stainless", "pre-bend", _SOON],
    [5, 2, "odd plate", 24, "OD", 0.3, 48, "A36", "pre-bend", _SOON],
    [6, "six", "words", 24, "OD", 0.25, 48, "A36", "pre-bend", _SOON],
    [
        7,
        2,
        "shell G",
        24,
        "OD",
        0.25,
        75,
        "A36",
        "pre-bend",
        _SOON,
    ],  # near the girth; the others are axial
    [8, 2, "unit", "610 mm", "OD", 0.25, 48, "A36", "pre-bend", _SOON],
    [9, 2, "shell T", 30, "OD", 0.25, 48, "A36", "pre-bend", _SOON],
    [10, 2, "shell T", 30, "OD", 0.25, 48, "A36", "pre-bend", _SOON],
    [11, 2, "ends", 24, "OD", 0.25, 36, "A36", "", _SOON],
    [12, 2, "late", 24, "OD", 0.25, 24, "A36", "pre-bend", _PAST],
    [13, 2, "segment, half", 24, "OD", 0.25, 24, "A36", "pre-bend", _SOON],
]


def write(path: Path, rows: list[list[Any]]) -> None:
    """Write the sheet as a customer's spreadsheet program would."""
    book = xlsxwriter.Workbook(str(path))
    sheet, day = book.add_worksheet("RFQ"), book.add_format({"num_format": "d-mmm"})
    for row, cells in enumerate([HEAD, *rows]):
        for column, cell in enumerate(cells):
            sheet.write(row, column, cell, day if isinstance(cell, datetime) else None)
    book.close()


@pytest.fixture(scope="module")
def asked(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Any]]:
    folder = tmp_path_factory.mktemp("doubts")
    write(folder / "orders.xlsx", ROWS)
    result = run(folder / "orders.xlsx", folder / "out", "--effort", "quick", command="quote")
    assert result.exit_code == 1, result.output
    record = json.loads((folder / "out" / "result.json").read_text())
    return {question["id"]: question for question in record["questions"]}


KINDS = [
    ("A-1/basis", "D2", "inside, outside or on the centreline", 3),
    ("A-2/thickness", "F3", "turned the thickness into the date 4 Jan 2026", 1),
    ("A-3/material", "F4", "10 gauge is another thickness in each metal", 2),
    ("A-4/material", "H5", 'reads "stainless" without a grade', 2),
    ("A-5/stock_thickness", "F6", "We do not stock A36 in 0.3", 2),
    ("A-8/diameter", "D9", 'reads "610 mm" where the sheet is in inches', 2),
    ("A-10/duplicate", "11", "says the same as line 9", 2),
    ("A-13/angle", "14", "How many degrees of arc", 2),
]


@pytest.mark.parametrize(("id", "cell", "text", "choices"), KINDS)
def test_a_costly_doubt_waits_with_its_cell_and_choices(
    asked: dict[str, dict[str, Any]], id: str, cell: str, text: str, choices: int
) -> None:
    question = asked[id]
    place = question["place"]
    assert f"{place.get('column') or ''}{place['row']}" == cell
    assert text in question["text"]
    assert question["blocking"]
    assert len(question["choices"]) >= choices


@pytest.mark.parametrize(
    ("id", "text", "assumed"),
    [
        ("A-all/ends", "Line 11: nothing is said about the ends", "ends: pre-bend"),
        ("A-12/due", "The date 02 November 2026 is already past", "no due date held"),
    ],
)
def test_a_doubt_with_a_usual_answer_keeps_no_line_waiting(
    asked: dict[str, dict[str, Any]], id: str, text: str, assumed: str
) -> None:
    question = asked[id]
    assert text in question["text"]
    assert (question["blocking"], question["assumed"]) == (False, assumed)


def test_nothing_else_is_asked(asked: dict[str, dict[str, Any]]) -> None:
    assert set(asked) == {id for id, *_ in KINDS} | {"A-all/ends", "A-12/due"}


def test_the_price_of_each_side_of_the_plate_is_what_the_answer_adds(
    asked: dict[str, dict[str, Any]], tmp_path: Path
) -> None:
    said = {choice["label"]: float(choice["price"]) for choice in asked["A-1/basis"]["choices"]}
    totals = [total_with(side, tmp_path) for side in ("", "ID", "OD", "mean")]
    added = [total - totals[0] for total in totals[1:]]
    labels = ("inside (ID)", "outside (OD)", "mean (centreline)")
    assert [said[label] for label in labels] == pytest.approx(added, abs=0.005)


def total_with(side: str, folder: Path) -> float:
    """Return the total of the sheet quoted with the first line's side of the plate written in."""
    sheet, out = folder / f"orders-{side}.xlsx", folder / f"out-{side}"
    write(sheet, [[*ROWS[0][:4], side, *ROWS[0][5:]], *ROWS[1:]])
    assert run(sheet, out, "--effort", "quick", command="quote").exit_code == 1
    (order,) = json.loads((out / "result.json").read_text())["orders"]
    return float(order["total"]["total"])
