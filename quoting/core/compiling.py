"""Machine code kept on disk, and never stale.

numba keeps machine code by the file of the function alone: when a function calls another of a second file
and only that second file changes, the old code of both runs on. Here the folder of the cache is named after
the content of every file of the room and of this one, and compiled functions call nothing compiled outside
them, so that any change there compiles it anew. Old folders are deleted when a new one is made.
"""

from __future__ import annotations

import hashlib
import os
import shutil
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, TypeVar, cast

F = TypeVar("F", bound=Callable[..., Any])

_PREFIX = "compiled-"


def compiled(function: F) -> F:
    """Compile a function on first use and keep the machine code on disk. Imports numba."""
    return _kept(function)


def unlocked(function: F) -> F:
    """Compile as `compiled` does; while the function runs, other threads go on."""
    return _kept(function, nogil=True)


def inner(function: F) -> F:
    """Compile as `compiled` does a function that only compiled functions of its room call, never Python.

    What takes the arguments of Python apart and looks at each array is left out: with many arrays it is as
    much machine code as the function itself. Python that calls it all the same stops without a word.
    """
    return _kept(function, no_cpython_wrapper=True)


def merged(function: F) -> F:
    """Compile a function as a part of the one compiled function of its room that calls it, at one place.

    What is compiled for itself takes in, works over and writes all that it calls once more, and so does what
    calls it: of a chain of functions the last is compiled as often as the chain is long.
    """
    from numba import njit  # noqa: PLC0415 - heavy, and only compiled rooms need it

    compiling: Any = njit
    return cast(F, compiling(inline="always")(function))


def compile_for(function: Callable[..., Any], *things: object) -> None:
    """Make the machine code of a compiled function for arguments like these; it is not called."""
    from numba import typeof  # noqa: PLC0415 - heavy, and only compiled rooms need it

    dispatcher: Any = function
    kind: Any = typeof  # it has no types of its own
    dispatcher.compile(tuple(kind(thing) for thing in things))


def _kept(function: F, **options: bool) -> F:
    from numba import config, njit  # noqa: PLC0415 - heavy, and only compiled rooms need it

    settings: Any = config
    compiling: Any = njit  # its types do not know all of its options
    before = settings.CACHE_DIR
    settings.CACHE_DIR = str(_cache_folder(Path(function.__code__.co_filename).resolve().parent, before))
    try:
        # nobody hands one of these functions on as a value, which is what the wrapper left out is for
        return cast(F, compiling(cache=True, no_cfunc_wrapper=True, **options)(function))
    finally:
        settings.CACHE_DIR = before


def inlined(function: F) -> F:
    """Compile a small function into each compiled function of its room that calls it. Imports numba.

    A call costs as much as what such a function does; where it is timed a million times that counts. It is
    put in by the compiler's last stage: numba's own would work each copy out anew, which takes long. Python
    cannot call it.
    """
    from numba import njit  # noqa: PLC0415 - heavy, and only compiled rooms need it

    compiling: Any = njit
    return cast(F, compiling(forceinline=True, no_cpython_wrapper=True, no_cfunc_wrapper=True)(function))


def uncounted() -> Any:
    """Return a function that gives compiled code its arrays, alone or in tuples, without their counters.

    A compiled function counts each array that it takes out of a tuple or hands on up and down again, which
    locks memory; the compiler sees that this is for nothing only where the way in between is plain, and by
    trial it took a quarter of the time of a search. It is for arrays that the caller holds anyhow: one that
    was made in the same function, or is returned, would be let go of while it is still read.
    """
    from numba.core import types  # noqa: PLC0415 - heavy, and only compiled rooms need it
    from numba.extending import intrinsic  # noqa: PLC0415

    known: Any = types  # it has no types of its own

    def bare(context: Any, builder: Any, kind: Any, value: Any) -> Any:
        if isinstance(kind, known.BaseTuple):
            for number, one in enumerate(kind):
                part = bare(context, builder, one, builder.extract_value(value, number))
                value = builder.insert_value(value, part, number)
        elif isinstance(kind, known.Array):
            array = context.make_helper(builder, kind, value=value)
            array.meminfo = array.meminfo.type(None)
            value = array._getvalue()
        return value

    def typed(_context: Any, things: Any) -> Any:
        return things(things), lambda context, builder, _, values: bare(context, builder, things, values[0])

    making: Any = intrinsic
    return making(typed)


@cache
def _cache_folder(room: Path, asked: str) -> Path:
    """Return where machine code is kept: where the user asks, in the room, or in the user's cache."""
    name = _PREFIX + room_digest(room)
    if asked:
        return Path(asked) / room.name / name
    parent = room / "__pycache__"
    if not os.access(parent if parent.exists() else room, os.W_OK):
        from platformdirs import user_cache_path  # noqa: PLC0415 - only an install that cannot be written to

        parent = user_cache_path("rollwright") / room.name
    if not (parent / name).exists():
        for old in parent.glob(f"{_PREFIX}*"):
            shutil.rmtree(old, ignore_errors=True)
    return parent / name


def never_compiled(room: Path) -> bool:
    """Return whether no machine code of a room, as its files are now, is on disk."""
    folder = _cache_folder(room, os.environ.get("NUMBA_CACHE_DIR", ""))
    return next(folder.rglob("*.nbi"), None) is None


def room_digest(room: Path) -> str:
    """Return a digest of this file and all Python files that stand in a folder: names and content."""
    digest = hashlib.sha256()
    for path in (Path(__file__), *sorted(room.glob("*.py"))):
        digest.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    return digest.hexdigest()[:16]
