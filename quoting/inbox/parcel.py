"""A file on its way out of the inbox: copied whole, known by content, gone from there at the end."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from quoting.core import safe_name
from quoting.inbox.arrivals import Stamp, stamp_of
from quoting.tables import digest_of

RECEIVED = "received"
_ARRIVING = ".arriving-"


@dataclass(frozen=True, slots=True)
class Parcel:
    """A copy of a file that was dropped; `stamp` tells whether the one in the inbox is still the same."""

    source: Path
    copy: Path
    digest: str
    stamp: Stamp

    def folder(self, parent: Path, day: str) -> Path:
        """Return the folder for this content: the one it already has there, else a new one of the day."""
        there = sorted(parent.glob(f"*-{self.digest[:8]}"))
        stem = safe_name(self.source.stem, fallback="order")
        return there[0] if there else parent / f"{day}-{stem}-{self.digest[:8]}"

    def kept_in(self, folder: Path) -> Path:
        """Put the copy into a folder under its own name; return where it is then."""
        folder.mkdir(parents=True, exist_ok=True)
        target = folder / self.source.name
        os.replace(self.copy, target)
        return target

    def leave_inbox(self) -> bool:
        """Take the file out of the inbox now that its copy is safe; return whether it is out.

        A file of the same name that has come since stays: it is the next one.
        """
        if stamp_of(self.source) != self.stamp:
            return True
        try:
            self.source.unlink()
        except OSError:  # held open by another program, or no right to
            return False
        return True


@contextmanager
def copied(source: Path, directory: Path) -> Iterator[Parcel | None]:
    """Yield a file's copy in a hidden folder of `directory`; None when the file changed or went meanwhile.

    Raises OSError when it cannot be read or copied.
    """
    before = stamp_of(source)
    staging = Path(tempfile.mkdtemp(prefix=_ARRIVING, dir=directory))
    try:
        copy = staging / source.name
        if before is not None:
            shutil.copyfile(source, copy, follow_symlinks=False)
        whole = before is not None and stamp_of(source) == before and copy.stat().st_size == before.size
        yield Parcel(source, copy, digest_of(copy), before) if whole and before else None
    finally:
        shutil.rmtree(staging, ignore_errors=True)


def clear_arriving(directory: Path) -> None:
    """Remove the copies that a killed watcher has left; the files themselves are still in the inbox."""
    for left in directory.glob(f"{_ARRIVING}*"):
        if left.is_dir() and not left.is_symlink():
            shutil.rmtree(left, ignore_errors=True)
