"""Local search over one priority list: move, swap and block moves, and changes of machine, each timed in
full.

Acceptance is that of late acceptance hill climbing (Burke & Bykov 2017, European Journal of Operational
Research 258): a candidate
stays when it is no worse than the present plan or than the plan of `memory` steps ago.
"""

from __future__ import annotations

import random
import time
from dataclasses import dataclass, field

from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Tables, Timed, time_order

MOST_SIFTED = 40
UNSIFTED = 0.25


@dataclass
class Search:
    """A search that ended: the best timed order, and (step, total in ticks) of each improvement."""

    best: Timed
    steps: list[tuple[int, int]] = field(default_factory=list)


def local_search(tables: Tables, start: Timed, stop: Stop, seed: int = 0, memory: int = 40) -> Search:
    """Improve a timed order; the same seed and iteration limit give the same answer."""
    chance = random.Random(seed)
    found = Search(start, [(0, start.total)])
    present, order, machine = start, start.order(), list(start.machine)
    history = [start.score] * memory
    ends_at = None if stop.seconds is None else time.monotonic() + stop.seconds
    for step in range(1, stop.iterations + 1):
        if ends_at is not None and time.monotonic() > ends_at:
            break
        candidate, machines = _sifted(tables, present, order, machine, chance)
        timed = time_order(tables, candidate, machines)
        if timed.score <= present.score or timed.score <= history[step % memory]:
            present, order, machine = timed, timed.order(), machines
            if timed.score < found.best.score:
                found.best = timed
                found.steps.append((step, timed.total))
        history[step % memory] = min(history[step % memory], present.score)
    return found


def _sifted(
    tables: Tables, present: Timed, order: list[int], machine: list[int], chance: random.Random
) -> tuple[list[int], list[int]]:
    """Return a neighbour that is worth timing: without dearer set-ups and rolls, or by chance, for its dates.

    Timing an order takes fifty times as long as adding up its set-ups.
    """
    known = present.setup + present.running
    for _ in range(MOST_SIFTED):
        candidate, machines = _neighbour(tables, order, machine, chance)
        if chance.random() < UNSIFTED or _known_money(tables, candidate, machines) <= known:
            break
    return candidate, machines


def _known_money(tables: Tables, order: list[int], machine: list[int]) -> int:
    """Set-ups and dearer machines of an order, in ticks."""
    last: dict[int, int] = {}
    minutes = running = 0
    for i in order:
        m = machine[i]
        minutes += tables.setup(m, last.get(m, -1), i)
        running += tables.running_cost[i][m]
        last[m] = i
    return minutes * tables.setup_rate + running


def _neighbour(
    tables: Tables, order: list[int], machine: list[int], chance: random.Random
) -> tuple[list[int], list[int]]:
    """Return a changed copy: one operation, or a few in a row on its machine, put elsewhere."""
    n = len(order)
    if n < 2:
        return order, machine
    machines = machine
    i = chance.randrange(n)
    others = [m for m in tables.minutes[order[i]] if m != machine[order[i]]]
    row = order[i]
    if others and chance.random() < 0.3:
        machines = list(machine)
        machines[row] = chance.choice(others)
    block = _block(order, machine, i, 1 if machines is not machine else chance.choice((1, 1, 2, 3, 5)))
    target = machines[row]
    places = [k for k in range(n) if machines[order[k]] == target and order[k] not in block]
    if not places:
        return order, machines
    near = min(range(len(places)), key=lambda k: abs(places[k] - i))
    reach = max(2, len(places) // 4) if chance.random() < 0.7 else len(places)
    to = places[max(0, min(len(places) - 1, near + chance.randint(-reach, reach)))]
    if chance.random() < 0.2 and len(block) == 1:
        changed = list(order)
        changed[i], changed[to] = changed[to], changed[i]
        return changed, machines
    anchor = order[to]
    moved = set(block)
    rest = [k for k in order if k not in moved]
    at = rest.index(anchor) + (1 if to > i else 0)
    return rest[:at] + block + rest[at:], machines


def _block(order: list[int], machine: list[int], i: int, length: int) -> list[int]:
    """Operations that follow each other on the machine of order[i], from there on."""
    own = machine[order[i]]
    block = []
    for k in range(i, len(order)):
        if machine[order[k]] == own:
            block.append(order[k])
            if len(block) == length:
                break
    return block
