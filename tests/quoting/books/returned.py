"""A costing book as an estimator sends it back: changed cells by line and column name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import openpyxl
from openpyxl.workbook import Workbook

from quoting.books import ReturnedCosting, write_costing
from quoting.books.costing import FIRST_ROW, INDEX, SHEET
from quoting.estimating import Estimate, revise, with_risk
from quoting.recording import result_id
from tests.quoting.books import factories
from tests.quoting.books.package import named

Change = Callable[[Workbook], None]


@cache
def run() -> Estimate:
    """The tidy order alone, with its risk."""
    found = factories.run()
    return with_risk(replace(found, orders=found.orders[:1]))


def write(path: Path, *changes: Change) -> Path:
    """Write the book and change it as a program does that keeps no values of formulas."""
    write_costing(run(), path)
    if changes:
        workbook = openpyxl.load_workbook(path)
        for change in changes:
            change(workbook)
        workbook.save(path)
    return path


def cell(line: int, name: str, value: object) -> Change:
    """Return the change of one cell of the line at this position on the sheet."""

    def change(workbook: Workbook) -> None:
        workbook[SHEET].cell(FIRST_ROW + 1 + line, INDEX[name] + 1).value = value  # type: ignore[assignment]

    return change


def setting(name: str, value: object) -> Change:
    """Return the change of a named cell."""

    def change(workbook: Workbook) -> None:
        named(workbook, name).value = value  # type: ignore[assignment]

    return change


def revised(path: Path) -> Estimate:
    """Return the revision that the book makes, checked."""
    returned = ReturnedCosting(path, run(), result_id(run()))
    after = revise(run(), returned.edits(), replaces="x", today=factories.TODAY)
    returned.check(after)
    return after
