"""When work ends at the soonest, each job as if alone in the shop."""

from __future__ import annotations

from scheduler.sequence.timing.tables import Calendar, Tables, overtime_windows, tables


def process_order(t: Tables) -> list[int]:
    """Operations so that each comes after all it waits for."""
    order: list[int] = []
    seen = [False] * t.size

    def add(i: int) -> None:
        if not seen[i]:
            seen[i] = True
            for j, _ in t.before[i]:
                add(j)
            order.append(i)

    for i in range(t.size):
        add(i)
    return order


def soonest_ends(t: Tables) -> list[int]:
    """Return the minute before which each job cannot have ended: its own work, one after the other, alone."""
    end = [0] * t.size
    done = [0] * len(t.due)
    for i in process_order(t):
        ready = max([t.release[i], *(end[j] + lag for j, lag in t.before[i])])
        end[i] = min(soonest_end(t.calendars[m], ready, p) for m, p in t.minutes[i].items())
        done[t.job[i]] = max(done[t.job[i]], end[i])
    return done


def soonest_end(calendar: Calendar, ready: int, minutes: int) -> int:
    """Return when work of so many minutes ends at the soonest, by the clock where it does not fit."""
    if ready >= len(calendar.before) or not minutes:
        return ready
    last = calendar.before[ready] + minutes - 1
    return calendar.at[last] + 1 if last < len(calendar.at) else ready + minutes


def least_late(t: Tables) -> list[int]:
    """Return the late money of each job that no order avoids, ticks: all overtime worked, alone."""
    done = soonest_ends(tables(t.problem, frozenset((m, w.start) for m, w in overtime_windows(t.problem))))
    return [t.weight[k] * max(0, done[k] - due) for k, due in enumerate(t.due)]
