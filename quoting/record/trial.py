"""A long JSON text is first read by a process of its own, which may take little memory and time.

350 kB that nobody writes by accident take 5 GB to read: the library copies the whole for each thing that is
wrong with it. What comes through is read again by this process, in the same way and so in the same memory.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from contextlib import suppress
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, confined, limit_seconds, limit_this_process

_FAMILY = 580 << 20
"""Bytes that this process and the one that tries may hold together."""
_LEAST_ROOM, _USUAL_ROOM = 60 << 20, 350 << 20
_SECONDS = 20
"""Of processor time: an estimate of 5,000 lines took 5.5 s where this was measured."""
_WAIT = 8
"""Seconds on the clock for each of processor time: the machine may be busy."""
_START = "import sys; sys.path[:] = {path!r}; from quoting.record.trial import main; main({reader!r}, {room})"
_ROOT = str(Path(__file__).resolve().parents[2])
_GIVE = "give the file as the run wrote it"


@dataclass(slots=True)
class JsonSize:
    """How much a JSON text holds, counted piece by piece: letters, objects, and commas with lists."""

    letters: int = 0
    objects: int = 0
    commas: int = 0

    def add(self, text: bytes) -> None:
        """Count a piece."""
        self.letters += len(text)
        self.objects += text.count(b"{")
        self.commas += text.count(b",") + text.count(b"[")


@dataclass(frozen=True, slots=True)
class JsonRoom:
    """How much a JSON text may hold: letters, objects, and commas with lists."""

    letters: int
    objects: int
    commas: int

    def holds(self, size: JsonSize) -> bool:
        """Return whether a text of this size is within it."""
        return size.letters <= self.letters and size.objects <= self.objects and size.commas <= self.commas

    def check(self, size: JsonSize, place: Place) -> None:
        """Raise InputError for a text with more in it than any run writes."""
        if not self.holds(size):
            raise InputError("is far larger than any record", place=place, would_do=_GIVE)


SMALL = JsonRoom(10_000_000, 40_000, 300_000)
"""Whatever stands in a text of this size, it takes under 400 MB: it is read at once. About 200 lines."""


def tried(reader: str, data: bytes, place: Place) -> None:
    """Have `reader` ("module:function", takes the bytes) read them in a process of its own.

    Raises the InputError that it raises, at `place`, and one when it takes too much memory or time.
    """
    room = max(_LEAST_ROOM, _FAMILY - resident) if (resident := _held()[1]) else _USUAL_ROOM
    path = [_ROOT, *(os.path.abspath(folder) for folder in sys.path if folder)]
    try:
        with subprocess.Popen(
            [sys.executable, "-I", "-S", "-c", _START.format(path=path, reader=reader, room=room)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env=os.environ | {"OPENBLAS_NUM_THREADS": "1"},
            start_new_session=True,
        ) as process:
            job = confined(process, room)
            try:
                answer, _ = process.communicate(data, timeout=_SECONDS * _WAIT)
            finally:
                process.kill()
                del job
    except (OSError, subprocess.TimeoutExpired) as error:
        raise _too_much(place) from error
    if process.returncode != 0:
        raise _too_much(place)
    found: dict[str, str] = json.loads(answer)
    if found:
        raise InputError(found["problem"], place=place, read=found["read"], would_do=found["would_do"])


def main(reader: str, room: int) -> None:
    """Read standard input by `reader` within `room` bytes of memory; tell what it refuses, end with 0."""
    data = sys.stdin.buffer.read()
    module, _, name = reader.partition(":")
    read = getattr(import_module(module), name)
    mapped, resident = _held()
    if mapped:
        limit_this_process(mapped + max(room - resident, _LEAST_ROOM // 2))
    limit_seconds(_SECONDS)
    told: dict[str, Any] = {}
    try:
        read(data)
    except InputError as error:
        told = {"problem": error.problem, "read": error.read, "would_do": error.would_do}
    except BaseException:
        os._exit(1)  # this process has no memory left to say more
    with suppress(OSError):
        os.write(1, json.dumps(told).encode("ascii"))
    os._exit(0)


def _held() -> tuple[int, int]:
    """Return how many bytes this process has mapped and holds; zeros where the system does not tell."""
    try:
        mapped, resident = Path("/proc/self/statm").read_text().split()[:2]
    except (OSError, ValueError):
        return 0, 0
    page = os.sysconf("SC_PAGE_SIZE")
    return int(mapped) * page, int(resident) * page


def _too_much(place: Place) -> InputError:
    return InputError(
        "cannot be read: reading it takes more memory or time than any record of a run",
        place=place,
        would_do=_GIVE,
    )
