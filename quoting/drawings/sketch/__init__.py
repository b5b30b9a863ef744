"""Drawings made of a few kinds of items, and what writes them: SVG, pages of a PDF."""

from quoting.drawings.sketch.compact import sketch_values
from quoting.drawings.sketch.east_letters import with_fonts
from quoting.drawings.sketch.letters import letters_for, lost, wide_fonts
from quoting.drawings.sketch.page_form import PageForm
from quoting.drawings.sketch.pdf import PdfPages
from quoting.drawings.sketch.png import sketch_png
from quoting.drawings.sketch.sketch import (
    PAPER,
    QUIET,
    Blocks,
    Disc,
    Item,
    Line,
    Pen,
    Sketch,
    Words,
    open_line,
)
from quoting.drawings.sketch.svg import sketch_svg
from quoting.drawings.sketch.text_rows import LEADING

__all__ = [
    "LEADING",
    "PAPER",
    "QUIET",
    "Blocks",
    "Disc",
    "Item",
    "Line",
    "PageForm",
    "PdfPages",
    "Pen",
    "Sketch",
    "Words",
    "letters_for",
    "lost",
    "open_line",
    "sketch_png",
    "sketch_svg",
    "sketch_values",
    "wide_fonts",
    "with_fonts",
]
