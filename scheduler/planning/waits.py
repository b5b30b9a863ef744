"""What an operation waits for when its set-up is done before it begins."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from scheduler.jobs import CUT
from scheduler.sequence import After, Assignment, Plan, SequenceProblem, Window


class Waits:
    """Who holds crane and people in each minute of a plan, and what ends when."""

    def __init__(self, problem: SequenceProblem, plan: Plan) -> None:
        self.problem = problem
        self.operations = {operation.id: operation for operation in problem.operations}
        self.end = {a.operation: a.end for a in plan.assignments}
        self.cranes: dict[int, int] = defaultdict(int)
        for a in plan.assignments:
            if self.operations[a.operation].crane:
                for minute in range(a.start, a.end):
                    self.cranes[minute] += 1

    def word(self, assignment: Assignment, ready: int, worked: Sequence[Window]) -> str:
        """Return what an operation that was set up by `ready` waits for; empty when it begins at once."""
        waited = [t for w in worked for t in range(max(ready, w.start), min(assignment.start, w.end))]
        if not waited:
            return "the next open hours" if ready < assignment.start else ""
        operation = self.operations[assignment.operation]
        last = max(operation.after, key=self._through, default=None)
        if last is not None and self._through(last) > waited[-1]:
            return "its blank" if last.operation.startswith(CUT) else "the weld"
        if operation.crane and self.cranes[waited[-1]] >= self.problem.cranes:
            return "the crane"
        return "the crew" if self.problem.staffing else ""

    def _through(self, after: After) -> int:
        return self.end[after.operation] + after.lag
