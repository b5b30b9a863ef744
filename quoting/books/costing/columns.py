"""Which column of the sheet "Lines" holds what; the one place that other sheets look addresses up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from quoting.core import column_letters
from quoting.pricing import INPUTS, LINE_FORMULAS

SHEET = "Lines"
GROUP_ROW, HEAD_ROW, UNIT_ROW, TOTAL_ROW = 3, 4, 5, 6
FIRST_ROW = 7


@dataclass(frozen=True, slots=True)
class LineColumn:
    """One column: the formula name it holds, its heading, unit, width, style, and the block it stands in."""

    name: str
    heading: str
    unit: str
    width: float
    style: str
    block: str


_TAKES, _COSTS = "What the line takes", "What it costs"
_BUILT, _SOLD = "How the price is built", "What it is sold for"
_STYLES = {"pieces": "whole", "people": "whole", "1 or 0": "whole", "min": "number", "m": "number"}
_DRIVERS = [given for given in INPUTS if given.owner == "line"]
_SPLIT = [formula.name for formula in LINE_FORMULAS].index("cost") + 1
_WIDTHS = {
    "quantity": 7.5,
    "edge_m": 8.5,
    "setup_minutes": 7.5,
    "rolling_minutes": 7.5,
    "crew": 7.5,
    "crane_minutes": 7.5,
    "bench_minutes": 7.5,
    "weld_minutes": 7.5,
    "consumables": 9,
    "outside_cost": 8.5,
    "certified": 9.5,
    "roll_rate": 8,
}


def _columns() -> tuple[LineColumn, ...]:
    columns = [
        LineColumn("customer", "Customer", "", 14, "line", ""),
        LineColumn("number", "Line", "", 6, "line", ""),
        LineColumn("what", "What", "", 34, "text", _TAKES),
        LineColumn("roll", "Roll", "", 12, "text", _TAKES),
    ]
    columns += [
        LineColumn(
            given.name,
            given.label,
            given.unit,
            _WIDTHS.get(given.name, 9),
            _STYLES.get(given.unit, "money"),
            _TAKES,
        )
        for given in _DRIVERS
    ]
    columns += [
        LineColumn(formula.name, formula.label, "money", 11, "money", _COSTS)
        for formula in LINE_FORMULAS[:_SPLIT]
    ]
    columns.append(LineColumn("margin", "Margin wanted", "share of price", 10, "percent", _BUILT))
    block = _BUILT
    for formula in LINE_FORMULAS[_SPLIT:]:
        if formula.name == "under_floor":
            continue
        columns.append(LineColumn(formula.name, formula.label, "money", 11, "money", block))
        if formula.name == "unit":
            block = _SOLD
            columns += [
                LineColumn("by_hand", "Unit price by hand", "money", 10, "money", block),
                LineColumn("why_by_hand", "Why by hand", "", 22, "text inset", block),
                LineColumn("sold", "Sold at, each", "money", 10, "money", block),
            ]
    columns += [
        LineColumn("margin_of_price", "Margin", "share of price", 8, "percent", _SOLD),
        LineColumn("markup_on_cost", "Markup", "share of cost", 8, "percent", _SOLD),
        LineColumn("under_floor", "Floor", "", 11, "bold inset", _SOLD),
        LineColumn("drop", "Leave out", "type x", 7, "centre", _SOLD),
        LineColumn("counts", "In the sums", "1 or 0", 7, "whole", _SOLD),
        LineColumn("id", "Line id", "", 12, "quiet inset", _SOLD),
    ]
    return tuple(columns)


COLUMNS = _columns()
INDEX = {column.name: index for index, column in enumerate(COLUMNS)}
DRIVER_NAMES = tuple(given.name for given in _DRIVERS)
SUMMED = tuple(
    name
    for name in (
        "plate_cost",
        "drop_credit",
        "cutting_cost",
        "setup_minutes",
        "rolling_minutes",
        "crane_minutes",
        "bench_minutes",
        "weld_minutes",
    )
) + tuple(
    formula.name for formula in LINE_FORMULAS if formula.name not in ("unit", "floor_unit", "under_floor")
)


@dataclass(frozen=True, slots=True)
class LineTable:
    """Where the priced lines stand: 0-based row by line id, and the rows of each order, first to last.

    `values` are what the formulas give, by line id and column name.
    """

    rows: Mapping[str, int]
    orders: tuple[tuple[int, int] | None, ...]
    last_row: int
    values: Mapping[str, Mapping[str, Any]]

    def cell(self, name: str, line_id: str) -> str:
        """Return the address of a value of a line for another sheet."""
        return f"{SHEET}!{column_letters(INDEX[name])}{self.rows[line_id] + 1}"

    def total(self, name: str, rows: tuple[int, int] | None = None) -> str:
        """Return the sum of one column over the lines that are not left out."""
        return f"SUMPRODUCT({self.column('counts', rows)},{self.column(name, rows)})"

    def column(self, name: str, rows: tuple[int, int] | None = None) -> str:
        """Return the range of one column over all lines, or over the rows of an order."""
        first, last = rows or (FIRST_ROW, self.last_row)
        letter = column_letters(INDEX[name])
        return f"{SHEET}!${letter}${first + 1}:${letter}${last + 1}"
