"""The search compiled ahead is the whole search: a week after it needs no further machine code."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

KINDS = """
from scheduler.sequence import bring_forward, compile_beside, compile_search, search_is_compiled, solve
from scheduler.sequence import tables, timed_again
from scheduler.sequence.search import row_kernel
from tests.scheduler.sequence.weeks import week

def kinds():
    functions = (value for value in vars(row_kernel).values() if hasattr(value, "signatures"))
    return {function.__name__: len(function.signatures) for function in functions}

compile_beside()
compile_search()
assert search_is_compiled()
ahead = kinds()
problem = week(12, 2, seed=3).problem
plan = solve(problem, effort="quick")
t = tables(problem)
bring_forward(t, timed_again(t, plan), 0, 4)
assert kinds() == ahead, (ahead, kinds())
assert ahead["search"] == ahead["change"] == ahead["put_back"] == ahead["at_least"] == 1, ahead
"""


def test_a_week_after_compiling_ahead_compiles_nothing() -> None:
    root = Path(__file__).resolve().parents[3]
    subprocess.run([sys.executable, "-c", KINDS], cwd=root, check=True)
