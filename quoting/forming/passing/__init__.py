"""How it is rolled: passes, positions, and what comes out when the plate is not as thought."""

from quoting.forming.passing.pass_plan import PassPlan
from quoting.forming.passing.passes import pass_counts, plan_many

__all__ = [
    "PassPlan",
    "pass_counts",
    "plan_many",
]
