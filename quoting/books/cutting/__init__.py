"""What the cutting table gets: the cutting book, drawings of plates and blanks."""

from quoting.books.cutting.cut_sheet_pdf import write_cut_sheets
from quoting.books.cutting.cut_sheets import NOT_PLANNED, CutSheet, cut_sheets
from quoting.books.cutting.cutting_book import write_cutting
from quoting.books.cutting.drawings import MADE, Writer, drawing_writers
from quoting.books.cutting.labels import write_labels
from quoting.books.cutting.page import line_list
from quoting.books.cutting.remnant_list import heat_words
from quoting.books.cutting.remnants import Remnant, remnants

__all__ = [
    "MADE",
    "NOT_PLANNED",
    "CutSheet",
    "Remnant",
    "Writer",
    "cut_sheets",
    "drawing_writers",
    "heat_words",
    "line_list",
    "remnants",
    "write_cut_sheets",
    "write_cutting",
    "write_labels",
]
