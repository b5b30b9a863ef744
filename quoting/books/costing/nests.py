"""The sheet "Nests": what to buy, and for each material and thickness its plates, pictures and money."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from io import BytesIO

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import (
    Book,
    BookColumn,
    BookSheet,
    Pages,
    alike,
    blank_owners,
    chalk_mm,
    line_names,
    listed,
    material_words,
    plate_words,
)
from quoting.core import format_length
from quoting.drawings import PlatePicture, nest_picture, picture_size
from quoting.estimating import Estimate, GroupNest, lead_days_of, plate_name
from quoting.nesting import CutPlate, NestPlate, NestProblem, Waited
from quoting.shop import Shop

COLUMNS = (
    BookColumn("Plate", 22),
    BookColumn("Size, edges", 25),
    BookColumn("From", 18),
    BookColumn("Pieces on it", 36),
    BookColumn("Yield", 8, "percent"),
    BookColumn("Price", 10, "money"),
    BookColumn("Drops kept", 22, "text inset"),
    BookColumn("Drop value", 11, "money"),
)
LAST = len(COLUMNS) - 1
_BUY = (
    BookColumn("To buy", 22),
    BookColumn("Size, edges", 25),
    BookColumn("Material", 18),
    BookColumn("Used for", 36),
    BookColumn("Plates", 8, "whole"),
    BookColumn("Each", 10, "money"),
    BookColumn("Days until it is here", 22, "text inset"),
    BookColumn("Money", 11, "money"),
)
_PICTURE_INCH = 5.4
_TALLEST_INCH = 5.0
_SECOND_PICTURE_COLUMN = 3
_SCALE = 78
_PAGE_POINTS = 610.0
"""Rows that one landscape page holds at this scale, on the shorter of Letter and A4."""


def nests_sheet(book: Book, estimate: Estimate) -> None:
    """Write the sheet; plates with the same layout are drawn once."""
    says = "The plates that all lines of this run share. Layouts that are alike are drawn once."
    sheet = costing_sheet(book, estimate, "Nests", COLUMNS, says=says, fit=False)
    sheet.raw.set_print_scale(_SCALE)
    page = Pages(sheet, _PAGE_POINTS)
    row = _buy_list(sheet, 3, estimate)
    owners = blank_owners(estimate)
    names = line_names(estimate)
    labels = {piece: names[result.line.id] for piece, (result, _) in owners.items()}
    for group in estimate.nests:
        row = _group(page, row + 1, group, estimate.shop, labels)
    page.finish(row, LAST)


@dataclass(frozen=True, slots=True)
class _Layout:
    """Cut plates that are cut alike, the first standing for all."""

    cut: CutPlate
    copies: int

    @property
    def name(self) -> str:
        return plate_name(self.cut) + (f" and {self.copies - 1} more alike" if self.copies > 1 else "")


@dataclass(frozen=True, slots=True)
class _Shown:
    """The nest on show, the shop, and the labels of its pieces."""

    problem: NestProblem
    shop: Shop
    labels: Mapping[str, str]


def _buy_list(sheet: BookSheet, row: int, estimate: Estimate) -> int:
    sheet.heads(row, _BUY)
    names = line_names(estimate)
    total = Decimal(0)
    for group in estimate.nests:
        used_for = listed([names.get(line, line) for line in group.lines])
        bought = Counter(
            cut.plate for cut in group.nest.cut_plates if group.problem.plate(cut.plate).count is None
        )
        for plate_id, count in sorted(bought.items()):
            row += 1
            plate = group.problem.plate(plate_id)
            _buy(sheet, row, group, plate, (count, used_for), estimate)
            total += plate.price * count
    row += 1
    if total:
        sheet.text(row, 0, "All plate to buy", "total line")
        sheet.fill(row, range(1, LAST), "total")
        sheet.number(row, LAST, total, "money total")
    else:
        sheet.wide(row, 0, LAST, "Nothing to buy: all from the rack.", "text")
    return row + 1


def _buy(
    sheet: BookSheet,
    row: int,
    group: GroupNest,
    plate: NestPlate,
    bought: tuple[int, str],
    estimate: Estimate,
) -> None:
    shop, (count, used_for) = estimate.shop, bought
    sheet.text(row, 0, plate.id)
    sheet.text(row, 1, plate_words(plate, inch=shop.inch))
    sheet.text(row, 2, material_words(group.thickness_mm, group.material, inch=shop.inch))
    sheet.text(row, 3, used_for, "quiet")
    sheet.number(row, 4, count, "whole")
    sheet.number(row, 5, plate.price, "money")
    sheet.text(row, 6, str(lead_days_of(shop, plate.id)), "text inset")
    sheet.number(row, 7, plate.price * count, "money")


def _group(page: Pages, row: int, group: GroupNest, shop: Shop, labels: Mapping[str, str]) -> int:
    sheet, first = page.sheet, row
    sheet.wide(
        row,
        0,
        LAST,
        f"{material_words(group.thickness_mm, group.material, inch=shop.inch)}, {_method(group.problem)}",
        "section",
    )
    sheet.wide(row + 1, 0, LAST, money_words(group, shop.rates.currency), "text")
    row += 2
    sheet.heads(row, COLUMNS)
    shown = _Shown(group.problem, shop, labels)
    layouts = [_Layout(cuts[0], len(cuts)) for cuts in alike(group.nest.cut_plates)]
    for layout in layouts:
        row += 1
        _plate(sheet, row, shown, layout)
    for unplaced in group.nest.unplaced:
        row += 1
        text = (
            f"NOT PLACED: {unplaced.quantity} x {labels.get(unplaced.piece, unplaced.piece)}: {unplaced.text}"
        )
        sheet.wide(row, 0, LAST, text, "bold")
    return _pictures(page, (first, row), shown, layouts)


def _method(problem: NestProblem) -> str:
    return "cut on the shear" if problem.cutting.method == "shear" else "cut by heat"


def money_words(group: GroupNest, currency: str) -> str:
    """Return a nest's money in one sentence: what it is made of, and how near to the best it is proven."""
    nest = group.nest
    sums = (
        f"Plates {nest.plate_cost:,.2f} - drops kept {nest.drop_value:,.2f} "
        f"+ cutting {nest.cutting_cost:,.2f} = {nest.cost:,.2f} {currency}."
    )
    wait = f" {waiting_words(nest.waited, currency)}" if nest.waited else ""
    if nest.proven:
        return f"{sums} Proven: no cheaper nest of these pieces exists.{wait}"
    least = f"No nest can cost less than {nest.bound:,.2f}"
    return f"{sums} {least}, so at most {nest.gap:.1%} could still be saved.{wait}"


def waiting_words(waited: Waited, currency: str) -> str:
    """Return whether later pieces wait for later plates, and what that costs.

    >>> waiting_words(Waited(True, Decimal(1000), Decimal(1012)), "USD")
    'Later pieces wait for later plates: 12.00 USD more than all nested together.'
    """
    more = waited.apart - waited.together
    if waited.taken and not more:
        return "Later pieces wait for later plates, at no more cost than all nested together."
    if waited.taken:
        difference = f"{abs(more):,.2f} {currency} {'more' if more > 0 else 'less'} than all nested together"
        return f"Later pieces wait for later plates: {difference}."
    if more <= 0:
        return "Later pieces do not wait for later plates: the stock would not hold all of them then."
    return f"Later pieces do not wait for later plates: that would cost {more:,.2f} {currency} more."


def _plate(sheet: BookSheet, row: int, shown: _Shown, layout: _Layout) -> None:
    cut, shop, labels = layout.cut, shown.shop, shown.labels
    plate = shown.problem.plate(cut.plate)
    pieces = Counter(labels.get(placed.piece, placed.piece) for placed in cut.placements)
    sheet.text(row, 0, layout.name, "text rule")
    sheet.text(row, 1, plate_words(plate, inch=shop.inch), "text rule")
    sheet.text(row, 2, _source(plate), "text rule")
    sheet.text(row, 3, ", ".join(f"{count} x {name}" for name, count in pieces.items()), "text rule")
    sheet.number(row, 4, cut.yield_share, "percent rule")
    sheet.number(row, 5, cut.price * layout.copies, "money rule")
    drops = [f"{_chalked(drop.dy_mm, shop)} x {_chalked(drop.dx_mm, shop)}" for drop in cut.drops]
    sheet.text(row, 6, "\n".join(drops) or "none", "text inset rule")
    value = sum((drop.value for drop in cut.drops), Decimal(0)) * layout.copies
    sheet.number(row, 7, value, "money rule")


def _chalked(mm: float, shop: Shop) -> str:
    return format_length(chalk_mm(mm, inch=shop.inch), inch=shop.inch)


def _source(plate: NestPlate) -> str:
    if plate.count is None:
        return "to buy"
    kind = "rack, remnant" if plate.remnant else "rack"
    return f"{kind}, heat {plate.heat}" if plate.heat else f"{kind}, no heat number"


def _pictures(page: Pages, table: tuple[int, int], shown: _Shown, layouts: Sequence[_Layout]) -> int:
    """Draw the layouts two beside each other; the first pair stays with the table above it."""
    sheet, (first, row) = page.sheet, table
    page.keep(first, row)
    row += 1
    longest = max((shown.problem.plate(layout.cut.plate).length_mm for layout in layouts), default=0.0)
    for start in range(0, len(layouts), 2):
        tallest = 0.0
        for column, layout in zip((0, _SECOND_PICTURE_COLUMN), layouts[start : start + 2], strict=False):
            tallest = max(tallest, _picture(sheet, (row, column), shown, layout, longest))
        sheet.tall(row, tallest * 72 + 6)
        page.keep(first, row)
        first = row = row + 1
    return row


def _picture(
    sheet: BookSheet, cell: tuple[int, int], shown: _Shown, layout: _Layout, longest: float
) -> float:
    problem, shop = shown.problem, shown.shop
    row, column = cell

    def length(mm: float) -> str:
        return format_length(round(mm, 1), inch=shop.inch)

    title = f"{layout.name}, {plate_words(problem.plate(layout.cut.plate), inch=shop.inch)}"
    plates = [PlatePicture(layout.cut, title, shown.labels)]
    _, height = picture_size(problem, plates, _PICTURE_INCH, longest)
    width = _PICTURE_INCH * min(1.0, _TALLEST_INCH / height)
    image = nest_picture(
        problem,
        plates,
        length,
        drop_length=lambda mm: _chalked(mm, shop),
        width_inch=width,
        longest_mm=longest,
    )
    options = {
        "image_data": BytesIO(image),
        "object_position": 2,
        "x_offset": 60 if column else 2,
        "y_offset": 3,
        "description": f"Layout of {title}",
    }
    sheet.raw.insert_image(row, column, "nest.png", options)
    return picture_size(problem, plates, width, longest)[1]
