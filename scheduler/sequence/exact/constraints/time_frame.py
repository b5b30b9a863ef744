"""In which minutes each operation can lie at all, and the stretches of a machine's working minutes."""

from __future__ import annotations

from scheduler.sequence.exact.lower_bounds import running_bound, setup_bound
from scheduler.sequence.timing import Calendar, Tables, Timed, process_order


def stretches_of(calendar: Calendar, known: int) -> list[tuple[int, int, int]]:
    """Stretches without a gap: first and last + 1 working minute, closed minutes before it.

    After minute `known`, where the warm start has ended, all is taken as one stretch: closed minutes left
    out can only
    make plans cheaper, so bounds still hold, and better plans hardly ever reach there.
    """
    found, w = [], 0
    while w < len(calendar.at):
        stop = calendar.resume[w] if calendar.at[w] <= known else len(calendar.at)
        found.append((w, stop, calendar.at[w] - w))
        w = stop
    return found


def time_frame(t: Tables, hint: Timed | None) -> tuple[list[int], list[int]]:
    """Earliest start and latest end of each operation in any plan that costs no more than the warm start.

    A job's late money alone may not exceed what the warm start costs above the bound on everything else.
    """
    order = process_order(t)
    earliest = list(t.release)
    for i in order:
        for j, lag in t.before[i]:
            earliest[i] = max(earliest[i], earliest[j] + min(t.minutes[j].values()) + lag)
    room: int | None = None
    if hint is not None and not hint.broken:
        room = hint.lateness if hint.dates_first else hint.total - setup_bound(t) - running_bound(t)
    latest = [t.problem.horizon] * t.size
    for i in order:
        k = t.job[i]
        if room is not None and t.weight[k]:
            latest[i] = min(latest[i], max(0, t.due[k] + room // t.weight[k]))
    for i in reversed(order):
        for j, lag in t.before[i]:
            latest[j] = min(latest[j], latest[i] - min(t.minutes[i].values()) - lag)
    return [min(e, t.problem.horizon) for e in earliest], latest
