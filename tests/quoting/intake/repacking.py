"""A zip that is put together again and again with one part changed: the others are packed once."""

from __future__ import annotations

import struct
import zipfile
import zlib
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO

_LOCAL = struct.Struct("<4s5H3L2H")
_CENTRAL = struct.Struct("<4s6H3L5H2L")
_END = struct.Struct("<4s4H2LH")
_DEFLATED, _VERSION, _DAY = 8, 20, 0x21
_UTF8 = 0x800


@dataclass(frozen=True, slots=True)
class _Part:
    name: bytes
    flags: int
    crc: int
    size: int
    packed: bytes


def _part(name: str, data: bytes) -> _Part:
    squeeze = zlib.compressobj(1, zlib.DEFLATED, -zlib.MAX_WBITS)
    packed = squeeze.compress(data) + squeeze.flush()
    return _Part(name.encode(), 0 if name.isascii() else _UTF8, zlib.crc32(data), len(data), packed)


class Packed:
    """The parts of a zip by their names, as they are and as they lie in it."""

    def __init__(self, data: bytes) -> None:
        with zipfile.ZipFile(BytesIO(data)) as archive:
            self.parts = {name: archive.read(name) for name in archive.namelist()}
        self._packed = {name: _part(name, part) for name, part in self.parts.items()}

    def with_part(self, name: str, data: bytes) -> bytes:
        """Return the whole zip with one part changed."""
        found, directory, at = [], [], 0
        for part in (_part(name, data) if other == name else one for other, one in self._packed.items()):
            sizes = (part.crc, len(part.packed), part.size)
            common = (part.flags, _DEFLATED, 0, _DAY, *sizes, len(part.name), 0)
            found += [_LOCAL.pack(b"PK\3\4", _VERSION, *common), part.name, part.packed]
            head = _CENTRAL.pack(b"PK\1\2", _VERSION, _VERSION, *common, 0, 0, 0, 0, at)
            directory += [head, part.name]
            at += _LOCAL.size + len(part.name) + len(part.packed)
        size = sum(map(len, directory))
        count = len(self._packed)
        return b"".join((*found, *directory, _END.pack(b"PK\5\6", 0, 0, count, count, size, at, 0)))


@lru_cache(maxsize=64)
def packed(data: bytes) -> Packed:
    """Return the parts of a zip; the same bytes are unpacked once."""
    return Packed(data)
