"""A customer's lines in the customer's own order: priced, waiting and no-quote side by side."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from quoting.core import Draft, Place, Question, SheetRow, State
from quoting.estimating import LineResult, OrderEstimate

Cell: TypeAlias = tuple[str, str, int | None, str]


@dataclass(frozen=True, slots=True)
class NumberedQuestion:
    """A question with the number it has on this customer's papers."""

    number: int
    question: Question


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the customer's sheet as the quote answers it; `text` is the row as it was read."""

    number: str
    place: Place
    state: State
    text: str
    reason: str = ""
    result: LineResult | None = None
    draft: Draft | None = None
    asked: tuple[NumberedQuestion, ...] = ()

    @property
    def being_checked(self) -> bool:
        """Return whether the line waits for the shop alone: an answer of its own, or a plate's price."""
        waiting = [item.question for item in self.asked if item.question.blocking]
        own = bool(waiting) and all(one.for_shop for one in waiting)
        return self.state is State.QUESTION and (own or (self.result is not None and not waiting))


def numbered_questions(order: OrderEstimate) -> tuple[NumberedQuestion, ...]:
    """Return all questions numbered from 1 in sheet order, the ones that a line waits for first.

    Those that only the shop can answer come last, so that the customer's have no gap in their numbers.
    """
    where = _positions(order)

    def key(question: Question) -> tuple[bool, bool, tuple[int, int]]:
        return question.for_shop, not question.blocking, where(question.place)

    return tuple(
        NumberedQuestion(number, question)
        for number, question in enumerate(sorted(order.questions, key=key), 1)
    )


def customer_questions(order: OrderEstimate) -> tuple[NumberedQuestion, ...]:
    """Return the questions that the customer can answer, with their numbers."""
    return tuple(item for item in numbered_questions(order) if not item.question.for_shop)


def entries_of(order: OrderEstimate) -> tuple[Entry, ...]:
    """Return every line of the order once, in the order of the customer's sheet.

    A row that asks for something but became no line (it could not be read at all) is kept too.
    """
    asked = numbered_questions(order)
    rows = {row.place.cell: row for row in order.rows}
    known = {result.line.id for result in order.lines}
    found = [_of_result(result, rows, asked) for result in order.lines]
    found += [_of_draft(draft, rows, asked) for draft in order.order.drafts if draft.id not in known]
    covered = {entry.place.cell for entry in found}
    found += [
        _of_row(row, asked)
        for row in order.rows
        if row.state in (State.QUESTION, State.NO_QUOTE) and row.place.cell not in covered
    ]
    where = _positions(order)
    return tuple(sorted(found, key=lambda entry: where(entry.place)))


def _of_result(
    result: LineResult, rows: Mapping[Cell, SheetRow], asked: tuple[NumberedQuestion, ...]
) -> Entry:
    line = result.line
    row = rows.get(line.place.cell)
    return Entry(
        number=line.number,
        place=line.place,
        state=result.state,
        text=row.text if row else line.description,
        reason=result.reason,
        result=result,
        asked=tuple(item for item in asked if item.question.line == line.id),
    )


def _of_draft(draft: Draft, rows: Mapping[Cell, SheetRow], asked: tuple[NumberedQuestion, ...]) -> Entry:
    row = rows.get(draft.place.cell)
    read = row.text if row and row.text else ", ".join(reading.text for reading in draft.readings)
    return Entry(
        number=draft.number,
        place=draft.place,
        state=State.QUESTION,
        text=read,
        reason=row.reason if row else "",
        draft=draft,
        asked=tuple(item for item in asked if item.question.line == draft.id or _shops(item.question, draft)),
    )


def _shops(question: Question, draft: Draft) -> bool:
    """Return whether a question is one that only the shop can answer, about several lines, this one too."""
    name = question.id.rpartition("/")[2]
    waits = dict(draft.values).get("waits", "")
    return question.for_shop and not question.line and name in waits.split(",")


def _of_row(row: SheetRow, asked: tuple[NumberedQuestion, ...]) -> Entry:
    here = row.place.whole_row
    own = tuple(item for item in asked if item.question.line and item.question.place.whole_row == here)
    return Entry(row.number, row.place, row.state, row.text, reason=row.reason, asked=own)


def _positions(order: OrderEstimate) -> Callable[[Place], tuple[int, int]]:
    """Return where a place stands in the file: its sheet's position, then its row."""
    sheets = list(dict.fromkeys(row.place.sheet for row in order.rows))

    def position(place: Place) -> tuple[int, int]:
        sheet = sheets.index(place.sheet) if place.sheet in sheets else len(sheets)
        return sheet, place.row or 0

    return position
