"""Drawings: plates, blanks, capability charts."""

from quoting.drawings.blank_sketch import blank_sketch
from quoting.drawings.capability_chart import chart_words, draw_chart
from quoting.drawings.code_sketch import code_sketch, code_text
from quoting.drawings.cut_dxf import blank_dxf, plate_dxf
from quoting.drawings.cut_path import Vertex, box_path
from quoting.drawings.edge_marks import BlankExtras
from quoting.drawings.nest_picture import PlatePicture, nest_picture, picture_size
from quoting.drawings.plate_sheet import PieceText, PlateSheet
from quoting.drawings.plate_svg import plate_sketch, plate_svg
from quoting.drawings.rolls_sketch import RolledPlate, RollsAt, rolls_sketch
from quoting.drawings.sketch import (
    LEADING,
    QUIET,
    Blocks,
    Item,
    Line,
    PageForm,
    PdfPages,
    Pen,
    Sketch,
    Words,
    letters_for,
    lost,
    open_line,
    sketch_png,
    sketch_values,
    wide_fonts,
    with_fonts,
)

__all__ = [
    "LEADING",
    "QUIET",
    "BlankExtras",
    "Blocks",
    "Item",
    "Line",
    "PageForm",
    "PdfPages",
    "Pen",
    "PieceText",
    "PlatePicture",
    "PlateSheet",
    "RolledPlate",
    "RollsAt",
    "Sketch",
    "Vertex",
    "Words",
    "blank_dxf",
    "blank_sketch",
    "box_path",
    "chart_words",
    "code_sketch",
    "code_text",
    "draw_chart",
    "letters_for",
    "lost",
    "nest_picture",
    "open_line",
    "picture_size",
    "plate_dxf",
    "plate_sketch",
    "plate_svg",
    "rolls_sketch",
    "sketch_png",
    "sketch_values",
    "wide_fonts",
    "with_fonts",
]
