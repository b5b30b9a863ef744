"""The record of a run: written, read back, asked why, and added up for the owner."""

from quoting.record.archive import unpack
from quoting.record.money import result_id
from quoting.record.owner_figures import Figures, OwnersFigures, QuotedLine, figures_of, owners_figures
from quoting.record.read import read_record
from quoting.record.why import find_line, what_if_lines, why_lines
from quoting.record.write import describe, make_record

__all__ = [
    "Figures",
    "OwnersFigures",
    "QuotedLine",
    "describe",
    "figures_of",
    "find_line",
    "make_record",
    "owners_figures",
    "read_record",
    "result_id",
    "unpack",
    "what_if_lines",
    "why_lines",
]
