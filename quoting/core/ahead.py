"""Tasks of compiled code on several cores at once, their results in the order in which they were given.

For code that lets other threads go on while it runs (`unlocked`). The threads end with the program: nobody
waits for them when it is interrupted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from queue import SimpleQueue
from threading import Thread
from typing import TypeVar

from quoting.core.workers import cores

T = TypeVar("T")


def worked_ahead(tasks: Sequence[Callable[[], T]]) -> Iterator[T]:
    """Yield what each task returns; the next ones are done meanwhile, as many at a time as there are cores.

    On one core a task is done when its result is asked for. Raises what a task raises.
    """
    hands = min(cores(), len(tasks))
    if hands < 2:
        yield from (task() for task in tasks)
        return
    begun = [_begin(task) for task in tasks[:hands]]
    for number in range(len(tasks)):
        results, error = begun[number].get()
        if error is not None:
            raise error
        if number + hands < len(tasks):
            begun.append(_begin(tasks[number + hands]))
        yield from results


def _begin(task: Callable[[], T]) -> SimpleQueue[tuple[list[T], BaseException | None]]:
    """Do a task on a thread of its own; return where its result will be, or what it raised."""
    done: SimpleQueue[tuple[list[T], BaseException | None]] = SimpleQueue()

    def work() -> None:
        try:
            done.put(([task()], None))
        except BaseException as error:
            done.put(([], error))

    Thread(target=work, daemon=True).start()
    return done
