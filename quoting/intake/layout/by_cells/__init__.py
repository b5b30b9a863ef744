"""What columns hold, told by the cells under their headings."""

from quoting.intake.layout.by_cells.cone_ends import has_both_ends, names_no_end, with_ends
from quoting.intake.layout.by_cells.names import with_identifiers, with_names_of_rows
from quoting.intake.layout.by_cells.settle import settled_by_cells

__all__ = [
    "has_both_ends",
    "names_no_end",
    "settled_by_cells",
    "with_ends",
    "with_identifiers",
    "with_names_of_rows",
]
