"""Tasks of compiled code on several cores at once, their results in the order in which they were given.

For code that lets other threads go on while it runs (`unlocked`). Whoever stops asking waits for what is
begun, so that no thread is left when processes are forked; only an interrupted program does not.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from queue import SimpleQueue
from threading import Thread
from typing import TypeVar

from quoting.core.workers import cores

T = TypeVar("T")


def worked_ahead(tasks: Sequence[Callable[[], T]]) -> Generator[T, None, None]:
    """Yield what each task returns; the next ones are done meanwhile, as many at a time as there are cores.

    On one core a task is done when its result is asked for. Raises what a task raises.
    """
    hands = min(cores(), len(tasks))
    if hands < 2:
        yield from (task() for task in tasks)
        return
    begun = [_begin(task) for task in tasks[:hands]]
    number = 0
    try:
        while number < len(tasks):
            results, error = begun[number].get()
            number += 1
            if error is not None:
                raise error
            yield from results
            begun += map(_begin, tasks[number + hands - 1 : number + hands])
    except GeneratorExit:
        for one in begun[number:]:
            one.get()
        raise


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
