"""The shop's own recorded rolls, read from a workbook: what was dialled and what came out.

One row a rolled piece, headings in any order: Roll, Material, Thickness, Width, Readout, and Inside diameter,
Outside diameter or Radius (to the middle of the plate); Yield (of the certificate) may be added. A bare
number is in the shop's own unit, a heading may say otherwise (`Width (mm)`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, RangeError
from quoting.forming import RecordedRoll
from quoting.shop import MPA_PER_KSI, Material, Shop, find_material, read_size
from quoting.tables import SheetTable, find_table, missing_headings, read_plain_sheets

HEADINGS: Mapping[str, tuple[str, ...]] = {
    "roll": ("roll", "machine"),
    "material": ("material", "grade"),
    "thickness": ("thickness", "thk"),
    "width": ("width",),
    "readout": ("readout", "bending roll shows", "position"),
    "inside": ("inside diameter", "id", "inside dia"),
    "outside": ("outside diameter", "od", "outside dia"),
    "radius": ("radius", "mean radius"),
    "yield": ("yield", "yield strength"),
}
NEEDED = ("roll", "material", "thickness", "width", "readout")


@dataclass(frozen=True, slots=True)
class Readings:
    """Records by the name of the roll, and a warning for each row that could not be used."""

    records: Mapping[str, tuple[RecordedRoll, ...]]
    warnings: tuple[str, ...]


def read_readings(path: Path, shop: Shop) -> Readings:
    """Return the recorded rolls of every sheet of a workbook; InputError when none holds a table of them."""
    records: dict[str, list[RecordedRoll]] = {}
    warnings: list[str] = []
    found = False
    lacking: tuple[str, ...] = NEEDED
    for name, rows in read_plain_sheets(path).items():
        table = find_table(rows, HEADINGS, NEEDED, Place(path.name, name))
        if table is None:
            lacking = min(lacking, missing_headings(rows, HEADINGS, NEEDED), key=len)
            continue
        found = True
        for number, cells in table.rows:
            try:
                roll, record = _record(table, number, cells, shop)
            except InputError as error:
                warnings.append(str(error))
                continue
            records.setdefault(roll, []).append(record)
    if not found:
        raise InputError(
            "no table of recorded rolls found: no row has the headings " + ", ".join(lacking),
            place=Place(path.name),
            would_do="put Roll, Material, Thickness, Width, Readout and Inside diameter in one row",
        )
    return Readings({roll: tuple(found) for roll, found in records.items()}, tuple(warnings))


def _record(table: SheetTable, number: int, cells: Mapping[str, Any], shop: Shop) -> tuple[str, RecordedRoll]:
    roll = str(cells["roll"]).strip()
    if roll not in {known.name for known in shop.rolls}:
        raise InputError(
            "no roll of this name in the shop's book",
            place=table.at(number, "roll"),
            read=roll,
            would_do="use one of " + ", ".join(known.name for known in shop.rolls),
        )
    material = find_material(str(cells["material"]), shop.materials)
    if material is None:
        raise InputError(
            "no grade of this name in the shop's book",
            place=table.at(number, "material"),
            read=str(cells["material"]),
            would_do="use a grade or a name of one that stands in the book",
        )
    size = _Sizes(table, number, cells, shop.inch, material)
    thickness = size.of("thickness")
    try:
        record = RecordedRoll(
            thickness_mm=thickness,
            width_mm=size.of("width"),
            material=material,
            readout_mm=size.of("readout"),
            mean_radius_mm=size.mean_radius(thickness),
            yield_mpa=_yield(cells, shop),
            where=f"row {number}",
        )
    except RangeError as error:
        raise InputError(str(error), place=table.at(number)) from error
    return roll, record


@dataclass(frozen=True, slots=True)
class _Sizes:
    """Reads the sizes of one row, each in its heading's unit or the shop's."""

    table: SheetTable
    number: int
    cells: Mapping[str, Any]
    inch: bool
    material: Material

    def of(self, field: str) -> float:
        header = self.table.headers.get(field, "").casefold()
        inch = (self.inch and "mm" not in header) or header.rstrip(" )").endswith((" in", "(in", "inch"))
        try:
            return read_size(self.cells.get(field, ""), inch=inch, gauge_table=self.material.gauge_table)
        except ValueError as error:
            raise InputError(
                str(error), place=self.table.at(self.number, field), read=str(self.cells.get(field, ""))
            ) from error

    def mean_radius(self, thickness_mm: float) -> float:
        for field, shift in (("inside", thickness_mm), ("outside", -thickness_mm)):
            if self.cells.get(field, "") != "":
                return (self.of(field) + shift) / 2
        if self.cells.get("radius", "") != "":
            return self.of("radius")
        raise InputError(
            "what came out is missing",
            place=self.table.at(self.number),
            would_do="fill in the inside diameter, the outside diameter or the radius",
        )


def _yield(cells: Mapping[str, Any], shop: Shop) -> float | None:
    value = cells.get("yield", "")
    if not isinstance(value, int | float) or not value:
        return None
    return float(value) * (MPA_PER_KSI if shop.inch else 1.0)
