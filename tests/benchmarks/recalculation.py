"""A costing book of many generated lines, worked out again by a spreadsheet program."""

from __future__ import annotations

import shutil
import subprocess
import tempfile
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl

from quoting.books import ReturnedCosting, write_costing
from quoting.core import Order, Place, SheetRow, State
from quoting.estimating import Estimate, estimate, revise, with_risk, with_sensitivities
from quoting.recording import result_id, unpack
from quoting.recording.archive import pack
from quoting.shop import load_shop
from tests.benchmarks.spine import DEMO, made_up_lines

TODAY = date(2026, 11, 30)
CONVERT = "xlsx:Calc MS Excel 2007 XML"


def measure(count: int) -> dict[str, Any]:
    """Return seconds of each step on one generated order, and how far off the furthest cell is."""
    found: dict[str, Any] = {"book_lines": count}
    shop = load_shop(DEMO / "shop")
    lines = made_up_lines(count, shop)
    rows = tuple(SheetRow(line.place, State.PRICED, line.number, "read") for line in lines)
    order = Order("generated.xlsx", "Generated (invented)", lines=lines, rows=rows)
    clock = _Clock(found)
    run = estimate((order,), shop, today=TODAY, effort="quick")
    clock.took("estimate_seconds")
    run = with_risk(run)
    clock.took("estimate_risk_seconds")
    run = with_sensitivities(run)
    clock.took("sensitivities_seconds")
    packed = pack(run)
    clock.took("pack_seconds")
    assert unpack(packed, Place("result.json")) == run
    found["packed_kib"] = len(packed) // 1024
    with tempfile.TemporaryDirectory() as folder:
        _book(run, Path(folder), found)
    return found


class _Clock:
    """Notes the seconds since it was last asked."""

    def __init__(self, found: dict[str, Any]) -> None:
        self._found, self._since = found, time.perf_counter()

    def took(self, name: str) -> None:
        """Note the seconds of the step that just ended."""
        now = time.perf_counter()
        self._found[name], self._since = round(now - self._since, 2), now


def _book(run: Estimate, folder: Path, found: dict[str, Any]) -> None:
    clock = _Clock(found)
    path = folder / "costing.xlsx"
    write_costing(run, path)
    clock.took("costing_book_seconds")
    returned = ReturnedCosting(path, run, result_id(run))
    returned.check(revise(run, returned.edits(), replaces="x", today=TODAY))
    clock.took("reprice_seconds")
    soffice = shutil.which("soffice")
    if soffice is None:
        found["recalculation"] = "skipped: LibreOffice (soffice) is not installed here"
        return
    profile = (folder / "profile").as_uri()
    out = folder / "again"
    command = [soffice, "--headless", f"-env:UserInstallation={profile}", "--convert-to", CONVERT]
    subprocess.run([*command, "--outdir", str(out), str(path)], check=True, capture_output=True, timeout=600)
    clock.took("recalculation_seconds")
    found |= _differences(path, out / path.name)


def _differences(written: Path, again: Path) -> dict[str, Any]:
    """Return how many worked-out cells were compared, and by how much the furthest is off."""
    pairs = list(_pairs(written, again))
    numbers = [abs(before - after) for before, after in pairs if isinstance(before, float | int)]
    words = sum(before != after for before, after in pairs if isinstance(before, str))
    return {
        "recalculated_cells": len(pairs),
        "largest_recalculation_difference": max(numbers),
        "texts_that_differ": words,
    }


def _pairs(written: Path, again: Path) -> Iterator[tuple[Any, Any]]:
    formulas = openpyxl.load_workbook(written)
    before, after = (openpyxl.load_workbook(path, data_only=True) for path in (written, again))
    for sheet in formulas.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    at = cell.coordinate
                    yield before[sheet.title][at].value, after[sheet.title][at].value
