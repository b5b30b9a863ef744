"""Looks through an old .xls workbook before a reader opens it: lock, size, hidden rows, errors, comments.

The container is the compound file format ([MS-CFB]), opened by olefile; the stream in it is a list of records
([MS-XLS]).
"""

from __future__ import annotations

import struct

from quoting.tables.inside.given import Source
from quoting.tables.inside.refusals import DAMAGED, SMALLER, UNLOCK, RefusedError, SheetFacts, reaches_too_far
from quoting.tables.limits import Limits

MAGIC = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ERRORS = {0: "#NULL!", 7: "#DIV/0!", 15: "#VALUE!", 23: "#REF!", 29: "#NAME?", 36: "#NUM!", 42: "#N/A"}
_OBJECT, _OBJECT_TEXT, _GOES_ON, _COMMENT = 0x005D, 0x01B6, 0x003C, 0x001C
_ONE_CELL = frozenset((0x0203, 0x027E, 0x00FD, 0x0204, 0x0006, 0x0205, 0x00D6))


def xls_facts(file: Source, limits: Limits) -> list[SheetFacts]:
    """Return the facts of each sheet in file order; RefusedError when it is locked, cut off or too large."""
    import olefile  # noqa: PLC0415 - only old workbooks need it

    try:
        with olefile.OleFileIO(file.open("rb")) as container:
            if container.exists("EncryptedPackage"):
                raise RefusedError("it is locked with a password", UNLOCK)
            name = next((name for name in ("Workbook", "Book") if container.exists(name)), None)
            if name is None:
                raise RefusedError("it holds no workbook")
            stream = container.openstream(name).read()
        return _facts(stream, limits)
    except RefusedError:
        raise
    except (struct.error, IndexError, ValueError, OSError, TypeError, AttributeError) as error:
        raise RefusedError(DAMAGED) from error


def _facts(stream: bytes, limits: Limits) -> list[SheetFacts]:
    sheets: list[SheetFacts] = []
    depth = records = at = 0
    size, words = [0, 0], _Words()
    while at + 4 <= len(stream):
        records += 1
        if records > limits.elements:
            raise RefusedError(f"it holds more than {limits.elements:,} records", SMALLER)
        kind, length = struct.unpack_from("<HH", stream, at)
        body = at + 4
        if kind == 0x002F:
            raise RefusedError("it is locked with a password", UNLOCK)
        if kind in (0x0809, 0x0409, 0x0209, 0x0009):
            depth += 1
            if depth == 1 and struct.unpack_from("<H", stream, body + 2)[0] == 0x0010:
                sheets.append(SheetFacts())
                size, words = [0, 0], _Words()
        elif kind == 0x000A:
            depth -= 1
        elif sheets and depth == 1:
            words.take(stream, kind, body, length, sheets[-1])
            _cell(stream, kind, body, length, sheets[-1], size)
            sheets[-1].cells = size[0] * size[1]
            if sheets[-1].cells > limits.cells:
                raise RefusedError(reaches_too_far(*size), SMALLER)
        at = body + length
    if sum(sheet.cells for sheet in sheets) > limits.all_cells:
        raise RefusedError(f"its sheets hold more than {limits.all_cells:,} cells", SMALLER)
    return sheets


def _cell(stream: bytes, kind: int, body: int, length: int, facts: SheetFacts, size: list[int]) -> None:
    """Take one record of a sheet: widen its rows and columns by a cell, note an error or a hidden row."""
    if kind == 0x0208:
        row = struct.unpack_from("<H", stream, body)[0]
        if struct.unpack_from("<H", stream, body + 12)[0] & 0x20:
            facts.hidden_rows.add(row)
        return
    many = kind == 0x00BD
    if kind not in _ONE_CELL and not many:
        return
    row, column = struct.unpack_from("<HH", stream, body)
    last = struct.unpack_from("<H", stream, body + length - 2)[0] if many else column
    size[0], size[1] = max(size[0], row + 1), max(size[1], last + 1)
    if kind == 0x0205 and stream[body + 7] == 1:
        facts.errors[row, column] = _ERRORS.get(stream[body + 6], "an error")
    elif kind == 0x0006 and stream[body + 12 : body + 14] == b"\xff\xff" and stream[body + 6] == 2:
        facts.errors[row, column] = _ERRORS.get(stream[body + 8], "an error")


class _Words:
    """Follows the records of one sheet that hold texts of comments and boxes.

    An object ([MS-XLS] Obj) is followed by its text (TxO) and that by a record with its letters (Continue); a
    comment (Note) names its cell and its object.
    """

    def __init__(self) -> None:
        self._object = self._letters = 0
        self._texts: dict[int, str] = {}

    def take(self, stream: bytes, kind: int, body: int, length: int, facts: SheetFacts) -> None:
        """Take one record."""
        if kind == _OBJECT and length >= 8:
            self._object = struct.unpack_from("<H", stream, body + 6)[0]
        elif kind == _OBJECT_TEXT and length >= 12:
            self._letters = struct.unpack_from("<H", stream, body + 10)[0]
            return  # the letters follow
        elif kind == _GOES_ON and self._letters and length > 1:
            self._text(stream[body + 1 : body + length], stream[body] & 1, facts)
        elif kind == _COMMENT and length >= 8:
            row, column, _, number = struct.unpack_from("<HHHH", stream, body)
            text = self._texts.get(number, "")
            if text in facts.boxes:
                facts.boxes.remove(text)
            if text:
                facts.comments[row, column] = text
        self._letters = 0

    def _text(self, data: bytes, wide: int, facts: SheetFacts) -> None:
        """Keep the text of an object: that of a box until a comment names it."""
        letters = data[: self._letters * (2 if wide else 1)]
        text = letters.decode("utf-16-le" if wide else "latin-1", "replace").replace("\r", "\n").strip()
        self._texts[self._object] = text
        if text:
            facts.boxes.append(text)
