"""The sheet "What changed" of the rack's copy: plates out, remnants in, and where the metal went."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from quoting.books.cutting import CutSheet, Remnant, heat_words, line_list
from quoting.books.look import cell_text, material_words, plate_words
from quoting.books.rack_after.account import Account
from quoting.books.rack_after.copy import CHANGES
from quoting.core import PAPERS, format_length, format_weight
from quoting.estimating import Estimate
from quoting.shop import set_up_page

_WIDTHS = (18, 32, 21, 32, 34, 46)
# None of these is a heading of the rack: the reader must not take this sheet for a table of plates.
_HEADS = ("Mark", "What", "Grade", "Sides, across x along the grain", "Heat no. on it", "Lines")
_HEAD_ROW = 3
_WON = (
    "This is the rack as it stands when what was won, and only that, is cut as drawn. With a ledger, say in "
    "the jobs book what is cut: `rollwright ledger rack` then writes the rack with all that is cut, whatever "
    "it was won with. Without one, let this file take the place of rack.xlsx when all is cut."
)
_SAYS = (
    "This is the rack as it stands when every priced line of the run is cut as drawn. When lines are lost, "
    "nest again; when all is cut, let this file take the place of rack.xlsx."
)


def changes_sheet(
    book: Any,
    formats: Mapping[str, Any],
    estimate: Estimate,
    sheets: Sequence[CutSheet],
    kept: Sequence[Remnant],
    account: Account,
) -> None:
    """Add the sheet."""
    page = book.add_worksheet(CHANGES)
    page.write_string(0, 0, "What changed in the rack", formats["title"])
    page.merge_range(1, 0, 1, len(_HEADS) - 1, "", formats["help"])
    page.write_string(1, 0, _WON if estimate.won_of else _SAYS, formats["help"])
    page.set_row(1, 45 if estimate.won_of else 30)
    page.set_paper(PAPERS[estimate.shop.paper].workbook_code)
    for column, (heading, width) in enumerate(zip(_HEADS, _WIDTHS, strict=True)):
        page.set_column(column, column, width)
        page.write_string(_HEAD_ROW, column, heading, formats["head"])
    row = _HEAD_ROW
    for words in (*_taken(estimate, sheets), *_added(estimate, kept)):
        row += 1
        for column, text in enumerate(words):
            page.write_string(row, column, cell_text(text), formats["text"])
    row = _metal(page, row + 2, account, formats, inch=estimate.shop.inch)
    set_up_page(page, header_row=_HEAD_ROW, last_row=row, last_column=len(_HEADS) - 1)


def _taken(estimate: Estimate, sheets: Sequence[CutSheet]) -> list[tuple[str, ...]]:
    inch, called = estimate.shop.inch, line_list(estimate)
    rows: list[tuple[str, ...]] = []
    for sheet in sheets:
        what = "bought and cut up" if sheet.plate.count is None else "taken out"
        rows.append(
            (
                sheet.cut.plate,
                f"{len(sheet.cuts)} {what}",
                material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch),
                plate_words(sheet.plate, inch=inch),
                sheet.plate.heat or "",
                called(sheet.lines),
            )
        )
    return rows


def _added(estimate: Estimate, kept: Sequence[Remnant]) -> list[tuple[str, ...]]:
    inch, called = estimate.shop.inch, line_list(estimate)
    rows: list[tuple[str, ...]] = []
    for remnant in kept:
        group = remnant.sheet.group
        sides = " x ".join(format_length(mm, inch=inch) for mm in (remnant.across_mm, remnant.along_mm))
        rows.append(
            (
                remnant.id,
                f"put in, from {remnant.from_plate}",
                material_words(group.thickness_mm, group.material, inch=inch),
                sides,
                heat_words(remnant),
                called(remnant.sheet.lines),
            )
        )
    return rows


def _metal(page: Any, row: int, account: Account, formats: Mapping[str, Any], *, inch: bool) -> int:
    """Write the account of the metal; return its last row."""
    rows = (
        ("On the rack before", account.before),
        ("bought", account.bought),
        ("cut to blanks", account.blanks),
        ("scrap: kerf, edges, small drops", account.scrap),
        ("On the rack after", account.after),
        ("of it new remnants", account.remnants),
    )
    page.write_string(row, 0, "Metal", formats["label"])
    for offset, (words, metal) in enumerate(rows):
        page.write_string(row + offset, 1, words, formats["text"])
        page.write_string(row + offset, 2, format_weight(metal.kg, inch=inch), formats["text"])
    return row + len(rows) - 1
