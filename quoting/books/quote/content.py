"""What a quote says, whoever prints it: the workbook and the PDF are written from the same words and numbers.

Only what the customer may know is in here: no cost, rate, share or limit of a price.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from quoting.books.look import Entry, NumberedQuestion, day_words
from quoting.books.quote.letter_source import Letter
from quoting.books.quote.notes import line_notes
from quoting.core import OrderLine, Question, State, part_words
from quoting.estimating import LineResult, Revision
from quoting.pricing import BreakPrice

Pairs = tuple[tuple[str, str], ...]

QUANTITY_WORDS = (
    "Each price is for the whole quantity ordered and made at once, planned anew for that quantity."
)
QUESTION_WORDS = "Lines wait for the answers marked with a star; the others say what we have assumed."


@dataclass(frozen=True, slots=True)
class QuoteItem:
    """One line: `price` is unit and extended, or None where `answer` says what stands there instead."""

    number: str
    part: str
    what: str
    quantity: int | str
    price: tuple[Decimal, Decimal] | None
    answer: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Amount:
    """One amount below the lines; `total` is the one that counts."""

    label: str
    money: Decimal
    total: bool = False


@dataclass(frozen=True, slots=True)
class QuantityLine:
    """The unit prices of one line at other quantities, with the reasons where they need one."""

    number: str
    part: str
    offers: tuple[BreakPrice, ...]

    @property
    def note(self) -> str:
        """Return why prices are held or rise, empty when nothing needs saying."""
        return " ".join(f"{offer.quantity:,} pc: {offer.note}." for offer in self.offers if offer.note)


@dataclass(frozen=True, slots=True)
class Ask:
    """One question: its number (starred when the line waits), line, what was read where, what we ask."""

    number: str
    line: str
    where: str
    asks: str
    id: str


def heading(letter: Letter) -> tuple[Pairs, Pairs]:
    """Return who asked, and number, day, validity and currency of the quote."""
    order = letter.order.order
    left = (
        ("For", order.customer),
        ("Contact", order.contact),
        ("Your inquiry", order.reference),
        ("Your file", order.file),
    )
    right = (
        ("Quote no.", letter.number),
        ("Date", day_words(letter.today)),
        ("Valid until", day_words(letter.valid_until)),
        ("Currency", letter.shop.rates.currency),
    )
    if letter.revision > 1:
        return (*left, ("", "")), (right[0], ("Revision", str(letter.revision)), *right[1:])
    return left, right


def change_words(revision: Revision, file: str) -> tuple[str, ...]:
    """Return what a revision changed for the customer, line by line; the reasons stay with us."""
    return tuple(
        f"Line {change.number}: {change.before}, now {change.after}."
        for change in revision.changes
        if change.public and change.order == file
    )


def items(letter: Letter) -> tuple[QuoteItem, ...]:
    """Return the lines in the customer's own order."""
    return tuple(_item(entry, letter) for entry in letter.entries)


def _item(entry: Entry, letter: Letter) -> QuoteItem:
    result = entry.result
    priced = entry.state is State.PRICED and result is not None and result.price is not None
    return QuoteItem(
        number=entry.number,
        part=_part(entry),
        what=_what(entry, letter),
        quantity=result.line.quantity if result else _read(entry, "quantity"),
        price=(result.price.unit, result.price.extended) if priced and result and result.price else None,
        answer="" if priced else "not quoted" if entry.state is State.NO_QUOTE else "to follow",
        notes=tuple(line_notes(entry, letter)),
    )


def _part(entry: Entry) -> str:
    return entry.result.line.part_no if entry.result else _read(entry, "part_no")


def _what(entry: Entry, letter: Letter) -> str:
    if entry.result:
        line = entry.result.line
        said = [part_words(line, inch=letter.inch), _given(line)]
        said += [line.description, f"revision {line.drawn_revision}" if line.drawn_revision else ""]
        return "; ".join(text for text in said if text)
    return f"As read: {entry.text}" if entry.text else "See your sheet"


_OWN_WAYS = ("chord", "rise", "circumference", "girth", "arc_length", "slant")


def _given(line: OrderLine) -> str:
    """Return a size the way the order gave it, where we turned it into another."""
    found = {reading.name: reading.text for reading in line.readings if reading.name in _OWN_WAYS}
    given = ", ".join(f"{name.replace('_', ' ')} {text}" for name, text in found.items())
    return f"given as {given}" if given else ""


def _read(entry: Entry, field: str) -> str:
    return dict(entry.draft.values).get(field, "") if entry.draft else ""


def amounts(letter: Letter) -> tuple[Amount, ...]:
    """Return what stands below the lines, the total last; nothing when no line has a price."""
    if not letter.priced:
        return ()
    total = letter.order.total
    rules = letter.shop.pricing
    rows = [Amount("Sum of the priced lines", total.lines)]
    if total.minimum_top_up:
        rows.append(Amount(f"Up to our least order of {rules.order_minimum:,.2f}", total.minimum_top_up))
    if rules.tax_share:
        if total.minimum_top_up:
            rows.append(Amount("Before tax", total.before_tax))
        rows.append(Amount(f"{rules.tax_name or 'Tax'}, {_percent(rules.tax_share)}", total.tax))
    return (*rows, Amount(f"Total {letter.shop.rates.currency}", total.total, total=True))


def waiting_words(letter: Letter) -> str:
    """Return that lines are not in the total because they wait, empty when none does."""
    waiting = sum(entry.state is State.QUESTION for entry in letter.entries)
    if not waiting:
        return ""
    if not letter.priced:
        return "No line can be priced before your answers."
    if waiting == 1:
        return "1 line waits for an answer and is not in the total."
    return f"{waiting} lines wait for an answer and are not in the total."


def quantity_lines(letter: Letter) -> tuple[QuantityLine, ...]:
    """Return the priced lines that have prices at other quantities."""
    found = [
        QuantityLine(entry.result.line.number, entry.result.line.part_no, _offers(entry.result, letter))
        for entry in letter.entries
        if entry.result and entry.state is State.PRICED
    ]
    return tuple(line for line in found if line.offers)


def _offers(result: LineResult, letter: Letter) -> tuple[BreakPrice, ...]:
    """Return the quantities that were asked for, or the shop's; the quoted one stands on the quote."""
    wanted = result.line.breaks or letter.shop.pricing.break_quantities
    return tuple(offer for offer in result.breaks if offer.quantity in wanted)


def asks(letter: Letter) -> tuple[Ask, ...]:
    """Return the questions, numbered as everywhere on this customer's papers."""
    numbers = {entry.result.line.id: entry.number for entry in letter.entries if entry.result}
    numbers |= {entry.draft.id: entry.number for entry in letter.entries if entry.draft}
    return tuple(_ask(item, numbers) for item in letter.asked)


def _ask(item: NumberedQuestion, numbers: Mapping[str, str]) -> Ask:
    question = item.question
    said = question.text
    if question.choices:
        said += "\n" + "\n".join(f"– {choice.label}" for choice in question.choices)
    if question.assumed:
        said += f"\nAssumed for now: {question.assumed}"
    return Ask(
        number=f"{item.number}{'*' if question.blocking else ''}",
        line=numbers.get(question.line, "all" if not question.line else ""),
        where=_where(question),
        asks=said,
        id=question.id,
    )


def _where(question: Question) -> str:
    """Return the cell, or the row, and what was read there."""
    place = question.place
    row = "" if place.row is None else str(place.row)
    cell = f"{place.column}{row}" if place.column else f"row {row}" if row else ""
    read = f"“{question.read}”" if question.read else ""
    return ": ".join(part for part in (cell, read) if part)


def _percent(share: Decimal) -> str:
    text = f"{share * 100:f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) + " %"
