"""The rack as it stands now by the ledger: what is cut is out, its drops are in, what is promised is named.

The copy can take the place of the shop's `rack.xlsx`; every other row and column is copied as it stands.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quoting.books.cutting import CutSheet, Remnant, heat_words
from quoting.books.look import cell_text, material_words, plate_words
from quoting.books.rack_after.copy import CHANGES
from quoting.books.rack_after.rack_after_book import changed_rack
from quoting.books.rack_after.write import write_table
from quoting.core import PAPERS, format_length
from quoting.estimating import Estimate
from quoting.nesting import CutPlate
from quoting.shop import Shop, formats_of, open_book, set_up_page

CUT, PROMISED, FREE = "cut", "promised", "free"
_WHAT = {
    (CUT, False): "cut, taken out",
    (CUT, True): "bought and cut up",
    (PROMISED, False): "promised, still in the rack",
    (PROMISED, True): "to buy or on its way",
    (FREE, False): "given back, free again",
    (FREE, True): "not needed any more",
}
_WIDTHS = (18, 30, 21, 32, 26, 40)
_HEADS = ("Mark", "What", "Grade", "Sides, across x along the grain", "Heat no. on it", "Jobs")
_HEAD_ROW = 3
_SAYS = (
    "This is the rack as it stands now by the ledger: what the jobs book says is cut is out, its drops are "
    "in. Let this file take the place of rack.xlsx. What is promised stays in it; later nests do not see it."
)


@dataclass(frozen=True, slots=True)
class CutRun:
    """What was nested for jobs that were won together: layouts, drops, and by plate name how it stands.

    A plate that is not in `states` is cut and in the rack's file already.
    """

    estimate: Estimate
    sheets: Sequence[CutSheet]
    kept: Sequence[Remnant]
    states: Mapping[str, str]


def write_rack_of_jobs(shop: Shop, runs: Sequence[CutRun], files: Sequence[Path], path: Path) -> None:
    """Write the copy of the rack `files`, read as `shop`, to `path` (.xlsx), with a sheet of what changed.

    Raises InputError when a rack file has changed since it was read.
    """
    used = Counter(
        cut.plate
        for run in runs
        for sheet, cut in _cuts(run)
        if run.states.get(_name(cut)) == CUT and sheet.plate.count is not None
    )
    kept = [(run.estimate, one) for run in runs for one in run.kept if run.states.get(one.from_plate) == CUT]
    tables = changed_rack(shop, used, kept, files)
    with open_book(path, title="Stock rack by the ledger", note=shop.name) as book:
        formats = formats_of(book)
        for table in tables:
            write_table(book, formats, table, shop.paper)
        _changes(book, formats, shop, [row for run in runs for row in _rows(run, inch=shop.inch)])


def _cuts(run: CutRun) -> Iterator[tuple[CutSheet, CutPlate]]:
    return ((sheet, cut) for sheet in run.sheets for cut in sheet.cuts)


def _name(cut: CutPlate) -> str:
    return f"{cut.plate} #{cut.copy}"


def _rows(run: CutRun, *, inch: bool) -> Iterator[tuple[str, ...]]:
    """Yield a row for each plate that is not in the rack's file as it stands, and for each drop put in."""
    for sheet, cut in _cuts(run):
        state = run.states.get(_name(cut))
        if state is not None:
            yield (
                _name(cut),
                _WHAT[state, sheet.plate.count is None],
                material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch),
                plate_words(sheet.plate, inch=inch),
                sheet.plate.heat or "",
                ", ".join(sheet.lines),
            )
    for remnant in run.kept:
        if run.states.get(remnant.from_plate) == CUT:
            group = remnant.sheet.group
            sides = " x ".join(format_length(mm, inch=inch) for mm in (remnant.across_mm, remnant.along_mm))
            yield (
                remnant.id,
                f"put in, from {remnant.from_plate}",
                material_words(group.thickness_mm, group.material, inch=inch),
                sides,
                heat_words(remnant),
                ", ".join(remnant.sheet.lines),
            )


def _changes(book: Any, formats: Mapping[str, Any], shop: Shop, rows: Sequence[tuple[str, ...]]) -> None:
    page = book.add_worksheet(CHANGES)
    page.write_string(0, 0, "What changed in the rack", formats["title"])
    page.merge_range(1, 0, 1, len(_HEADS) - 1, "", formats["help"])
    page.write_string(1, 0, _SAYS, formats["help"])
    page.set_row(1, 30)
    page.set_paper(PAPERS[shop.paper].workbook_code)
    for column, (heading, width) in enumerate(zip(_HEADS, _WIDTHS, strict=True)):
        page.set_column(column, column, width)
        page.write_string(_HEAD_ROW, column, heading, formats["head"])
    row = _HEAD_ROW
    for words in sorted(rows, key=_order):
        row += 1
        for column, text in enumerate(words):
            page.write_string(row, column, cell_text(text), formats["text"])
    set_up_page(page, header_row=_HEAD_ROW, last_row=row, last_column=len(_HEADS) - 1)


def _order(row: tuple[str, ...]) -> tuple[int, str]:
    """Out first, then in, then what is promised."""
    groups = [_WHAT[CUT, False], _WHAT[CUT, True], "put in", *list(_WHAT.values())[2:]]
    return next(k for k, words in enumerate(groups) if row[1].startswith(words)), row[0]
