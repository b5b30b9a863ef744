"""Workbooks and text tables opened safely, whoever's they are: as sheets of cells with addresses."""

from quoting.tables.child import start_reader
from quoting.tables.headed_tables import SheetTable, find_table, missing_headings, read_plain_sheets
from quoting.tables.limits import Limits
from quoting.tables.open_file import PACKED, UNPACK, digest_of, read_formula_book, read_sheets
from quoting.tables.own_texts import read_own_text, toml_data
from quoting.tables.sheet import LONGEST_TEXT, Cell, CellError, Sheet, is_empty, text_of

__all__ = [
    "LONGEST_TEXT",
    "PACKED",
    "UNPACK",
    "Cell",
    "CellError",
    "Limits",
    "Sheet",
    "SheetTable",
    "digest_of",
    "find_table",
    "is_empty",
    "missing_headings",
    "read_formula_book",
    "read_own_text",
    "read_plain_sheets",
    "read_sheets",
    "start_reader",
    "text_of",
    "toml_data",
]
