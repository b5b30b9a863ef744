"""Writing DXF files (release 2000, ASCII, millimetres)."""

from quoting.drawings.dxf.drawing import DxfDrawing

__all__ = ["DxfDrawing"]
