"""Which files of an inbox have come whole: not half copied, not hidden, no folders."""

from __future__ import annotations

import os
import stat
from dataclasses import dataclass, field
from pathlib import Path

_HALF = (".tmp", ".part", ".partial", ".crdownload", ".download", ".filepart", ".lock")
"""How programs call a file that they are still writing (common practice, no source)."""
_OWN_NOTES = ("thumbs.db", "desktop.ini")


@dataclass(frozen=True, slots=True)
class Stamp:
    """What tells a file from the next one of the same name: size, time of the last change, place on disk."""

    size: int
    changed_ns: int
    inode: int


def stamp_of(path: Path) -> Stamp | None:
    """Return the stamp of a plain file; None when there is none, or it is a link, folder or device."""
    try:
        found = path.lstat()
    except OSError:
        return None
    if not stat.S_ISREG(found.st_mode):
        return None
    return Stamp(found.st_size, found.st_mtime_ns, found.st_ino)


@dataclass(slots=True)
class Arrivals:
    """The files of one inbox as they were seen last; `wait` is how long a file must have been left alone.

    The clock is the caller's: the times in the files are those of another machine where the inbox is a share.
    """

    inbox: Path
    wait: float
    passed_over: set[str] = field(default_factory=set)
    _seen: dict[Path, tuple[Stamp, float]] = field(default_factory=dict)
    _settled: dict[Path, Stamp] = field(default_factory=dict)

    def ready(self, now: float) -> list[Path]:
        """Return the files that have not changed for so long, oldest first; OSError when nobody can look.

        A file that is settled with (`done`) comes up again only when it has changed.
        """
        found: dict[Path, tuple[Stamp, float]] = {}
        for path in self._files():
            stamp = stamp_of(path)
            if stamp is None or stamp == self._settled.get(path):
                continue
            before = self._seen.get(path)
            found[path] = before if before and before[0] == stamp else (stamp, now)
        self._seen = found
        quiet = [path for path, (_, since) in found.items() if now - since >= self.wait]
        return sorted(quiet, key=lambda path: (found[path][0].changed_ns, path.name))

    @property
    def waiting(self) -> int:
        """Return how many files were seen last that nobody has settled with."""
        return len(self._seen)

    def left_alone(self, path: Path, now: float) -> float:
        """Return for how many seconds a file has not changed, as far as we saw."""
        return now - self._seen[path][1] if path in self._seen else 0.0

    def done(self, path: Path) -> None:
        """Do not bring a file up again unless it changes: it stays where it is."""
        self._seen.pop(path, None)
        stamp = stamp_of(path)
        if stamp is not None:
            self._settled[path] = stamp

    def _files(self) -> list[Path]:
        with os.scandir(self.inbox) as entries:
            names = [(entry.name, entry.is_file(follow_symlinks=False)) for entry in entries]
        found = []
        for name, plain in names:
            low = name.lower()
            if name.startswith((".", "~")) or low.endswith(_HALF) or low in _OWN_NOTES:
                continue
            if plain:
                found.append(self.inbox / name)
            else:
                self.passed_over.add(name)
        return found
