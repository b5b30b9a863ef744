"""Looks through an old .xls workbook before a reader opens it: lock, size, hidden rows, error cells.

The container is the compound file format ([MS-CFB]); the stream inside is a list of records ([MS-XLS]).
"""

from __future__ import annotations

import struct
from pathlib import Path

from quoting.tables.limits import Limits
from quoting.tables.package import DAMAGED, SMALLER, UNLOCK, RefusedError, SheetFacts

MAGIC = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_END = 0xFFFFFFFA
_ERRORS = {0: "#NULL!", 7: "#DIV/0!", 15: "#VALUE!", 23: "#REF!", 29: "#NAME?", 36: "#NUM!", 42: "#N/A"}
_ONE_CELL = frozenset((0x0203, 0x027E, 0x00FD, 0x0204, 0x0006, 0x0205, 0x00D6))


def xls_facts(file: Path, limits: Limits) -> list[SheetFacts]:
    """Return the facts of each sheet in file order; RefusedError when it is locked, cut off or too large."""
    try:
        return _facts(_workbook_stream(file.read_bytes()), limits)
    except (struct.error, IndexError, MemoryError) as error:
        raise RefusedError(DAMAGED) from error


def _workbook_stream(data: bytes) -> bytes:
    """Return the bytes of the stream that holds the workbook."""
    if data[:8] != MAGIC:
        raise RefusedError("it is no .xls workbook")
    shift = struct.unpack_from("<H", data, 30)[0]
    if shift not in (9, 12):
        raise RefusedError(DAMAGED)
    size = 1 << shift
    fat = _fat(data, size)
    directory = _chain(data, fat, struct.unpack_from("<I", data, 48)[0], size)
    root: tuple[int, int] = (0, 0)
    streams: dict[str, tuple[int, int]] = {}
    for at in range(0, len(directory) - 127, 128):
        length = struct.unpack_from("<H", directory, at + 64)[0]
        name = directory[at : at + max(0, min(length, 64) - 2)].decode("utf-16-le", "replace")
        start, stream_size = struct.unpack_from("<II", directory, at + 116)
        streams[name] = (start, stream_size)
        if directory[at + 66] == 5:
            root = (start, stream_size)
    if "EncryptedPackage" in streams:
        raise RefusedError("it is locked with a password", UNLOCK)
    found = streams.get("Workbook") or streams.get("Book")
    if found is None:
        raise RefusedError("it holds no workbook")
    start, length = found
    if length >= struct.unpack_from("<I", data, 56)[0]:
        return _chain(data, fat, start, size)[:length]
    mini_fat_data = _chain(data, fat, struct.unpack_from("<I", data, 60)[0], size)
    mini_fat = list(struct.unpack(f"<{len(mini_fat_data) // 4}I", mini_fat_data))
    return _chain(b"\0" * 64 + _chain(data, fat, root[0], size), mini_fat, start, 64)[:length]


def _fat(data: bytes, size: int) -> list[int]:
    """Return the table that chains sectors, from the header's list and its continuations."""
    listed = [sector for sector in struct.unpack_from("<109I", data, 76) if sector < _END]
    next_list = struct.unpack_from("<I", data, 68)[0]
    seen: set[int] = set()
    while next_list < _END and next_list not in seen and len(seen) < 1000:
        seen.add(next_list)
        block = struct.unpack_from(f"<{size // 4}I", data, (next_list + 1) * size)
        listed += [sector for sector in block[:-1] if sector < _END]
        next_list = block[-1]
    fat: list[int] = []
    for sector in listed:
        fat += struct.unpack_from(f"<{size // 4}I", data, (sector + 1) * size)
    return fat


def _chain(data: bytes, fat: list[int], start: int, size: int) -> bytes:
    """Return the bytes of a chain of sectors; a loop or a hole ends it."""
    pieces = []
    seen = set()
    while start < _END and start not in seen and start < len(fat):
        seen.add(start)
        pieces.append(data[(start + 1) * size : (start + 2) * size])
        start = fat[start]
    return b"".join(pieces)


def _facts(stream: bytes, limits: Limits) -> list[SheetFacts]:
    sheets: list[SheetFacts] = []
    depth = 0
    bounds = [1 << 30, -1, 1 << 30, -1]
    at = 0
    while at + 4 <= len(stream):
        kind, length = struct.unpack_from("<HH", stream, at)
        body = at + 4
        if kind == 0x002F:
            raise RefusedError("it is locked with a password", UNLOCK)
        if kind in (0x0809, 0x0409, 0x0209, 0x0009):
            depth += 1
            if depth == 1 and struct.unpack_from("<H", stream, body + 2)[0] == 0x0010:
                sheets.append(SheetFacts())
                bounds = [1 << 30, -1, 1 << 30, -1]
        elif kind == 0x000A:
            depth -= 1
        elif sheets and depth == 1:
            _cell(stream, kind, body, length, sheets[-1], bounds)
            if bounds[1] >= 0 and (bounds[1] - bounds[0] + 1) * (bounds[3] - bounds[2] + 1) > limits.cells:
                raise RefusedError(
                    f"a sheet reaches over {bounds[1] - bounds[0] + 1:,} rows x"
                    f" {bounds[3] - bounds[2] + 1:,} columns, more than the limit",
                    SMALLER,
                )
        at = body + length
    return sheets


def _cell(stream: bytes, kind: int, body: int, length: int, facts: SheetFacts, bounds: list[int]) -> None:
    """Take one record of a sheet: widen the bounds by a cell, note an error or a hidden row."""
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
    bounds[0], bounds[1] = min(bounds[0], row), max(bounds[1], row)
    bounds[2], bounds[3] = min(bounds[2], column), max(bounds[3], last)
    if kind == 0x0205 and stream[body + 7] == 1:
        facts.errors[row, column] = _ERRORS.get(stream[body + 6], "an error")
    elif kind == 0x0006 and stream[body + 12 : body + 14] == b"\xff\xff" and stream[body + 6] == 2:
        facts.errors[row, column] = _ERRORS.get(stream[body + 8], "an error")
