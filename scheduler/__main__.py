"""`python -m scheduler`, and the command `rollwright`: the same."""

import atexit
import gc
import os
import signal
import sys


def run() -> None:
    """Start the command line: stopping it is silent from the start, and no file takes a closed stream."""
    for stream in (0, 1, 2):
        try:
            os.fstat(stream)
        except OSError:  # closed: the next file that is opened would take its place
            os.open(os.devnull, os.O_RDWR)
    if not os.path.isdir(os.environ.get("HOME", "/")):
        del os.environ["HOME"]  # not every library takes one that is no folder
    gc.set_threshold(50_000, 20, 50)  # what a run makes stays to its end: it takes 7 % less time so
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
    if code == STOPPED:
        # Where compiled code met the interrupt, the interpreter would end by the signal instead.
        atexit._run_exitfuncs()
        stop_at_once()
    sys.exit(code)  # type: ignore[arg-type]  # what a command ended with


if __name__ == "__main__":
    run()
