"""Two columns of diameters that are the two ends of cones: D and d, Diameter and Diameter 2."""

from __future__ import annotations

import re
from dataclasses import replace

from quoting.intake.layout.find_tables import OrderTable, TableColumn
from quoting.tables import Sheet, is_empty

_ENDS = frozenset(("large", "small", "top", "bottom"))
_SECOND = re.compile(r"^(?P<name>.*?)\W*(?:2|ii|second)\W*$", re.I)
_LETTERS = re.compile(r"[\W\d_]+")


def with_ends(table: OrderTable) -> OrderTable:
    """Return the table with such columns read as the ends of cones; any other table as it is."""
    columns = table.columns
    ends = [column for column in columns if column.meaning.field in _ENDS]
    round_ = [column for column in columns if column.meaning.field == "diameter"]
    if len(ends) == 1 and ends[0].meaning.field == "small" and len(round_) == 1:
        return _renamed(table, {round_[0].index: "large"})
    if ends or not round_:
        return table
    second = _second(columns, round_)
    return _renamed(table, {round_[0].index: "bottom", second.index: "top"}) if second else table


def _second(columns: tuple[TableColumn, ...], round_: list[TableColumn]) -> TableColumn | None:
    """Return the column of the other end: named as the first one but for its case, or with a 2 behind."""
    first = round_[0]
    if len(round_) == 2 and round_[1].meaning.basis is first.meaning.basis:
        same = _LETTERS.sub("", first.header).lower() == _LETTERS.sub("", round_[1].header).lower()
        return round_[1] if same else None
    if len(round_) > 1:
        return None
    for column in columns:
        match = _SECOND.match(column.header)
        name = _LETTERS.sub("", match["name"]).lower() if match else ""
        if name and column.index != first.index and name == _LETTERS.sub("", first.header).lower():
            return column
    return None


def _renamed(table: OrderTable, fields: dict[int, str]) -> OrderTable:
    basis = next(column.meaning.basis for column in table.columns if column.index in fields)
    unit = next(column.meaning.unit for column in table.columns if column.index in fields)
    columns = tuple(
        replace(
            column,
            meaning=replace(
                column.meaning,
                field=fields[column.index],
                basis=column.meaning.basis or basis,
                unit=column.meaning.unit or unit,
            ),
        )
        if column.index in fields
        else column
        for column in table.columns
    )
    return replace(table, columns=columns)


def has_both_ends(sheet: Sheet, table: OrderTable) -> bool:
    """Return whether some row of the table fills both columns of cone ends: a blank one is then no cone."""
    ends = [column.index for column in table.columns if column.meaning.field in _ENDS]
    return len(ends) == 2 and any(
        all(index < len(sheet.rows[row]) and not is_empty(sheet.rows[row][index]) for index in ends)
        for row in table.rows
    )
