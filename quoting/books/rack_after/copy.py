"""The tables of a rack file with every row and column as it stands, ready to be changed and written anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from quoting.core import Place
from quoting.shop import HEADINGS, NEEDED, as_text, is_buyable, unit_of_sizes
from quoting.tables import SheetTable, find_table, read_plain_sheets

CHANGES = "What changed"
"""The sheet that a copy says its changes on; a copy of a copy has only its own."""
_CSV_NAMES = {"rack": "Rack", "buyable": "Buyable sizes"}
_NEW_HEADINGS = {
    "id": "Plate id",
    "edge": "Edge",
    "heat": "Heat number",
    "remnant": "Remnant",
    "grain": "Grain",
}


@dataclass(slots=True)
class RackSheet:
    """One sheet of a rack file: all its cells, and where its table of plates stands.

    `columns` gives the 0-based column of each field, `header` the 0-based row of the headings; None when the
    sheet holds no table. `inches` says for each size whether bare numbers are inches. Rows in `gone` are not
    written: until then every row keeps its number.
    """

    name: str
    rows: list[list[Any]]
    header: int | None
    columns: dict[str, int]
    buyable: bool
    inches: Mapping[str, bool]
    gone: set[int] = field(default_factory=set)

    def cell(self, row: int, name: str) -> Any:
        """Return the cell of a field in a 0-based row, empty when there is none."""
        column = self.columns.get(name)
        cells = self.rows[row]
        return "" if column is None or column >= len(cells) else cells[column]

    def put(self, row: int, name: str, value: Any) -> None:
        """Set the cell of a field; a field without a column is left out."""
        column = self.columns.get(name)
        if column is None:
            return
        cells = self.rows[row]
        cells.extend([""] * (column + 1 - len(cells)))
        cells[column] = value

    def plate_id(self, row: int) -> str:
        """Return the plate id of a 0-based row as the reader of the rack names it."""
        kind = "buy" if self.buyable else "rack"
        return as_text(self.cell(row, "id")) or f"{kind} row {row + 1}"

    def need_columns(self) -> None:
        """See that the table can say all that is known of a remnant, with new columns at its end."""
        assert self.header is not None
        for name, heading in _NEW_HEADINGS.items():
            if name not in self.columns:
                self.columns[name] = max(len(row) for row in self.rows)
                self.put(self.header, name, heading)

    def new_row(self) -> int:
        """Add an empty row after the last one that holds anything; return its 0-based number."""
        while self.rows and not any(as_text(cell) for cell in self.rows[-1]):
            self.rows.pop()
        self.rows.append([])
        return len(self.rows) - 1


def rack_sheets(paths: Sequence[Path], *, inch: bool) -> list[RackSheet]:
    """Return every sheet of the rack's files in their order. Raises InputError when one does not open."""
    found = [
        _sheet(path, name, rows, inch=inch)
        for path in paths
        for name, rows in read_plain_sheets(path).items()
    ]
    return [sheet for sheet in found if sheet.header is not None or sheet.name != CHANGES]


def _sheet(path: Path, name: str, rows: list[list[Any]], *, inch: bool) -> RackSheet:
    table = find_table(rows, HEADINGS, NEEDED, Place(path.name, name))
    shown = name or _CSV_NAMES.get(path.stem, path.stem)
    if table is None:
        return RackSheet(shown, rows, None, {}, False, {})
    header = _header_row(rows, table)
    texts = [str(cell).strip() for cell in rows[header]]
    columns = {name_: texts.index(text) for name_, text in table.headers.items()}
    buyable = is_buyable(table, name or path.stem)
    return RackSheet(shown, rows, header, columns, buyable, unit_of_sizes(table, inch))


def _header_row(rows: Sequence[Sequence[Any]], table: SheetTable) -> int:
    texts = set(table.headers.values())
    return next(index for index, row in enumerate(rows) if texts <= {str(cell).strip() for cell in row})
