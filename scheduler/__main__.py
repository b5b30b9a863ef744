"""`python -m scheduler`, and the command `rollwright`: the same."""

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
    signal.signal(signal.SIGINT, lambda *_: os._exit(130))
    from scheduler.commands import ended, main, stop_at_once  # noqa: PLC0415 - only once it can be stopped

    signal.signal(signal.SIGINT, stop_at_once)
    sys.exit(ended(main))


if __name__ == "__main__":
    run()
