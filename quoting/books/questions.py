"""The questions of a run as a workbook: a table to fill in, and the mail to send."""

from __future__ import annotations

import re
from dataclasses import replace
from email.utils import parseaddr
from pathlib import Path

from quoting.books.look import (
    Book,
    BookColumn,
    BookSheet,
    NumberedQuestion,
    customer_questions,
    day_words,
    entries_of,
    new_book,
    numbered_questions,
)
from quoting.books.tongue import ENGLISH, Tongue, tongue_of
from quoting.core import Question, first_few, format_length, format_weight
from quoting.estimating import NOT_IN_RACK, ChoiceWorth, Estimate, OrderEstimate

COLUMNS = (
    BookColumn("Line", 9, "line"),
    BookColumn("Cell", 20),
    BookColumn("What was read", 24),
    BookColumn("Question", 44),
    BookColumn("Choices", 34),
    BookColumn("Answer", 26),
    BookColumn("Question id", 15, "quiet"),
)
_WANTED = (
    BookColumn("Grade", 20),
    BookColumn("Thickness", 14),
    BookColumn("Blanks, each width x length", 40),
    BookColumn("Weight of the blanks", 20),
    BookColumn("Lines", 50, "quiet"),
)
_MOST_BLANKS, _MOST_LINES = 12, 24
ANSWER = 5
_WORD = re.compile(r"[a-z]{2,}")
_HEAD = 3
_LONGEST_LIST = 255
"""Characters that a drop-down list of given words may have (limit of the file format)."""


def write_questions(estimate: Estimate, path: Path, *, for_customer: bool = False) -> None:
    """Write the open questions of all customers to `path` (.xlsx), with a mail text for each customer.

    The column "Answer" is empty; the ids beside it tell which question was answered when the book comes back.
    With `for_customer` it is what a mail brings along: without what only the shop can answer, answers that
    were not taken, and the mail text; what a choice is worth only where the shop's book says so.
    """
    with new_book(
        path,
        paper=estimate.shop.paper,
        created=estimate.today,
        title="Questions",
        author=estimate.shop.name,
    ) as book:
        _questions_sheet(book, estimate, for_customer=for_customer)
        if estimate.wanted and not for_customer:
            _wanted_sheet(book, estimate)
        if not for_customer:
            _mail_sheet(book, estimate)


def _questions_sheet(book: Book, estimate: Estimate, *, for_customer: bool) -> None:
    footer = f"{estimate.shop.name} · {day_words(estimate.today)}"
    sheet = book.sheet("Questions", [column.width for column in COLUMNS], footer=footer)
    sheet.text(0, 0, "Questions before we can price", "title line")
    then = "send this list back" if for_customer else "run again with this book"
    words = f"Lines wait for questions marked *. Choose or type the answer in the boxed column and {then}."
    sheet.wide(1, 0, len(COLUMNS) - 1, words, "quiet")
    sheet.heads(_HEAD, COLUMNS)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 0)
    row = _HEAD + 1
    for order in estimate.orders:
        asked = customer_questions(order) if for_customer else numbered_questions(order)
        if not asked:
            continue
        name = f"{order.order.customer}: {order.order.file}"
        sheet.wide(row, 0, len(COLUMNS) - 1, name, "section")
        row += 1
        numbers = _line_numbers(order)
        for item in asked:
            if for_customer:
                text, choices = item.question.text, told_choices(estimate, order, item.question)
            else:
                text, choices = item.question.told, choice_words(estimate, order, item.question)
            _question(sheet, row, item.question, _line_name(item.question, numbers), text, choices)
            row += 1
    if row == _HEAD + 1:
        sheet.text(row, 0, "No open questions.", "line")


def _wanted_sheet(book: Book, estimate: Estimate) -> None:
    """Write what to ask a merchant for: plates in no list, with their blanks; in mm what is only
    asked for by orders in mm."""
    shop = estimate.shop
    footer = f"{shop.name} · {day_words(estimate.today)}"
    sheet = book.sheet("Plates to ask for", [column.width for column in _WANTED], footer=footer)
    sheet.text(0, 0, "Plates to ask a merchant for", "title line")
    words = (
        "Lines wait for plates that are in no list of ours. Put the sizes and prices that are offered among "
        "the sizes to buy in rack.xlsx, and run again. Blanks are as developed, each in one piece."
    )
    inches = {line for order in estimate.orders if not order.order.metric for line in _line_numbers(order)}
    sheet.wide(1, 0, len(_WANTED) - 1, words, "quiet")
    sheet.heads(_HEAD, _WANTED)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 0)
    for row, plate in enumerate(estimate.wanted, _HEAD + 1):
        inch = not inches.isdisjoint(plate.lines)
        blanks = [
            f"{count} x {format_length(width, inch=inch)} x {format_length(length, inch=inch)}"
            for count, width, length in plate.blanks
        ]
        sheet.text(row, 0, plate.material, "text rule")
        sheet.text(row, 1, format_length(plate.thickness_mm, inch=inch), "text rule")
        if len(blanks) > _MOST_BLANKS:
            blanks = [*blanks[:_MOST_BLANKS], f"and {len(blanks) - _MOST_BLANKS} more sizes"]
        sheet.text(row, 2, "\n".join(blanks), "text rule")
        sheet.text(row, 3, format_weight(plate.weight_kg, inch=inch), "text rule")
        sheet.text(row, 4, first_few(plate.lines, _MOST_LINES), "quiet rule")


def _line_numbers(order: OrderEstimate) -> dict[str, str]:
    numbers = {draft.id: draft.number for draft in order.order.drafts}
    return numbers | {result.line.id: result.line.number for result in order.lines}


def _line_name(question: Question, numbers: dict[str, str]) -> str:
    return numbers.get(question.line, question.line) if question.line else "all"


_NO_PRICE = "we would first have to ask for the price of the plate"


def choice_words(
    estimate: Estimate, order: OrderEstimate, question: Question, tongue: Tongue = ENGLISH
) -> list[str]:
    """Return the choices, each with its price and blank where those tell them apart."""
    worths = {worth.label: worth for worth in estimate.worth.get(question.id, ())}
    currency = estimate.shop.rates.currency
    inch = not order.order.metric
    change = not question.blocking
    labels = [choice.label for choice in question.choices]
    told = [f"{label}{_worth_words(worths.get(label), currency, inch, change=change)}" for label in labels]
    return [_in_tongue(text, label, estimate, tongue) for text, label in zip(told, labels, strict=True)]


def told_choices(
    estimate: Estimate, order: OrderEstimate, question: Question, tongue: Tongue = ENGLISH
) -> list[str]:
    """Return the choices as the customer gets them: with what each adds only where the shop wants it told."""
    if not estimate.shop.letter.choice_worths:
        estimate = replace(estimate, worth={})
    return choice_words(estimate, order, question, tongue)


def _in_tongue(text: str, label: str, estimate: Estimate, tongue: Tongue) -> str:
    """Return a choice with its worth in a customer's language: the label said, or a name as it is."""
    if not tongue.entries:
        return text
    named = not _WORD.search(label) or any(one.key == label for one in estimate.shop.materials)
    said = label if named else tongue.say(label)
    return tongue.say(f"\0{text.removeprefix(label)}").replace("\0", said) if text != label else said


def _worth_words(worth: ChoiceWorth | None, currency: str, inch: bool, *, change: bool) -> str:
    """Return what a choice adds to the total; of a line that is priced already, by how much it changes."""
    if worth is None:
        return ""
    if worth.price is None:
        return f": {_NO_PRICE if worth.problem == NOT_IN_RACK else 'we could not do it'}"
    blank = ""
    if worth.blank_width_mm and worth.blank_length_mm:
        width, length = (format_length(mm, inch=inch) for mm in (worth.blank_width_mm, worth.blank_length_mm))
        blank = f", blank {width} x {length}"
    without = f", {worth.problem}" if worth.problem else ""
    sign = "+" if change else ""
    about = "" if worth.exact else "about "
    return f": {about}{worth.price:{sign},.0f} {currency}{blank}{without}"


def _question(
    sheet: BookSheet, row: int, question: Question, line: str, text: str, choices: list[str]
) -> None:
    place = question.place
    mark = "*" if question.blocking else ""
    sheet.text(row, 0, f"{line}{mark}", "line rule")
    cell = f"{place.column}{place.row or ''}"
    where = ", ".join(part for part in (place.sheet, cell, place.header) if part)
    sheet.text(row, 1, where, "quiet rule")
    sheet.text(row, 2, question.read, "text rule")
    assumed = f"\nAssumed for now: {question.assumed}" if question.assumed else ""
    sheet.text(row, 3, text + assumed, "text rule")
    sheet.text(row, 4, "\n".join(choices), "text rule")
    sheet.fill(row, (ANSWER,), "text rule input")
    sheet.text(row, 6, question.id, "quiet rule")
    _offer(sheet, row, [choice.label for choice in question.choices])


def _offer(sheet: BookSheet, row: int, labels: list[str]) -> None:
    """Offer the choices as a drop-down list; any other answer may be typed."""
    fits = labels and len(",".join(labels)) <= _LONGEST_LIST
    if fits and not any("," in label or label[:1] == "=" for label in labels):
        rule = {"validate": "list", "source": labels, "error_type": "information", "show_error": False}
        sheet.raw.data_validation(row, ANSWER, row, ANSWER, rule)


def _mail_sheet(book: Book, estimate: Estimate) -> None:
    sheet = book.sheet("Mail", (100,), landscape=False, footer=estimate.shop.name)
    sheet.text(0, 0, "Mail text, one for each customer: copy the rows below its name", "title line")
    row = 2
    for order in estimate.orders:
        if not customer_questions(order):
            continue
        sheet.text(row, 0, order.order.customer, "section")
        for text in mail_text(estimate, order, tongue_of(order.order.language)).split("\n"):
            row += 1
            sheet.text(row, 0, text)
        row += 2


def mail_text(estimate: Estimate, order: OrderEstimate, tongue: Tongue = ENGLISH) -> str:
    """Return the plain text of the mail to one customer; questions numbered as on the quote."""
    subject = tongue.put("Subject: {own}: questions", own=order.order.reference or order.order.file)
    text = [subject, "", greeting(order, tongue), "", tongue.say("Thank you for your inquiry.")]
    text += asked_words(estimate, order, tongue)
    if checked := checked_words(order):
        text += ["", tongue.say(checked)]
    rest = tongue.say("The other lines are on our quotation. A short answer by number is enough.")
    return "\n".join([*text, "", rest, "", tongue.say("Kind regards"), estimate.shop.name])


def greeting(order: OrderEstimate, tongue: Tongue = ENGLISH) -> str:
    """Return how a mail to the customer begins; a mail address in the contact is no name."""
    contact = order.order.contact
    name = parseaddr(contact)[0] if "@" in contact else contact
    return tongue.put("Hello {own},", own=name) if name else tongue.say("Hello,")


def checked_words(order: OrderEstimate) -> str:
    """Return that lines wait for the shop itself, empty when none does."""
    checked = any(entry.being_checked for entry in entries_of(order))
    return "Some lines we are still checking on our side; the attached paper says which." if checked else ""


def asked_words(estimate: Estimate, order: OrderEstimate, tongue: Tongue = ENGLISH) -> list[str]:
    """Return the questions that the customer can answer, below a sentence that says what they hold up."""
    numbers = _line_numbers(order)
    waiting = sum(entry.result is None and not entry.being_checked for entry in entries_of(order))
    opening = "Before we can price all of it we need to know:"
    if not waiting:
        opening = "We have priced it on these assumptions; please confirm them:"
    text = [tongue.say(opening), ""]
    for item in customer_questions(order):
        text += _asked_lines(item, numbers, told_choices(estimate, order, item.question, tongue), tongue)
    return text


def _asked_lines(
    item: NumberedQuestion, numbers: dict[str, str], choices: list[str], tongue: Tongue
) -> list[str]:
    question, say, put = item.question, tongue.say, tongue.put
    name = say("whole inquiry" if not question.line else f"line {_line_name(question, numbers)}")
    read = ""
    if question.read and question.read not in question.text:
        read = " " + put('(your sheet says "{own}")', own=question.read)
    lines = [f"{item.number}. {name}: {say(question.text)}{read}"]
    lines += [f"   {chr(97 + index)}) {choice}" for index, choice in enumerate(choices[:26])]
    assumed = put("We have assumed: {what}", what=say(question.assumed)) if question.assumed else ""
    return [*lines, f"   {assumed}"] if assumed else lines
