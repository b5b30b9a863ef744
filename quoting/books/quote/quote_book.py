"""The customer's quote as a workbook."""

from __future__ import annotations

from pathlib import Path

from quoting.books.look import customer_questions, entries_of, new_book
from quoting.books.quote.asked import questions_sheet
from quoting.books.quote.content import (
    amounts,
    asks,
    change_words,
    heading,
    items,
    quantity_lines,
    waiting_words,
)
from quoting.books.quote.letter import letter_sheet
from quoting.books.quote.letter_source import Days, Letter
from quoting.books.quote.pdf import write_pdf
from quoting.books.quote.quantities import quantities_sheet
from quoting.books.quote.terms import terms
from quoting.books.tongue import tongue_of
from quoting.estimating import Estimate, OrderEstimate
from quoting.record import ExpediteRecord


def quote_letter(
    estimate: Estimate,
    order: OrderEstimate,
    *,
    number: str,
    promise: Days | None = None,
    expedite: ExpediteRecord | None = None,
) -> Letter:
    """Return all that one customer's quote is printed from.

    `promise` gives by line id the day it is ready, or the days that are promised.
    """
    revision = estimate.revision
    return Letter(
        shop=estimate.shop,
        order=order,
        entries=entries_of(order),
        asked=customer_questions(order),
        number=number,
        today=estimate.today,
        promise=promise or {},
        expedite=expedite,
        revision=revision.number if revision else 1,
        changes=change_words(revision, order.order.file) if revision else (),
        tongue=tongue_of(order.order.language),
    )


def say_all(letter: Letter) -> None:
    """Say every text of a quote once; UnsaidError when its language has no words for one."""
    for part in (heading, items, amounts, waiting_words, terms, asks):
        part(letter)
    for line in quantity_lines(letter):
        line.note(letter.tongue)


def write_quote(
    estimate: Estimate,
    order: OrderEstimate,
    path: Path,
    *,
    number: str,
    promise: Days | None = None,
    expedite: ExpediteRecord | None = None,
) -> None:
    """Write one customer's quote to `path` (.xlsx): lines, quantity prices, questions and terms.

    Sizes are in the customer's own unit system. `promise` gives by line id the day it is ready, or the days
    that are promised. Only what the customer may know is handed to the sheets: no cost, rate, share or limit
    of a price.
    """
    letter = quote_letter(estimate, order, number=number, promise=promise, expedite=expedite)
    with new_book(
        path,
        paper=letter.shop.paper,
        created=letter.today,
        title=letter.title,
        author=letter.shop.name,
    ) as book:
        letter_sheet(book, letter)
        quantities_sheet(book, letter)
        questions_sheet(book, letter)


def write_quote_pdf(
    estimate: Estimate,
    order: OrderEstimate,
    path: Path,
    *,
    number: str,
    promise: Days | None = None,
    expedite: ExpediteRecord | None = None,
) -> None:
    """Write the same quote to `path` (.pdf)."""
    write_pdf(quote_letter(estimate, order, number=number, promise=promise, expedite=expedite), path)
