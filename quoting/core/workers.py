"""Several cores at one run's independent tasks: worker processes that end with the run, however it ends.

Only where processes are forked (Linux): elsewhere each would have to import everything anew, which costs more
than most runs take, and the work is done one by one. What comes out is the same with any number of workers.
"""

from __future__ import annotations

import gc
import os
import pickle
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import lru_cache, partial
from itertools import cycle
from typing import TYPE_CHECKING, Any, TypeVar

from quoting.core.sharing import Sharing, one_by_one

if TYPE_CHECKING:
    from concurrent.futures import ProcessPoolExecutor
    from multiprocessing.connection import Connection

T = TypeVar("T")
R = TypeVar("R")

MOST_WORKERS = 64
_TURNS = 32
_PATIENCE = 10

_inherited: Sequence[Callable[[], None]] = ()


def cores() -> int:
    """Return how many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return min(MOST_WORKERS, len(os.sched_getaffinity(0)))
    return min(MOST_WORKERS, os.cpu_count() or 1)


def forks() -> bool:
    """Return whether worker processes begin as a copy of this one."""
    return sys.platform == "linux"


@contextmanager
def sharing_out(workers: int, turns: int = _TURNS, *, patient: bool = False) -> Iterator[Sharing]:
    """Yield what does independent tasks on `workers` processes; they are begun when there is work for two.

    A worker is sent things so many times at least: thousands of small ones go together. Patient workers let
    other processes of the run go first.
    """
    if workers < 2 or not forks():
        yield one_by_one
        return
    begun: list[ProcessPoolExecutor] = []

    def share_out(function: Callable[[T], R], things: Sequence[T], /) -> Iterator[R]:
        if len(things) < 2:
            return map(function, things)
        if not begun:
            begun.append(_pool(workers, patient=patient))
        at_once = max(1, len(things) // (workers * turns))
        return begun[0].map(partial(_call, pickle.dumps(function, protocol=5)), things, chunksize=at_once)

    try:
        yield share_out
    except BaseException:
        _stop(begun)
        raise
    for pool in begun:
        pool.shutdown()


def do_all(
    jobs: Sequence[Callable[[], None]], workers: int, done: Callable[[int], None] = lambda _number: None
) -> None:
    """Do every job, on `workers` processes; what a job holds is inherited, so it may hold anything.

    `done` hears how many are done. The first job that fails ends the others, and its error is raised here.
    """
    global _inherited  # noqa: PLW0603 - a forked worker finds here what cannot be sent to it
    _inherited = jobs
    try:
        with sharing_out(min(workers, len(jobs)), turns=len(jobs)) as share_out:  # some are much longer
            for number, _ in enumerate(share_out(_do, range(len(jobs))), 1):
                done(number)
    finally:
        _inherited = ()


@contextmanager
def beside(function: Callable[[], None]) -> Iterator[Callable[[], None]]:
    """Have a process of its own do something while this one goes on; what is yielded waits for it.

    Whether it came to an end is nobody's concern: it only makes ready what else is done when it is needed.
    """
    import multiprocessing  # noqa: PLC0415 - keeps --help quick

    get = multiprocessing.get_context
    begin = get("fork").Process if forks() else get("spawn").Process
    process = begin(target=_done_beside, args=(function,), daemon=True)
    process.start()
    try:
        yield process.join
    finally:
        process.terminate()
        process.join()


@contextmanager
def made_ready(ready: Callable[[], None], workers: int, copies: int = 0) -> Iterator[Sharing]:
    """Have a process of its own do `ready` at once; yield what then works there, one thing at a time.

    The first thing is begun at once, not only when its result is asked for. Once it is ready the process is
    copied, `copies` times; what is shared out goes to it and to the copies in turn. With one worker, and
    where processes are not forked, the work is done here, and `ready` is not. What fails there, or with that
    process, is done once more here, so that its error is raised here.
    """
    if workers < 2 or not forks():
        yield one_by_one
        return
    import multiprocessing  # noqa: PLC0415 - keeps --help quick

    context = multiprocessing.get_context("fork")
    ours, theirs = zip(*(context.Pipe() for _ in range(1 + copies)), strict=True)
    process = context.Process(target=_wait_for_work, args=(ready, theirs, ours), daemon=True)
    process.start()
    for pipe in theirs:
        pipe.close()
    turns = cycle(ours)

    def share_out(function: Callable[[T], R], things: Sequence[T], /) -> Iterator[R]:
        pipe = next(turns)
        for thing in things[:1]:
            _send(pipe, function, thing)
        return _results(pipe, function, things)

    try:
        yield share_out
    finally:
        process.terminate()
        process.join()
        for pipe in ours:
            pipe.close()


def _send(pipe: Connection, function: Callable[[T], R], thing: T) -> None:
    with suppress(OSError):
        pipe.send_bytes(pickle.dumps((function, thing), protocol=5))


def _results(pipe: Connection, function: Callable[[T], R], things: Sequence[T]) -> Iterator[R]:
    """Yield what comes of things at the other end, of which the first is sent already."""
    for number, thing in enumerate(things):
        done = None
        if number:
            _send(pipe, function, thing)
        with suppress(EOFError, OSError):
            done = pickle.loads(pipe.recv_bytes())  # from a process that was forked from this one
        yield function(thing) if done is None else done[0]


def _wait_for_work(
    ready: Callable[[], None], pipes: Sequence[Connection], of_parent: Sequence[Connection]
) -> None:
    """Do `ready`, then what comes through the first pipe; a copy of this process does what comes through each
    other one.

    What comes meanwhile is taken in by a thread, so that whoever sends it need not wait.
    """
    import threading  # noqa: PLC0415 - keeps --help quick
    from queue import SimpleQueue  # noqa: PLC0415

    _begin_worker()
    for pipe in of_parent:
        pipe.close()
    come: SimpleQueue[bytes | None] = SimpleQueue()

    def take_in() -> None:
        with suppress(EOFError, OSError):
            while True:
                come.put(pipes[0].recv_bytes())
        come.put(None)

    threading.Thread(target=take_in, daemon=True).start()
    with suppress(Exception):
        ready()
    for pipe in pipes[1:]:
        with suppress(OSError):
            if not os.fork():
                _work_as_copy(pipe, pipes)
        pipe.close()
    _work(come.get, pipes[0])


def _work_as_copy(own: Connection, pipes: Sequence[Connection]) -> None:
    """Do what comes through a pipe in a process that was just forked; it ends here."""
    try:
        _begin_worker()
        for pipe in pipes:
            if pipe is not own and not pipe.closed:
                pipe.close()  # else nobody would notice the end of the process at that one
        _work(own.recv_bytes, own)
    finally:
        os._exit(0)


def _work(come: Callable[[], bytes | None], pipe: Connection) -> None:
    """Do what comes, and send what comes of it, until nothing comes any more."""
    with suppress(EOFError, OSError):
        while (sent := come()) is not None:
            done: tuple[Any] | None = None
            with suppress(Exception):
                function, thing = pickle.loads(sent)
                done = (function(thing),)
            pipe.send_bytes(pickle.dumps(done, protocol=5))


def _done_beside(function: Callable[[], None]) -> None:
    _begin_worker()
    with suppress(Exception):
        function()


def _call(function: bytes, thing: Any) -> Any:
    return _unpacked(function)(thing)


@lru_cache(maxsize=4)
def _unpacked(function: bytes) -> Callable[[Any], Any]:
    """Return a function as it was sent: what it holds is packed and unpacked once, not for every thing."""
    found: Callable[[Any], Any] = pickle.loads(function)  # from the process that this one was forked from
    return found


def _do(index: int) -> None:
    _inherited[index]()


def _pool(workers: int, *, patient: bool) -> ProcessPoolExecutor:
    import multiprocessing  # noqa: PLC0415 - keeps --help quick
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415

    context = multiprocessing.get_context("fork")
    begin = _begin_patient_worker if patient else _begin_worker
    return ProcessPoolExecutor(workers, mp_context=context, initializer=begin)


def _begin_patient_worker() -> None:
    os.nice(_PATIENCE)
    _begin_worker()


def _begin_worker() -> None:
    """A worker leaves Ctrl-C to the run it works for, and does not outlive it when that is killed."""
    import multiprocessing  # noqa: PLC0415 - keeps --help quick
    import signal  # noqa: PLC0415
    import threading  # noqa: PLC0415

    gc.freeze()  # what was there at the fork stays: looking through it all took a tenth of writing the books
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    parent = multiprocessing.parent_process()

    def end_with_parent() -> None:
        if parent is not None:
            parent.join()
        os._exit(1)

    threading.Thread(target=end_with_parent, daemon=True).start()


def _stop(begun: Sequence[ProcessPoolExecutor]) -> None:
    """End workers in the middle of what they do: nobody will ask for it any more."""
    import multiprocessing  # noqa: PLC0415 - keeps --help quick

    for process in multiprocessing.active_children():
        process.terminate()
    for pool in begun:
        pool.shutdown(cancel_futures=True)
