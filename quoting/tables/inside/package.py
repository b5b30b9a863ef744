"""Looks through a zipped workbook (.xlsx, .xlsm, .ods) before a reader opens it.

The fast reader lays a sheet out as one block from its first to its last used cell and says nothing about
hidden rows, error cells or formulas without a result. So this pass unpacks each part under the limits,
refuses what no spreadsheet program writes, and notes what the values alone do not tell. What a part is called
decides nothing: every part that is XML is looked at.
"""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterator

from quoting.tables.inside.given import Source
from quoting.tables.inside.refusals import DAMAGED, SMALLER, SUSPECT, UNLOCK, RefusedError
from quoting.tables.limits import Limits

_MARKS = (b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")
_PICTURES = ("xl/media/", "pictures/", "thumbnails/", "docprops/thumbnail")


class Package:
    """The parts of an open zip under the limits; names are compared without their case, as readers do."""

    def __init__(self, file: Source, limits: Limits) -> None:
        try:
            self._archive = zipfile.ZipFile(file.open("rb"))
            infos = self._archive.infolist()
        except (
            zipfile.BadZipFile,
            EOFError,
            NotImplementedError,
            RuntimeError,
            ValueError,
            OSError,
        ) as error:
            raise RefusedError(DAMAGED) from error
        _check_directory(infos, limits)
        self._infos = {info.filename.casefold(): info for info in infos}
        if len(self._infos) < len(infos):
            raise RefusedError("it packs two files of one name", SUSPECT)
        self._limits = limits
        self._unpacked = 0

    @property
    def names(self) -> tuple[str, ...]:
        """Return the names of all parts in small letters."""
        return tuple(self._infos)

    def part(self, name: str) -> bytes | None:
        """Return what a part holds, None when there is none; RefusedError when it breaks a limit."""
        info = self._infos.get(name.casefold())
        if info is None:
            return None
        try:
            with self._archive.open(info) as part:
                data = part.read(self._limits.unpacked_bytes + 1)
        except (
            zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError, OSError,
        ) as error:  # fmt: skip
            raise RefusedError(DAMAGED) from error
        return data

    def xml_parts(self) -> Iterator[tuple[str, bytes]]:
        """Yield every part that is XML, whatever its name; RefusedError when they unpack to too much."""
        for name in self._infos:
            if name.startswith(_PICTURES):
                continue
            data = self.part(name) or b""
            self._unpacked += len(data)
            if self._unpacked > self._limits.unpacked_bytes:
                raise RefusedError("it unpacks to more than the limit", SMALLER)
            if name.endswith((".xml", ".rels", ".vml")) or _looks_like_xml(data):
                yield name, data


def _looks_like_xml(data: bytes) -> bool:
    head = data[:200]
    for mark in _MARKS:
        head = head.removeprefix(mark)
    return head.replace(b"\0", b"").lstrip().startswith(b"<")


def _check_directory(infos: list[zipfile.ZipInfo], limits: Limits) -> None:
    if len(infos) > limits.parts:
        raise RefusedError(f"it packs {len(infos):,} files, more than any workbook", SUSPECT)
    if any(info.flag_bits & 1 for info in infos):
        raise RefusedError("it is locked with a password", UNLOCK)
    unpacked = sum(info.file_size for info in infos)
    packed = sum(info.compress_size for info in infos) or 1
    if unpacked > limits.unpacked_bytes:
        raise RefusedError(f"it unpacks to {unpacked / 1e6:,.0f} MB, more than the limit", SMALLER)
    if unpacked > 1_000_000 * 20 and unpacked / packed > limits.pack_ratio:
        raise RefusedError(f"it unpacks to {unpacked / packed:,.0f} times its size", SUSPECT)
