"""One run in a folder at a time: a lock of the operating system, which a killed run cannot leave behind."""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from quoting.core import InputError, Place

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

LOCK_NAME = ".rollwright.lock"
_NO_LOCKS = (errno.ENOLCK, errno.ENOTSUP, errno.ENOSYS)
"""What a file system without locks answers (some network shares); a run goes on there without one."""


@contextmanager
def locked(directory: Path) -> Iterator[bool]:
    """Hold the lock of a folder; yield whether its file system keeps locks at all.

    Raises InputError when another run holds it. The lock lives in an open file, so the system drops it when
    its process ends, in whatever way. The file itself is removed on the way out.
    """
    path = directory / LOCK_NAME
    handle, kept = _taken(path)
    try:
        yield kept
    finally:
        if sys.platform == "win32":  # an open file cannot be removed there
            os.close(handle)
            with suppress(OSError):  # the next run holds it already
                path.unlink(missing_ok=True)
        else:
            path.unlink(missing_ok=True)
            os.close(handle)


def _taken(path: Path) -> tuple[int, bool]:
    """Open and lock the file; try again when its last holder removed it in between."""
    while True:
        try:
            handle = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o644)
        except OSError as error:
            raise InputError(
                f"cannot open the lock file {LOCK_NAME} ({error.strerror or error})",
                place=Place(str(path.parent)),
                would_do="remove it, or give another folder with --out",
            ) from error
        try:
            kept = _lock(handle, path.parent)
        except InputError:
            os.close(handle)
            raise
        if not kept or _still_there(handle, path):
            return handle, kept
        os.close(handle)


def _lock(handle: int, directory: Path) -> bool:
    try:
        if sys.platform == "win32":
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        if error.errno in _NO_LOCKS:
            return False
        raise InputError(
            "another run is working in this folder",
            place=Place(str(directory)),
            would_do="wait until it has ended, or give another folder with --out",
        ) from error
    return True


def _still_there(handle: int, path: Path) -> bool:
    try:
        return os.path.samestat(os.fstat(handle), path.stat(follow_symlinks=False))
    except FileNotFoundError:
        return False
