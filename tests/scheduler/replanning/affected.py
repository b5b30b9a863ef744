"""The operations that an event affects, by a published definition, beside our own of what is forced.

Affected operations rescheduling (Abumaizar & Svestka, "Rescheduling job shops under random disruptions",
International Journal of Production Research 35, 1997, 2065-2082; the paper was not at hand, its definition is
as Vieira, Herrmann & Lin, Journal of Scheduling 6, 2003, 39-62, tell it as partial rescheduling, from
memory): every operation keeps its machine and its place in the machine's row, and begins when published
unless it cannot. It cannot when its machine is down or it is released later, or when what comes before it,
in its job or on its machine, ends too late; then it begins as soon as it can, and so on down both rows. It is
affected when it begins later. People and crane are not in that definition, nor is new work; nothing begins
sooner than published, and what waits for a late plate keeps those behind it on its machine waiting.
"""

from __future__ import annotations

from collections.abc import Mapping

from scheduler.replanning.right_shift import Was
from scheduler.sequence import Tables


def affected(t: Tables, was: Mapping[int, Was]) -> dict[int, int]:
    """Return the operations that begin later than published, and the minute at which they can begin.

    What runs comes first on its machine; operations that were not published are left out.
    """
    machine = {i: was[i].machine for i in was if was[i].machine in t.minutes[i]}
    machine |= {i: next(iter(modes)) for i, modes in enumerate(t.minutes) if t.running[i]}
    ended: dict[int, int] = {}
    last = dict.fromkeys(machine.values(), -1)
    found = {}
    for i in sorted(machine, key=lambda i: (not t.running[i], was[i].start if i in was else 0, i)):
        m, planned = machine[i], was[i].start if i in was and not t.running[i] else 0
        waits = [ended[j] + lag for j, lag in t.before[i] if j in ended]
        soonest = max([planned, t.release[i], *waits])
        start, ended[i] = _begun(t, i, m, last[m], (ended.get(last[m], 0), soonest))
        last[m] = i
        if start > planned and not t.running[i]:
            found[i] = start
    return found


def _begun(t: Tables, i: int, m: int, before: int, ready: tuple[int, int]) -> tuple[int, int]:
    """Return begin and end of work on a machine, `ready` the minutes from which machine and work are."""
    free, soonest = ready
    calendar, minutes = t.calendars[m], t.minutes[i][m]
    at, horizon = calendar.at, t.problem.horizon
    w = max(
        calendar.before[min(free, horizon)] + t.setup(m, before, i), calendar.before[min(soonest, horizon)]
    )
    while not t.may_pause[i] and w + minutes <= len(at) and at[w + minutes - 1] - at[w] > minutes - 1:
        w = calendar.resume[w]
    if w + minutes > len(at):
        return horizon, horizon
    return at[w], at[w + minutes - 1] + 1
