"""`python -m scheduler`, and the command `rollwright`: the same."""

import atexit
import gc
import os
import signal
import sys
from contextlib import suppress
from typing import NoReturn


def run() -> None:
    """Start the command line: stopping it is silent from the start, and no file takes a closed stream."""
    for stream in (0, 1, 2):
        try:
            os.fstat(stream)
        except OSError:  # closed: the next file that is opened would take its place
            os.open(os.devnull, os.O_RDWR)
    if not os.path.isdir(os.environ.get("HOME", "/")):
        del os.environ["HOME"]  # not every library takes one that is no folder
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # its threads wait busily, and nothing here is large
    gc.set_threshold(500_000, 20, 50)  # what a run makes stays to its end: it takes 7 to 14 % less time so
    signal.signal(signal.SIGINT, lambda *_: os._exit(130))
    from scheduler.commands import (  # noqa: PLC0415 - only once it can be stopped
        STOPPED,
        ended,
        keep_a_stop,
        main,
        stop_at_once,
    )

    sys.unraisablehook = keep_a_stop
    signal.signal(signal.SIGINT, stop_at_once)
    try:
        code: object = ended(main)
    except SystemExit as end:  # a command ends with its own code
        code = end.code
    if code is None or isinstance(code, int):
        _end(code or 0, told=code != STOPPED)
    sys.exit(code)  # type: ignore[arg-type]  # what a command ended with


def _end(code: int, *, told: bool) -> NoReturn:
    """End with what is to be done at the end, but leave what the run has made to the system.

    Taking 100,000 objects apart one by one takes a tenth of a small quote. And where compiled code met an
    interrupt, the interpreter would end by the signal instead of with the code. With `told` what is printed
    waits for its reader.
    """
    atexit._run_exitfuncs()
    for stream in (sys.stdout, sys.stderr) if told else ():
        if stream is not None:
            with suppress(OSError, ValueError):  # the reader has gone, or the stream is closed: told before
                stream.flush()
    os._exit(code)


if __name__ == "__main__":
    run()
