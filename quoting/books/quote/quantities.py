"""Unit prices at other quantities, for the lines that have them."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from quoting.books.style import Book, Sheet
from quoting.parts import State
from quoting.pricing import BreakPrice
from quoting.result import LineResult

if TYPE_CHECKING:
    from quoting.books.quote.letter import Letter

_ACROSS = 7
_WIDTHS = (7, 16, *(11,) * _ACROSS)


def quantities_sheet(book: Book, letter: Letter) -> None:
    """Write the sheet "Quantity prices", or none when no line has other quantities."""
    lines = [
        (entry.result, _offers(entry.result, letter))
        for entry in letter.entries
        if entry.result and entry.state is State.PRICED
    ]
    if not any(offers for _, offers in lines):
        return
    sheet = book.sheet("Quantity prices", _WIDTHS, landscape=False, footer=letter.footer)
    sheet.text(0, 0, "Prices at other quantities", "title")
    words = "Each price is for the whole quantity ordered and made at once, planned anew for that quantity."
    sheet.wide(1, 0, len(_WIDTHS) - 1, f"Unit price, {letter.shop.rates.currency}. {words}", "quiet")
    row = 3
    for quantities, group in groupby(_slices(lines), key=lambda part: [offer.quantity for offer in part[1]]):
        _heads(sheet, row, quantities)
        row += 1
        for result, offers in group:
            row = _line(sheet, row, result, offers)
        row += 1


def _offers(result: LineResult, letter: Letter) -> tuple[BreakPrice, ...]:
    """Return the quantities that were asked for, or the shop's; the quoted one stands on the quote."""
    wanted = result.line.breaks or letter.shop.pricing.break_quantities
    return tuple(offer for offer in result.breaks if offer.quantity in wanted)


def _slices(
    lines: list[tuple[LineResult, tuple[BreakPrice, ...]]],
) -> list[tuple[LineResult, tuple[BreakPrice, ...]]]:
    return [
        (result, offers[start : start + _ACROSS])
        for result, offers in lines
        for start in range(0, len(offers), _ACROSS)
    ]


def _heads(sheet: Sheet, row: int, quantities: list[int]) -> None:
    sheet.head(row, 0, "Line")
    sheet.head(row, 1, "Part")
    for column in range(_ACROSS):
        shown = f"{quantities[column]:,} pc" if column < len(quantities) else ""
        sheet.head(row, 2 + column, shown, "money")


def _line(sheet: Sheet, row: int, result: LineResult, offers: tuple[BreakPrice, ...]) -> int:
    sheet.text(row, 0, result.line.number, "line rule")
    sheet.text(row, 1, result.line.part_no, "text rule")
    sheet.fill(row, range(2 + len(offers), 2 + _ACROSS), "line rule")
    for column, offer in enumerate(offers, 2):
        sheet.number(row, column, offer.unit, "money rule")
    notes = [f"{offer.quantity:,} pc: {offer.note}." for offer in offers if offer.note]
    if notes:
        row += 1
        sheet.wide(row, 1, len(_WIDTHS) - 1, " ".join(notes), "quiet")
    return row + 1
