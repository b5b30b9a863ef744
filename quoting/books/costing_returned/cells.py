"""The cells of a costing book that came back from the estimator: numbers, texts, and formulas left alone."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from quoting.books.costing import letters
from quoting.core import InputError, Place

SAVE_FIRST = "open the book in a spreadsheet program, let it work out and save it, then try again"


class ReturnedBook:
    """Cells by sheet, 0-based row and column; every refusal is an InputError with the address of the cell."""

    def __init__(self, path: Path, sheets: tuple[str, ...]) -> None:
        self.file = path.name
        self._formulas, self._values = _load(path, data_only=False), _load(path, data_only=True)
        for sheet in sheets:
            if sheet not in self._formulas.sheetnames:
                raise InputError(
                    f'the sheet "{sheet}" is missing',
                    place=Place(self.file),
                    would_do="take the book as the run wrote it and make the changes again",
                )

    def place(self, sheet: str, row: int, column: int, header: str = "") -> Place:
        """Return the address of a cell."""
        return Place(self.file, sheet, row + 1, letters(column), header)

    def rows(self, sheet: str) -> int:
        """Return how many rows the sheet has."""
        return int(self._formulas[sheet].max_row)

    def named(self, name: str, sheet: str) -> tuple[int, int]:
        """Return the 0-based row and column of a named cell on this sheet."""
        found = self._formulas.defined_names.get(name)
        where, _, address = (found.attr_text if found is not None else "").rpartition("!")
        text = address.replace("$", "")
        if where.strip("'") != sheet or ":" in text or not text[-1:].isdigit():
            raise InputError(
                f'the name "{name}" no longer stands for a cell of the sheet "{sheet}"',
                place=Place(self.file),
                would_do="take the book as the run wrote it and make the changes again",
            )
        cell = self._formulas[sheet][text]
        return int(cell.row) - 1, int(cell.column) - 1

    def formula(self, sheet: str, row: int, column: int) -> str:
        """Return the formula in a cell without its equals sign and blanks, or an empty text."""
        cell = self._formulas[sheet].cell(row + 1, column + 1)
        return str(cell.value)[1:].replace(" ", "") if cell.data_type == "f" else ""

    def shown(self, sheet: str, row: int, column: int, header: str = "") -> Any:
        """Return what a cell shows; refuses errors, and typed-in formulas whose value was not saved."""
        value = self._values[sheet].cell(row + 1, column + 1).value
        if isinstance(value, str) and value.startswith("#") and value.rstrip("!?/A0").isupper():
            raise InputError(
                "holds a formula that does not work out",
                place=self.place(sheet, row, column, header),
                read=value,
                would_do="undo the change in this cell",
            )
        formula = self.formula(sheet, row, column)
        if value is None and formula:
            raise InputError(
                "holds a formula without its value",
                place=self.place(sheet, row, column, header),
                read=f"={formula}",
                would_do=SAVE_FIRST,
            )
        return value

    def text(self, sheet: str, row: int, column: int) -> str:
        """Return a cell as text, without blanks at its ends."""
        value = self.shown(sheet, row, column)
        return "" if value is None else str(value).strip()

    def number(
        self,
        sheet: str,
        row: int,
        column: int,
        header: str,
        *,
        known: Mapping[str, Decimal] | None = None,
        least: Decimal | None = Decimal(0),
        below: Decimal | None = None,
    ) -> Decimal:
        """Return a needed number; a formula that is just one of the `known` names has that name's value."""
        formula = self.formula(sheet, row, column)
        if known and formula in known:
            return known[formula]
        value = self.shown(sheet, row, column, header)
        place = self.place(sheet, row, column, header)
        number = _decimal(value)
        if number is None:
            read = "nothing" if value is None else str(value)
            raise InputError("must be a number", place=place, read=read, would_do="type a plain number")
        if least is not None and number < least:
            raise InputError(f"must not be less than {least}", place=place, read=str(value))
        if below is not None and number >= below:
            shown = f"{below:.0%}" if below == 1 else str(below)
            raise InputError(f"must be less than {shown}", place=place, read=str(value))
        return number

    def optional(self, sheet: str, row: int, column: int, header: str) -> Decimal | None:
        """Return a number of 0 or more, or None for an empty cell."""
        if not self.formula(sheet, row, column) and self.shown(sheet, row, column, header) in (None, ""):
            return None
        return self.number(sheet, row, column, header)

    def untouched(self, sheet: str, row: int, column: int, header: str) -> Any:
        """Return the value of a cell that the book works out, None when it was not saved with one."""
        if not self.formula(sheet, row, column):
            raise InputError(
                "is worked out by the book and was typed over",
                place=self.place(sheet, row, column, header),
                read=str(self._formulas[sheet].cell(row + 1, column + 1).value),
                would_do='undo it; a price is set in the column "Unit price by hand"',
            )
        if self._values[sheet].cell(row + 1, column + 1).value is None:
            return None
        return self.shown(sheet, row, column, header)


def _load(path: Path, *, data_only: bool) -> Any:
    import openpyxl  # noqa: PLC0415 - kept out of the start of the command

    try:
        return openpyxl.load_workbook(path, data_only=data_only)
    except Exception as error:
        raise InputError(
            "cannot be read as a workbook",
            place=Place(str(path)),
            read=f"{type(error).__name__}: {error}"[:80],
            would_do="give the costing book (.xlsx) that a run has written",
        ) from error


def _decimal(value: Any) -> Decimal | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        number = Decimal(repr(value))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None
