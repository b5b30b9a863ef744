"""Where the tables of a sheet are, what each column holds, and what holds for a whole table."""

from quoting.intake.layout.column_map import CustomerMap, columns_read, customer_map
from quoting.intake.layout.columns import Meaning, unit_word
from quoting.intake.layout.find_tables import Layout, OrderTable, TableColumn, layout_of, with_identifiers
from quoting.intake.layout.missing_columns import check_columns
from quoting.intake.layout.row_kinds import RowKind, row_kinds
from quoting.intake.layout.sheet_rules import SIZES, SheetRules, said_in, style_of, unit_found
from quoting.intake.layout.table_context import TableContext
from quoting.intake.layout.titles import heading_of

__all__ = [
    "SIZES",
    "CustomerMap",
    "Layout",
    "Meaning",
    "OrderTable",
    "RowKind",
    "SheetRules",
    "TableColumn",
    "TableContext",
    "check_columns",
    "columns_read",
    "customer_map",
    "heading_of",
    "layout_of",
    "row_kinds",
    "said_in",
    "style_of",
    "unit_found",
    "unit_word",
    "with_identifiers",
]
