"""The tables of a book as a workbook to fill in: `shop.xlsx`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.core import PAPERS, Paper
from quoting.shop.book import UNIT_WORDS
from quoting.shop.forms.cells import to_cell, with_unit
from quoting.shop.forms.layout import FIRST, FIRST_MARK, PAGES, RECORDS, FormPage
from quoting.shop.forms.look import EXAMPLE, OURS, WORKED_OUT, FormLook, allowed, rule_of_cell, unit_words
from quoting.shop.forms.records import RecordTable, record_tables
from quoting.shop.forms.schema import BookSetting, headings, setting_of, settings
from quoting.shop.sheet_style import open_book

_TITLES = {"roll": "Rolls", "shop": "The shop", "price": "Plate prices", "material": "Grades that differ"}
_ABOUT = (
    "Yellow cells are to fill in. Whose figure says whether a value is still the program's example; write",
    "yours there when the example happens to be right. Sizes may be typed as 3/16, 0 3/8, 10'-1 or 4.5 mm,",
    "weights as 80 cwt (of 100 lb); a yellow unit may be changed. The small grey column is how the program",
    "finds a setting: leave it as it is. Sheets may be renamed. Minutes, rates and prices are examples, no",
    "trade standard.",
)
_ABOUT_RECORDS = {
    "roll.rated": "From the machine's plate, or from a job that just went. Yield empty: 36 ksi (248 MPa), "
    "as for plain carbon plate; more yield means a stronger roll."
}
"""What is said beside the title of a table of rows."""
_SPARE_ROLLS, _SPARE_ROWS = 4, 6
_TITLE_HEIGHT, _LONG_LINK = 24, 130


def write_workbook(
    path: Path,
    data: Mapping[str, Any],
    ours: frozenset[str] = frozenset(),
    worked_out: frozenset[str] = frozenset(),
) -> None:
    """Write a book's tables as a form; `ours` names settings that are no examples though alike, `worked_out`
    those that follow from what was answered.
    """
    with open_book(path, title="The shop's book", note="Settings to fill in; read by rollwright") as book:
        form = _Form(book, data, ours, worked_out)
        form.first_page()
        for page in PAGES:
            form.page(page)


@dataclass(slots=True)
class _Columns:
    """Where the columns of a page stand; a column that the page does not have is None."""

    value: int
    low: int | None
    unit: int
    allowed: int
    whose: int
    said: int
    name: int


class _Form:
    """One workbook on its way."""

    def __init__(
        self, book: Any, data: Mapping[str, Any], ours: frozenset[str], worked_out: frozenset[str]
    ) -> None:
        self.book, self.data, self.ours, self.worked_out = book, data, ours, worked_out
        self.look = FormLook(book)
        shop = data.get("shop", {})
        self.metric = shop.get("units") == "metric"
        self.currency = str(data.get("rates", {}).get("currency", "money"))
        self.paper = PAPERS[Paper(shop["paper"])].workbook_code if shop.get("paper") in list(Paper) else 1

    def first_page(self) -> None:
        """Write the sheet that is filled in first, and where to go on."""
        sheet = self._sheet("Start here", "The shop's book", _ABOUT)
        columns = self._list_columns(sheet, value=28, bands=False)
        row = self._head(sheet, len(_ABOUT) + 2, "Fill these first", FIRST_MARK, columns)
        for name in FIRST:
            table, _, key = name.partition(".")
            self._setting(sheet, row, settings()[table, key], columns, name=f"{table}.")
            row += 1
        sheet.write_string(row + 1, 0, "Then, sheet by sheet", self.look["section"])
        for number, page in enumerate(PAGES, start=row + 2):
            sheet.write_url(number, 0, f"internal:'{page.name}'!A1", self.look["link"], page.name)
            sheet.merge_range(number, 1, number, columns.said, "", self.look["text"])
            sheet.write_string(number, 1, page.said, self.look["text"])
            sheet.set_row(number, 28 if len(page.said) > _LONG_LINK else 16)
        self._print(sheet, row + 2 + len(PAGES), columns.said)

    def page(self, page: FormPage) -> None:
        """Write one sheet with its tables."""
        sheet = self._sheet(page.name, page.name, (page.said,))
        if page.tables[0] == "roll":
            row, last = self._rolls(sheet)
            columns = None
        else:
            columns = self._list_columns(
                sheet, value=44 if "shop" in page.tables else 13, bands="labour" in page.tables
            )
            row, last = 3, columns.said
        if set(page.tables) <= RECORDS:
            sheet.set_column(0, 40, 14)
            last = 4 if page.tables[0] == "price" else 18
        for table in page.tables:
            if table in RECORDS:
                row = self._records(sheet, row, record_tables(self.data, metric=self.metric)[table])
            elif columns:
                row = self._list(sheet, row, table, columns)
        self._print(sheet, row, last)

    def _sheet(self, name: str, title: str, said: Sequence[str]) -> Any:
        sheet = self.book.add_worksheet(name)
        sheet.hide_gridlines(2)
        sheet.set_row(0, _TITLE_HEIGHT)
        sheet.write_string(0, 0, title, self.look["title"])
        for row, line in enumerate(said, start=1):
            sheet.write_string(row, 0, line, self.look["line"])
        return sheet

    def _print(self, sheet: Any, last_row: int, last_column: int) -> None:
        sheet.set_landscape()
        sheet.set_paper(self.paper)
        sheet.fit_to_pages(1, 0)
        sheet.set_margins(0.45, 0.45, 0.5, 0.6)
        sheet.print_area(0, 0, last_row, last_column)
        sheet.set_footer("&L&8&F&C&8&A&R&8Page &P of &N")

    def _list_columns(self, sheet: Any, *, value: int, bands: bool) -> _Columns:
        widths = [28, value, *((9, 9) if bands else ()), 12, 18, 15, 62, 30]
        for column, width in enumerate(widths):
            sheet.set_column(column, column, width)
        unit = 4 if bands else 2
        return _Columns(1, 2 if bands else None, unit, unit + 1, unit + 2, unit + 3, unit + 4)

    def _head(self, sheet: Any, row: int, title: str, mark: str, columns: _Columns) -> int:
        for column in range(columns.name):
            sheet.write_blank(row, column, None, self.look["section"])
        sheet.write_string(row, 0, title, self.look["section"])
        sheet.write_string(row, columns.name, mark, self.look["quiet"])
        heads = {0: "Setting", columns.value: "Value", columns.unit: "Unit", columns.allowed: "Sane range"}
        heads |= {
            columns.whose: "Whose figure",
            columns.said: "What it means",
            columns.name: "Name in the text form",
        }
        if columns.low is not None:
            heads |= {columns.value: "Value", columns.low: "Low", columns.low + 1: "High"}
        for column, text in heads.items():
            sheet.write_string(
                row + 1, column, text, self.look["quiet" if column == columns.name else "head"]
            )
        return row + 2

    def _list(self, sheet: Any, row: int, table: str, columns: _Columns) -> int:
        title = _TITLES.get(table) or headings()[table][0]
        if title.startswith("Work off"):
            title = table.capitalize()
        row = self._head(sheet, row, title, f"[{table}]", columns)
        for setting in settings().values():
            if setting.table == table and f"{table}.{setting.key}" not in FIRST:
                self._setting(sheet, row, setting, columns)
                row += 1
        return row + 1

    def _setting(self, sheet: Any, row: int, setting: BookSetting, columns: _Columns, name: str = "") -> None:
        key, value = self._own(self.data.get(setting.table, {}), setting)
        unit = key.removeprefix(f"{setting.rule.stem}_") if setting.rule.stem else ""
        at = [columns.value] if columns.low is None else [columns.low, columns.value, columns.low + 1]
        if setting.rule.kind == "band" and isinstance(value, list) and len(at) == 3:
            for column, part in zip(at, value, strict=True):
                self._value(sheet, row, column, setting, part, unit)
        else:
            self._value(sheet, row, columns.value, setting, value, unit)
            if setting.rule.kind == "band" and len(at) == 3:
                for column in (at[0], at[2]):
                    self._value(sheet, row, column, setting, None, unit)
        sheet.write_string(row, 0, _name_of(setting, first=bool(name)), self.look["bold"])
        self._unit(sheet, row, columns.unit, setting, unit)
        sheet.write_string(row, columns.allowed, allowed(setting), self.look["mark"])
        sheet.write_string(row, columns.said, setting.plain_sentence, self.look["text"])
        sheet.write_string(row, columns.name, f"{name}{setting.key}", self.look["quiet"])
        self._whose(sheet, (row, columns.whose), setting, [(row, columns.value, key, value)])
        sheet.set_row(
            row, 15 * max(1, -(-len(setting.plain_sentence) // 76), -(-len(allowed(setting)) // 22))
        )

    def _own(self, table: Mapping[str, Any], setting: BookSetting) -> tuple[str, Any]:
        """Return key and value of a setting as the book has it, in whatever unit."""
        for key, value in table.items():
            if setting_of(setting.table, key) == setting:
                return key, value
        return (setting.metric[0] if self.metric else setting.key), None

    def _value(self, sheet: Any, row: int, column: int, setting: BookSetting, value: Any, unit: str) -> None:
        form = self.look.of_value(setting, value, unit)
        self._write(sheet, row, column, value, form)
        sheet.data_validation(row, column, row, column, rule_of_cell(setting))

    def _write(self, sheet: Any, row: int, column: int, value: Any, form: Any) -> None:
        cell = "" if value is None else to_cell(value)
        if cell == "":
            sheet.write_blank(row, column, None, form)
        elif isinstance(cell, date):
            sheet.write_datetime(row, column, datetime.combine(cell, time()), form)
        elif isinstance(cell, str):
            sheet.write_string(row, column, cell, self.look["typed"])
        else:
            sheet.write_number(row, column, cell, form)

    def _unit(self, sheet: Any, row: int, column: int, setting: BookSetting, unit: str) -> None:
        units = setting.rule.quantity.units if setting.rule.quantity else ()
        sheet.write_string(
            row,
            column,
            unit_words(setting, unit, self.currency),
            self.look["input" if len(units) > 1 else "text"],
        )
        if len(units) > 1:
            words = [UNIT_WORDS[one] for one in units]
            sheet.data_validation(row, column, row, column, {"validate": "list", "source": words})

    def _whose(
        self,
        sheet: Any,
        at: tuple[int, int],
        setting: BookSetting,
        cells: Sequence[tuple[int, int, str, Any]],
    ) -> None:
        """Write the mark: a formula that sees whether the cell was changed, or the shop's own word."""
        full = f"{setting.table}.{setting.key}"
        mine, guessed = full in self.ours, full in self.worked_out
        same = [(row, column, value) for row, column, key, value in cells if setting.is_example(key, value)]
        if mine and same:
            sheet.write_string(*at, OURS, self.look["mark"])
        elif same and setting.rule.kind not in ("day", "clock"):
            tests = ",".join(_same(row, column, value, setting) for row, column, value in same)
            sheet.write_formula(*at, f'=IF(OR({tests}),"{EXAMPLE}","{OURS}")', self.look["mark"], EXAMPLE)
        elif guessed:
            tests = ",".join(_same(row, column, value, setting) for row, column, _, value in cells)
            sheet.write_formula(
                *at, f'=IF(OR({tests}),"{WORKED_OUT}","{OURS}")', self.look["mark"], WORKED_OUT
            )
        elif setting.example and any(value is not None for *_, value in cells):
            sheet.write_string(*at, OURS, self.look["mark"])
        else:
            sheet.write_blank(*at, None, self.look["mark"])
        sheet.data_validation(
            *at,
            *at,
            {
                "validate": "any",
                "input_title": "Whose figure",
                "input_message": "Write yours when the example is right for your shop.",
            },
        )

    def _rolls(self, sheet: Any) -> tuple[int, int]:
        """Write one column a roll, and return the next free row and the last column that prints."""
        rolls = self.data.get("roll", [])
        count = max(_SPARE_ROLLS, len(rolls) + 1)
        for column, width in enumerate([26, 10, *[13] * count, 18, 15, 58, 28]):
            sheet.set_column(column, column, width)
        ends = range(2 + count, 6 + count)
        heads = [
            "Setting",
            "Unit",
            *(f"Roll {one}" for one in range(1, count + 1)),
            "Sane range",
            "Whose figure",
        ]
        heads += ["What it means", "Name in the text form"]
        sheet.write_string(3, ends[3], "[[roll]]", self.look["quiet"])
        for column, text in enumerate(heads):
            sheet.write_string(4, column, text, self.look["quiet" if column == ends[3] else "head"])
        sheet.freeze_panes(5, 1)
        row = 5
        for setting in settings().values():
            if setting.table in ("roll", "roll.slide"):
                self._roll_row(sheet, row, setting, rolls, ends)
                row += 1
        return row + 1, ends[2]

    def _roll_row(
        self, sheet: Any, row: int, setting: BookSetting, rolls: Sequence[Any], ends: Sequence[int]
    ) -> None:
        inner = "slide." if setting.table == "roll.slide" else ""
        found = [self._own(roll.get("slide", {}) if inner else roll, setting) for roll in rolls]
        given = [key for key, value in found if value is not None]
        key = given[0] if given else (setting.metric[0] if self.metric else setting.key)
        unit = key.removeprefix(f"{setting.rule.stem}_") if setting.rule.stem else ""
        for column in range(2, ends[0]):
            own, value = found[column - 2] if column - 2 < len(found) else (key, None)
            if own != key and value is not None:
                value = with_unit(value, own.removeprefix(f"{setting.rule.stem}_"))
            self._value(sheet, row, column, setting, value, unit)
        sheet.write_string(
            row, 0, (("Slide: " + setting.words.lower()) if inner else setting.words), self.look["bold"]
        )
        self._unit(sheet, row, 1, setting, unit)
        sheet.write_string(row, ends[0], allowed(setting), self.look["mark"])
        cells = [(row, column, own, value) for column, (own, value) in enumerate(found, start=2)]
        self._whose(sheet, (row, ends[1]), setting, cells)
        sheet.write_string(row, ends[2], setting.plain_sentence, self.look["text"])
        sheet.write_string(row, ends[3], f"{inner}{setting.key}", self.look["quiet"])
        sheet.set_row(row, 15 * max(1, -(-len(setting.plain_sentence) // 72)))

    def _records(self, sheet: Any, row: int, table: RecordTable) -> int:
        """Write rows under headings, a unit under each heading, and its name small and grey."""
        sheet.write_string(row, 0, _TITLES.get(table.name) or table.title, self.look["section"])
        sheet.write_string(row, 1, f"[[{table.name}]]", self.look["quiet"])
        sheet.write_string(row, 2, _ABOUT_RECORDS.get(table.name, ""), self.look["line"])
        for column, field in enumerate(table.fields):
            sheet.write_string(row + 1, column, field.words, self.look["head"])
            sheet.write_string(
                row + 2,
                column,
                UNIT_WORDS.get(field.unit, field.unit),
                self.look["input" if field.unit else "text"],
            )
            sheet.write_string(row + 3, column, field.key, self.look["quiet"])
        sheet.write_string(row + 1, len(table.fields), "Whose figure", self.look["head"])
        for at in range(len(table.rows) + _SPARE_ROWS):
            record: Sequence[Any] = table.rows[at] if at < len(table.rows) else [None] * len(table.fields)
            cells: list[str] = []
            for column, (field, value) in enumerate(zip(table.fields, record, strict=True)):
                if field.setting:
                    self._value(sheet, row + 4 + at, column, field.setting, value, field.unit)
                else:
                    self._write(
                        sheet,
                        row + 4 + at,
                        column,
                        value,
                        self.look["money" if field.key == "price" else "input"],
                    )
                if isinstance(value, (int, Decimal)) and not isinstance(value, bool):
                    cells.append(_same(row + 4 + at, column, value, field.setting))
            if at < len(table.rows) and table.name in self.ours:
                sheet.write_string(row + 4 + at, len(table.fields), OURS, self.look["mark"])
            elif at < len(table.rows) and table.examples[at] and cells:
                formula = f'=IF(AND({",".join(cells)}),"{EXAMPLE}","{OURS}")'
                sheet.write_formula(row + 4 + at, len(table.fields), formula, self.look["mark"], EXAMPLE)
        return row + 6 + len(table.rows) + _SPARE_ROWS


def _name_of(setting: BookSetting, *, first: bool) -> str:
    """Return a setting's name; on the first sheet, away from its table's title, with the table."""
    if not first or setting.table in ("shop", "rates", "pricing"):
        return setting.words
    return f"{setting.table.capitalize()}: {setting.words.lower()}"


def _same(row: int, column: int, value: Any, setting: BookSetting | None) -> str:
    from xlsxwriter.utility import xl_rowcol_to_cell  # noqa: PLC0415 - slow to import

    cell = xl_rowcol_to_cell(row, column)
    if isinstance(value, list) and setting is not None and setting.rule.kind == "band":
        value = value[1]
    shown = to_cell(value)
    return (
        f"{cell}={shown:.15g}"
        if isinstance(shown, float)
        else f'{cell}="{str(shown).replace(chr(34), chr(34) * 2)}"'
    )
