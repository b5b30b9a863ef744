"""One run in a folder at a time: a lock of the operating system, which a killed run cannot leave behind."""

from __future__ import annotations

import errno
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from filelock import FileLock, Timeout

from quoting.core import CannotWriteError, InputError, Place

LOCK_NAME = ".rollwright.lock"
_NO_LOCKS = (errno.ENOLCK, errno.ENOTSUP, errno.ENOSYS)
"""What a file system without locks answers (some network shares); a run goes on there without one."""


@contextmanager
def locked(
    directory: Path,
    taken: str = "another run is working in this folder",
    would_do: str = "wait until it has ended, or give another folder with --out",
) -> Iterator[bool]:
    """Hold the lock of a folder; yield whether its file system keeps locks at all.

    Raises InputError with the words of `taken` and `would_do` when another run holds it. The file of the lock
    is removed on the way out.
    """
    path = directory / LOCK_NAME
    lock = FileLock(path, timeout=0, mode=0o644)
    kept = _taken(lock, directory, taken, would_do)
    try:
        yield kept
    finally:
        if sys.platform != "win32":  # the next run sees that the file it may have opened is gone
            path.unlink(missing_ok=True)
        lock.release()
        if sys.platform == "win32":  # an open file cannot be removed there
            with suppress(OSError):  # the next run holds it already
                path.unlink(missing_ok=True)


def _taken(lock: FileLock, directory: Path, taken: str, would_do: str) -> bool:
    try:
        lock.acquire()
        return True
    except Timeout as error:
        raise InputError(taken, place=Place(str(directory)), would_do=would_do) from error
    except OSError as error:
        if error.errno in _NO_LOCKS:
            return False
        raise CannotWriteError(
            f"cannot open the lock file {LOCK_NAME} ({error.strerror or error})",
            place=Place(str(directory)),
            would_do="remove it, or give another folder with --out",
        ) from error
