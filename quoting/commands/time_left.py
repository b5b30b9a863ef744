"""Progress lines of long work, with about how long it still takes."""

from __future__ import annotations

import time
from collections.abc import Callable

from quoting.core import Doing

_EVERY = 5.0
"""Seconds after which the same work is told again."""
_SURE_AFTER = 2.0
"""Seconds of work before its pace says anything."""
_MINUTE = 60


class TimeLeft:
    """Tells what is worked on when that changes, else every five seconds, and what is left at this pace.

    >>> ticks = iter([0.0, 0.0, 1.0, 6.0, 30.0])
    >>> tell = TimeLeft(print, clock=lambda: next(ticks))
    >>> for share in (0.0, 0.02, 0.1, 0.5):
    ...     tell("what if: A36, 9 lines (1 of 1)", share)
    what if: A36, 9 lines (1 of 1)
    what if: A36, 9 lines (1 of 1), about 54 s left
    what if: A36, 9 lines (1 of 1), about 30 s left
    """

    def __init__(self, say: Callable[[str], None], clock: Callable[[], float] = time.monotonic) -> None:
        self._say, self._clock = say, clock
        self._start = clock()
        self._told, self._told_at = "", 0.0

    def __call__(self, words: str, share: float) -> None:
        """Tell that `share` of all work is done and `words` is worked on."""
        now = self._clock()
        if words == self._told and now - self._told_at < _EVERY:
            return
        self._told, self._told_at = words, now
        spent = now - self._start
        sure = spent >= _SURE_AFTER and 0 < share < 1
        said = f"{words}, about {_words(spent * (1 - share) / share)} left" if sure else words
        self._say(Doing(said, stage="what if", share=share, what=words))


def _words(seconds: float) -> str:
    return f"{seconds / _MINUTE:.0f} min" if seconds > 2 * _MINUTE else f"{max(1.0, seconds):.0f} s"
