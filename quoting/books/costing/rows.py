"""The sheet "Rows": what became of every row of every customer's file, with counts that add up."""

from __future__ import annotations

from collections import Counter

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet
from quoting.core import State, column_letters
from quoting.estimating import Estimate, OrderEstimate

COLUMNS = (
    BookColumn("File", 30),
    BookColumn("Sheet", 14),
    BookColumn("Row", 8, "whole"),
    BookColumn("Became", 12, "text inset"),
    BookColumn("Line", 10, "line"),
    BookColumn("Why", 46),
    BookColumn("As it stands in the file", 46),
)
_COUNTS = ("priced", "question", "no-quote", "ignored")
_HEAD = 3
STATE_COLUMN, FILE_COLUMN = 3, 0


def rows_sheet(book: Book, estimate: Estimate) -> None:
    """Write the counts and the account of every row."""
    says = "Every row of every file that was read: nothing is lost."
    sheet = costing_sheet(book, estimate, "Rows", COLUMNS, says=says)
    terms = _HEAD + len(estimate.orders) + 2
    first = terms + _terms(sheet, estimate, terms) + 1
    last = first + sum(len(order.rows) for order in estimate.orders)
    _counts(sheet, estimate, first + 1, last)
    sheet.heads(first, COLUMNS)
    row = first + 1
    for order in estimate.orders:
        for account in order.rows:
            place = account.place
            sheet.text(row, 0, place.file, "quiet rule")
            sheet.text(row, 1, place.sheet, "quiet rule")
            sheet.number(row, 2, place.row or 0, "whole rule")
            sheet.text(row, 3, account.state.value, _weight(account.state))
            sheet.text(row, 4, account.number, "line rule")
            sheet.text(row, 5, account.reason, "text rule")
            sheet.text(row, 6, account.text, "quiet rule")
            row += 1
    sheet.raw.autofilter(first, 0, max(first + 1, row - 1), len(COLUMNS) - 1)
    sheet.raw.repeat_rows(first)


def _terms(sheet: BookSheet, estimate: Estimate, row: int) -> int:
    """Write what the sheets say of mere business from a row on; return how many rows that takes."""
    said = [(order.order.file, term) for order in estimate.orders for term in order.order.terms]
    if not said:
        return 0
    says = "Terms of the sheets, for you to read: nothing is priced for them."
    sheet.wide(row, 0, len(COLUMNS) - 1, says, "bold")
    for at, (file, term) in enumerate(said, row + 1):
        sheet.text(at, 0, file, "quiet")
        sheet.wide(at, 1, len(COLUMNS) - 1, term)
    return len(said) + 1


def _weight(state: State) -> str:
    return "bold inset rule" if state in (State.QUESTION, State.NO_QUOTE) else "text inset rule"


def _counts(sheet: BookSheet, estimate: Estimate, first: int, last: int) -> None:
    heads = ("File", "Rows", "Priced", "Question", "No-quote", "Ignored and account")
    for index, name in enumerate(heads):
        sheet.head(_HEAD, index, name, "whole" if 0 < index < 5 else "text inset")
    sheet.head(_HEAD, 6, "")
    files = f"${column_letters(FILE_COLUMN)}${first + 1}:${column_letters(FILE_COLUMN)}${last}"
    states = f"${column_letters(STATE_COLUMN)}${first + 1}:${column_letters(STATE_COLUMN)}${last}"
    for row, order in enumerate(estimate.orders, _HEAD + 1):
        _count(sheet, row, order, files, states)


def _count(sheet: BookSheet, row: int, order: OrderEstimate, files: str, states: str) -> None:
    found = Counter(account.state.value for account in order.rows)
    sheet.text(row, 0, order.order.file)
    sheet.number(row, 1, len(order.rows), "whole")
    for column, state in enumerate(_COUNTS[:3], 2):
        text = f'=COUNTIFS({files},A{row + 1},{states},"{state}")'
        sheet.formula(row, column, text, found[state], "whole")
    ignored = f'COUNTIFS({files},A{row + 1},{states},"ignored")'
    sums = f"B{row + 1}=SUM(C{row + 1}:E{row + 1})+{ignored}"
    text = f'={ignored}&IF({sums}," ignored; adds up"," ignored; DOES NOT ADD UP")'
    total = sum(found[state] for state in _COUNTS)
    words = "adds up" if total == len(order.rows) else "DOES NOT ADD UP"
    sheet.formula(row, 5, text, f"{found['ignored']} ignored; {words}", "text inset")
