"""The customer's sheet in, order lines and questions out."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from quoting.core import InputError, Order, Place, Question, SheetRow, State, column_letters, shown_name
from quoting.intake.answers import resolve
from quoting.intake.layout import CustomerMap, Layout, check_columns, heading_of, reshaped, who_asks
from quoting.intake.legends import recognising
from quoting.intake.lines import WHOLE, SheetWork, note_questions, whole_file_questions
from quoting.intake.words import in_own_words, translated
from quoting.shop import Shop, materials_of
from quoting.tables import PACKED, UNPACK, Limits, Sheet, is_empty, read_sheets, text_of


@dataclass(frozen=True, slots=True)
class Sender:
    """Who sent the sheet, as far as is known: the customer's name, and the columns and defaults pinned."""

    name: str | None = None
    pinned: CustomerMap | None = None


UNKNOWN = Sender()


def read_orders(
    path: str | os.PathLike[str],
    shop: Shop,
    *,
    today: date,
    sender: Sender = UNKNOWN,
    answers: Mapping[str, str] | None = None,
    limits: Limits | None = None,
    prefix: str = "",
) -> Order:
    """Return all that a customer's file says: complete lines, questions, and the account of every row.

    `today` decides which dates are past. `prefix` goes before line
    ids and question ids ("A-10"). Raises InputError when the file cannot be read, breaks a limit, or holds no
    table of parts.
    """
    file = shown_name(Path(path))
    with _collector_paused():
        sheets = read_sheets(path, limits or Limits())
        order = order_of(sheets, shop, today=today, file=file, sender=sender, prefix=prefix)
        return resolve(order, answers, shop) if answers else order


@contextmanager
def _collector_paused() -> Iterator[None]:
    """Pause the cyclic garbage collector: the many values of a long sheet hold no cycles.

    Measured: a quarter of the time of 10,000 rows went into looking for some. What was made meanwhile goes to
    the oldest generation unseen (freeze, unfreeze), or the first look after the pause goes over all of it.
    """
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.freeze()
            gc.unfreeze()
            gc.enable()


def read_all(
    paths: Sequence[str | os.PathLike[str]],
    shop: Shop,
    *,
    today: date,
    sender: Sender = UNKNOWN,
    answers: Mapping[str, str] | None = None,
    limits: Limits | None = None,
    prefixes: Sequence[str] | None = None,
) -> tuple[Order, ...]:
    """Return the orders of several files; line ids carry a letter for their file, or the given prefix.

    A file that cannot be used is refused by itself, as an order that only asks for it again; InputError when
    none can be used.
    """
    found: list[Order] = []
    refused: list[InputError] = []
    for index, path in enumerate(paths):
        prefix = prefixes[index] if prefixes else f"{column_letters(index)}-"
        try:
            order = read_orders(
                path,
                shop,
                today=today,
                sender=sender,
                answers=answers,
                limits=limits,
                prefix=prefix,
            )
        except InputError as error:
            refused.append(error)
            order = _refused(shown_name(Path(path)), error, sender.name or "", prefix)
        found.append(order)
    if refused and len(refused) == len(found):
        raise refused[0]
    return tuple(found)


def _refused(file: str, error: InputError, customer: str, prefix: str) -> Order:
    """Return the order of a file that cannot be used: one row that says why, and a question."""
    place = error.place or Place(file)
    asked = f"This file could not be quoted: {error}. Please send it again."
    question = Question(f"{prefix}{WHOLE}/file", "", place, "", asked)
    row = SheetRow(place, State.NO_QUOTE, "", f"refused: {error}")
    return Order(file, customer or Path(file).stem, questions=(question,), rows=(row,))


def order_of(
    sheets: Sequence[Sheet],
    shop: Shop,
    *,
    today: date,
    file: str,
    sender: Sender = UNKNOWN,
    prefix: str = "",
) -> Order:
    """Return the order of sheets already read; raises InputError when no sheet holds a table of parts."""
    pinned = sender.pinned or CustomerMap()
    read = translated(sheets)
    before, sheets = sheets, read.sheets
    work = SheetWork(shop, today, prefix, materials_of(shop), pinned)
    turned = [reshaped(one, recognising(one, pinned.meaning), work.materials) for one in sheets]
    sheets, layouts = tuple(sheet for sheet, _ in turned), [layout for _, layout in turned]
    if not any(layout.tables for sheet, layout in zip(sheets, layouts, strict=True) if not sheet.hidden):
        raise _no_table(sheets, file)
    work.foreign = read.language
    work.translation = read
    work.statements.as_written = read.own
    work.survey(sheets, layouts)
    for sheet, layout in zip(sheets, layouts, strict=True):
        work.sheet(sheet, layout)
    asks = who_asks([sheet for sheet in before if not sheet.hidden])
    head = heading_of(work.pairs, work.notes, Path(file).stem, asks)
    work.statements.told_who_asks(asks.cells)
    name = sender.name or head.customer
    if not work.records and not any(row.state is State.NO_QUOTE for row in work.rows):
        raise _no_lines(sheets, layouts)
    if head.reply_to:
        work.statements.known(head.reference, head.contact, work.materials)
    check_columns(work.tables, [record for record, _ in work.records])
    parts, shared = work.finish(name)
    rows = [*work.rows, *(part.row for part in parts)]
    questions = [question for part in parts for question in part.questions]
    order = Order(
        file=file,
        customer=name,
        reference=head.reference,
        contact=head.contact,
        lines=tuple(part.line for part in parts if part.line is not None),
        questions=(
            *questions,
            *whole_file_questions(
                parts,
                prefix,
                shop.default_ends,
                work.materials.in_family(None),
                (
                    *shared,
                    *(ask.question(prefix) for ask in work.column_asks),
                    *note_questions(work.statements, prefix, parts[0].row.place if parts else Place(file)),
                ),
            ),
        ),
        rows=tuple(sorted(rows, key=lambda row: (work.order[row.place.sheet], row.place.row or 0))),
        notes=tuple(work.notes),
        metric=work.metric > 0,
        drafts=tuple(part.draft for part in parts),
        reply_to=head.reply_to,
        message_id=head.message_id,
        terms=tuple(work.statements.terms),
    )
    return in_own_words(order, before, read.sheets)


def _no_lines(sheets: Sequence[Sheet], layouts: Sequence[Layout]) -> InputError:
    """Return the error for tables that have headers and nothing under them."""
    sheet, layout = next(pair for pair in zip(sheets, layouts, strict=True) if pair[1].tables)
    return InputError(
        "the table has a row of headers and no lines under it",
        place=sheet.place(layout.tables[0].first_row),
        would_do="ask for the sheet again",
    )


def _no_table(sheets: Sequence[Sheet], file: str) -> InputError:
    """Return the error for a file without a table: it is empty, or which headers are missing."""
    filled = [sheet for sheet in sheets if any(not is_empty(cell) for row in sheet.rows for cell in row)]
    if not filled:
        return InputError(
            "the file has no filled cells", place=Place(file), would_do="ask for the sheet again"
        )
    texts = [text_of(cell) for sheet in filled for row in sheet.rows for cell in row[:1]]
    unread = [text for text in texts if text.startswith("attachment not read")]
    if unread:
        packed = any(f"files of kind {kind}" in text for text in unread for kind in PACKED)
        unpack = f"{UNPACK}, or " if packed else ""
        return InputError(
            f"no table of parts was found in the mail; {'; '.join(unread)[:300]}",
            place=Place(file),
            would_do=f"{unpack}ask for the order sheet as .xlsx, .csv or a PDF with text",
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
