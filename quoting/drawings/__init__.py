"""Drawings: plates, blanks, capability charts."""

from quoting.drawings.capability_chart import draw_chart
from quoting.drawings.cut_dxf import blank_dxf, plate_dxf
from quoting.drawings.nest_picture import PlatePicture, nest_picture, picture_size
from quoting.drawings.plate_sheet import PieceText, PlateSheet
from quoting.drawings.plate_svg import plate_svg

__all__ = [
    "PieceText",
    "PlatePicture",
    "PlateSheet",
    "blank_dxf",
    "draw_chart",
    "nest_picture",
    "picture_size",
    "plate_dxf",
    "plate_svg",
]
