"""What was worked out before: results of pure functions kept in the user's cache, and never stale.

A result is found by the digest of everything it depends on: every file of the program, the versions of the
libraries that search and that write books, the function and what it was given. Whoever prices the same sheets
again, with an answer more or one line changed, waits only for what that touches. The folder belongs to the
user alone; one that others may write to is not read. Without such a folder everything is worked out, and
nothing is told.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from quoting.core.sharing import Sharing, one_by_one

T = TypeVar("T")
R = TypeVar("R")

NOT_KEPT = "ROLLWRIGHT_ANEW"
"""Set this in the environment to have everything worked out anew, and nothing kept."""
_PARTS = (".py", ".toml", ".json", ".csv", ".txt", ".po", ".css", ".html", ".js", ".ttf")
_LIBRARIES = ("numba", "numpy", "ortools", "scipy")
_BOOKS = ("babel", "ezdxf", "openpyxl", "pillow", "reportlab", "XlsxWriter", "zxing-cpp")
_MOST_BYTES = 300_000_000
_LESS_BYTES = 200_000_000
_DIGEST = 32


def remembering(share_out: Sharing) -> Sharing:
    """Return what works as `share_out` does, but takes results that are known from the user's cache."""
    folder = _folder()
    if folder is None:
        return share_out

    def looked_up(function: Callable[[T], R], things: Sequence[T], /) -> Iterator[R]:
        keys = _keys(function, things)
        known = {key: found for key in keys if (found := _read(folder / key[:2] / key)) is not None}
        missing = [(key, thing) for key, thing in zip(keys, things, strict=True) if key not in known]
        made = share_out(function, [thing for _, thing in missing])
        for key in keys:
            if key in known:
                yield known[key][0]
            else:
                result = next(made)
                _write(folder / key[:2] / key, result)
                yield result

    return looked_up


def remembered(function: Callable[[T], R], thing: T, share_out: Sharing = one_by_one) -> R:
    """Return the function's result, from the user's cache where it is known, else what `share_out` makes."""
    return remembered_soon(function, thing, share_out)()


def remembered_soon(function: Callable[[T], R], thing: T, share_out: Sharing = one_by_one) -> Callable[[], R]:
    """Return what waits for the function's result, as `remembered` has it; `share_out` is asked at once."""
    folder = _folder()
    if folder is None:
        made = share_out(function, [thing])
        return lambda: next(made)
    (key,) = _keys(function, [thing])
    path = folder / key[:2] / key
    if (known := _read(path)) is not None:
        found: R = known[0]
        return lambda: found
    made = share_out(function, [thing])

    def wait() -> R:
        result = next(made)
        _write(path, result)
        return result

    return wait


@dataclass(frozen=True, slots=True)
class KnownPlace:
    """Where a result is kept that is more than what one function returns."""

    path: Path

    def read(self) -> Any:
        """Return what is kept; None when nothing is, or nothing whole."""
        known = _read(self.path)
        return None if known is None else known[0]

    def keep(self, result: object) -> None:
        """Keep a result; where that cannot be it is not kept, and nothing is told."""
        _write(self.path, result)


def results_are_kept() -> bool:
    """Return whether there is a cache to look into."""
    return _folder() is not None


def known_place(packages: Sequence[str], given: bytes) -> KnownPlace | None:
    """Return the place of what these top packages make of what is `given`, a digest; None without a cache."""
    folder = _folder()
    if folder is None:
        return None
    digest = hashlib.blake2b(given, digest_size=_DIGEST)
    for package in packages:
        digest.update(_program(package))
    key = digest.hexdigest()
    return KnownPlace(folder / key[:2] / key)


def forget_the_oldest() -> None:
    """Keep the cache small: beyond 300 MB what was used longest ago goes."""
    folder = _folder()
    if folder is None:
        return
    with suppress(OSError):
        files = [(entry.stat(), entry) for entry in folder.glob("??/*") if entry.is_file()]
        size = sum(stat.st_size for stat, _ in files)
        if size <= _MOST_BYTES:
            return
        for stat, entry in sorted(files, key=lambda file: file[0].st_mtime):
            entry.unlink(missing_ok=True)
            size -= stat.st_size
            if size <= _LESS_BYTES:
                break


def _folder() -> Path | None:
    """Return the user's own folder of results, made when it is not there; None when nothing is kept."""
    if os.environ.get(NOT_KEPT):
        return None
    from platformdirs import user_cache_path  # noqa: PLC0415 - keeps --help quick

    folder = user_cache_path("rollwright", appauthor=False) / "results"
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        stat = folder.stat()
    except OSError:
        return None
    others_may_write = os.name == "posix" and (stat.st_uid != os.getuid() or stat.st_mode & 0o022)
    return None if others_may_write or folder.is_symlink() else folder


def _keys(function: Callable[..., Any], things: Sequence[object]) -> list[str]:
    begun = hashlib.blake2b(_program(_package_of(function)), digest_size=_DIGEST)
    begun.update(pickle.dumps(function, protocol=5))
    keys = []
    for thing in things:
        digest = begun.copy()
        digest.update(pickle.dumps(thing, protocol=5))
        keys.append(digest.hexdigest())
    return keys


def _package_of(function: Any) -> str:
    """Return the top package of a function, or of what a `partial` is made of."""
    inner = getattr(function, "func", function)
    return str(inner.__module__).partition(".")[0]


@cache
def _program(package: str) -> bytes:
    """Return a digest of all files of this program and of the package, and of the libraries' versions."""
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415 - keeps --help quick

    digest = hashlib.blake2b(f"{sys.version} {sys.platform}".encode(), digest_size=_DIGEST)
    for name in (*_LIBRARIES, *_BOOKS):
        with suppress(PackageNotFoundError):
            digest.update(f"{name} {version(name)}\0".encode())
    own = Path(__file__).parents[1]
    for root in dict.fromkeys((own, own.with_name(package))):
        for path in sorted(path for path in root.rglob("*") if path.suffix in _PARTS):
            digest.update(f"{path.relative_to(root)}\0".encode() + path.read_bytes() + b"\0")
    return digest.digest()


def _read(path: Path) -> tuple[Any] | None:
    """Return a kept result, alone in a tuple; None when there is none that is whole."""
    try:
        data = path.read_bytes()
        if hashlib.blake2b(data[_DIGEST:], digest_size=_DIGEST).digest() != data[:_DIGEST]:
            return None
        result = (pickle.loads(data[_DIGEST:]),)  # the user's own folder, written by this program
        os.utime(path)
    except (OSError, pickle.UnpicklingError, EOFError, AttributeError, ImportError):
        return None
    return result


def _write(path: Path, result: object) -> None:
    """Keep a result, whole or not at all; a full disk is no reason to stop."""
    body = pickle.dumps(result, protocol=5)
    beside = path.with_name(f"{path.name}.{os.getpid()}")
    try:
        path.parent.mkdir(mode=0o700, exist_ok=True)
        beside.write_bytes(hashlib.blake2b(body, digest_size=_DIGEST).digest() + body)
        os.replace(beside, path)
    except OSError:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
