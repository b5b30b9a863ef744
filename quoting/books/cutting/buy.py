"""The sheet "Buy": sizes to order with count, price and days, and the lines that wait for them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.cutting.page import HEAD, cutting_page, lines_with_days
from quoting.books.look import Book, BookColumn, BookSheet, day_words, material_words, plate_words
from quoting.estimating import Estimate, GroupNest
from quoting.nesting import NestPlate, week_of

COLUMNS = (
    BookColumn("Size to buy", 19, "line"),
    BookColumn("Material", 18),
    BookColumn("Size, edges", 29),
    BookColumn("Plates", 8, "whole"),
    BookColumn("Price each", 11, "money"),
    BookColumn("Money", 12, "money"),
    BookColumn("Lead days", 8, "whole"),
    BookColumn("Needed by", 13, "text inset"),
    BookColumn("Lines that wait for it, with their due day", 44, "text inset"),
    BookColumn("Ordered", 10, "text inset"),
)
_COUNT, _MONEY, _WAITING, _LAST = 3, 5, 8, len(COLUMNS) - 1
_SAYS = (
    "What is not in the rack and has to be ordered, longest lead time first; needed by is when the first of "
    "its pieces must be cut. As soon as a line below is lost, nest again before buying."
)


@dataclass(frozen=True, slots=True)
class Purchase:
    """Plates of one size to buy; `lines` are the ids of the lines that lie on them.

    Where later pieces may wait, plates that are needed in different weeks are bought apart. `needed_by` is
    the last day to cut the first of them, None when there is none.
    """

    group: GroupNest
    plate: NestPlate
    count: int
    lead_days: int
    lines: tuple[str, ...]
    needed_by: date | None = None


def purchases(sheets: Sequence[CutSheet]) -> tuple[Purchase, ...]:
    """Return what to buy, longest lead time first, of one size what is needed first."""
    return tuple(
        sorted(
            _purchases(sheets),
            key=lambda item: (-item.lead_days, item.plate.id, item.needed_by or date.max),
        )
    )


def _purchases(sheets: Sequence[CutSheet]) -> Iterator[Purchase]:
    orders: dict[tuple[str, date | None], list[CutSheet]] = {}
    for sheet in sheets:
        if sheet.plate.count is None:
            orders.setdefault((sheet.cut.plate, _week(sheet)), []).append(sheet)
    for own in orders.values():
        yield Purchase(
            own[0].group,
            own[0].plate,
            sum(len(sheet.cuts) for sheet in own),
            own[0].lead_days,
            tuple(dict.fromkeys(line for sheet in own for line in sheet.lines)),
            min((sheet.cut_by for sheet in own if sheet.cut_by), default=None),
        )


def _week(sheet: CutSheet) -> date | None:
    """Return the week in which a plate is needed if plates of other weeks are bought apart from it."""
    if sheet.problem.waiting is None or sheet.cut_by is None:
        return None
    return week_of(sheet.cut_by)


def buy_sheet(book: Book, estimate: Estimate, sheets: Sequence[CutSheet]) -> None:
    """Write the sheet; without anything to buy it says so."""
    sheet = cutting_page(book, estimate, "Buy", COLUMNS, title="Plate to buy", says=_SAYS)
    row = HEAD
    waiting = lines_with_days(estimate)
    for item in purchases(sheets):
        row += 1
        _purchase(sheet, row, item, inch=estimate.shop.inch)
        sheet.text(row, _WAITING, waiting(item.lines), "text inset rule")
    if row == HEAD:
        sheet.wide(row + 1, 0, _LAST, "Nothing to buy: all from the rack.", "text")
        return
    _total(sheet, row, purchases(sheets), estimate)


def _purchase(sheet: BookSheet, row: int, item: Purchase, *, inch: bool) -> None:
    sheet.text(row, 0, item.plate.id, "bold rule")
    sheet.text(row, 1, material_words(item.group.thickness_mm, item.group.material, inch=inch), "text rule")
    sheet.text(row, 2, plate_words(item.plate, inch=inch), "text rule")
    sheet.number(row, _COUNT, item.count, "whole rule")
    sheet.number(row, 4, item.plate.price, "money rule")
    total = item.plate.price * item.count
    sheet.formula(row, _MONEY, f"=D{row + 1}*E{row + 1}", total, "money rule")
    sheet.number(row, 6, item.lead_days, "whole rule")
    sheet.text(row, 7, day_words(item.needed_by) if item.needed_by else "", "text inset rule")
    sheet.fill(row, (_LAST,), "rule")


def _total(sheet: BookSheet, last: int, bought: Sequence[Purchase], estimate: Estimate) -> None:
    row = last + 1
    sheet.text(row, 0, f"All, {estimate.shop.rates.currency}", "total line")
    sheet.fill(row, range(1, _LAST + 1), "total")
    counts = sum(item.count for item in bought)
    money = sum((item.plate.price * item.count for item in bought), Decimal(0))
    sheet.formula(row, _COUNT, f"=SUM(D{HEAD + 2}:D{last + 1})", counts, "whole total")
    sheet.formula(row, _MONEY, f"=SUM(F{HEAD + 2}:F{last + 1})", money, "money total")
