"""What a quote says, whoever prints it: the workbook and the PDF are written from the same words and numbers.

Only what the customer may know is in here: no cost, rate, share or limit of a price.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.books.look import Entry, NumberedQuestion
from quoting.books.quote.letter_source import Letter
from quoting.books.quote.notes import line_notes
from quoting.books.tongue import Tongue
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

    def note(self, tongue: Tongue) -> str:
        """Return why prices are held or rise, empty when nothing needs saying."""
        noted = [offer for offer in self.offers if offer.note]
        return " ".join(tongue.say(f"{offer.quantity:,} pc: {offer.note}.") for offer in noted)


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
    say = letter.tongue.say
    left = (
        (say("For"), order.customer),
        (say("Contact"), order.contact),
        (say("Your inquiry"), order.reference),
        (say("Your file"), order.file),
    )
    right = (
        (say("Quote no."), letter.number),
        (say("Date"), letter.short_day(letter.today)),
        # Without a price there is nothing that could be valid.
        (say("Valid until"), letter.short_day(letter.valid_until)) if letter.priced else ("", ""),
        (say("Currency"), letter.shop.rates.currency),
    )
    if letter.revision > 1:
        return (*left, ("", "")), (right[0], (say("Revision"), str(letter.revision)), *right[1:])
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
        answer=letter.tongue.say(
            "" if priced else "not quoted" if entry.state is State.NO_QUOTE else "to follow"
        ),
        notes=tuple(line_notes(entry, letter)),
    )


def _part(entry: Entry) -> str:
    return entry.result.line.part_no if entry.result else _read(entry, "part_no")


def _what(entry: Entry, letter: Letter) -> str:
    if entry.result:
        line = entry.result.line
        tongue = letter.tongue
        said = [tongue.say(part_words(line, inch=letter.inch)), _given(line, letter), line.description]
        if line.drawn_revision:
            said.append(tongue.put("revision {own}", own=line.drawn_revision))
        return "; ".join(text for text in said if text)
    if not entry.text:
        return letter.tongue.say("See your sheet")
    return letter.tongue.put("As read: {own}", own=entry.text)


_WORD = re.compile(r"[a-z]{2,}")
_OWN_WAYS = ("chord", "rise", "circumference", "girth", "arc_length", "slant")


def _given(line: OrderLine, letter: Letter) -> str:
    """Return a size the way the order gave it, where we turned it into another."""
    found = {reading.name: reading.text for reading in line.readings if reading.name in _OWN_WAYS}
    named = (_named(name.replace("_", " "), text, letter) for name, text in found.items())
    given = ", ".join(dict.fromkeys(named))
    return letter.tongue.put("given as {own}", own=given) if given else ""


def _named(name: str, text: str, letter: Letter) -> str:
    """Return a size with its name, which the order's own words may hold already."""
    return text if name in text.lower() else f"{letter.tongue.say(name)} {text}"


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
    own = f"{rules.tax_name or 'Tax'}, "
    said = [
        one if one.label.startswith(own) else replace(one, label=letter.tongue.say(one.label)) for one in rows
    ]
    whole = letter.tongue.put("Total {own}", own=letter.shop.rates.currency)
    return (*said, Amount(whole, total.total, total=True))


def waiting_words(letter: Letter) -> str:
    """Return that lines are not in the total because they wait for the customer or are checked by us."""
    checked = sum(entry.being_checked for entry in letter.entries)
    waiting = sum(entry.state is State.QUESTION for entry in letter.entries) - checked
    say = letter.tongue.say
    if waiting and not letter.priced:
        return say("No line can be priced before your answers.")
    words = []
    if waiting == 1:
        words.append(say("1 line waits for an answer and is not in the total."))
    elif waiting:
        words.append(say(f"{waiting} lines wait for an answer and are not in the total."))
    if checked and letter.priced:
        words.append(say("Lines that we are checking on our side are not in the total."))
    return " ".join(words)


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
    return tuple(_ask(item, numbers, letter) for item in letter.asked)


def choice_said(label: str, letter: Letter) -> str:
    """Return a choice in the customer's language; grades and bare sizes are names everywhere."""
    named = any(material.key == label for material in letter.shop.materials)
    return label if named or not _WORD.search(label) else letter.tongue.say(label)


def _ask(item: NumberedQuestion, numbers: Mapping[str, str], letter: Letter) -> Ask:
    question, tongue = item.question, letter.tongue
    said = tongue.say(question.text)
    if question.choices:
        said += "\n" + "\n".join(f"– {choice_said(choice.label, letter)}" for choice in question.choices)
    if question.assumed:
        said += "\n" + tongue.put("Assumed for now: {what}", what=tongue.say(question.assumed))
    return Ask(
        number=f"{item.number}{'*' if question.blocking else ''}",
        line=numbers.get(question.line, tongue.say("all") if not question.line else ""),
        where=_where(question, tongue),
        asks=said,
        id=question.id,
    )


def _where(question: Question, tongue: Tongue) -> str:
    """Return the cell, or the row, and what was read there."""
    place = question.place
    row = "" if place.row is None else str(place.row)
    cell = f"{place.column}{row}" if place.column else tongue.say(f"row {row}") if row else ""
    read = f"“{question.read}”" if question.read else ""
    return ": ".join(part for part in (cell, read) if part)


def _percent(share: Decimal) -> str:
    text = f"{share * 100:f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) + " %"
