"""Which files a quote run leaves, and what writes each of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import partial
from pathlib import Path

from quoting.books import (
    costing_name,
    customer_questions,
    questions_name,
    quote_name,
    spoken,
    write_costing,
    write_questions,
    write_quote,
    write_quote_pdf,
    write_reply,
)
from quoting.estimating import Estimate, first_day
from quoting.record import OrderRecord, PromiseRecord, RunRecord, record_text

Writer = Callable[[Path], None]


def quote_writers(
    found: Estimate,
    promise: Mapping[str, date | PromiseRecord],
    numbers: Sequence[str] = (),
    orders: Sequence[OrderRecord] = (),
) -> dict[str, Writer]:
    """Return a writer for every file name: quotes as workbook, PDF and mail draft, costing book, questions.

    `promise` gives by line id the day it is ready, or the days that are promised; `numbers` what
    each quote is called, else its day and place in the run. A revision has its number in every name.
    """
    found = spoken(found)
    suffix = f"-rev{found.revision.number}" if found.revision else ""
    writers: dict[str, Writer] = {}
    for index, order in enumerate(found.orders, 1):
        number = numbers[index - 1] if numbers else f"{first_day(found):%Y%m%d}-{index:02d}"
        expedite = orders[index - 1].expedite if orders else None
        name = quote_name(order).removesuffix(".xlsx")
        if f"{name}{suffix}.xlsx" in writers:  # two files of one name in two folders
            name = f"{name}-{index}"
        write, write_pdf = (
            partial(writer, found, order, number=number, promise=promise, expedite=expedite)
            for writer in (write_quote, write_quote_pdf)
        )
        writers[f"{name}{suffix}.xlsx"] = write
        writers[f"{name}{suffix}.pdf"] = write_pdf
        asks = order.order.language and customer_questions(order)
        attached = (f"{name}{suffix}.pdf", *((f"{name}{suffix}.xlsx",) if asks else ()))
        reply = partial(write_reply, found, order, number=number, attached=attached)
        writers[f"reply-{name.removeprefix('quote-')}{suffix}.eml"] = reply
    return writers | estimators_writers(found)


def estimators_writers(found: Estimate) -> dict[str, Writer]:
    """Return a writer for every book that stays in the shop and says nothing of days: costing, questions."""
    suffix = f"-rev{found.revision.number}" if found.revision else ""
    writers: dict[str, Writer] = {}
    writers[costing_name(found).replace(".xlsx", f"{suffix}.xlsx")] = partial(write_costing, found)
    if any(order.questions for order in found.orders):
        writers[questions_name(found).replace(".xlsx", f"{suffix}.xlsx")] = partial(write_questions, found)
    return writers


def record_writer(record: RunRecord) -> Writer:
    """Return what writes a record as JSON."""

    def write(path: Path) -> None:
        path.write_bytes(record_text(record))

    return write
