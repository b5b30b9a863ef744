"""The proposal on one page, then sheets with the quotes, the kinds of job, the steps, what was set aside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path

from quoting.books.learnt.evidence_sheets import aside_sheet, kinds_sheet, quotes_sheet, steps_sheet
from quoting.books.look import Book, BookColumn, BookSheet, day_words, new_book
from quoting.hindsight import SCRAP, SET_ASIDE, BookChange, GroupBias, Learnt, LotDone, Proposal, QuoteEffect
from quoting.shop import Band, Shop

_COLUMNS = (
    BookColumn("Setting", 30),
    BookColumn("Old: low", 9, "number"),
    BookColumn("likely", 9, "number"),
    BookColumn("high", 9, "number"),
    BookColumn("New: low", 9, "number"),
    BookColumn("likely", 9, "number bold"),
    BookColumn("high", 9, "number"),
    BookColumn("Change", 9, "percent"),
    BookColumn("Likely is between", 17, "inset"),
    BookColumn("Jobs behind it", 9, "whole"),
)
_LAST = len(_COLUMNS) - 1


@dataclass(frozen=True, slots=True)
class LearntPage:
    """All that the book is printed from; `recent` and `open_lines` are quotes of last month and open ones."""

    shop: Shop
    day: date
    lots: Sequence[LotDone]
    learnt: Learnt
    proposal: Proposal
    kinds: Sequence[GroupBias]
    recent: Sequence[QuoteEffect]
    open_lines: Sequence[QuoteEffect]
    proposed: str

    @property
    def aside(self) -> list[tuple[LotDone, float]]:
        """Return the figures that fit no other, with what was expected."""
        return [
            (lot, self.learnt.expected(lot))
            for lot, weight in zip(self.lots, self.learnt.weights, strict=True)
            if weight < SET_ASIDE
        ]


def write_learnt(page: LearntPage, path: Path) -> None:
    """Write the book to `path` (.xlsx). For the shop's eyes only."""
    shop = page.shop
    with new_book(
        path, paper=shop.paper, created=page.day, title="What the minutes teach", author=shop.name
    ) as book:
        _proposal_sheet(book, page)
        quotes_sheet(book, page.recent, page.open_lines)
        kinds_sheet(book, page.kinds)
        steps_sheet(book, page.learnt, shop)
        aside_sheet(book, page.aside)


def _proposal_sheet(book: Book, page: LearntPage) -> None:
    sheet = book.sheet("Proposal", [column.width for column in _COLUMNS])
    sheet.raw.fit_to_pages(1, 1)
    sheet.text(0, 0, "What the minutes teach", "title line")
    sheet.wide(1, 0, _LAST, _says(page), "quiet")
    row = _changes(sheet, 3, page)
    row = _effects(sheet, row + 1, page)
    for text in _foot(page):
        row += 1
        sheet.wide(row, 0, _LAST, text, "quiet")


def _says(page: LearntPage) -> str:
    jobs = len({lot.task for lot in page.lots})
    aside = f", {len(page.aside)} set aside" if page.aside else ""
    return (
        f"{page.shop.name}, {day_words(page.day)}: {len(page.lots)} figures of {jobs} tasks{aside}. Nothing "
        f"is changed by this page. {page.proposed} is the book with these settings; `rollwright learn "
        "--apply` puts it in the old one's place and keeps that."
    )


def _changes(sheet: BookSheet, row: int, page: LearntPage) -> int:
    sheet.heads(row, _COLUMNS)
    if not page.proposal.changes and not page.proposal.shares:
        sheet.wide(row + 1, 0, _LAST, "Nothing: too few jobs, or the book is right.", "bold")
        return row + 2
    for change in sorted(page.proposal.changes, key=lambda one: -abs(one.share)):
        row += 1
        _change(sheet, row, change, page.shop)
    for share in page.proposal.shares:
        row += 1
        sheet.text(row, 0, share.words)
        kinds = ("percent", "percent bold") if share.name == SCRAP else ("fine", "fine bold")
        sheet.number(row, 2, share.old, kinds[0])
        sheet.number(row, 5, share.new, kinds[1])
        sheet.number(row, 7, share.new / share.old - 1, "percent")
        sheet.number(row, 9, share.jobs, "whole")
    return row + 1


def _change(sheet: BookSheet, row: int, change: BookChange, shop: Shop) -> None:
    unit, words = change.place.unit(shop)
    sheet.text(row, 0, f"{change.place.words(shop)}, {words}")
    for column, band in ((1, change.old), (4, change.new)):
        _band(sheet, row, column, band, unit)
    sheet.number(row, 7, change.share, "percent")
    sheet.text(row, 8, f"{change.low * unit:.2f} to {change.high * unit:.2f}", "inset")
    sheet.number(row, 9, change.jobs, "whole")


def _band(sheet: BookSheet, row: int, column: int, band: Band, unit: float) -> None:
    if band.low < band.high:
        sheet.number(row, column, band.low * unit, "fine")
        sheet.number(row, column + 2, band.high * unit, "fine")
    sheet.number(row, column + 1, band.likely * unit, "fine bold" if column > 1 else "fine")


def _effects(sheet: BookSheet, row: int, page: LearntPage) -> int:
    heads = (
        BookColumn("What it would have done", 0), BookColumn("Lines", 0, "whole"),
        BookColumn("Quoted", 0, "whole"), BookColumn("Book now", 0, "whole"),
        BookColumn("New book", 0, "whole"), BookColumn("Change", 0, "percent"),
        BookColumn("Margin thought", 0, "percent"), BookColumn("by new minutes", 0, "percent"),
    )  # fmt: skip
    sheet.heads(row, heads)
    for name, effects in (("Quotes of the last month", page.recent), ("Lines still open", page.open_lines)):
        row += 1
        sheet.text(row, 0, name)
        sheet.number(row, 1, len(effects), "whole")
        if not effects:
            continue
        quoted, before, after = (
            sum((getattr(one, what) for one in effects), Decimal(0)) for what in ("quoted", "before", "after")
        )
        for column, value in ((2, quoted), (3, before), (4, after)):
            sheet.number(row, column, value, "whole")
        sheet.number(row, 5, after / before - 1 if before else 0, "percent")
        for column, what in ((6, "margin"), (7, "new_margin")):
            earned = sum((getattr(one, what) * one.quoted for one in effects), Decimal(0))
            sheet.number(row, column, earned / quoted if quoted else 0, "percent")
    return row + 1


def _foot(page: LearntPage) -> list[str]:
    spread = page.proposal.spread
    wider = "as wide as the book says" if abs(spread - 1) < 0.02 else f"{spread:.2f} times as wide"
    return [
        f"A lot scatters by {page.learnt.scatter:.0%} of its minutes; low and high are made {wider}.",
        "Method: a regression that begins at the book (ridge with a normal prior, Hoerl & Kennard 1970, "
        "Lindley & Smith 1972) splits totals over the settings. Wild figures are set aside (Tukey's "
        "biweight), all others count in full (Rousseeuw & Leroy 1987). Before any job a setting is taken to "
        "be off by the learning spread of [ledger]; age halves a figure's say every half life. A setting "
        "changes from three jobs on, and only when a fifth of the doubt about it is gone. What always comes "
        "together (load and unload) moves together. Of scrap the book's own chance counts as 100 pieces, a "
        "lot spoiled by half and more as one piece.",
        "Not learnt: a cone's factor and the learning curve (a total does not show what they made of it; By "
        "kind says whether cones are off), the chance of a re-roll (the floor book does not count them), the "
        "rolls' speeds (timed with a chalk mark). Plate and cutting of a quote stay as quoted.",
    ]
