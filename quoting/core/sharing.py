"""How work that falls into independent tasks is asked for: pure computing need not know of processes."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from importlib import import_module
from typing import Any, Protocol, Self, TypeVar

T = TypeVar("T")
R = TypeVar("R")


class Doing(str):
    """Words on what is being done. `what` is the short form of them for a line that shows the rest itself.

    `stage` is what belongs together, of which `share` is done (None: not known). A `step` is told only where
    a line on a terminal can be drawn anew.
    """

    def __new__(
        cls, text: str, *, stage: str = "", share: float | None = None, what: str = "", step: bool = False
    ) -> Self:
        """Return the words with what is known about them."""
        doing = super().__new__(cls, text)
        doing.stage, doing.share, doing.what, doing.step = stage or text, share, what or text, step
        return doing

    stage: str
    share: float | None
    what: str
    step: bool


class Sharing(Protocol):
    """Does one function on many things, perhaps on several cores; the results come in the things' order.

    What comes out never depends on who does it. Function and things may travel to another process: a function
    of a module, or a `partial` of one, and plain records.
    """

    def __call__(self, function: Callable[[T], R], things: Sequence[T], /) -> Iterator[R]:
        """Return the function's result for each thing."""
        ...


@dataclass(frozen=True, slots=True)
class FromRoom:
    """A function of a room, by name: who calls it loads the room, and who hands it on need not."""

    room: str
    name: str

    def __call__(self, thing: Any, /) -> Any:
        """Call the function with one thing."""
        return getattr(import_module(self.room), self.name)(thing)


@dataclass(frozen=True, slots=True)
class Hands:
    """Who works at a long computation, and who hears what is being done."""

    share_out: Sharing
    say: Callable[[str], None]


def one_by_one(function: Callable[[T], R], things: Sequence[T], /) -> Iterator[R]:
    """Do the work here, one thing after the other.

    >>> list(one_by_one(abs, [-1, 2]))
    [1, 2]
    """
    return map(function, things)


def heaviest_first(
    share_out: Sharing,
    function: Callable[[T], R],
    things: Sequence[T],
    weight: Callable[[T], float],
    tell: Callable[[int, T], None] = lambda _number, _thing: None,
) -> list[R]:
    """Return the results in the things' order; the heaviest are begun first, so that no core ends up waiting.

    `tell` hears of each thing that is waited for, with its number from 1.

    >>> heaviest_first(one_by_one, len, ["a", "bcd"], len)
    [1, 3]
    """
    order = sorted(range(len(things)), key=lambda index: -weight(things[index]))
    results = share_out(function, [things[index] for index in order])
    found = {}
    for number, index in enumerate(order, 1):
        tell(number, things[index])
        found[index] = next(results)
    return [found[index] for index in range(len(things))]


ALONE = Hands(one_by_one, lambda _words: None)
"""One thing after the other, and nobody hears of it."""
