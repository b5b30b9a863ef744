"""The form `shop.xlsx` back into the tables of the book, each setting with its sheet and cell.

Tables are found by their marks (`[rates]`, `[[shift]]`) and settings by the name in their row, so that sheets
may be renamed and moved.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, column_letters
from quoting.shop.book import PRICE_TABLES, BookTables, unit_of
from quoting.shop.findings import Findings, Rule, did_you_mean
from quoting.shop.forms.cells import CellUnfitError, from_cell, unit_and_value
from quoting.shop.forms.layout import FIRST_MARK, PRICES
from quoting.shop.forms.look import OURS, WORKED_OUT
from quoting.shop.forms.schema import rules, setting_of, settings
from quoting.tables import Cell, Limits, Sheet, is_empty, read_sheets, text_of

_MARK = re.compile(r"^\[(\[)?([a-z_.]+)\]?\]$")
_ROLL = re.compile(r"^roll (\d+)$")
NAME, VALUE, LOW, HIGH, UNIT, WHOSE = "name in the text form", "value", "low", "high", "unit", "whose figure"
SAID_OURS = OURS


def read_workbook(path: Path) -> tuple[BookTables, frozenset[str]]:
    """Return the tables of a form, and the names of settings that it marks as the shop's own.

    What is wrong in a cell is in the findings. Raises InputError when it is no workbook of the shop's book.
    """
    sheets = read_sheets(path, Limits(), links=True)
    reading = _Reading(Findings(path.name, form=True))
    for sheet in sheets:
        marks = [row for row in range(len(sheet.rows)) if _mark(sheet.rows[row])]
        for first, last in pairwise([*marks, len(sheet.rows)]):
            reading.part(sheet, first, last)
    if not reading.data:
        raise InputError(
            "holds no part of a shop's book: no sheet has a mark such as [rates] or [[roll]]",
            place=Place(path.name),
            would_do="start from the workbook of `rollwright init DIR`, and leave its grey column in place",
        )
    reading.finish()
    worked_out = frozenset(reading.worked_out)
    return BookTables(reading.data, reading.places, reading.findings, worked_out), frozenset(reading.ours)


def _mark(row: Sequence[Cell]) -> str:
    for cell in row:
        if isinstance(cell, str) and (cell.strip() == FIRST_MARK or _MARK.match(cell.strip())):
            return cell.strip()
    return ""


class _Reading:
    """The tables as they fill up from one part of a sheet after the other."""

    def __init__(self, findings: Findings) -> None:
        self.findings = findings
        self.data: dict[str, Any] = {}
        self.places: dict[tuple[str, str], int | str] = {}
        self.ours: set[str] = set()
        self.worked_out: set[str] = set()
        self.rolls: dict[int, dict[str, Any]] = {}
        self.rated: list[tuple[int, str, dict[str, Any], dict[str, str]]] = []

    def part(self, sheet: Sheet, first: int, last: int) -> None:
        """Read the rows of one table of a sheet; `first` is the row of its mark."""
        mark = _mark(sheet.rows[first])
        table = "" if mark == FIRST_MARK else mark.strip("[]")
        if table == "roll":
            self._rolls(sheet, first, last)
        elif mark.startswith("[["):
            self._records(sheet, table, first, last)
        else:
            if table:
                self.data.setdefault(table, {})
                self.places[table, ""] = _address(sheet, first)
            self._list(sheet, table, first, last)

    def finish(self) -> None:
        """Put each rated point to its roll, and the rolls in their order."""
        numbers = {number: index for index, number in enumerate(sorted(self.rolls), start=1)}
        for number, address, point, cells in self.rated:
            roll = self.rolls.get(number)
            if roll is None:
                self.findings.problem(
                    f"{self.findings.file}, {address}",
                    "a rated point names a roll that the form does not have",
                    read=number,
                    would_do="write the number that stands over the roll's column",
                )
                continue
            points = roll.setdefault("rated", [])
            points.append(point)
            path = f"roll[{numbers[number]}].rated[{len(points)}]"
            self.places[path, ""] = address
            self.places |= {(path, key): cell for key, cell in cells.items()}
        for number, index in numbers.items():
            for path, key in list(self.places):
                if path.startswith(f"#{number}") and path.removeprefix(f"#{number}") in ("", ".slide"):
                    self.places[f"roll[{index}]{path.removeprefix(f'#{number}')}", key] = self.places.pop(
                        (path, key)
                    )
        for table in [
            name for name, one in self.data.items() if isinstance(one, dict) and not any(one.values())
        ]:
            if set(self.data[table].values()) <= {""}:
                del self.data[table]
        if self.rolls:
            self.data["roll"] = [self.rolls[number] for number in sorted(self.rolls)]

    def _list(self, sheet: Sheet, part: str, first: int, last: int) -> None:
        columns = _columns(sheet, first + 1)
        lost = _lost_headings(sheet, columns, part, range(first + 2, last))
        if lost:
            self.findings.problem(
                f"{self.findings.file}, {_address(sheet, first + 1)}",
                f"the headings {lost} are missing under this mark",
                would_do="put the row of headings back as `rollwright init` writes it",
            )
            return
        for row in range(first + 2, last):
            name = text_of(_cell(sheet, row, columns[NAME]))
            if not name:
                continue
            table, key = _table_and_key(part, name)
            low_high = [
                (columns[head], _cell(sheet, row, columns[head])) for head in (LOW, HIGH) if head in columns
            ]
            unit = text_of(_cell(sheet, row, columns[UNIT])) if UNIT in columns else ""
            place = (sheet, row, columns[VALUE])
            found = self._value(place, table, key, unit, low_high)
            self._marked(f"{table}.{key}", _cell(sheet, row, columns.get(WHOSE, -1)))
            if found:
                self._put(self.data.setdefault(table, {}), table, found, _address(*place))
            else:
                self.places.setdefault((table, key), _address(*place))

    def _value(
        self,
        place: tuple[Sheet, int, int],
        table: str,
        key: str,
        unit: str,
        low_high: Sequence[tuple[int, Cell]] = (),
    ) -> tuple[str, Any] | None:
        """Return the setting's key with its unit, and its value; None when the cell gives none."""
        sheet, row, column = place
        cell = _cell(*place)
        rule = rules().get((table, key), Rule("text"))
        spread = [(at, one) for at, one in low_high if not is_empty(one)] if rule.kind == "band" else []
        if is_empty(cell) and not spread:
            setting = settings().get((table, key))
            kept = setting is not None and setting.rule.kind == "text" and setting.value == ""
            return (key, "") if kept else None
        try:
            value = from_cell(cell, rule)
            if spread:
                low, high = (from_cell(one, rule) if not is_empty(one) else value for _, one in low_high)
                value = [low, value, high]
            return self._with_unit(table, key, unit, value, rule)
        except CellUnfitError as problem:
            self.findings.problem(
                f"{self.findings.file}, {_address(sheet, row, column)}, {_said(table, key)}",
                str(problem),
                read=text_of(cell),
                would_do=problem.would_do,
            )
            return None

    def _with_unit(self, table: str, key: str, unit: str, value: Any, rule: Rule) -> tuple[str, Any]:
        if rule.quantity is None:
            return key, value
        said = unit_of(unit, rule.quantity) if unit else key.removeprefix(f"{rule.stem}_")
        if said is None:
            units = ", ".join(rule.quantity.units)
            raise CellUnfitError(
                f'has the unit "{unit}", which is none of {rule.quantity.name}', f"units: {units}"
            )
        said, value = unit_and_value(value, rule, said)
        return f"{rule.stem}_{said}", value

    def _put(self, into: dict[str, Any], path: str, found: tuple[str, Any], address: str) -> None:
        key, value = found
        if key in into:
            self.findings.problem(
                f"{self.findings.file}, {address}, {_said(path, key)}",
                f"stands twice, here and in {self.places[path, key]}",
                would_do="keep one of them",
            )
        into[key] = value
        self.places[path, key] = address

    def _rolls(self, sheet: Sheet, first: int, last: int) -> None:
        columns = _columns(sheet, first + 1)
        numbered = {int(over[1]): at for head, at in columns.items() if (over := _ROLL.match(head))}
        for row in range(first + 2, last):
            name = text_of(_cell(sheet, row, columns.get(NAME, -1)))
            unit = text_of(_cell(sheet, row, columns.get(UNIT, -1)))
            if not name:
                continue
            inner, _, key = name.rpartition(".")
            table = f"roll.{inner}" if inner else "roll"
            self._marked(f"{table}.{key}", _cell(sheet, row, columns.get(WHOSE, -1)))
            for number, column in numbered.items():
                path = f"#{number}.{inner}" if inner else f"#{number}"
                found = self._value((sheet, row, column), table, key, unit)
                if found:
                    roll = self.rolls.setdefault(number, {})
                    into = roll.setdefault(inner, {}) if inner else roll
                    self.places.setdefault((path, ""), _address(sheet, row, column))
                    self._put(into, path, found, _address(sheet, row, column))
                else:
                    self.places.setdefault((path, key), _address(sheet, row, column))

    def _marked(self, name: str, mark: Cell) -> None:
        """Keep whose figure a setting is."""
        said = text_of(mark).casefold()
        if said == SAID_OURS:
            self.ours.add(name)
        elif said == WORKED_OUT:
            self.worked_out.add(name)

    def _records(self, sheet: Sheet, table: str, first: int, last: int) -> None:
        names = {text_of(cell): at for at, cell in enumerate(_row(sheet, first + 3)) if not is_empty(cell)}
        units = {key: text_of(_cell(sheet, first + 2, at)) for key, at in names.items()}
        whose = _columns(sheet, first + 1).get(WHOSE, -1)
        marks = set()
        for row in range(first + 4, last):
            if all(is_empty(_cell(sheet, row, at)) for at in names.values()):
                continue
            marks.add(text_of(_cell(sheet, row, whose)).casefold())
            if table == PRICES:
                self._price(sheet, row, names)
                continue
            record: dict[str, Any] = {}
            cells: dict[str, str] = {}
            for key, at in names.items():
                if (table, key) == ("roll.rated", "roll"):
                    continue
                found = self._value((sheet, row, at), table, key, units[key])
                if found:
                    record[found[0]] = found[1]
                    cells[found[0]] = _address(sheet, row, at)
            if table == "roll.rated":
                self._rated(sheet, row, names.get("roll", -1), record, cells)
            else:
                self._add(table, record, cells, _address(sheet, row))
        if marks == {SAID_OURS}:
            self.ours.add(table)

    def _rated(
        self, sheet: Sheet, row: int, column: int, record: dict[str, Any], cells: dict[str, str]
    ) -> None:
        said = re.sub(r"(?i)^roll\s*", "", text_of(_cell(sheet, row, column)))
        number = int(said) if said.isdecimal() else -1
        self.rated.append((number, _address(sheet, row, max(column, 0)), record, cells))

    def _add(self, table: str, record: dict[str, Any], cells: Mapping[str, str], address: str) -> None:
        outer, _, inner = table.rpartition(".")
        rows = (self.data.setdefault(outer, {}) if outer else self.data).setdefault(inner, [])
        rows.append(record)
        path = f"{table}[{len(rows)}]"
        self.places[path, ""] = address
        self.places |= {(path, key): cell for key, cell in cells.items()}

    def _price(self, sheet: Sheet, row: int, names: Mapping[str, int]) -> None:
        grade = text_of(_cell(sheet, row, names.get("grade", -1)))
        column = names.get("price", -1)
        cell, unit = _cell(sheet, row, column), text_of(_cell(sheet, row, names.get("per", -1)))
        per = unit.casefold().removeprefix("per").strip()
        rule = rules()["material", "price_per_kg"]
        place = f"{self.findings.file}, {_address(sheet, row, column)}, price of {grade or 'no grade'}"
        if is_empty(cell):
            return
        try:
            own, value = unit_and_value(from_cell(cell, rule), rule, f"per_{per}")
        except CellUnfitError as problem:
            self.findings.problem(place, str(problem), read=text_of(cell), would_do=problem.would_do)
            return
        table = f"price_{own}"
        if table not in PRICE_TABLES:
            hint = did_you_mean(per, ("lb", "kg", "cwt")) or "write lb, kg or cwt"
            self.findings.problem(place, "does not say what the price is for", read=unit, would_do=hint)
            return
        self._put(self.data.setdefault(table, {}), table, (grade, value), _address(sheet, row, column))


def _said(table: str, key: str) -> str:
    setting = setting_of(re.sub(r"^#\d+", "roll", table), key)
    return setting.words if setting else key


def _columns(sheet: Sheet, row: int) -> dict[str, int]:
    return {text_of(cell).casefold(): at for at, cell in enumerate(_row(sheet, row)) if not is_empty(cell)}


def _row(sheet: Sheet, row: int) -> Sequence[Cell]:
    return sheet.rows[row] if row < len(sheet.rows) else []


def _lost_headings(sheet: Sheet, columns: dict[str, int], part: str, rows: range) -> str:
    """Return which headings a list lacks that it cannot be read without; a spread needs Low and High."""
    if NAME not in columns or VALUE not in columns:
        return "Value and Name in the text form"
    names = [text_of(_cell(sheet, row, columns[NAME])) for row in rows]
    known = (rules().get(_table_and_key(part, name)) for name in names)
    spreads = any(rule is not None and rule.kind == "band" for rule in known)
    return "Low and High" if spreads and not {LOW, HIGH} <= set(columns) else ""


def _table_and_key(part: str, name: str) -> tuple[str, str]:
    """Return table and key of a name in the text form; the block of the first settings names both."""
    table, _, key = (part, "", name) if part else name.rpartition(".")
    return table, key


def _cell(sheet: Sheet, row: int, column: int) -> Cell:
    cells = _row(sheet, row)
    value = cells[column] if 0 <= column < len(cells) else ""
    return value.strip() if isinstance(value, str) else value


def _address(sheet: Sheet, row: int, column: int | None = None) -> str:
    at = f"row {row + 1}" if column is None else f"cell {column_letters(column)}{row + 1}"
    return f'sheet "{sheet.name}" {at}'
