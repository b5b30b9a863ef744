"""Where the tables of a sheet are, what each column holds, and what holds for a whole table."""

from quoting.intake.layout.by_cells import (
    has_both_ends,
    names_no_end,
    settled_by_cells,
    with_ends,
    with_identifiers,
    with_names_of_rows,
)
from quoting.intake.layout.column_map import CustomerMap, columns_read, customer_map
from quoting.intake.layout.columns import (
    Meaning,
    listed_by_slashes,
    names_another,
    names_what_is_within,
    size_in_list,
    unit_word,
)
from quoting.intake.layout.columns import meaning_of as heading_meaning
from quoting.intake.layout.file_hints import UnitHints, day_first, file_style, unit_hints
from quoting.intake.layout.find_tables import Layout, OrderTable, Recognise, TableColumn
from quoting.intake.layout.for_all import (
    ACROSS,
    arc_of_all,
    facts_in,
    grade_of_heads,
    names_parts_of_circle,
    names_table,
    said_of_table,
)
from quoting.intake.layout.heading_grammar import is_word, sides_of
from quoting.intake.layout.lines_named import items_in
from quoting.intake.layout.missing_columns import check_columns
from quoting.intake.layout.reshape import reshaped
from quoting.intake.layout.row_kinds import RowKind, row_kinds
from quoting.intake.layout.sheet_rules import (
    LABELS,
    SIZES,
    SheetRules,
    as_inside,
    as_notes_say,
    basis_said,
    in_for_inside,
    said_in,
    style_of,
    style_of_sizes,
    unit_found,
)
from quoting.intake.layout.statements import (
    OTHER_GRADE,
    Section,
    SheetAsk,
    Statements,
    is_courtesy,
    mere_business,
    said_of_tabs,
    section_of,
)
from quoting.intake.layout.table_context import TableContext
from quoting.intake.layout.titles import heading_of, order_number
from quoting.intake.layout.who_asks import who_asks

__all__ = [
    "ACROSS",
    "LABELS",
    "OTHER_GRADE",
    "SIZES",
    "CustomerMap",
    "Layout",
    "Meaning",
    "OrderTable",
    "Recognise",
    "RowKind",
    "Section",
    "SheetAsk",
    "SheetRules",
    "Statements",
    "TableColumn",
    "TableContext",
    "UnitHints",
    "arc_of_all",
    "as_inside",
    "as_notes_say",
    "basis_said",
    "check_columns",
    "columns_read",
    "customer_map",
    "day_first",
    "facts_in",
    "file_style",
    "grade_of_heads",
    "has_both_ends",
    "heading_meaning",
    "heading_of",
    "in_for_inside",
    "is_courtesy",
    "is_word",
    "items_in",
    "listed_by_slashes",
    "mere_business",
    "names_another",
    "names_no_end",
    "names_parts_of_circle",
    "names_table",
    "names_what_is_within",
    "order_number",
    "reshaped",
    "row_kinds",
    "said_in",
    "said_of_table",
    "said_of_tabs",
    "section_of",
    "settled_by_cells",
    "sides_of",
    "size_in_list",
    "style_of",
    "style_of_sizes",
    "unit_found",
    "unit_hints",
    "unit_word",
    "who_asks",
    "with_ends",
    "with_identifiers",
    "with_names_of_rows",
]
