"""The stock rack: plates and remnants in the house, and the sizes that can be bought.

Two tables, by their headings and not by their position: the rack itself, and a sheet whose name says "buy"
(in CSV form a second file, `buyable.csv`). A row that cannot be used is left out and named in a warning.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, first_few
from quoting.shop.grades import names_of
from quoting.shop.model import Material, StockPlate
from quoting.shop.rack.row import BadCellError, RackRowReader
from quoting.tables import SheetTable, find_table, missing_headings, read_plain_sheets

HEADINGS: dict[str, tuple[str, ...]] = {
    "id": ("plate id", "id", "plate", "plate no", "tag", "stock id"),
    "material": ("material", "grade", "spec"),
    "thickness": ("thickness", "thk", "t", "gauge"),
    "width": ("width", "w"),
    "length": ("length", "l"),
    "edge": ("edge", "edges", "edge condition"),
    "quantity": ("quantity", "qty", "count", "on hand"),
    "price": ("price", "cost"),
    "per": ("per", "price per", "price unit"),
    "price_kg": ("price per kg", "price/kg", "price kg"),
    "price_lb": ("price per lb", "price/lb", "price lb"),
    "price_plate": ("price per plate", "price each", "price/plate", "plate price"),
    "heat": ("heat number", "heat", "heat no"),
    "remnant": ("remnant", "remnant yes/no", "offcut", "drop"),
    "grain": ("grain", "grain along"),
    "lead": ("lead days", "lead time days", "lead", "lead time"),
    "here": ("here on", "in house on", "arrives", "arrives on", "arrival", "arrival day", "expected"),
}
_ODD_TIMES = Decimal(4)
"""A plate price so many times off its grade's is asked about; an assumption, no source."""
_SIZES = ("thickness", "width", "length")
NEEDED: tuple[str, ...] = ("material", *_SIZES)


@dataclass(frozen=True, slots=True)
class Rack:
    """What the rack file holds: usable rows, and a warning for each row that is not."""

    plates: tuple[StockPlate, ...]
    warnings: tuple[str, ...]


def read_rack(
    paths: Sequence[Path],
    materials: Sequence[Material],
    *,
    inch: bool,
    remnant_share: Decimal = Decimal(1),
) -> Rack:
    """Return the stock of the rack file(s); a bare number is in inches when `inch`, else in mm.

    Rows with the quantity 0 are passed over in silence. Raises InputError when a file does not open or no
    sheet of it holds a table of plates.
    """
    plates: dict[str, StockPlate] = {}
    warnings: list[str] = []
    names = names_of(materials)
    for path in paths:
        for table, buyable in _tables(path):
            reader = RackRowReader(materials, names, unit_of_sizes(table, inch), buyable, remnant_share)
            for number, cells in table.rows:
                try:
                    plate = reader.plate(cells, number)
                    _refuse_second(plate, plates)
                except BadCellError as bad:
                    warnings.append(_warning(table, number, cells, bad))
                    continue
                if plate.count != 0:
                    plates[plate.id] = plate
    warnings += _odd_prices(list(plates.values()), materials)
    return Rack(tuple(plates.values()), tuple(warnings))


def _odd_prices(plates: Sequence[StockPlate], materials: Sequence[Material]) -> list[str]:
    """Return a question for plates whose price is far from that of their grade: 62 a pound, say."""
    usual = {one.key: one for one in materials if one.price_per_kg}
    odd: dict[str, list[str]] = {}
    for plate in plates:
        grade = usual.get(plate.material)
        if grade is None or grade.price_per_kg is None or not plate.price:
            continue
        kilograms = plate.thickness_mm * plate.width_mm * plate.length_mm * grade.density_kg_m3 * 1e-9
        times = plate.price / (Decimal(str(kilograms)) * grade.price_per_kg)
        if times > _ODD_TIMES or (times < 1 / _ODD_TIMES and not plate.remnant):
            odd.setdefault(plate.material, []).append(f"{plate.id} ({times:.2g} times)")
    return [
        f"the rack's price of {first_few(names, 4)} is far from that of {grade} in the shop's book: "
        "is it per lb, per kg or for the plate?"
        for grade, names in odd.items()
    ]


def _tables(path: Path) -> Iterator[tuple[SheetTable, bool]]:
    found = False
    lacking = NEEDED
    for name, rows in read_plain_sheets(path).items():
        table = find_table(rows, HEADINGS, NEEDED, Place(path.name, name))
        if table:
            found = True
            yield table, is_buyable(table, name or path.stem)
        else:
            lacking = min(lacking, missing_headings(rows, HEADINGS, NEEDED), key=len)
    if not found:
        raise InputError(
            f"no table of plates found: no row has the heading{'s' if len(lacking) > 1 else ''} "
            + ", ".join(field.capitalize() for field in lacking),
            place=Place(path.name),
            would_do="put Plate id, Material, Thickness, Width, Length, Edge, Quantity, Price, Per, Heat "
            "number and Remnant in one row, in any order",
        )


def is_buyable(table: SheetTable, name: str) -> bool:
    """Return whether a table lists sizes to buy: its sheet says so, or it has lead days and no quantity."""
    return "buy" in name.casefold() or ("lead" in table.headers and "quantity" not in table.headers)


def unit_of_sizes(table: SheetTable, inch: bool) -> dict[str, bool]:
    """Return for each size whether a bare number under its heading is in inches."""
    units = {field: table.headers[field].casefold().strip(" )].") for field in _SIZES}
    return {
        field: not unit.endswith("mm") and (inch or unit.endswith((" in", "(in", "[in", "inch", "inches")))
        for field, unit in units.items()
    }


def _refuse_second(plate: StockPlate, plates: Mapping[str, StockPlate]) -> None:
    first = plates.get(plate.id)
    if first:
        raise BadCellError(
            "id", f"this plate id stands already in row {first.row}", "give each row its own id"
        )


def _warning(table: SheetTable, row: int, cells: Mapping[str, Any], bad: BadCellError) -> str:
    read = cells.get(bad.field, "")
    return (
        f"{table.at(row, bad.field)}: {bad.problem}"
        + (f' - read "{read}"' if read != "" else "")
        + (f"; {bad.would_do}" if bad.would_do else "")
        + " (the row is left out)"
    )
