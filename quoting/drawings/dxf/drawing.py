"""The three kinds of DXF entities that are drawn here, written into a drawing that holds its tables only.

Group codes as in the DXF Reference of release 2000 (sections LINE, LWPOLYLINE and TEXT); a test has an
independent library read what is written and compares it with what that library itself writes.
`empty.dxf` beside this file is that library's empty drawing with our layers in it:
`python -m tests.data.make_empty_dxf FILE` makes it anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

LAYERS = {"PLATE": 8, "BLANK": 7, "DROP": 3, "CUT": 1, "TEXT": 5}
"""Layer names and their colour numbers in the palette of the format."""

_EMPTY = Path(__file__).with_name("empty.dxf")
_CODE_PAGE = "cp1252"
"""That of ANSI_1252, which the header of the empty drawing names."""
_SPACE = "17"
"""The id of the model space in the empty drawing: all entities are in it."""


@dataclass(frozen=True, slots=True)
class _Empty:
    """The empty drawing: its text up to the next free id, that id, then up to the entities, and the rest."""

    head: bytes
    free: int
    middle: bytes
    tail: bytes


@cache
def _empty() -> _Empty:
    head, _, rest = _EMPTY.read_bytes().partition(b"$HANDSEED\n  5\n")
    free, _, rest = rest.partition(b"\n")
    middle, _, tail = rest.partition(b"  2\nENTITIES\n")
    return _Empty(head + b"$HANDSEED\n  5\n", int(free, 16), b"\n" + middle + b"  2\nENTITIES\n", tail)


class DxfDrawing:
    """Collects entities; places, heights in mm, turns in degrees, counterclockwise."""

    def __init__(self) -> None:
        self._entities: list[str] = []
        self._first = _empty().free

    def polyline(self, corners: Sequence[tuple[float, float, float]], layer: str) -> None:
        """Add a closed line of (x, y, bulge), straight where the bulge is 0."""
        points = []
        for x, y, bulge in corners:
            curved = f" 42\n{float(bulge)}\n" if bulge else ""
            points.append(f" 10\n{float(x)}\n 20\n{float(y)}\n{curved}")
        self._add("LWPOLYLINE", layer, f"100\nAcDbPolyline\n 90\n{len(points)}\n 70\n1\n{''.join(points)}")

    def line(self, start: tuple[float, float], end: tuple[float, float], layer: str) -> None:
        """Add a straight line."""
        self._add("LINE", layer, f"100\nAcDbLine\n{_point(10, start)}{_point(11, end)}")

    def text(
        self, at: tuple[float, float], words: str, height: float, turn_deg: float = 0.0, *, layer: str
    ) -> None:
        """Add one row of text, its middle at a place. It must be without line ends and control characters."""
        turned = f" 50\n{float(turn_deg)}\n" if turn_deg else ""
        self._add(
            "TEXT",
            layer,
            f"100\nAcDbText\n{_point(10, at)} 40\n{float(height)}\n  1\n{words}\n{turned} 72\n1\n"
            f"{_point(11, at)}100\nAcDbText\n 73\n2\n",
        )

    def encoded(self) -> bytes:
        """Return the file. What its code page lacks is written by number, as in `\\U+677f`."""
        empty = _empty()
        free = f"{empty.free + len(self._entities):X}".encode()
        return b"".join((empty.head, free, empty.middle, _by_code_page("".join(self._entities)), empty.tail))

    def _add(self, kind: str, layer: str, body: str) -> None:
        own = f"{self._first + len(self._entities):X}"
        self._entities.append(
            f"  0\n{kind}\n  5\n{own}\n330\n{_SPACE}\n100\nAcDbEntity\n  8\n{layer}\n{body}"
        )


def _point(code: int, at: tuple[float, float]) -> str:
    return f" {code}\n{float(at[0])}\n {code + 10}\n{float(at[1])}\n {code + 20}\n0.0\n"


def _by_code_page(text: str) -> bytes:
    try:
        return text.encode(_CODE_PAGE)
    except UnicodeEncodeError:
        return b"".join(letter.encode(_CODE_PAGE, "ignore") or _by_number(letter) for letter in text)


def _by_number(letter: str) -> bytes:
    number = ord(letter)
    return (f"\\U+{number:04x}" if number <= 0xFFFF else f"\\U+{number:08x}").encode()
