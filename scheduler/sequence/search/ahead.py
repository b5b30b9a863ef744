"""Compiles the search before it is needed: the first run of an installation does it beside its other work."""

from __future__ import annotations

from pathlib import Path

from quoting.core import never_compiled
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Job, Machine, Mode, Operation, Window
from scheduler.sequence.rules import best_rule
from scheduler.sequence.search.fast import Wanted, fast_search
from scheduler.sequence.search.places import Places
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import tables


def search_is_compiled() -> bool:
    """Return whether machine code of the search is on disk."""
    return not never_compiled(Path(__file__).resolve().parent)


def compile_search() -> None:
    """Search the smallest week there is, so that the machine code is made and kept."""
    window = (Window(0, 60),)
    problem = SequenceProblem(
        machines=(Machine("roll 1", "roll", window), Machine("roll 2", "roll", window)),
        operations=tuple(Operation(name, name, (Mode("roll 1", 5), Mode("roll 2", 5))) for name in "ab"),
        jobs=tuple(Job(name, 60) for name in "ab"),
    )
    t = tables(problem)
    start = best_rule(t)[1]
    fast_search(t, start, Stop(iterations=1), 0, Wanted())
    fast_search(t, start, Stop(iterations=1), 0, Wanted(slack=True))
    Places(t).scan([0], [1], [0, 1], 0, start.machine)
