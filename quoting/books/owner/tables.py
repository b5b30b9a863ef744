"""The tables of the owner's page; each says where it stands, so that a chart can be drawn from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.books.look import BookColumn, BookSheet, day_words
from quoting.core import column_letters
from quoting.record import Figures, OwnersFigures

COLUMNS = (
    BookColumn("", 40, "text"),
    BookColumn("Lines", 8, "whole"),
    BookColumn("Quoted", 14, "money"),
    BookColumn("Cost", 14, "money"),
    BookColumn("Profit", 14, "money"),
    BookColumn("Margin", 10, "percent"),
    BookColumn("Markup", 10, "percent"),
    BookColumn("Roll hours with set-up", 12, "number"),
    BookColumn("Profit a roll hour", 13, "money"),
    BookColumn("Set-up share of the hours", 13, "percent"),
)
HOURS, AN_HOUR = 7, 8
_SHOWN_RISES = 6


@dataclass(frozen=True, slots=True)
class TablePlace:
    """Where the rows of a table stand: the first, how many, the row after it, and the last column."""

    first: int
    rows: int
    after: int
    last_column: int = 0
    capacity_column: int | None = None


def figures_table(
    sheet: BookSheet, row: int, what: str, figures: Sequence[Figures], total: Figures | None = None
) -> TablePlace:
    """Write one row a group, and the sum of all of them."""
    sheet.heads(row, (BookColumn(what, 0), *COLUMNS[1:]))
    first = row + 1
    for found in figures:
        row += 1
        _figures(sheet, row, found, (first, row), "")
    if total is not None:
        row += 1
        _figures(sheet, row, total, (first, row), " total", summed=True)
    return TablePlace(first, len(figures), row + 1)


def _figures(
    sheet: BookSheet, row: int, found: Figures, span: tuple[int, int], style: str, *, summed: bool = False
) -> None:
    at = row + 1
    sheet.text(row, 0, found.name, f"text{style}")
    plain = ((1, found.lines, "whole"), (2, found.sold, "money"), (3, found.cost, "money"))
    for column, value, kind in (*plain, (HOURS, found.minutes / 60, "number")):
        if summed:
            letter = column_letters(column)
            text = f"=SUM({letter}{span[0] + 1}:{letter}{row})"
            sheet.formula(row, column, text, value, f"{kind}{style}")
        else:
            sheet.number(row, column, value, f"{kind}{style}")
    sheet.formula(row, 4, f"=C{at}-D{at}", found.profit, f"money{style}")
    sheet.formula(row, 5, f"=IF(C{at}=0,0,E{at}/C{at})", found.margin, f"percent{style}")
    sheet.formula(row, 6, f"=IF(D{at}=0,0,E{at}/D{at})", found.markup, f"percent{style}")
    sheet.formula(row, AN_HOUR, f"=IF(H{at}=0,0,E{at}/H{at})", found.an_hour, f"money{style}")
    sheet.number(row, 9, found.setup_share, f"percent{style}")


def weeks_table(sheet: BookSheet, row: int, found: OwnersFigures) -> TablePlace:
    """Write the quoted hours of each week by roll, beside what one roll is open in a week."""
    rolls = list(found.capacity)[: len(COLUMNS) - 3]
    open_hours = max(found.capacity.values(), default=0.0)
    heads = [BookColumn("Week (as planned, else as asked for)", 0)]
    heads += [BookColumn(f"{roll}, hours", 0, "number") for roll in rolls]
    heads += [BookColumn("One roll is open, hours", 0, "number"), BookColumn("Fullest roll", 0, "percent")]
    sheet.heads(row, heads)
    first = row + 1
    capacity = len(rolls) + 1
    for week in found.weeks:
        row += 1
        monday = f"from Monday {day_words(week.monday)}" if week.monday else "no day given"
        sheet.text(row, 0, monday)
        for column, roll in enumerate(rolls, 1):
            sheet.number(row, column, week.hours.get(roll, 0.0), "number")
        if week.monday:
            sheet.number(row, capacity, open_hours, "number")
            fullest = max(week.hours.values(), default=0.0) / open_hours if open_hours else 0.0
            span = f"{column_letters(1)}{row + 1}:{column_letters(len(rolls))}{row + 1}"
            room = f"{column_letters(capacity)}{row + 1}"
            sheet.formula(row, capacity + 1, f"=IF({room}=0,0,MAX({span})/{room})", fullest, "percent")
    dated = sum(week.monday is not None for week in found.weeks)
    return TablePlace(first, dated, row + 1, len(rolls), capacity)


def plates_table(sheet: BookSheet, row: int, found: OwnersFigures) -> TablePlace:
    """Write plates, their cost, the value of what was kept, and how much of them became parts."""
    heads = (
        BookColumn("Plate", 0),
        BookColumn("Plates", 0, "whole"),
        BookColumn("Plate cost", 0, "money"),
        BookColumn("Drops kept", 0, "money"),
        BookColumn("To buy", 0, "whole"),
        BookColumn("Yield", 0, "percent"),
    )
    sheet.heads(row, heads)
    first = row + 1
    for plate in found.plates:
        row += 1
        sheet.text(row, 0, plate.material)
        sheet.number(row, 1, plate.plates, "whole")
        sheet.number(row, 2, plate.cost, "money")
        sheet.number(row, 3, plate.drop_value, "money")
        sheet.number(row, 4, plate.bought, "whole")
        sheet.number(row, 5, plate.used, "percent")
    return TablePlace(first, len(found.plates), row + 1, 5)


def rises_table(sheet: BookSheet, row: int, found: OwnersFigures) -> int:
    """Write what 8 % dearer plate would add, the lines it moves most first, where it was worked out."""
    known = [line for line in found.lines if line.plate_rise is not None]
    if not known:
        words = "What 8 % on plate would do is not in these results: quote with --sensitivities."
        sheet.wide(row, 0, len(COLUMNS) - 1, words, "quiet")
        return row + 1
    known.sort(key=lambda line: -(line.plate_rise or 0))
    total = sum((line.plate_rise for line in known if line.plate_rise is not None), start=0 * known[0].sold)
    sheet.heads(
        row, (BookColumn("If plate rises by 8 %", 0), BookColumn("", 0), BookColumn("Quoted", 0, "money"))
    )
    sheet.head(row, 3, "Would add", "money")
    for line in known[:_SHOWN_RISES]:
        row += 1
        sheet.text(row, 0, f"{line.customer} {line.number}")
        sheet.number(row, 2, line.sold, "money")
        sheet.number(row, 3, line.plate_rise or 0, "money")
    row += 1
    sheet.text(row, 0, f"All {len(known)} lines where it was worked out", "total line")
    sheet.fill(row, (1,), "total")
    sheet.number(row, 2, sum(line.sold for line in known), "money total")
    sheet.number(row, 3, total, "money total")
    return row + 1
