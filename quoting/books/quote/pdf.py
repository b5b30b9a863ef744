"""The customer's quote as a PDF, from the same words and numbers as the workbook."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import groupby
from pathlib import Path
from typing import Any

from quoting.books.quote.content import (
    QUANTITY_WORDS,
    QUESTION_WORDS,
    QuantityLine,
    QuoteItem,
    amounts,
    asks,
    heading,
    items,
    quantity_lines,
    waiting_words,
)
from quoting.books.quote.letter_source import Letter
from quoting.books.quote.pdf_type import Type, plain_text, type_for
from quoting.books.quote.quantities import quantities_of, quantity_rows
from quoting.books.quote.terms import terms
from quoting.core import PAPERS

_ACROSS = 6
_HEADS = ("Line", "Part", "What you get", "Qty", "Unit price", "Extended")
_LINE_WIDTHS = (11, 24, 81, 13, 24, 26)
_MARGIN_MM = 15.0
_WIDTH_MM = 180.0
"""Width of every table: it fits between the margins of A4, the narrower of the two papers."""


def write_pdf(letter: Letter, path: Path) -> None:
    """Write one customer's quote to `path` (.pdf), on the shop's paper.

    Rows stay whole, unless some text of the customer's is longer than a page.
    """
    from reportlab.platypus.doctemplate import LayoutError  # noqa: PLC0415 - kept out of the start

    try:
        _write(letter, path, breaking=False)
    except LayoutError:
        _write(letter, path, breaking=True)


def _write(letter: Letter, path: Path, *, breaking: bool) -> None:
    from reportlab.lib.units import mm  # noqa: PLC0415
    from reportlab.platypus import SimpleDocTemplate  # noqa: PLC0415

    found = _Pages(letter, breaking=breaking)
    page = PAPERS[letter.shop.paper]
    width, height = page.width_mm, page.height_mm
    side = (width - _WIDTH_MM) / 2 * mm
    document = SimpleDocTemplate(
        str(path),
        pagesize=(width * mm, height * mm),
        leftMargin=side,
        rightMargin=side,
        topMargin=_MARGIN_MM * mm,
        bottomMargin=(_MARGIN_MM + 5) * mm,
        title=letter.title,
        author=letter.shop.name,
        creator=letter.shop.name,
        producer="",
        invariant=1,
    )
    document.build(found.story(), canvasmaker=_numbered(partial(found.foot, side)))


class _Pages:
    """The parts of the letter as blocks that flow over pages."""

    def __init__(self, letter: Letter, *, breaking: bool) -> None:
        self.letter = letter
        self.questions = asks(letter)
        self.lines = items(letter)
        self.type: Type = replace(type_for(_every_text(letter, self.lines)), breaking=breaking)

    def story(self) -> list[Any]:
        """Return all blocks in reading order."""
        blocks = [*self._head(), self._lines(), *self._totals()]
        for title, points in terms(self.letter):
            blocks += self._points(title, points)
        return [*blocks, *self._quantities(), *self._asked()]

    def foot(self, side: float, canvas: Any, page: int, pages: int) -> None:
        """Write the foot of one page."""
        from reportlab.lib.units import mm  # noqa: PLC0415

        canvas.setFont(self.type.plain, 8)
        canvas.setFillColor(self.type.quiet)
        canvas.drawString(side, 10 * mm, plain_text(self.letter.footer))
        canvas.drawRightString(
            side + _WIDTH_MM * mm, 10 * mm, self.letter.tongue.say(f"Page {page} of {pages}")
        )

    def _head(self) -> list[Any]:
        make = self.type
        left, right = heading(self.letter)
        names = [make.say(self.letter.shop.name, "title"), make.say(self.letter.kind, "title right")]
        sender = (
            [[make.say(self.letter.sender, "quiet"), make.say("", "quiet")]] if self.letter.sender else []
        )
        top = make.table([names, *sender], (120, 60))
        rows = [
            [
                make.say(name if value else "", "quiet"),
                make.say(value, "bold" if row == 0 else "text"),
                make.say(other, "quiet right"),
                make.say(shown, "right"),
            ]
            for row, ((name, value), (other, shown)) in enumerate(zip(left, right, strict=True))
        ]
        return [top, make.gap(4), make.table(rows, (28, 87, 28, 37)), make.gap(5)]

    def _lines(self) -> Any:
        make = self.type
        heads = tuple(map(self.letter.tongue.say, _HEADS))
        rows = [[make.say(text, "head right" if column > 2 else "head") for column, text in enumerate(heads)]]
        spans: list[int] = []
        for item in self.lines:
            rows.append(self._line(item))
            if item.notes:
                spans.append(len(rows))
                notes = [make.say(note, "quiet") for note in item.notes]
                rows.append([make.say("", "text"), make.say("", "text"), notes, "", "", ""])
        return make.table(rows, _LINE_WIDTHS, head=True, rules=True, notes=spans, notes_from=2)

    def _line(self, item: QuoteItem) -> list[Any]:
        make = self.type
        if item.price is None:
            money = [make.say("", "text"), make.say(item.answer, "bold right")]
        else:
            money = [make.say(self.letter.tongue.amount(amount), "right") for amount in item.price]
        quantity = item.quantity
        if isinstance(quantity, int):
            quantity = self.letter.tongue.amount(quantity, "#,##0")
        return [
            make.say(item.number, "text"),
            make.say(item.part, "text"),
            make.say(item.what, "text"),
            make.say(quantity, "right"),
            *money,
        ]

    def _totals(self) -> list[Any]:
        make = self.type
        rows = [
            [
                make.say(amount.label, "bold right" if amount.total else "right"),
                make.say(self.letter.tongue.amount(amount.money), "bold right" if amount.total else "right"),
            ]
            for amount in amounts(self.letter)
        ]
        blocks = [make.gap(1), make.table(rows, (150, 30), last_rule=True)] if rows else []
        if waiting := waiting_words(self.letter):
            blocks.append(make.say(waiting, "quiet right"))
        return [make.together(blocks)] if blocks else []

    def _points(self, title: str, points: tuple[str, ...]) -> list[Any]:
        make = self.type
        head = [make.gap(4), make.say(title, "section")]
        shown = [make.say(point, "point") for point in points]
        return [make.together([*head, *shown[:2]]), *shown[2:]]

    def _quantities(self) -> list[Any]:
        lines = quantity_lines(self.letter)
        if not lines:
            return []
        make = self.type
        say = self.letter.tongue.say
        words = say(f"Unit price, {self.letter.shop.rates.currency}. {QUANTITY_WORDS}")
        blocks = [
            make.gap(6),
            make.say(say("Prices at other quantities"), "section"),
            make.say(words, "lead"),
        ]
        for quantities, group in groupby(quantity_rows(lines, _ACROSS), key=quantities_of):
            blocks += [self._quantity_table(quantities, list(group)), make.gap(2)]
        return blocks

    def _quantity_table(self, quantities: list[int], lines: list[QuantityLine]) -> Any:
        make = self.type
        empty = [make.say("", "text")] * (_ACROSS - len(quantities))
        tongue = self.letter.tongue
        heads = [make.say(tongue.say(f"{quantity:,} pc"), "head right") for quantity in quantities]
        first = [make.say(tongue.say(name), "head") for name in _HEADS[:2]]
        rows = [[*first, *heads, *empty]]
        for line in lines:
            part = [make.say(line.part, "text")]
            if note := line.note(tongue):
                part.append(make.say(note, "quiet"))
            prices = [make.say(tongue.amount(offer.unit), "right") for offer in line.offers]
            rows.append([make.say(line.number, "text"), part, *prices, *empty])
        return make.table(rows, (11, 49, *(20,) * _ACROSS), head=True, rules=True)

    def _asked(self) -> list[Any]:
        if not self.questions:
            return []
        make = self.type
        say = self.letter.tongue.say
        heads = ("Q", "Line", "In your sheet", "Question", "Your answer")
        rows = [[make.say(say(text), "head") for text in heads]]
        for ask in self.questions:
            cells = (ask.number, ask.line, ask.where, ask.asks)
            rows.append([*(make.say(cell, "text") for cell in cells), make.say("", "text")])
        return [
            make.gap(6),
            make.say(say("Questions to you"), "section"),
            make.say(say(QUESTION_WORDS), "lead"),
            make.table(rows, (10, 14, 38, 78, 40), head=True, rules=True),
        ]


def _every_text(letter: Letter, lines: tuple[QuoteItem, ...]) -> str:
    """Return all that came from the customer, to choose letters that hold it."""
    left, right = heading(letter)
    texts = [text for pair in (*left, *right) for text in pair]
    for item in lines:
        texts += [item.number, item.part, item.what, *item.notes]
    texts += [f"{ask.where}{ask.asks}" for ask in asks(letter)]
    return "".join([letter.shop.name, letter.sender, *texts])


def _numbered(foot: Callable[[Any, int, int], None]) -> Any:
    """Return a canvas that writes the foot of each page once it knows how many there are."""
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415

    class NumberedCanvas(Canvas):
        """Keeps the state of every page until the last one is there."""

        def __init__(self, *given: Any, **options: Any) -> None:
            super().__init__(*given, **options)
            self._kept: list[dict[str, Any]] = []

        def showPage(self) -> None:  # noqa: N802 - the library's name
            """Keep the page for later."""
            self._kept.append(dict(self.__dict__))
            self._startPage()  # type: ignore[attr-defined]

        def save(self) -> None:
            """Write every page with its foot."""
            for number, state in enumerate(self._kept, 1):
                self.__dict__.update(state)
                foot(self, number, len(self._kept))
                super().showPage()
            super().save()

    return NumberedCanvas
