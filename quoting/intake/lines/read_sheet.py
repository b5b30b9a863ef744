"""Reads the sheets of one file, table by table: the account of every row, and a record for each part."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace
from datetime import date

from quoting.core import Choice, NumberStyle, SheetRow, State, column_letters
from quoting.intake.doubts import settle
from quoting.intake.layout import (
    CustomerMap,
    Layout,
    OrderTable,
    RowKind,
    SheetRules,
    TableContext,
    row_kinds,
    said_in,
    style_of,
    unit_found,
    with_identifiers,
)
from quoting.intake.lines.line_or_questions import Assembled, ask_duplicate, assemble
from quoting.intake.lines.read_row import OrderRowReader
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shop_view import ShopView
from quoting.shop import Materials, Shop
from quoting.tables import Sheet, is_empty, text_of


@dataclass(slots=True)
class SheetWork:
    """What grows while the sheets of one file are read."""

    shop: Shop
    today: date
    prefix: str
    materials: Materials
    pinned: CustomerMap
    rows: list[SheetRow] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    records: list[tuple[Record, str]] = field(default_factory=list)
    pairs: dict[str, str] = field(default_factory=dict)
    order: dict[str, int] = field(default_factory=dict)
    tables: list[tuple[Sheet, OrderTable]] = field(default_factory=list)
    metric: int = 0

    def sheet(self, sheet: Sheet, layout: Layout) -> None:
        """Read one sheet."""
        self.order[sheet.name] = len(self.order)
        self.notes += sheet.asides
        if sheet.hidden or not layout.tables:
            self._unread(sheet)
            return
        kinds = [row_kinds(sheet, table) for table in layout.tables]
        loose = [row for kind in kinds for row, what in kind.items() if what is RowKind.NOTE]
        said = said_in(sheet, (*layout.above, *loose))
        self._say(said)
        said.pin(self.pinned.unit, self.pinned.basis, self.pinned.material)
        for row in layout.above:
            self.ignore(sheet, row, "title")
        for column in (column for table in layout.tables for column in table.columns):
            if column.index in sheet.hidden_columns:
                letters = column_letters(column.index)
                self.notes.append(
                    f'column {letters} ({column.header}) of "{sheet.name}" is hidden and was read'
                )
        for table, kind in zip(layout.tables, kinds, strict=True):
            self.table(sheet, table, kind, said)

    def _unread(self, sheet: Sheet) -> None:
        """Account for the rows of a sheet without a table, or of a hidden one."""
        rows = [index for index, row in enumerate(sheet.rows) if any(not is_empty(cell) for cell in row)]
        for row in rows:
            self.ignore(sheet, row, "hidden sheet" if sheet.hidden else "no table of parts on this sheet")
        if sheet.hidden and rows:
            self.notes.append(f'sheet "{sheet.name}" is hidden and was not read ({len(rows)} rows)')
        elif rows:
            self._say(said_in(sheet, tuple(rows)))

    def _say(self, said: SheetRules) -> None:
        for name, value in said.pairs.items():
            self.pairs.setdefault(name, value)
        self.notes += said.notes

    def ignore(self, sheet: Sheet, row: int, reason: str) -> None:
        """Account for a row that holds no part."""
        self.rows.append(SheetRow(sheet.place(row), State.IGNORED, "", reason, _row_text(sheet, row)))

    def table(self, sheet: Sheet, table: OrderTable, kinds: dict[int, RowKind], said: SheetRules) -> None:
        """Read one table of a sheet."""
        for row in table.header_rows:
            self.ignore(sheet, row, "header")
        if table.unit_row is not None:
            self.ignore(sheet, table.unit_row, "units row")
        body = tuple(row for row in table.rows if kinds[row] is RowKind.PART)
        table = with_identifiers(sheet, replace(table, rows=body))
        self.tables.append((sheet, table))
        style = style_of(sheet, body)
        unit = unit_found(sheet, table, said, style)
        self.metric += {"mm": 1, "in": -1}.get(unit.unit, 0)
        if style is NumberStyle.UNKNOWN and unit.unit == "in":
            style = NumberStyle.POINT
        desk = ShopView(self.materials, unit.unit != "mm")
        angles = _has_angles(sheet, table)
        frame = TableContext(sheet, table, unit, style, said, desk, self.today, said.basis, angles)
        reader = OrderRowReader(frame)
        for row, kind in kinds.items():
            if kind is RowKind.PART:
                self.part(sheet, row, reader.read(row), frame)
            else:
                self.ignore(sheet, row, str(kind))

    def part(self, sheet: Sheet, row: int, record: Record, frame: TableContext) -> None:
        """Settle one record and keep it until ids are given."""
        text = _row_text(sheet, row)
        if record.values.get("quantity") == "0":
            number = record.values.get("number", "")
            self.rows.append(SheetRow(record.place, State.NO_QUOTE, number, "quantity 0 in the sheet", text))
            return
        if row in sheet.hidden_rows:
            yes = Choice("yes, price it", (("hidden", "wanted"),))
            no = Choice("no, leave it out", (("hidden", "left out"),))
            asked = "This row is hidden in your sheet; is the part wanted?"
            record.doubt(Doubt("hidden", record.place, text, asked, (yes, no)))
        given = record.values.get("material") or "material" in record.doubts or "material" in frame.said.rules
        if not given and all(column.meaning.field != "material" for column in frame.table.columns):
            record.values["no_material_column"] = "yes"
        settle(record, frame.desk)
        if not frame.unit.sure:
            record.assumptions.append(f"sizes read in {frame.unit.unit}: {frame.unit.why}")
        self.records.append((record, text))

    def finish(self, customer: str) -> list[Assembled]:
        """Give ids, ask about lines that stand twice, and build what is complete."""
        taken: Counter[str] = Counter()
        seen: dict[tuple[tuple[str, str], ...], str] = {}
        parts = []
        for record, text in self.records:
            number = record.values.get("number") or str(record.place.row)
            line = f"{self.prefix}{number}"
            taken[line] += 1
            if taken[line] > 1:
                line = f"{line}-r{record.place.row}"
            ask_duplicate(record, number, seen, self.materials)
            parts.append(assemble(record, line, number, customer, self.materials, text))
        return parts


def _has_angles(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether some row of the table gives degrees of arc, a chord or an arc length."""
    columns = [
        column.index for column in table.columns if column.meaning.field in ("angle", "chord", "arc_length")
    ]
    return any(
        not is_empty(sheet.rows[row][index])
        for row in table.rows
        for index in columns
        if index < len(sheet.rows[row])
    )


def _row_text(sheet: Sheet, row: int) -> str:
    return " | ".join(text_of(cell) for cell in sheet.rows[row] if not is_empty(cell))[:300]
