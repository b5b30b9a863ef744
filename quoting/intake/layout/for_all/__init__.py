"""What titles, notes, heads and cover sheets say for all lines, or for some of them."""

from quoting.intake.layout.for_all.said_for_all import SaidForAll, facts_in, names_table, said_of_table
from quoting.intake.layout.for_all.sides_of_lines import SideOfLines, says_sides_of_some, sides_of_lines
from quoting.intake.layout.for_all.sizes_for_all import (
    ACROSS,
    EVERY,
    arc_of_all,
    coated_plate,
    grade_of_heads,
    names_parts_of_circle,
    plate_of,
    says_only_plate,
    sizes_for_all,
    units_of_sizes,
)

__all__ = [
    "ACROSS",
    "EVERY",
    "SaidForAll",
    "SideOfLines",
    "arc_of_all",
    "coated_plate",
    "facts_in",
    "grade_of_heads",
    "names_parts_of_circle",
    "names_table",
    "plate_of",
    "said_of_table",
    "says_only_plate",
    "says_sides_of_some",
    "sides_of_lines",
    "sizes_for_all",
    "units_of_sizes",
]
