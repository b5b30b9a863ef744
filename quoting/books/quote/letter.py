"""The first sheet of a quote: who, what, how much, until when, and on what terms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from quoting.books.entries import Asked, Entry
from quoting.books.pages import Pages
from quoting.books.quote.terms import delivery_words, terms
from quoting.books.style import Book, Column, Sheet
from quoting.books.text import listed
from quoting.books.words import day_words
from quoting.forming import Verdict
from quoting.forming.demands import NAMES, Row
from quoting.parts import State
from quoting.result import LineResult, OrderEstimate
from quoting.shop import Shop
from quoting.units import format_length
from quoting.words import ends_words, part_words

COLUMNS = (
    Column("Line", 7, "line"),
    Column("Part", 14, "text"),
    Column("What you get", 50, "text"),
    Column("Qty", 7, "whole"),
    Column("Unit price", 12, "money"),
    Column("Extended", 13, "money"),
)
LAST = len(COLUMNS) - 1
_TOO_TIGHT = "the diameter is tighter than our rolls can close"
_IN_PLAIN_WORDS = {
    NAMES[row][0]: words
    for row, words in (
        (Row.WIDTH, "it is wider than our rolls"),
        (Row.THICKEST, "the plate is thicker than our rolls open to"),
        (Row.THINNEST, "the plate is thinner than our rolls can grip"),
        (Row.LEAST_DIAMETER, _TOO_TIGHT),
        (Row.TOP_ROLL_FIT, _TOO_TIGHT),
        (Row.ROOM, _TOO_TIGHT),
        (Row.WEIGHT, "the piece is heavier than our rolls can carry"),
        (Row.CONES, "our rolls for this size do not roll cones"),
        (Row.PRE_BEND, "our rolls cannot pre-bend the ends of this plate"),
    )
}
_SCALE = 86
_PAGE_POINTS = 800.0
"""Rows that one portrait page holds at this scale, on the shorter of Letter and A4."""
PART, WHAT, QUANTITY, UNIT, EXTENDED = 1, 2, 3, 4, 5


@dataclass(frozen=True, slots=True)
class Letter:
    """All that the quote of one order is printed from."""

    shop: Shop
    order: OrderEstimate
    entries: tuple[Entry, ...]
    asked: tuple[Asked, ...]
    number: str
    today: date
    promise: Mapping[str, date]

    @property
    def inch(self) -> bool:
        """Return whether the customer reads inches."""
        return not self.order.order.metric

    @property
    def valid_until(self) -> date:
        """Return the last day the prices stand."""
        return self.today + timedelta(days=self.shop.pricing.validity_days)

    @property
    def footer(self) -> str:
        """Return what stands at the foot of every page."""
        return f"{self.shop.name} · Quotation {self.number}"


def letter_sheet(book: Book, letter: Letter) -> None:
    """Write the sheet "Quote"."""
    sheet = book.sheet(
        "Quote", [column.width for column in COLUMNS], landscape=False, footer=letter.footer, fit=False
    )
    sheet.raw.set_print_scale(_SCALE)
    pages = Pages(sheet, _PAGE_POINTS)
    row = _head(sheet, letter)
    sheet.heads(row, COLUMNS)
    row += 1
    for entry in letter.entries:
        row = _entry(pages, row, entry, letter)
    first, row = row, _totals(sheet, row, letter)
    pages.keep(first, row - 1)
    for heading, points in terms(letter):
        first, row = row, _block(sheet, row + 1, heading, points)
        pages.keep(first + 1, row - 1)
    pages.finish(row - 1, LAST)


def _head(sheet: Sheet, letter: Letter) -> int:
    order = letter.order.order
    sheet.wide(0, 0, WHAT, letter.shop.name, "title")
    sheet.wide(0, QUANTITY, LAST, "Quotation", "title right")
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
    for row, ((name, value), (other, shown)) in enumerate(zip(left, right, strict=True), 2):
        sheet.wide(row, 0, PART, name if value else "", "quiet")
        sheet.text(row, WHAT, value, "bold" if row == 2 else "text")
        sheet.wide(row, QUANTITY, UNIT, other, "quiet right")
        sheet.text(row, EXTENDED, shown, "line right")
    return 7


def _entry(pages: Pages, row: int, entry: Entry, letter: Letter) -> int:
    sheet = pages.sheet
    notes = _notes(entry, letter)
    if not pages.fits(row, _entry_points(sheet, entry, notes, letter)):
        pages.start_page(row)
        sheet.heads(row, COLUMNS)
        row += 1
    sheet.text(row, 0, entry.number, "line rule")
    sheet.text(row, PART, _part(entry), "text rule")
    sheet.text(row, WHAT, _what(entry, letter), "text rule")
    result = entry.result
    if result is None:
        sheet.text(row, QUANTITY, _read(entry, "quantity"), "right rule")
    else:
        sheet.number(row, QUANTITY, result.line.quantity, "whole rule")
    _price(sheet, row, entry)
    for note in notes:
        row += 1
        sheet.wide(row, WHAT, LAST, note, "quiet")
    return row + 1


def _entry_points(sheet: Sheet, entry: Entry, notes: list[str], letter: Letter) -> float:
    across = sheet.across(WHAT, LAST)
    first = sheet.height(_what(entry, letter), sheet.widths[WHAT], "text")
    return max(15.0, first) + sum(max(15.0, sheet.height(note, across, "quiet")) for note in notes)


def _part(entry: Entry) -> str:
    return entry.result.line.part_no if entry.result else _read(entry, "part_no")


def _what(entry: Entry, letter: Letter) -> str:
    if entry.result:
        return part_words(entry.result.line, inch=letter.inch)
    return f"As read: {entry.text}" if entry.text else "See your sheet"


def _read(entry: Entry, field: str) -> str:
    return dict(entry.draft.values).get(field, "") if entry.draft else ""


def _price(sheet: Sheet, row: int, entry: Entry) -> None:
    result = entry.result
    if entry.state is State.PRICED and result and result.price:
        sheet.number(row, UNIT, result.price.unit, "money rule")
        sheet.number(row, EXTENDED, result.price.extended, "money rule")
        return
    words = "not quoted" if entry.state is State.NO_QUOTE else "to follow"
    sheet.fill(row, (UNIT,), "line rule")
    sheet.text(row, EXTENDED, words, "bold right rule")


def _notes(entry: Entry, letter: Letter) -> list[str]:
    result = entry.result
    notes: list[str] = []
    waiting = [item for item in entry.asked if item.question.blocking]
    if entry.state is State.QUESTION:
        numbers = listed([str(item.number) for item in waiting])
        if waiting:
            asks = " ".join(item.question.text for item in waiting)
            notes.append(f"We need to know (question {numbers}): {asks}")
        else:
            notes.append(f"We need to know: {entry.reason or 'what is wanted on this line'}")
    if entry.state is State.NO_QUOTE:
        notes += _declined(entry, letter)
    if entry.state is State.PRICED and result:
        notes += _made(result, letter)
    return notes


def _declined(entry: Entry, letter: Letter) -> list[str]:
    reason = _polite(entry)
    notes = [f"Thank you for asking. We cannot make this line as it stands: {reason}."]
    nearest = (
        nearest_words(entry.result, inch=letter.inch, shop_inch=letter.shop.inch) if entry.result else ()
    )
    if nearest:
        notes.append("The nearest we can do: " + "; or ".join(nearest) + ". Tell us and we will quote it.")
    return notes


def _polite(entry: Entry) -> str:
    """Return the reason in words for a customer: the limit, not how our machines are loaded."""
    route = entry.result.route if entry.result else None
    if route is None or route.ok:
        return entry.reason.rstrip(".")
    limit = route.governing.verdict.limit
    return _IN_PLAIN_WORDS.get(limit, "it takes more force than our rolls have")


def nearest_words(result: LineResult, *, inch: bool, shop_inch: bool) -> tuple[str, ...]:
    """Return what would work instead, each once, in the customer's own unit system."""

    def size(mm: float) -> str:
        return format_length(mm, inch=inch)

    ways: dict[str, None] = {}
    ours: set[str] = set()
    for route in result.routes:
        verdict = route.governing.verdict
        if not route.ok:
            ways |= dict.fromkeys(verdict.ways_out_in(size))
            ours |= {f"{route.roll}: {way}" for way in _shop_ways(verdict, shop_inch)}
    others = [text.partition(": ")[2] or text for text in result.nearest if text not in ours]
    return (*dict.fromkeys(text.removeprefix("would do it ") for text in others), *ways)


def _shop_ways(verdict: Verdict, inch: bool) -> tuple[str, ...]:
    """Return the ways out as the shop reads them, to tell them from offers of another kind."""
    return verdict.ways_out_in(lambda mm: format_length(mm, inch=inch))


def _made(result: LineResult, letter: Letter) -> list[str]:
    notes: list[str] = []
    assumed = [
        *dict.fromkeys(
            (
                *result.line.assumptions,
                *_assumed(result, letter),
                *(item.question.assumed for item in _own(result, letter) if item.question.assumed),
            )
        )
    ]
    if assumed:
        notes.append("Assumed: " + "; ".join(assumed) + ".")
    if result.line.tolerance:
        notes.append(f"Tolerance asked for: {result.line.tolerance}; confirmed with the order.")
    delivery = delivery_words(result.line, letter.promise)
    return [*notes, delivery] if delivery else notes


def _assumed(result: LineResult, letter: Letter) -> list[str]:
    """Return the line's assumptions, the flats in the customer's own unit system."""
    route = result.route
    if route is None:
        return list(result.assumptions)
    shop_words, own_words = (ends_words(route, inch=inch) for inch in (letter.shop.inch, letter.inch))
    # How hard a roll is worked is the shop's own matter.
    ours = {flag for rolling in route.rollings for flag in rolling.verdict.flags}
    return [own_words if text == shop_words else text for text in result.assumptions if text not in ours]


def _own(result: LineResult, letter: Letter) -> list[Asked]:
    return [
        item for item in letter.asked if item.question.line == result.line.id and not item.question.blocking
    ]


def _totals(sheet: Sheet, row: int, letter: Letter) -> int:
    total = letter.order.total
    rules = letter.shop.pricing
    waiting = sum(entry.state is State.QUESTION for entry in letter.entries)
    rows: list[tuple[str, Decimal, str]] = [("Sum of the priced lines", total.lines, "")]
    if total.minimum_top_up:
        least = f"Up to our least order of {rules.order_minimum:,.2f}"
        rows.append((least, total.minimum_top_up, ""))
    if rules.tax_share:
        if total.minimum_top_up:
            rows.append(("Before tax", total.before_tax, ""))
        rows.append((f"{rules.tax_name or 'Tax'}, {_percent(rules.tax_share)}", total.tax, ""))
    rows.append((f"Total {letter.shop.rates.currency}", total.total, "total"))
    for index, (label, amount, style) in enumerate(rows):
        line = " rule" if index == 0 else ""
        if line:
            sheet.fill(row, (0, PART), "line rule")
        sheet.wide(row, WHAT, UNIT, label, f"right {style}{line}")
        sheet.number(row, EXTENDED, amount, f"money {style}{line}")
        row += 1
    if waiting:
        left_out = "1 line waits" if waiting == 1 else f"{waiting} lines wait"
        sheet.wide(row, 0, LAST, f"{left_out} for an answer and are not in the total.", "quiet right")
        row += 1
    return row


def _block(sheet: Sheet, row: int, heading: str, points: tuple[str, ...]) -> int:
    sheet.wide(row, 0, LAST, heading, "section")
    for index, point in enumerate(points, 1):
        sheet.wide(row + index, 0, LAST, f"• {point}", "text")
    return row + len(points) + 1


def _percent(share: Decimal) -> str:
    text = f"{share * 100:f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text) + " %"
