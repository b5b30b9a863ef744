"""A copy of the rack as it stands when all of the run is cut: plates taken out, new remnants put in.

Every other row and column is copied as it stands, also rows that cannot be read; the shop's own file is only
read. The copy can take the place of the shop's `rack.xlsx`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from quoting.blanks import KG_PER_MM3
from quoting.books.cutting import CutSheet, Remnant
from quoting.books.rack_after.account import account_of
from quoting.books.rack_after.copy import RackSheet, rack_sheets
from quoting.books.rack_after.rack_changes import changes_sheet
from quoting.books.rack_after.write import write_table
from quoting.core import MM_PER_INCH, InputError, Place
from quoting.estimating import Estimate
from quoting.shop import KG_PER_POUND, Shop, StockPlate, formats_of, open_book

_DECIMALS = 6
_SIZES = ("thickness", "width", "length")
_HEADINGS = (
    ("id", "Plate id"),
    ("material", "Material"),
    ("thickness", "Thickness (mm)"),
    ("width", "Width (mm)"),
    ("length", "Length (mm)"),
    ("price", "Price"),
    ("per", "Per"),
)


def rack_after(
    estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant], files: Sequence[Path]
) -> list[RackSheet]:
    """Return the tables of the rack's files as they stand when all of a run is cut.

    They are read here, where the process that reads files is at work already, not where the copy is written.
    Raises InputError when a rack file has changed since the run began, so that a plate is not where it was.
    """
    return changed_rack(estimate.shop, _used(sheets), [(estimate, one) for one in kept], files)


def write_rack_after(
    estimate: Estimate,
    sheets: Sequence[CutSheet],
    kept: Sequence[Remnant],
    tables: Sequence[RackSheet],
    path: Path,
) -> None:
    """Write these tables of the rack to `path` (.xlsx), with a sheet that says what has changed."""
    with open_book(path, title="Stock rack after the run", note=estimate.shop.name) as book:
        formats = formats_of(book)
        for table in tables:
            write_table(book, formats, table, estimate.shop.paper)
        changes_sheet(book, formats, estimate, sheets, kept, account_of(estimate, sheets, kept))


def changed_rack(
    shop: Shop, used: Mapping[str, int], kept: Sequence[tuple[Estimate, Remnant]], files: Sequence[Path]
) -> list[RackSheet]:
    """Return the tables of the rack's files with plates taken out, by id, and remnants put in.

    Raises InputError when a rack file has changed since `shop` was read.
    """
    tables = rack_sheets(files, inch=shop.inch)
    for plate in shop.stock:
        if not plate.buyable and used.get(plate.id) and not _gone(plate):
            _take(tables, plate, used[plate.id], files[0])
    if kept:
        table = _rack_table(tables)
        table.need_columns()
        for estimate, remnant in kept:
            _put(table, remnant, estimate)
    return tables


def _gone(plate: StockPlate) -> bool:
    """Return whether a plate that has been cut is out of the rack already."""
    return plate.row is None


def _used(sheets: Sequence[CutSheet]) -> dict[str, int]:
    used: dict[str, int] = {}
    for sheet in sheets:
        if sheet.plate.count is not None:
            used[sheet.cut.plate] = used.get(sheet.cut.plate, 0) + len(sheet.cuts)
    return used


def _take(tables: Sequence[RackSheet], plate: StockPlate, count: int, file: Path) -> None:
    """Take plates out of the row they were read from; a row that is used up goes."""
    row = (plate.row or 0) - 1
    for table in tables:
        if table.header is None or table.buyable or not table.header < row < len(table.rows):
            continue
        if table.plate_id(row) != plate.id:
            continue
        left = (plate.count or 0) - count
        if left > 0:
            table.put(row, "quantity", left)
        else:
            table.gone.add(row)
        return
    raise InputError(
        f"the rack has changed while the run was at work: {plate.id} is no longer in row {plate.row}",
        place=Place(file.name),
        would_do="run again",
    )


def _rack_table(tables: list[RackSheet]) -> RackSheet:
    """Return the table of what is in the house; a new one when the files list only sizes to buy."""
    for table in tables:
        if table.header is not None and not table.buyable:
            return table
    columns = {field: column for column, (field, _) in enumerate(_HEADINGS)}
    headings: list[object] = [heading for _, heading in _HEADINGS]
    name = "Rack" if all(table.name != "Rack" for table in tables) else "Rack remnants"
    made = RackSheet(name, [headings], 0, columns, False, dict.fromkeys(_SIZES, False))
    tables.append(made)
    return made


def _put(table: RackSheet, remnant: Remnant, estimate: Estimate) -> None:
    row = table.new_row()
    group = remnant.sheet.group
    sides = sorted((remnant.across_mm, remnant.along_mm))
    for field, mm in zip(_SIZES, (group.thickness_mm, *sides), strict=True):
        table.put(row, field, _size(mm, inch=table.inches[field]))
    table.put(row, "id", remnant.id)
    table.put(row, "material", group.material)
    table.put(row, "edge", "trimmed")
    table.put(row, "quantity", 1)
    table.put(row, "heat", remnant.heat)
    table.put(row, "remnant", "yes")
    table.put(row, "grain", "width" if remnant.across_mm > remnant.along_mm else "length")
    _price(table, row, remnant, estimate)


def _size(mm: float, *, inch: bool) -> float | str:
    """Return a size as a bare number in the unit of its heading; whole mm under inches say so themselves."""
    sixty_fourths = mm / MM_PER_INCH * 64
    if inch and mm == round(mm) and abs(sixty_fourths - round(sixty_fourths)) > 1e-6:
        return f"{mm:.0f} mm"
    return round(mm / (MM_PER_INCH if inch else 1.0), _DECIMALS)


def _price(table: RackSheet, row: int, remnant: Remnant, estimate: Estimate) -> None:
    """Write what the nest counted the drop for, the way the table states prices.

    A table that states none leaves the remnant at the grade's price.
    """
    area = remnant.across_mm * remnant.along_mm
    density = estimate.shop.material(remnant.sheet.group.material).density_kg_m3
    kg = area * remnant.sheet.group.thickness_mm * density * KG_PER_MM3
    value = float(remnant.value)
    if "price" in table.columns and "per" in table.columns:
        table.put(row, "price", value)
        table.put(row, "per", "plate")
    elif "price_plate" in table.columns:
        table.put(row, "price_plate", value)
    elif "price_kg" in table.columns:
        table.put(row, "price_kg", round(value / kg, _DECIMALS))
    elif "price_lb" in table.columns:
        table.put(row, "price_lb", round(value / kg * KG_PER_POUND, _DECIMALS))
