"""The order of work that a promise is drawn from: the published plan, with every quote put in.

What is published keeps its place; a line that is new goes where money is lost least when every published
job was due when it ends now: into gaps, or behind. Quotes go in as they were made, the oldest first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from scheduler.jobs import CUT, DAY_MIN, ShopOperation
from scheduler.promising.asked import OpenQuote, PromiseAsked
from scheduler.replanning import Floor, FloorJob, floor_problem, published_order
from scheduler.sequence import Places, Tables, Timed, per_minute, tables, ticks, time_order
from scheduler.week import WeekProblem

PLACES = 16
"""Places that are tried for a line on each roll."""

DISTURBS = 3
"""How many times as much a minute's delay of a published job weighs as one of the new line."""

RUSHED = 10
"""How many times as much a minute of a rushed line weighs as one that another job is late."""


@dataclass(frozen=True, slots=True)
class PresentOrder:
    """The problem of floor and quotes, its tables, and the order as it is timed when all goes as planned.

    `quote_of` names the quote of each operation, empty for what is on the floor.
    """

    week: WeekProblem
    tables: Tables
    timed: Timed
    quotes_of: tuple[frozenset[str], ...]


def present_order(asked: PromiseAsked, first: str = "") -> PresentOrder:
    """Return the order of work on the floor with all quotes in it; `first` names one that is rushed."""
    week = floor_problem(_with_quotes(asked.floor, asked.quotes), asked.shop)
    start = published_order(week, asked.published)
    t = tables(week.problem, start.opened)
    quote_of_line = {line.id: quote.name for quote in asked.quotes for line in quote.lines}
    order, machine = _Inserting(t, week.works, start.order, start.machine, asked, quote_of_line).done(first)
    return PresentOrder(week, t, time_order(t, order, machine), _quotes_of(week.works, quote_of_line))


def _with_quotes(floor: Floor, quotes: Sequence[OpenQuote]) -> Floor:
    new = tuple(FloorJob(line, "won") for quote in quotes for line in quote.lines)
    plates = {plate.id: plate for quote in quotes for plate in quote.plates}  # quotes of a run may share one
    return replace(floor, jobs=(*floor.jobs, *new), plates=(*floor.plates, *plates.values()))


def _quotes_of(works: Sequence[ShopOperation], quotes: dict[str, str]) -> tuple[frozenset[str], ...]:
    """Return for each operation the quotes that need it; one that the floor needs has none."""
    needs: dict[str, set[str]] = {}
    for work in works:
        for plate in work.line.plates if work.line else ():
            needs.setdefault(plate, set()).add(quotes.get(work.line.id, "") if work.line else "")
    found = []
    for work in works:
        own = (
            {quotes.get(work.line.id, "")}
            if work.line
            else needs.get(work.plate.id if work.plate else "", {""})
        )
        found.append(frozenset() if "" in own else frozenset(own))
    return tuple(found)


class _Inserting:
    """Puts one line after the other into the order, each roll and place timed by the compiled code."""

    def __init__(
        self,
        t: Tables,
        works: Sequence[ShopOperation],
        order: Sequence[int],
        machine: Sequence[int],
        asked: PromiseAsked,
        quotes: dict[str, str],
    ) -> None:
        self.t, self.works = t, works
        self.order, self.machine = list(order), list(machine)
        rank = {quote.name: k for k, quote in enumerate(asked.quotes)}
        left = [i for i in range(t.size) if i not in set(order) and works[i].kind != CUT]
        self.left = sorted(
            left, key=lambda i: (rank.get(quotes.get(_line(works[i]), ""), -1), t.due[t.job[i]], i)
        )
        self.late = ticks(per_minute(asked.shop.working_time.late_cost_per_day / DAY_MIN))
        self.quotes = quotes

    def done(self, first: str) -> tuple[list[int], list[int]]:
        """Put in all that is left; the lines of `first` last, where they are ready soonest."""
        rushed = {i for i in self.left if first and self.quotes.get(_line(self.works[i])) == first}
        self.places = Places(self._in_turn())
        for i in self.left:
            if i not in rushed:
                self._put(i)
        if rushed:
            self.places = Places(self._before_others({self.t.job[i] for i in rushed}))
        for i in self.left:
            if i in rushed:
                self._put(i)
        return self.order, self.machine

    def _in_turn(self) -> Tables:
        """Return the tables in which every published job is due when it ends now, and what is new at once."""
        begun = time_order(self.t, self.order, self.machine)
        ends = [0] * len(self.t.due)
        for i in self.order:
            ends[self.t.job[i]] = max(ends[self.t.job[i]], begun.end[i])
        return replace(self.t, due=ends, weight=[DISTURBS * self.late if end else self.late for end in ends])

    def _before_others(self, rushed: set[int]) -> Tables:
        """Return the tables in which the jobs that are rushed are due at once, others as they are."""
        due = [0 if job in rushed else day for job, day in enumerate(self.t.due)]
        weight = [RUSHED * self.late if job in rushed else one for job, one in enumerate(self.t.weight)]
        return replace(self.t, due=due, weight=weight)

    def _put(self, i: int) -> None:
        placed = set(self.order)
        block = [*(j for j, _ in self.t.before[i] if j not in placed), i]
        places = list(_spread(self._first_place(i), len(self.order)))
        best = None
        for machine in self.t.minutes[i]:
            chosen = list(self.machine)
            chosen[i] = machine
            puts = self.places.scan(self.order, block, places, self.t.job[i], chosen)
            for put, at in zip(puts, places, strict=True):
                if best is None or (put.score, put.end) < best[0]:
                    best = ((put.score, put.end), at, machine)
        assert best is not None
        self.machine[i] = best[2]
        self.order[best[1] : best[1]] = block

    def _first_place(self, i: int) -> int:
        """Return the place behind what the operation waits for, as far as that is placed."""
        waits = {j for j, _ in self.t.before[i]}
        return max((k + 1 for k, j in enumerate(self.order) if j in waits), default=0)


def _line(work: ShopOperation) -> str:
    return work.line.id if work.line else ""


def _spread(first: int, last: int) -> Iterator[int]:
    step = max(1, (last - first) // PLACES)
    yield from range(first, last, step)
    yield last
