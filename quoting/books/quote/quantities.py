"""Unit prices at other quantities, for the lines that have them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from quoting.books.look import Book, BookSheet
from quoting.books.quote.content import QUANTITY_WORDS, QuantityLine, quantity_lines
from quoting.books.quote.letter_source import Letter
from quoting.books.tongue import Tongue

_ACROSS = 7
_WIDTHS = (7, 16, *(11,) * _ACROSS)


def quantities_sheet(book: Book, letter: Letter) -> None:
    """Write the sheet "Quantity prices", or none when no line has other quantities."""
    lines = quantity_lines(letter)
    if not lines:
        return
    sheet = book.sheet(letter.tongue.say("Quantity prices"), _WIDTHS, landscape=False, footer=letter.footer)
    say = letter.tongue.say
    sheet.text(0, 0, say("Prices at other quantities"), "title")
    words = say(f"Unit price, {letter.shop.rates.currency}. {QUANTITY_WORDS}")
    sheet.wide(1, 0, len(_WIDTHS) - 1, words, "quiet")
    row = 3
    for quantities, group in groupby(quantity_rows(lines, _ACROSS), key=quantities_of):
        _heads(sheet, row, quantities, letter.tongue)
        row += 1
        for line in group:
            row = _line(sheet, row, line, letter.tongue)
        row += 1


def quantity_rows(lines: Sequence[QuantityLine], across: int) -> list[QuantityLine]:
    """Return the lines cut into rows of so many quantities, those of one line one below the other."""
    return [
        QuantityLine(line.number, line.part, line.offers[start : start + across])
        for line in lines
        for start in range(0, len(line.offers), across)
    ]


def quantities_of(line: QuantityLine) -> list[int]:
    """Return the quantities of a row: rows that have the same ones stand in one table."""
    return [offer.quantity for offer in line.offers]


def _heads(sheet: BookSheet, row: int, quantities: list[int], tongue: Tongue) -> None:
    sheet.head(row, 0, tongue.say("Line"))
    sheet.head(row, 1, tongue.say("Part"))
    for column in range(_ACROSS):
        shown = tongue.say(f"{quantities[column]:,} pc") if column < len(quantities) else ""
        sheet.head(row, 2 + column, shown, "money")


def _line(sheet: BookSheet, row: int, line: QuantityLine, tongue: Tongue) -> int:
    offers = line.offers
    sheet.text(row, 0, line.number, "line rule")
    sheet.text(row, 1, line.part, "text rule")
    sheet.fill(row, range(2 + len(offers), 2 + _ACROSS), "line rule")
    for column, offer in enumerate(offers, 2):
        sheet.number(row, column, offer.unit, "money rule")
    if note := line.note(tongue):
        row += 1
        sheet.wide(row, 1, len(_WIDTHS) - 1, note, "quiet")
    return row + 1
