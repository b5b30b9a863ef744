"""Reads a workbook with its formulas and names, as openpyxl keeps them: a costing book that came back."""

from __future__ import annotations

import sys
import warnings
from collections.abc import Collection
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, shown_name
from quoting.tables.inside.beside import xlsx_facts
from quoting.tables.inside.package import Package
from quoting.tables.inside.refusals import SMALLER, RefusedError
from quoting.tables.limits import Limits
from quoting.tables.sheet import FormulaBook, FormulaSheet


def read_formulas(file: Path, wanted: Collection[str], limits: Limits) -> FormulaBook:
    """Return the wanted sheets of an .xlsx with values, formulas and names; those not there are left out.

    Raises InputError when the file is no such workbook or breaks a limit.
    """
    try:
        facts = xlsx_facts(Package(file, limits), limits)
        if sum(one.merged_cells for one in facts.values()) > limits.cells:
            raise RefusedError("its merged cells reach too far", SMALLER)  # openpyxl makes every one of them
        shown, written = _load(file, data_only=True), _load(file, data_only=False)
        there = [name for name in wanted if name in written.sheetnames and name in shown.sheetnames]
        sheets = {name: _sheet(written[name], shown[name], limits) for name in there}
        names = {name: str(named.attr_text or "") for name, named in written.defined_names.items()}
        return FormulaBook(shown_name(file), sheets, names)
    except MemoryError:
        raise
    except Exception as error:
        why = str(error) if isinstance(error, RefusedError) else f"{type(error).__name__}: {error}"
        raise InputError(
            "cannot be read as a workbook",
            place=Place(shown_name(file)),
            read=why[:80],
            would_do="give the costing book (.xlsx) that a run has written",
        ) from error


def _load(file: Path, *, data_only: bool) -> Any:
    sys.modules.setdefault("numpy", None)  # type: ignore[arg-type]  # openpyxl would load it and not use it
    import openpyxl  # noqa: PLC0415 - only costing books need it

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return openpyxl.load_workbook(file, data_only=data_only)


def _sheet(written: Any, shown: Any, limits: Limits) -> FormulaSheet:
    if written.max_row * written.max_column > limits.cells or written.max_row > limits.rows:
        raise RefusedError("a sheet reaches too far", SMALLER)
    values = [list(row) for row in shown.iter_rows(values_only=True)]
    formulas = {
        (cell.row - 1, cell.column - 1): str(getattr(cell.value, "text", cell.value) or "")
        for row in written.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }
    return FormulaSheet(int(written.max_row), values, formulas)
