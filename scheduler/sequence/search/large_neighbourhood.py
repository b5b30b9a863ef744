"""Large-neighbourhood search: the constraint model with all orders kept but those of a few operations near
each other.

Shaw 1998, "Using constraint programming and local search methods to solve vehicle routing problems",
CP-98. A step frees a
stretch of one machine's row and the work of the machines that could take it over at that time.
"""

from __future__ import annotations

import random
import time
from collections.abc import Sequence
from itertools import pairwise

from scheduler.sequence.exact import improve
from scheduler.sequence.search.local import Search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Tables, Timed

FREED = 7  # operations freed on each of at most two machines


def neighbourhood_search(t: Tables, start: Timed, stop: Stop, seed: int = 0) -> Search:
    """Improve a plan by `stop.iterations` small constraint models that share `stop.work`."""
    chance = random.Random(seed)
    found = Search(start, [(0, start.total)])
    share = stop.work / max(1, stop.iterations)
    ends_at = None if stop.seconds is None else time.monotonic() + stop.seconds
    for step in range(1, stop.iterations + 1):
        left = None if ends_at is None else ends_at - time.monotonic()
        if left is not None and left <= 0:
            break
        arcs = _free_some(t, found.best, chance)
        answer = improve(t, found.best, Stop(0, share, left, stop.workers), seed + step, arcs)
        if answer.timed is not None and answer.timed.score < found.best.score:
            found.best = answer.timed
            found.steps.append((step, answer.timed.total))
    return found


def _rows(t: Tables, timed: Timed) -> list[list[int]]:
    rows: list[list[int]] = [[] for _ in t.calendars]
    for i in timed.order():
        rows[timed.machine[i]].append(i)
    return rows


def _free_some(t: Tables, timed: Timed, chance: random.Random) -> list[set[tuple[int, int]]]:
    """Return the arcs each machine may still use."""
    rows = _rows(t, timed)
    weights = [max(0, len(row) - 1) for row in rows]
    if not any(weights):
        weights = [1] * len(rows)
    machine = chance.choices(range(len(rows)), weights)[0]
    row = rows[machine]
    first = chance.randrange(max(1, len(row) - FREED + 1))
    spans = {machine: (first, min(len(row), first + FREED))}
    moment = timed.start[row[first]] if row else 0
    partners = {m for i in row[first : first + FREED] for m in t.minutes[i]} - {machine}
    if partners:
        other = chance.choice(sorted(partners))
        begin = sum(timed.end[i] <= moment for i in rows[other])
        spans[other] = (begin, min(len(rows[other]), begin + FREED))
    freed = [i for m, (a, b) in spans.items() for i in rows[m][a:b]]
    return [_arcs(t, m, row, spans.get(m), freed) for m, row in enumerate(rows)]


def _arcs(
    t: Tables, m: int, row: Sequence[int], span: tuple[int, int] | None, freed: Sequence[int]
) -> set[tuple[int, int]]:
    """Arcs of one row in its present order, with every order of the freed operations inside its span."""
    if span is None:
        return set(pairwise([-1, *row, -1])) if row else set()
    head, tail = row[: span[0]], row[span[1] :]
    before, after = (head[-1] if head else -1), (tail[0] if tail else -1)
    able = [i for i in freed if m in t.minutes[i]]
    arcs = set(pairwise([-1, *head])) | set(pairwise([*tail, -1]))
    arcs |= {(before, i) for i in able} | {(i, after) for i in able}
    arcs |= {(i, j) for i in able for j in able if i != j}
    if before != -1 or after != -1:
        arcs.add((before, after))
    return arcs
