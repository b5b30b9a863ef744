"""Watches an inbox: quotes what comes, puts aside what cannot be read, goes on whatever one file does.

The notices of the file system (by watchfiles) only wake it; what is to be done is always read from the folder
itself, every few seconds too. So a share that sends no notices works, and nothing is missed over a restart.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from quoting.books import OutputFolder, locked
from quoting.commands import Say
from quoting.core import InputError, Place
from quoting.inbox.arrivals import Arrivals
from quoting.inbox.desk import Desk, Outcome
from quoting.inbox.journal import Journal
from quoting.inbox.parcel import clear_arriving
from quoting.inbox.request import WatchRequest

_LOOK_EVERY = 2.0
"""Seconds between two looks where the file system tells nothing."""
STOPPED = 130


def watch_job(request: WatchRequest, *, say: Say, fault: Callable[[Exception], str]) -> int:
    """Watch until stopped (130), or with `once` until all is quoted; `fault` words what was our own fault.

    Returns 0 when every file was quoted, 1 when lines wait or files were put aside. Raises InputError when a
    folder cannot be used or another watcher is at work.
    """
    _check(request)
    out = OutputFolder(request.out_dir)
    with _alone(request.inbox), out.hold():
        clear_arriving(request.out_dir)
        arrivals = Arrivals(request.inbox, request.wait)
        desk = Desk(request, arrivals, Journal(request.out_dir), say, fault)
        if not request.once:
            say(f"watching {request.inbox}, quotes go to {request.out_dir}; Ctrl-C stops it")
        try:
            with _woken(request) as pause:
                _look(desk, arrivals, once=request.once)
                while not (request.once and not arrivals.waiting):
                    pause()
                    _look(desk, arrivals, once=request.once)
        except KeyboardInterrupt:
            say(f"stopped; {desk.words()}; what is in the inbox now is quoted at the next start")
            return STOPPED
        say(desk.words())
        return 0 if set(desk.outcomes) <= {Outcome.QUOTED, Outcome.AGAIN} else 1


def _check(request: WatchRequest) -> None:
    if not request.inbox.is_dir():
        raise InputError(
            "there is no such folder", place=Place(str(request.inbox)), would_do="make it, or check its name"
        )
    inbox, others = request.inbox.resolve(), (request.out_dir.resolve(), request.shop_dir.resolve())
    if inbox in others:
        raise InputError(
            "the inbox is also the shop's folder or the one for quotes",
            place=Place(str(request.inbox)),
            would_do="use a folder of its own for what comes in",
        )


@contextmanager
def _alone(inbox: Path) -> Iterator[None]:
    """Keep a second watcher off the inbox."""
    with locked(inbox, "another watcher is at work on this inbox", "stop that one, or watch another folder"):
        yield


def _look(desk: Desk, arrivals: Arrivals, *, once: bool) -> None:
    """Work through what is ready; an inbox that cannot be looked into is told once and tried again."""
    try:
        ready = arrivals.ready(time.monotonic())
    except OSError as error:
        why = f"cannot look into {arrivals.inbox} ({error.strerror or error})"
        if once:
            raise InputError(why) from error
        desk.tell_once(f"{why}; it is tried again until it is back")
        return
    for name in sorted(arrivals.passed_over):
        desk.tell_once(f"{name} is a folder or a link and is not looked into: drop the files themselves")
    for path in ready:
        desk.take(path)


@contextmanager
def _woken(request: WatchRequest) -> Iterator[Callable[[], None]]:
    """Yield what waits for a notice of the file system, or for the time to look again."""
    from watchfiles import watch  # noqa: PLC0415 - only where a folder is watched

    seconds = max(0.05, min(request.wait, _LOOK_EVERY))
    notices: Iterator[object] | None = None

    def pause() -> None:
        nonlocal notices
        try:
            if notices is None:
                notices = watch(
                    request.inbox,
                    watch_filter=None,
                    recursive=False,
                    debounce=300,
                    rust_timeout=int(seconds * 1000),
                    yield_on_timeout=True,
                )
            next(notices)
        except (OSError, RuntimeError, StopIteration):  # a share that went away, or that cannot be watched
            notices = None
            time.sleep(seconds)

    try:
        yield pause
    finally:
        with suppress(Exception):
            if notices is not None:
                notices.close()  # type: ignore[attr-defined]  # a generator
