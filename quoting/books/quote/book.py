"""The customer's quote as a workbook."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from quoting.books.entries import entries_of, numbered_questions
from quoting.books.quote.asked import questions_sheet
from quoting.books.quote.content import Letter
from quoting.books.quote.letter import letter_sheet
from quoting.books.quote.quantities import quantities_sheet
from quoting.books.style import new_book
from quoting.result import Estimate, OrderEstimate


def write_quote(
    estimate: Estimate,
    order: OrderEstimate,
    path: Path,
    *,
    number: str,
    promise: Mapping[str, date] | None = None,
) -> None:
    """Write one customer's quote to `path` (.xlsx): lines, quantity prices, questions and terms.

    Sizes are in the customer's own unit system. `promise` gives the day a line is ready, by line id. Only
    what the customer may know is handed to the sheets: no cost, rate, share or limit of a price.
    """
    letter = Letter(
        shop=estimate.shop,
        order=order,
        entries=entries_of(order),
        asked=numbered_questions(order),
        number=number,
        today=estimate.today,
        promise=promise or {},
    )
    with new_book(
        path,
        paper=estimate.shop.paper,
        created=estimate.today,
        title=f"Quotation {number}",
        author=estimate.shop.name,
    ) as book:
        letter_sheet(book, letter)
        quantities_sheet(book, letter)
        questions_sheet(book, letter)
