"""Affected operations rescheduling: what an event reaches along the rows of jobs and machines, by hand.

The definition is that of Abumaizar & Svestka, "Rescheduling job shops under random disruptions",
International Journal of Production Research 35, 1997, 2065-2082, from memory, as said in `affected.py`; the
plan below is our own, not one of that paper's.

    roll 1   A1 0-30    B1 30-60    C1 90-120
    roll 2   A2 30-70   B2 70-100   D2 130-150     A2 after A1, B2 after B1

Roll 1 is down from 10 to 25. By hand: A1, stopped in between, ends at 45. That lets A2 begin at 45 (its job)
and B1 at 45 (its machine), which end at 85 and 75. B2 waits for its job until 75 and for its machine until
85. It ends at 115, and D2 begins at 130 as published; so does C1 at 90, since B1 ends at 75.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from scheduler.replanning.right_shift import Was
from scheduler.sequence import After, Job, Machine, Mode, Operation, SequenceProblem, Window, tables
from tests.scheduler.replanning.affected import affected

NAMES = ("A1", "B1", "C1", "A2", "B2", "D2")
MINUTES = (30, 30, 30, 40, 30, 20)
PUBLISHED = (0, 30, 90, 30, 70, 130)
PLAN = {i: Was(int(name[1]) - 1, start) for i, (name, start) in enumerate(zip(NAMES, PUBLISHED, strict=True))}
ALL_DAY = (Window(0, 500),)
DOWN = (Window(0, 10), Window(25, 500))


def shop(roll_1: tuple[Window, ...]) -> SequenceProblem:
    after = {"A2": (After("A1"),), "B2": (After("B1"),)}
    operations = tuple(
        Operation(name, name[0], (Mode(f"roll {name[1]}", minutes),), after=after.get(name, ()))
        for name, minutes in zip(NAMES, MINUTES, strict=True)
    )
    machines = (Machine("roll 1", "roll", roll_1), Machine("roll 2", "roll", ALL_DAY))
    return SequenceProblem(machines, operations, tuple(Job(name, 500) for name in "ABCD"))


def begins_later(problem: SequenceProblem) -> dict[str, int]:
    return {NAMES[i]: start for i, start in affected(tables(problem), PLAN).items()}


def test_nothing_happened_and_nothing_is_affected() -> None:
    assert begins_later(shop(ALL_DAY)) == {}


def test_a_roll_that_is_down_reaches_its_row_and_the_jobs_rows_until_a_gap_takes_it_up() -> None:
    assert begins_later(shop(DOWN)) == {"B1": 45, "A2": 45, "B2": 85}


def test_a_set_up_takes_its_part_of_the_gap() -> None:
    """20 minutes from B1 to C1: B1 ends at 75, so that C1 begins at 95 and not at 90."""
    setups = np.zeros((7, 6), dtype=np.int64)
    setups[1 + NAMES.index("B1"), NAMES.index("C1")] = 20
    problem = replace(shop(DOWN), setups={"roll 1": setups})
    assert begins_later(problem) == {"B1": 45, "A2": 45, "B2": 85, "C1": 95}


def test_what_may_not_pause_waits_for_a_stretch_that_is_long_enough() -> None:
    """A1 then begins at 25 and ends at 55: all that follows comes ten minutes later than above."""
    problem = shop(DOWN)
    whole = tuple(replace(operation, may_pause=False) for operation in problem.operations)
    found = begins_later(replace(problem, operations=whole))
    assert found == {"A1": 25, "B1": 55, "A2": 55, "B2": 95}


def test_what_comes_later_than_published_holds_up_its_row() -> None:
    """A1 in the house at 50: it ends at 80 and A2 begins; B1 then ends at 110 and A2 at 120."""
    problem = shop(ALL_DAY)
    late = (replace(problem.operations[0], release=50), *problem.operations[1:])
    found = begins_later(replace(problem, operations=late))
    assert found == {"A1": 50, "B1": 80, "C1": 110, "A2": 80, "B2": 120, "D2": 150}
