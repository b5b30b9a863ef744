"""The first sheet of a quote: who, what, how much, until when, and on what terms."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from quoting.books.look import Book, BookColumn, BookSheet, Pages
from quoting.books.quote.content import QuoteItem, amounts, heading, items, waiting_words
from quoting.books.quote.letter_source import Letter
from quoting.books.quote.terms import terms

COLUMNS = (
    BookColumn("Line", 7, "line"),
    BookColumn("Part", 14, "text"),
    BookColumn("What you get", 50, "text"),
    BookColumn("Qty", 7, "whole"),
    BookColumn("Unit price", 12, "money"),
    BookColumn("Extended", 13, "money"),
)
LAST = len(COLUMNS) - 1
_SCALE = 86
_PAGE_POINTS = 800.0
"""Rows that one portrait page holds at this scale, on the shorter of Letter and A4."""
PART, WHAT, QUANTITY, UNIT, EXTENDED = 1, 2, 3, 4, 5


def letter_sheet(book: Book, letter: Letter) -> None:
    """Write the sheet "Quote"."""
    sheet = book.sheet(
        letter.tongue.say("Quote"),
        [column.width for column in COLUMNS],
        landscape=False,
        footer=letter.footer,
        fit=False,
    )
    sheet.raw.set_print_scale(_SCALE)
    pages = Pages(sheet, _PAGE_POINTS)
    row = _head(sheet, letter)
    heads = [replace(column, heading=letter.tongue.say(column.heading)) for column in COLUMNS]
    sheet.heads(row, heads)
    row += 1
    for item in items(letter):
        row = _item(pages, row, item, heads)
    first, row = row, _totals(sheet, row, letter)
    pages.keep(first, row - 1)
    for title, points in terms(letter):
        first, row = row, _block(sheet, row + 1, title, points)
        pages.keep(first + 1, row - 1)
    pages.finish(row - 1, LAST)


def _head(sheet: BookSheet, letter: Letter) -> int:
    sheet.wide(0, 0, WHAT, letter.shop.name, "title")
    sheet.wide(0, QUANTITY, LAST, letter.kind, "title right")
    sheet.wide(1, 0, LAST, letter.sender, "quiet")
    left, right = heading(letter)
    for row, ((name, value), (other, shown)) in enumerate(zip(left, right, strict=True), 2):
        sheet.wide(row, 0, PART, name if value else "", "quiet")
        sheet.text(row, WHAT, value, "bold" if row == 2 else "text")
        sheet.wide(row, QUANTITY, UNIT, other, "quiet right")
        sheet.text(row, EXTENDED, shown, "line right")
    return len(left) + 3


def _item(pages: Pages, row: int, item: QuoteItem, heads: Sequence[BookColumn]) -> int:
    sheet = pages.sheet
    if not pages.fits(row, _item_points(sheet, item)):
        pages.start_page(row)
        sheet.heads(row, heads)
        row += 1
    sheet.text(row, 0, item.number, "line rule")
    sheet.text(row, PART, item.part, "text rule")
    sheet.text(row, WHAT, item.what, "text rule")
    if isinstance(item.quantity, str):
        sheet.text(row, QUANTITY, item.quantity, "right rule")
    else:
        sheet.number(row, QUANTITY, item.quantity, "whole rule")
    _price(sheet, row, item)
    for note in item.notes:
        row += 1
        sheet.wide(row, WHAT, LAST, note, "quiet")
    return row + 1


def _item_points(sheet: BookSheet, item: QuoteItem) -> float:
    across = sheet.across(WHAT, LAST)
    first = sheet.height(item.what, sheet.widths[WHAT], "text")
    return max(15.0, first) + sum(max(15.0, sheet.height(note, across, "quiet")) for note in item.notes)


def _price(sheet: BookSheet, row: int, item: QuoteItem) -> None:
    if item.price is None:
        sheet.fill(row, (UNIT,), "line rule")
        sheet.text(row, EXTENDED, item.answer, "bold right rule")
        return
    sheet.number(row, UNIT, item.price[0], "money rule")
    sheet.number(row, EXTENDED, item.price[1], "money rule")


def _totals(sheet: BookSheet, row: int, letter: Letter) -> int:
    for index, amount in enumerate(amounts(letter)):
        line = " rule" if index == 0 else ""
        style = "total" if amount.total else ""
        if line:
            sheet.fill(row, (0, PART), "line rule")
        sheet.wide(row, WHAT, UNIT, amount.label, f"right {style}{line}")
        sheet.number(row, EXTENDED, amount.money, f"money {style}{line}")
        row += 1
    if waiting := waiting_words(letter):
        sheet.wide(row, 0, LAST, waiting, "quiet right")
        row += 1
    return row


def _block(sheet: BookSheet, row: int, heading: str, points: tuple[str, ...]) -> int:
    sheet.wide(row, 0, LAST, heading, "section")
    for index, point in enumerate(points, 1):
        sheet.wide(row + index, 0, LAST, f"• {point}", "text")
    return row + len(points) + 1
