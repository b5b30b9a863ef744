"""The customer's sheet in, order lines and questions out."""

from __future__ import annotations

import gc
import os
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from quoting.errors import InputError, Place
from quoting.intake.answers import resolve
from quoting.intake.assemble import Assembled, ask_duplicate, assemble, whole_file_questions
from quoting.intake.context import Frame
from quoting.intake.customer import CustomerMap
from quoting.intake.desk import Desk
from quoting.intake.files import read_sheets
from quoting.intake.frame import Said, said_in, style_of, unit_found
from quoting.intake.limits import Limits
from quoting.intake.material import Materials
from quoting.intake.missing import check_columns
from quoting.intake.record import Doubt, Record
from quoting.intake.rowkinds import RowKind, row_kinds
from quoting.intake.rows import RowReader
from quoting.intake.settle import settle
from quoting.intake.sheet import Sheet, column_letters, is_empty, text_of
from quoting.intake.table import Layout, Table, layout_of, with_identifiers
from quoting.intake.titles import heading_of
from quoting.parts import Choice, Order, SheetRow, State
from quoting.shop.model import Shop
from quoting.units import NumberStyle


def read_orders(
    path: str | os.PathLike[str],
    shop: Shop,
    *,
    today: date,
    customer: str | None = None,
    answers: Mapping[str, str] | None = None,
    limits: Limits | None = None,
    customer_map: CustomerMap | None = None,
    prefix: str = "",
) -> Order:
    """Return all that a customer's file says: complete lines, questions, and the account of every row.

    `today` decides which dates are past. `customer_map` pins columns and defaults. `prefix` goes before line
    ids and question ids ("A-10"). Raises InputError when the file cannot be read, breaks a limit, or holds no
    table of parts.
    """
    file = Path(path).name
    with _collector_paused():
        sheets = read_sheets(path, limits or Limits())
        order = order_of(
            sheets, shop, today=today, file=file, customer=customer, customer_map=customer_map, prefix=prefix
        )
        return resolve(order, answers, shop) if answers else order


@contextmanager
def _collector_paused() -> Iterator[None]:
    """Pause the cyclic garbage collector: the many values of a long sheet hold no cycles.

    Measured: a quarter of the time of 10,000 rows went into looking for some.
    """
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()


def read_all(
    paths: Sequence[str | os.PathLike[str]],
    shop: Shop,
    *,
    today: date,
    customer: str | None = None,
    answers: Mapping[str, str] | None = None,
    limits: Limits | None = None,
    customer_map: CustomerMap | None = None,
) -> tuple[Order, ...]:
    """Return the orders of several files; line ids carry a letter for their file when there are several."""
    return tuple(
        read_orders(
            path,
            shop,
            today=today,
            customer=customer,
            answers=answers,
            limits=limits,
            customer_map=customer_map,
            prefix=f"{column_letters(index)}-",
        )
        for index, path in enumerate(paths)
    )


def order_of(
    sheets: Sequence[Sheet],
    shop: Shop,
    *,
    today: date,
    file: str,
    customer: str | None = None,
    customer_map: CustomerMap | None = None,
    prefix: str = "",
) -> Order:
    """Return the order of sheets already read; raises InputError when no sheet holds a table of parts."""
    pinned = customer_map or CustomerMap()
    work = _Work(shop, today, prefix, Materials(shop), pinned)
    layouts = [layout_of(sheet, pinned.meaning) for sheet in sheets]
    if not any(layout.tables for sheet, layout in zip(sheets, layouts, strict=True) if not sheet.hidden):
        raise _no_table(sheets, file)
    for sheet, layout in zip(sheets, layouts, strict=True):
        work.sheet(sheet, layout)
    head = heading_of(work.pairs, work.notes, Path(file).stem)
    name = customer or head.customer
    if not work.records and not any(row.state is State.NO_QUOTE for row in work.rows):
        raise _no_lines(sheets, layouts)
    check_columns(work.tables, [record for record, _ in work.records])
    parts = work.finish(name)
    rows = [*work.rows, *(part.row for part in parts)]
    questions = [question for part in parts for question in part.questions]
    return Order(
        file=file,
        customer=name,
        reference=head.reference,
        contact=head.contact,
        lines=tuple(part.line for part in parts if part.line is not None),
        questions=(
            *questions,
            *whole_file_questions(parts, prefix, shop.default_ends, work.materials.in_family(None)),
        ),
        rows=tuple(sorted(rows, key=lambda row: (work.order[row.place.sheet], row.place.row or 0))),
        notes=tuple(work.notes),
        metric=work.metric > 0,
        drafts=tuple(part.draft for part in parts),
    )


def _no_lines(sheets: Sequence[Sheet], layouts: Sequence[Layout]) -> InputError:
    """Return the error for tables that have headers and nothing under them."""
    sheet, layout = next(pair for pair in zip(sheets, layouts, strict=True) if pair[1].tables)
    return InputError(
        "the table has a row of headers and no lines under it",
        place=sheet.place(layout.tables[0].header_rows[-1]),
        would_do="ask for the sheet again",
    )


def _no_table(sheets: Sequence[Sheet], file: str) -> InputError:
    """Return the error for a file without a table: it is empty, or which headers are missing."""
    filled = [sheet for sheet in sheets if any(not is_empty(cell) for row in sheet.rows for cell in row)]
    if not filled:
        return InputError(
            "the file has no filled cells", place=Place(file), would_do="ask for the sheet again"
        )
    sheet = filled[0]
    row = next(index for index, row in enumerate(sheet.rows) if any(not is_empty(cell) for cell in row))
    read = ", ".join(text_of(cell) for cell in sheet.rows[row] if not is_empty(cell))[:80]
    return InputError(
        "no row of headers was found",
        place=Place(file, sheet.name, row + 1),
        read=read,
        would_do="the table needs a row of headers: quantity, thickness, diameter, length, material",
    )


@dataclass(slots=True)
class _Work:
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
    tables: list[tuple[Sheet, Table]] = field(default_factory=list)
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

    def _say(self, said: Said) -> None:
        for name, value in said.pairs.items():
            self.pairs.setdefault(name, value)
        self.notes += said.notes

    def ignore(self, sheet: Sheet, row: int, reason: str) -> None:
        """Account for a row that holds no part."""
        self.rows.append(SheetRow(sheet.place(row), State.IGNORED, "", reason, _row_text(sheet, row)))

    def table(self, sheet: Sheet, table: Table, kinds: dict[int, RowKind], said: Said) -> None:
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
        desk = Desk(self.materials, unit.unit != "mm")
        angles = _has_angles(sheet, table)
        frame = Frame(sheet, table, unit, style, said, desk, self.today, said.basis, angles)
        reader = RowReader(frame)
        for row, kind in kinds.items():
            if kind is RowKind.PART:
                self.part(sheet, row, reader.read(row), frame)
            else:
                self.ignore(sheet, row, str(kind))

    def part(self, sheet: Sheet, row: int, record: Record, frame: Frame) -> None:
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


def _has_angles(sheet: Sheet, table: Table) -> bool:
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
