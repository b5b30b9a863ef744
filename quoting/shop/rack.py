"""The stock rack: plates and remnants in the house, and the sizes that can be bought.

Two tables, by their headings and not by their position: the rack itself, and a sheet whose name says "buy"
(in CSV form a second file, `buyable.csv`). A row that cannot be used is left out and named in a warning.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any

from quoting.errors import InputError, Place
from quoting.shop.materials import find_material
from quoting.shop.model import Edge, Material, StockPlate
from quoting.shop.quantities import KG_PER_POUND
from quoting.shop.sheets import SheetTable, find_table, read_sheets
from quoting.shop.sizes import read_size

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
    "lead": ("lead days", "lead time days", "lead", "lead time"),
}
_NEEDED = ("material", "thickness", "width", "length")
_YES, _NO = ("yes", "y", "true", "1", "x"), ("no", "n", "false", "0", "")


class _BadCellError(Exception):
    """One cell of a row that cannot be used: the field, what is wrong, what would do."""

    def __init__(self, field: str, problem: str, would_do: str = "") -> None:
        self.field, self.problem, self.would_do = field, problem, would_do
        super().__init__(problem)


@dataclass(frozen=True, slots=True)
class Rack:
    """What the rack file holds: usable rows, and a warning for each row that is not."""

    plates: tuple[StockPlate, ...]
    warnings: tuple[str, ...]


def read_rack(paths: Sequence[Path], materials: Sequence[Material], *, inch: bool) -> Rack:
    """Return the stock of the rack file(s); a bare number is in inches when `inch`, else in mm.

    Raises InputError when a file does not open or no sheet of it holds a table of plates.
    """
    plates: list[StockPlate] = []
    warnings: list[str] = []
    for path in paths:
        tables = _tables(path)
        if not tables:
            raise InputError(
                "no table of plates found",
                place=Place(path.name),
                would_do="put the headings Plate id, Material, Thickness, Width, Length, Edge, Quantity, Price, "
                "Per, Heat number, Remnant in one row",
            )
        for table, buyable in tables:
            _read_table(table, buyable, materials, inch, plates, warnings)
    return Rack(tuple(plates), tuple(warnings))


def _tables(path: Path) -> list[tuple[SheetTable, bool]]:
    tables = []
    for name, rows in read_sheets(path).items():
        table = find_table(rows, HEADINGS, _NEEDED, Place(path.name, name))
        if table:
            tables.append((table, "buy" in (name or path.stem).casefold()))
    return tables


def _read_table(
    table: SheetTable,
    buyable: bool,
    materials: Sequence[Material],
    inch: bool,
    plates: list[StockPlate],
    warnings: list[str],
) -> None:
    rows_of_ids = {plate.id: plate.row for plate in plates}
    for number, cells in table.rows:
        try:
            plate = _plate(cells, table, number, buyable, materials, inch)
            if plate.id in rows_of_ids:
                raise _BadCellError(
                    "id",
                    f"this plate id stands already in row {rows_of_ids[plate.id]}",
                    "give each row its own id",
                )
        except _BadCellError as bad:
            read = cells.get(bad.field, "")
            warnings.append(
                f"{table.at(number, bad.field)}: {bad.problem}"
                + (f' - read "{read}"' if read != "" else "")
                + (f"; {bad.would_do}" if bad.would_do else "")
                + " (the row is left out)"
            )
            continue
        if plate.count == 0:
            continue
        rows_of_ids[plate.id] = number
        plates.append(plate)


def _plate(
    cells: Mapping[str, Any],
    table: SheetTable,
    row: int,
    buyable: bool,
    materials: Sequence[Material],
    inch: bool,
) -> StockPlate:
    material = find_material(_text(cells.get("material")), materials)
    if material is None:
        raise _BadCellError(
            "material",
            "is no material of this shop",
            "add it to shop.toml as [[material]] or use a known name",
        )
    thickness, width, length = (
        _size(cells, field, table, inch, material) for field in ("thickness", "width", "length")
    )
    weight_kg = thickness * width * length * material.density_kg_m3 * 1e-9
    width, length = min(width, length), max(width, length)
    return StockPlate(
        id=_text(cells.get("id")) or f"{'buy' if buyable else 'row'}-{row}",
        material=material.key,
        thickness_mm=thickness,
        width_mm=width,
        length_mm=length,
        edge=_edge(cells),
        count=None if buyable else _count(cells),
        price=_price(cells, weight_kg, material),
        heat=_text(cells.get("heat")),
        remnant=_yes(cells, "remnant"),
        lead_days=_lead(cells) if buyable else 0,
        row=row,
    )


def _size(cells: Mapping[str, Any], field: str, table: SheetTable, inch: bool, material: Material) -> float:
    header = table.headers[field].casefold()
    unit_inch = inch
    if header.rstrip(") ").endswith("mm"):
        unit_inch = False
    elif header.rstrip(") ").endswith((" in", "(in", "inch", "inches")):
        unit_inch = True
    try:
        return read_size(cells[field], inch=unit_inch, gauge_table=material.gauge_table)
    except ValueError as error:
        raise _BadCellError(field, str(error), "write 0.25, 1/4 as text, or 6 mm") from error


def _edge(cells: Mapping[str, Any]) -> Edge:
    text = _text(cells.get("edge")).casefold()
    if text in ("", "mill", "mill edge", "m"):
        return Edge.MILL
    if text in ("trimmed", "sheared", "cut", "trim", "t"):
        return Edge.TRIMMED
    raise _BadCellError("edge", "must be mill or trimmed")


def _count(cells: Mapping[str, Any]) -> int:
    value = cells.get("quantity", "")
    if value == "":
        return 1
    number = _number(value)
    if number is None or number < 0 or number != int(number):
        raise _BadCellError("quantity", "must be a whole number, 0 or more")
    return int(number)


def _lead(cells: Mapping[str, Any]) -> int:
    value = cells.get("lead", "")
    number = _number(value) if value != "" else Decimal(0)
    if number is None or number < 0:
        raise _BadCellError("lead", "must be a number of days, 0 or more")
    return int(number)


def _price(cells: Mapping[str, Any], weight_kg: float, material: Material) -> Decimal:
    """Return the price of the whole plate, rounded to the cent; without one the grade's price per kg."""
    given = [
        field for field in ("price", "price_kg", "price_lb", "price_plate") if cells.get(field, "") != ""
    ]
    if len(given) > 1:
        raise _BadCellError(given[1], "a second price for the same plate", "keep one of them")
    if not given:
        return (Decimal(str(weight_kg)) * material.price_per_kg).quantize(Decimal("0.01"))
    amount = _number(cells[given[0]])
    if amount is None or amount < 0:
        raise _BadCellError(given[0], "must be an amount of money, 0 or more")
    per = {"price_kg": "kg", "price_lb": "lb", "price_plate": "plate"}.get(given[0])
    per = per or _text(cells.get("per")).casefold().removeprefix("per ").removeprefix("/")
    if per in ("plate", "each", "ea"):
        return amount.quantize(Decimal("0.01"))
    if per not in ("kg", "lb"):
        raise _BadCellError("per", "the price does not say per what", "write lb, kg or plate")
    weight = Decimal(str(weight_kg)) / (1 if per == "kg" else Decimal(str(KG_PER_POUND)))
    return (amount * weight).quantize(Decimal("0.01"))


def _yes(cells: Mapping[str, Any], field: str) -> bool:
    value = cells.get(field, "")
    text = str(int(value)) if isinstance(value, (bool, float, int)) else _text(value).casefold()
    if text in _YES:
        return True
    if text in _NO:
        return False
    raise _BadCellError(field, "must be yes or no")


def _number(value: Any) -> Decimal | None:
    if isinstance(value, bool):
        return None
    text = _text(value).lstrip("$€£").replace(",", "")
    try:
        number = Decimal(text)
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


def _text(value: Any) -> str:
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()
