"""A scannable code as a drawing: QR Code (ISO/IEC 18004), made by the library zxing-cpp, as vector squares.

Error correction is level Q (about a quarter may be dirty); the light border of four modules that the symbol
needs is part of the drawing. What is in it always stands beside it in letters: paper must work without a
scanner.
"""

from __future__ import annotations

import numpy as np

from quoting.drawings.cut_path import box_path
from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch import PAPER, Blocks, Line, Sketch

_QUIET_MODULES = 4


def code_text(*parts: str) -> str:
    """Return what a code holds: its parts between slashes; slashes and line ends within a part go.

    >>> code_text("JOB", "A-1", "ROLL"), code_text("PIECE", "A/1", "P-104 #1")
    ('JOB/A-1/ROLL', 'PIECE/A 1/P-104 #1')
    """
    return "/".join(one_line(part.replace("/", " ")) for part in parts)


def code_sketch(text: str, *, size_mm: float = 22.0) -> Sketch:
    """Return the code of a text on a square of `size_mm` of paper, its light border included."""
    import zxingcpp  # noqa: PLC0415 - only papers need it

    code = zxingcpp.create_barcode(text, zxingcpp.BarcodeFormat.QRCode, ec_level="Q")
    dark = np.array(code.to_image(scale=1, add_quiet_zones=False)) == 0
    side = len(dark) + 2 * _QUIET_MODULES
    framed = np.zeros((len(dark), len(dark) + 2), np.int8)
    framed[:, 1:-1] = dark
    edges = framed[:, 1:] - framed[:, :-1]
    (down, left), (_, right) = np.nonzero(edges == 1), np.nonzero(edges == -1)
    xs, ys = left + _QUIET_MODULES, side - _QUIET_MODULES - 1 - down
    runs = tuple(zip(*(a.tolist() for a in (xs, ys, right - left, np.ones_like(xs))), strict=True))
    items = (Line(box_path(0, 0, side, side), None, fill=PAPER), Blocks(runs))
    return Sketch(0, 0, side, side, side / size_mm, items, f"code: {text}")
