"""Asks the reading process, and says in one message when it did not survive a file.

One process reads all files of a run. Python code of this project alone is in it, but the parsers it calls
read what a stranger has made: so it may take little memory and time, cannot write, and its end is the end of
one file and not of the run.
"""

from __future__ import annotations

import atexit
import json
import os
import subprocess
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from threading import Lock, Timer
from typing import Any

from quoting.core import InputError, Place, confined, shown_name
from quoting.tables.child.wire import formulas_of, limits_data, refusal_of, sheet_of, unpacked
from quoting.tables.limits import Limits
from quoting.tables.sheet import FormulaBook, Sheet

_WAIT = 8
"""Seconds on the clock for each second of processor time that a file may take: the machine may be busy."""
_LARGEST_ANSWER = 120_000_000
_START = "import sys; sys.path[:] = {path!r}; from quoting.tables.child.worker import main; main({memory})"
_ROOT = str(Path(__file__).resolve().parents[3])
_RESAVE = "open it in a spreadsheet program and save it as .xlsx"


class _Reader:
    """The process, and its answer to one request at a time."""

    def __init__(self, memory_bytes: int) -> None:
        self.memory_bytes = memory_bytes
        self.owner = os.getpid()
        self.spent = False
        path = [_ROOT, *(os.path.abspath(folder) for folder in sys.path if folder)]
        code = _START.format(path=path, memory=memory_bytes)
        self._process = subprocess.Popen(
            [sys.executable, "-I", "-S", "-c", code],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        self._job = confined(self._process, memory_bytes)

    def answer(self, request: dict[str, Any], seconds: float) -> bytes | None:
        """Return what the process answers; None when it ended over it or took too long."""
        process = self._process
        assert process.stdin is not None
        assert process.stdout is not None
        watch = Timer(seconds, process.kill)
        watch.daemon = True
        watch.start()
        try:
            process.stdin.write(json.dumps(request).encode("ascii") + b"\n")
            process.stdin.flush()
            head = process.stdout.read(9)
            size = int.from_bytes(head[:8], "big")
            if len(head) == 9 and size <= _LARGEST_ANSWER:
                data = process.stdout.read(size)
                if len(data) == size:
                    self.spent = bool(head[8])
                    return data
        except OSError:
            pass
        finally:
            watch.cancel()
        self.spent = True
        return None

    def close(self) -> None:
        """End the process."""
        self.spent = True
        if self.owner != os.getpid():
            return  # a copy of this object in a forked process: the other one owns it
        with suppress(OSError):
            self._process.kill()
        for pipe in (self._process.stdin, self._process.stdout):
            if pipe is not None:
                with suppress(OSError):
                    pipe.close()
        self._process.wait()


_readers: list[_Reader] = []
_lock = Lock()


def start_reader(limits: Limits | None = None) -> None:
    """Start the reading process ahead of need: it gets ready while this one loads its own libraries."""
    with _lock:
        _ready((limits or Limits()).memory_bytes)


def _ready(memory_bytes: int) -> _Reader:
    for reader in list(_readers):
        if reader.owner == os.getpid() and not reader.spent and reader.memory_bytes == memory_bytes:
            return reader
        _readers.remove(reader)
        reader.close()
    reader = _Reader(memory_bytes)
    _readers.append(reader)
    return reader


@atexit.register
def _close_all() -> None:
    while _readers:
        _readers.pop().close()


def ask_sheets(file: Path, limits: Limits) -> tuple[Sheet, ...]:
    """Return the sheets of a workbook, a text table, a PDF, or a mail with what is attached to it.

    Raises InputError when it cannot be read, breaks a limit, or ends the reader.
    """
    answer = _ask({"what": "sheets"}, file, limits)
    return tuple(sheet_of(data) for data in answer["sheets"])


def ask_formulas(file: Path, wanted: Sequence[str], limits: Limits) -> FormulaBook:
    """Return the wanted sheets of a workbook with their formulas; raises InputError as `ask_sheets` does."""
    return formulas_of(_ask({"what": "formulas", "sheets": list(wanted)}, file, limits)["book"])


def _ask(request: dict[str, Any], file: Path, limits: Limits) -> dict[str, Any]:
    whole = {**request, "path": os.path.abspath(file), "limits": limits_data(limits)}
    with _lock:
        try:
            data = _ready(limits.memory_bytes).answer(whole, _seconds(file, limits) * _WAIT)
        except OSError as error:
            raise InputError(
                "cannot be read: the process that reads files did not start",
                place=Place(shown_name(file)),
                read=error.strerror or str(error),
            ) from error
    try:
        answer = {} if data is None else unpacked(data)
        if answer.get("refused"):
            raise refusal_of(answer["refused"])
        if answer:
            return answer
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        raise _broken(file, limits) from error
    raise _broken(file, limits)


def _seconds(file: Path, limits: Limits) -> int:
    with suppress(OSError):
        return limits.seconds_for(file.stat().st_size)
    return limits.least_seconds


def _broken(file: Path, limits: Limits) -> InputError:
    return InputError(
        f"cannot be read: reading it broke off, or took more than {_seconds(file, limits)} s or"
        f" {limits.memory_bytes >> 20} MB of memory",
        place=Place(shown_name(file)),
        would_do=f"{_RESAVE}; if you do not know the sender, do not open it",
    )
