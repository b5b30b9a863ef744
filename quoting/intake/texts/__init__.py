"""What a piece of text says by itself: counts, dates, sizes in prose, weld gaps, trade words."""

from quoting.intake.texts.counts import LARGEST_COUNT, count_of, rising_list
from quoting.intake.texts.dates import date_of, fractions_behind
from quoting.intake.texts.dual_sizes import dual_size
from quoting.intake.texts.edge_words import (
    edge_of,
    edge_said,
    edge_text,
    edges_in,
    of_an_edge,
    without_joints,
)
from quoting.intake.texts.gap_words import gaps_in
from quoting.intake.texts.part_text import (
    HEAVY,
    QUIET,
    WORDS,
    PartText,
    grade_spans,
    is_conical,
    part_text,
    without_count,
    without_number,
)
from quoting.intake.texts.pipe_words import is_two_schedules, nominal_cell, schedule_cell
from quoting.intake.texts.plain_sizes import plain_sizes
from quoting.intake.texts.sizes_in_prose import sizes_in
from quoting.intake.texts.tolerance_words import tolerances_in, tolerances_of, tolerances_text
from quoting.intake.texts.trade_words import (
    BASIS_WORDS,
    SAYS_NO,
    SAYS_YES,
    ends_cell,
    ends_in,
    flags_in,
    may_be_segment,
    shape_words,
    yes_no,
)
from quoting.intake.texts.weld_words import extras_in, weld_in, weld_of, weld_said, weld_text

__all__ = [
    "BASIS_WORDS",
    "HEAVY",
    "LARGEST_COUNT",
    "QUIET",
    "SAYS_NO",
    "SAYS_YES",
    "WORDS",
    "PartText",
    "count_of",
    "date_of",
    "dual_size",
    "edge_of",
    "edge_said",
    "edge_text",
    "edges_in",
    "ends_cell",
    "ends_in",
    "extras_in",
    "flags_in",
    "fractions_behind",
    "gaps_in",
    "grade_spans",
    "is_conical",
    "is_two_schedules",
    "may_be_segment",
    "nominal_cell",
    "of_an_edge",
    "part_text",
    "plain_sizes",
    "rising_list",
    "schedule_cell",
    "shape_words",
    "sizes_in",
    "tolerances_in",
    "tolerances_of",
    "tolerances_text",
    "weld_in",
    "weld_of",
    "weld_said",
    "weld_text",
    "without_count",
    "without_joints",
    "without_number",
    "yes_no",
]
