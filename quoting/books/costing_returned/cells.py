"""The cells of a costing book that came back from the estimator: numbers, texts, and formulas left alone."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, column_letters, shown_name
from quoting.tables import read_formula_book

_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_ADDRESS = re.compile(r"\$?[A-Z]{1,3}\$?[0-9]{1,7}")
MOST_AMOUNT = Decimal(10**9)
"""No amount of money, minutes or metres that a job shop writes into its book is more."""
SAVE_FIRST = "open the book in a spreadsheet program, let it work out and save it, then try again"


@dataclass(frozen=True, slots=True)
class Bounds:
    """What a number may be: at least `least`, less than `below`, at most `most`; None sets no bound."""

    least: Decimal | None = Decimal(0)
    below: Decimal | None = None
    most: Decimal = MOST_AMOUNT

    def check(self, number: Decimal, place: Place, read: str) -> None:
        """Raise InputError with the place and what was read there for a number out of bounds."""
        if self.least is not None and number < self.least:
            raise InputError(f"must not be less than {self.least}", place=place, read=read)
        if self.below is not None and number >= self.below:
            shown = f"{self.below:.0%}" if self.below == 1 else str(self.below)
            raise InputError(f"must be less than {shown}", place=place, read=read)
        if number > self.most:
            raise InputError(
                f"must be at most {self.most:,}", place=place, read=read, would_do="check its decimal point"
            )


AMOUNT = Bounds()
"""0 or more, and no more than a job shop writes into its book."""


class ReturnedBook:
    """Cells by sheet, 0-based row and column; every refusal is an InputError with the address of the cell."""

    def __init__(self, path: Path, sheets: tuple[str, ...]) -> None:
        self.file = shown_name(path)
        self._book = read_formula_book(path, sheets)
        for sheet in sheets:
            if sheet not in self._book.sheets:
                raise InputError(
                    f'the sheet "{sheet}" is missing',
                    place=Place(self.file),
                    would_do="take the book as the run wrote it and make the changes again",
                )

    def place(self, sheet: str, row: int, column: int, header: str = "") -> Place:
        """Return the address of a cell."""
        return Place(self.file, sheet, row + 1, column_letters(column), header)

    def rows(self, sheet: str) -> int:
        """Return how many rows the sheet has."""
        return self._book.sheets[sheet].height

    def named_rows(self, sheet: str) -> frozenset[int]:
        """Return the 0-based rows of a sheet with a named cell."""
        found = (text.rpartition("!") for text in self._book.names.values())
        cells = (cell for where, _, cell in found if where.strip("'") == sheet)
        return frozenset(
            int(cell.lstrip("$").lstrip(_LETTERS).lstrip("$")) - 1
            for cell in cells
            if _ADDRESS.fullmatch(cell)
        )

    def named(self, name: str, sheet: str) -> tuple[int, int]:
        """Return the 0-based row and column of a named cell on this sheet."""
        where, _, address = self._book.names.get(name, "").rpartition("!")
        found = _ADDRESS.fullmatch(address)
        if where.strip("'") != sheet or found is None:
            raise InputError(
                f'the name "{name}" no longer stands for a cell of the sheet "{sheet}"',
                place=Place(self.file),
                would_do="take the book as the run wrote it and make the changes again",
            )
        from xlsxwriter.utility import xl_cell_to_rowcol  # noqa: PLC0415 - keeps --help quick

        row, column = xl_cell_to_rowcol(address)
        return row, column

    def formula(self, sheet: str, row: int, column: int) -> str:
        """Return the formula in a cell without its equals sign and blanks, or an empty text."""
        return self._book.sheets[sheet].formulas.get((row, column), "")[1:].replace(" ", "")

    def shown(self, sheet: str, row: int, column: int, header: str = "") -> Any:
        """Return what a cell shows; refuses errors, and typed-in formulas whose value was not saved."""
        value = self._book.sheets[sheet].value(row, column)
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
        bounds: Bounds = AMOUNT,
    ) -> Decimal:
        """Return a needed number; a formula that is just one of the `known` names has that name's value."""
        formula = self.formula(sheet, row, column)
        if known and formula in known:
            return known[formula]
        value = self.shown(sheet, row, column, header)
        place = self.place(sheet, row, column, header)
        number = decimal_of(value)
        if number is None:
            read = "nothing" if value is None else str(value)
            raise InputError("must be a number", place=place, read=read, would_do="type a plain number")
        bounds.check(number, place, str(value))
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
                read=str(self._book.sheets[sheet].value(row, column)),
                would_do='undo it; a price is set in the column "Unit price by hand"',
            )
        if self._book.sheets[sheet].value(row, column) is None:
            return None
        return self.shown(sheet, row, column, header)


def decimal_of(value: Any) -> Decimal | None:
    """Return the number a cell shows; None when it is none, or none that can be reckoned with."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    try:
        number = Decimal(repr(value))
    except InvalidOperation:
        return None
    return number if number.is_finite() else None
