"""How a command ends: one message and the right exit code, whatever happened; never a traceback."""

from __future__ import annotations

import errno
import io
import os
import platform
import signal
import sys
import tempfile
import traceback
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import click

from quoting.core import CannotWriteError, RollwrightError, on_one_line
from scheduler.commands.telling import say

DONE, LINES_WAIT, UNUSABLE, OUR_FAULT, CANNOT_WRITE, STOPPED = 0, 1, 2, 70, 74, 130
"""0: all done; 1: there are questions; 2: unusable input; the others as sysexits.h and shells have them."""
_NO_ROOM = frozenset((errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.EIO, errno.EFBIG, errno.EPIPE))
_OF_A_PATH = frozenset(
    (errno.ENOENT, errno.EACCES, errno.EPERM, errno.ENOTDIR, errno.EISDIR, errno.ELOOP, errno.ENAMETOOLONG)
)
"""What the system says of a path that a user gave: nothing is there, or it is not what it should be."""
_ROOT = Path(__file__).resolve().parents[2]


def stop_at_once(*_: object) -> None:
    """End the process at once: the user has stopped it before it did anything."""
    os._exit(STOPPED)


def keep_a_stop(lost: sys.UnraisableHookArgs) -> None:
    """Say nothing of an error that nobody can take, but keep the user's stop among them: `say` raises it.

    A file that cannot even be closed has been told before.
    """
    if issubclass(lost.exc_type, KeyboardInterrupt):
        say.stopped = True


def guarded(work: Callable[[], int]) -> int:
    """Run a command and return its exit code; an error is told in one message on standard error."""
    if signal.getsignal(signal.SIGINT) is stop_at_once:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    _take_every_letter()
    try:
        code = work()
        if code in (DONE, LINES_WAIT):
            _shown()
        return code
    except KeyboardInterrupt:
        while_at = f" while {say.doing}" if say.doing else ""
        return _told(f"stopped{while_at}; files of an earlier run stay as they were", STOPPED)
    except RollwrightError as error:
        return _told(str(error), CANNOT_WRITE if isinstance(error, CannotWriteError) else UNUSABLE)
    except Exception as error:
        if isinstance(error, OSError) and error.errno in _NO_ROOM:
            return _told(f"cannot write: {error}", CANNOT_WRITE)
        return _told(words, UNUSABLE) if (words := _unusable_path(error)) else _our_fault(error)


def _take_every_letter() -> None:
    """Let both outputs take letters that their encoding does not have: they are shown by their codes."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _unusable_path(error: Exception) -> str:
    """Return what is wrong with a path that no room has met with a message of its own; else nothing."""
    if not isinstance(error, OSError) or error.errno not in _OF_A_PATH or not isinstance(error.filename, str):
        return ""
    own = (str(_ROOT / "quoting"), str(_ROOT / "scheduler"), sys.prefix, sys.base_prefix)
    if error.filename.startswith(own):
        return ""  # a file of the program itself
    return f"{on_one_line(error.filename, 400)}: cannot be used ({error.strerror})"


def ended(command: click.Command) -> int:
    """Run the whole command line and return its exit code; help and misuse end as clean as work does."""

    def work() -> int:
        try:
            return int(command.main(prog_name="rollwright", standalone_mode=False) or DONE)
        except click.ClickException as error:
            error.show()
            return error.exit_code
        except click.Abort as error:
            raise KeyboardInterrupt from error

    return guarded(work)


def _shown() -> None:
    """See that what was printed has reached its reader."""
    if sys.stdout is None:
        raise CannotWriteError(
            "standard output is closed: what it should show is lost, all files are written"
        )
    try:
        sys.stdout.flush()
    except OSError as error:
        raise CannotWriteError(
            f"standard output takes no more ({error.strerror}); files are written"
        ) from error


def _told(message: str, code: int) -> int:
    """Tell it, if anybody can still hear it; what is left in a broken standard output is dropped."""
    if code == CANNOT_WRITE:
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - until the process ends
    try:
        say.clear()
        click.echo(f"rollwright: {message}", err=True)
    except OSError:
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - until the process ends
    return code


def _our_fault(error: BaseException) -> int:
    return _told(fault_words(error), OUR_FAULT)


def fault_words(error: BaseException) -> str:
    """Write what went wrong where, without any text or number that came from a file, and say where it is."""
    try:
        handle, name = tempfile.mkstemp(prefix="rollwright-report-", suffix=".txt")
        with open(handle, "w", encoding="utf-8") as report:
            report.write(_report(error))
        where = f"please send {name}, which holds no data of yours, to whoever looks after this program"
    except OSError as second:
        where = f"a report could not be written ({second.strerror})"
    return (
        f"this is a fault of the program, not of your files ({type(error).__name__}); nothing half is left"
        f" behind; {where}"
    )


def _report(error: BaseException) -> str:
    """Return the steps that led to an error: places in the code, kinds of errors, no messages or values."""
    lines = [
        f"rollwright {own_version()}, Python {platform.python_version()}",
        f"{platform.system()} {platform.machine()}",
        f"{datetime.now():%Y-%m-%d %H:%M}",
    ]
    chain: BaseException | None = error
    while chain is not None and len(lines) < 400:
        lines.append(type(chain).__name__)
        lines += [_step(frame) for frame in traceback.extract_tb(chain.__traceback__)[-60:]]
        chain = chain.__cause__ or chain.__context__
    return "\n".join(lines) + "\n"


def own_version() -> str:
    """Return the version that is installed, or that none is: run from its source."""
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415 - keeps --help quick

    try:
        return version("rollwright")
    except PackageNotFoundError:
        return "not installed"


def _step(frame: traceback.FrameSummary) -> str:
    path = Path(frame.filename)
    own = path.is_relative_to(_ROOT)
    shown = path.relative_to(_ROOT).as_posix() if own else "/".join(path.parts[-3:])
    return f"  {shown}:{frame.lineno} {frame.name}" + (f": {frame.line}" if own else "")
