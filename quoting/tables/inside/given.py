"""A file that came inside another one, read as if it lay on the disk."""

from __future__ import annotations

import io
from dataclasses import dataclass
from pathlib import Path, PurePath
from typing import IO, TypeAlias


@dataclass(frozen=True, slots=True)
class Given:
    """The name and the bytes of an attachment; it answers the few things that readers ask of a path."""

    path: PurePath
    data: bytes

    @property
    def name(self) -> str:
        """Return its name with its ending."""
        return self.path.name

    @property
    def stem(self) -> str:
        """Return its name without the ending."""
        return self.path.stem

    @property
    def suffix(self) -> str:
        """Return its ending."""
        return self.path.suffix

    def open(self, mode: str = "rb") -> IO[bytes]:
        """Return its bytes as an open file; `mode` is "rb"."""
        return io.BytesIO(self.data)

    def read_bytes(self) -> bytes:
        """Return its bytes."""
        return self.data


Source: TypeAlias = Path | Given


def pure(file: Source) -> PurePath:
    """Return what a file is called."""
    return file.path if isinstance(file, Given) else file
